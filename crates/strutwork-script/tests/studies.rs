//! The worked studies run on a model that they have never seen.

mod common;

use std::sync::Arc;

use common::Memory;
use strutwork_script::{Limits, run_script};

const GAUGE_SWEEP: &str = include_str!("../../../scripts/studies/gauge-sweep.rhai");
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

#[test]
fn a_thicker_wall_weighs_more_and_twists_less() {
    let rows = study(GAUGE_SWEEP, &["my-frame", "diagonals", "1.5", "16 swg", "2", "40"], "gauge-sweep.csv");
    assert_eq!(rows.len(), 4);
    for pair in rows[..3].windows(2) {
        assert!(number(&pair[0][1]) < number(&pair[1][1]), "mass: {pair:?}");
        assert!(number(&pair[0][2]) < number(&pair[1][2]), "stiffness: {pair:?}");
    }
    assert_eq!(rows[1][0], "1.626");
    assert_eq!(rows[3][1], "", "a wall of 40 mm makes no tube");
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
    for text in [GAUGE_SWEEP, DIAGONALS, WORST_ITEMS] {
        let error = run_script(Arc::new(Memory::new()), "study.rhai", text, &[], Limits::default()).expect_err("usage");
        assert!(error.message.contains("usage: strutwork script"), "{error}");
    }
}
