//! The worked studies run on a model that they have never seen.

mod common;

use std::sync::Arc;

use common::Memory;
use strutwork_script::{Limits, run_script};

const GAUGE_SWEEP: &str = include_str!("../../../scripts/studies/gauge-sweep.rhai");
const TRIANGULATION: &str = include_str!("../../../scripts/studies/triangulation.rhai");
const SIZE_TO_TARGET: &str = include_str!("../../../scripts/studies/size-to-target.rhai");
const TOLERANCE_BAND: &str = include_str!("../../../scripts/studies/tolerance-band.rhai");
const DIAGONALS: &str = include_str!("../../../scripts/studies/diagonals.rhai");
const WORST_ITEMS: &str = include_str!("../../../scripts/studies/worst-items.rhai");

/// What a study writes.
fn study(text: &str, args: &[&str], file: &str) -> Vec<Vec<String>> {
    let host = Arc::new(Memory::new());
    let args: Vec<String> = args.iter().map(|arg| (*arg).to_owned()).collect();
    run_script(host.clone(), "study.rhai", text, &args, Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
    let written = host.written.lock().expect("no test panics with it");
    written[file].lines().skip(1).map(|line| line.split(',').map(str::to_owned).collect()).collect()
}

fn number(cell: &str) -> f64 {
    cell.parse().unwrap_or_else(|_| panic!("{cell:?} is no number"))
}

/// The lines that a study prints, word by word.
fn printed(text: &str, args: &[&str]) -> Vec<Vec<String>> {
    let host = Arc::new(Memory::new());
    let args: Vec<String> = args.iter().map(|arg| (*arg).to_owned()).collect();
    run_script(host.clone(), "study.rhai", text, &args, Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
    host.lines().iter().map(|line| line.split_whitespace().map(str::to_owned).collect()).collect()
}

#[test]
fn a_thicker_wall_weighs_more_and_twists_less() {
    let lines = printed(GAUGE_SWEEP, &["my-frame", "diagonals", "1.5", "16 swg", "2", "40"]);
    let rows = &lines[2..];
    assert_eq!(rows.len(), 4);
    for pair in rows[..3].windows(2) {
        assert!(number(&pair[0][1]) < number(&pair[1][1]), "mass: {pair:?}");
        assert!(number(&pair[0][2]) < number(&pair[1][2]), "stiffness: {pair:?}");
    }
    assert_eq!(rows[1][0], "1.626");
    assert_eq!(rows[3][1], "model", "a wall of 40 mm makes no tube");
}

#[test]
fn a_search_tells_what_each_diagonal_gives_and_the_lightest_that_are_stiff_enough() {
    let lines = printed(TRIANGULATION, &["my-frame", "diagonals", "2", "500"]);
    let count: usize = 1 + 6 + 15;
    assert_eq!(lines[0][4], count.to_string());
    let gives: Vec<f64> = lines[2..8].iter().map(|line| number(&line[2])).collect();
    assert!(gives.windows(2).all(|pair| pair[0] >= pair[1]), "{gives:?}");
    let lightest: Vec<f64> = lines[9..].iter().map(|line| number(&line[0])).collect();
    assert!(!lightest.is_empty() && lightest.windows(2).all(|pair| pair[0] <= pair[1]), "{lines:?}");
    assert!(lines[9..].iter().all(|line| number(&line[1]) >= 500.0), "{lines:?}");
}

#[test]
fn sizing_finds_the_lightest_of_all_combinations() {
    let lines = printed(SIZE_TO_TARGET, &["my-frame", "100", "diagonals", "rails", "walls", "1.5", "2", "16 swg"]);
    assert_eq!(lines[0][0], "9");
    let rows = &lines[3..];
    let masses: Vec<f64> = rows.iter().map(|row| number(&row[0])).collect();
    assert!(masses.windows(2).all(|pair| pair[0] <= pair[1]), "{lines:?}");
    assert!(rows.iter().all(|row| number(&row[1]) >= 100.0 && number(&row[2]) <= 1.0), "{lines:?}");
}

#[test]
fn a_band_holds_what_the_drawing_has() {
    let lines = printed(TOLERANCE_BAND, &["my-frame", "12"]);
    let band = lines.iter().find(|line| line[0] == "stiffness_nm_per_deg:").expect("a line");
    let drawn = printed(GAUGE_SWEEP, &["my-frame", "diagonals", "1.5"]);
    let (least, greatest) = (number(&band[1]), number(band[3].trim_end_matches(';')));
    assert!(least < greatest, "{band:?}");
    assert!(number(&drawn[2][2]) > 0.8 * least && number(&drawn[2][2]) < 1.2 * greatest, "{drawn:?}");
}

#[test]
fn a_box_without_one_of_its_diagonals_twists_more() {
    let rows = study(DIAGONALS, &["my-frame", "diagonals"], "diagonals.csv");
    assert_eq!(rows.len(), 6);
    assert!(rows.iter().all(|row| number(&row[3]) >= 0.0), "no tube makes a frame softer: {rows:?}");
    assert!(rows.windows(2).all(|pair| number(&pair[0][3]) >= number(&pair[1][3])), "the worst first");
    assert!(number(&rows[0][3]) > 20.0, "a box needs all of its faces braced: {rows:?}");
}

#[test]
fn the_worst_items_stand_first_each_once() {
    let rows = study(WORST_ITEMS, &["my-frame"], "worst-items.csv");
    assert!(rows.len() >= 16, "{rows:?}");
    let used: Vec<f64> = rows.iter().filter(|row| !row[4].is_empty()).map(|row| number(&row[4])).collect();
    assert!(used.windows(2).all(|pair| pair[0] >= pair[1]), "{used:?}");
    let mut items: Vec<&[String]> = rows.iter().map(|row| &row[..2]).collect();
    items.sort();
    items.dedup();
    assert_eq!(items.len(), rows.len());
}

#[test]
fn a_sweep_tells_the_worst_of_each_kind_for_each_wall() {
    let rows = study(WORST_ITEMS, &["my-frame", "rails", "1.5", "16 swg", "2.5", "40"], "worst-sweep.csv");
    let tubes: Vec<_> = rows.iter().filter(|row| row[2] == "tube").collect();
    assert_eq!(tubes.len(), 3, "a wall of 40 mm makes no tube: {rows:?}");
    assert!(number(&tubes[2][6]) < number(&tubes[0][6]), "{tubes:?}");
    assert!(number(&tubes[0][1]) < number(&tubes[2][1]), "{tubes:?}");
}

#[test]
fn without_arguments_they_say_how_they_are_called() {
    for text in [GAUGE_SWEEP, TRIANGULATION, SIZE_TO_TARGET, TOLERANCE_BAND, DIAGONALS, WORST_ITEMS] {
        let error = run_script(Arc::new(Memory::new()), "study.rhai", text, &[], Limits::default()).expect_err("usage");
        assert!(error.message.contains("usage: strutwork s"), "{error}");
    }
}
