//! The worked studies run on a model that they have never seen.

use crate::common;
use std::sync::Arc;

use common::Memory;
use strutwork_script::{Limits, run_script};

const GAUGE_SWEEP: &str = include_str!("../../../../scripts/studies/gauge-sweep.rhai");
const TRIANGULATION: &str = include_str!("../../../../scripts/studies/triangulation.rhai");
const SIZE_TO_TARGET: &str = include_str!("../../../../scripts/studies/size-to-target.rhai");
const TOLERANCE_BAND: &str = include_str!("../../../../scripts/studies/tolerance-band.rhai");
const DIAGONALS: &str = include_str!("../../../../scripts/studies/diagonals.rhai");
const WORST_ITEMS: &str = include_str!("../../../../scripts/studies/worst-items.rhai");

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
    let lines = printed(SIZE_TO_TARGET, &["my-frame", "500", "diagonals", "rails", "walls", "1.5", "2", "16 swg"]);
    let text: Vec<String> = lines.iter().map(|line| line.join(" ")).collect();
    let proven =
        text.iter().position(|line| line.contains("frames solved; proven:")).expect("nine combinations are few");
    let rows: Vec<&Vec<String>> = lines[proven + 2..].iter().take_while(|line| line[0] != "The").collect();
    let masses: Vec<f64> = rows.iter().map(|row| number(&row[0])).collect();
    assert!(!masses.is_empty() && masses.windows(2).all(|pair| pair[0] <= pair[1]), "{text:?}");
    assert!(text.last().unwrap().contains("used to"), "{text:?}");
    // The same question to a study of all nine.
    let of_all = "let s = model().new_study(\"all\"); s.vary_wall(\"diagonals\", [1.5, 2, \"16 swg\"]); \
                  s.vary_wall(\"rails\", [1.5, 2, \"16 swg\"]); s.ask_mass(); s.ask_stiffness(); s.ask_utilisation(); \
                  s.at_least(\"stiffness_nm_per_deg\", 500); s.at_most(\"utilisation\", 1); \
                  print(fixed(s.run().lowest(\"tubes_kg\").tubes_kg, 3));";
    assert_eq!(common::printed(of_all), [rows[0][0].clone()]);
}

#[test]
fn a_band_holds_what_the_drawing_has() {
    let lines = printed(TOLERANCE_BAND, &["my-frame", "24", "1"]);
    assert_eq!(lines[0].join(" "), "24 frames drawn, 24 solved");
    let band = lines.iter().find(|line| line.join(" ").starts_with("torsional stiffness")).expect("a line");
    let numbers: Vec<f64> = band.iter().filter_map(|word| word.trim_end_matches([';', ',']).parse().ok()).collect();
    let [drawn, five, ninety_five, least, greatest] = numbers[..] else { panic!("{band:?}") };
    assert!(least <= five && five < ninety_five && ninety_five <= greatest, "{band:?}");
    assert!(least < drawn && drawn < greatest, "{band:?}");
    // Another seed, other frames; the same, the same.
    assert_eq!(lines, printed(TOLERANCE_BAND, &["my-frame", "24", "1"]));
    // Without any tolerance every frame is the drawing.
    let exact = "let t = model().new_tolerances(); t.wall_within(0); t.outside_within(\"none\"); t.joints_within(0); \
                 t.read_stiffness(\"twist\"); let b = t.find_band(2, 1).bands[1]; print(b.least == b.greatest);";
    assert_eq!(common::printed(exact), ["true"]);
}

#[test]
fn sizing_and_tolerances_say_what_is_wrong() {
    let of = |text: &str| common::run(text).expect_err("it is wrong");
    for (text, code, says) in [
        ("model().new_sizing().find_sizes();", "R024", "nothing is to be chosen"),
        ("model().new_sizing().choose_size(\"diagonal\", [\"square 25x2\"]);", "R016", "diagonal"),
        ("model().new_sizing().choose_size(\"diagonals\", [\"square 25x\"]);", "R016", "square 25x"),
        ("model().new_sizing().choose_wall(\"diagonals\", [40]);", "R024", "makes no tube"),
        ("model().new_sizing().keep_strength(\"strong\");", "R016", "strong"),
        ("model().new_sizing().reach_stiffness(\"twist\", 0);", "R021", "above 0"),
        ("model().new_sizing().search_with(#{ sead: 1 });", "R015", "sead"),
        (
            "let s = model().new_sizing(); s.choose_wall(\"rails\", [2]); s.reach_stiffness(\"twits\", 5); s.find_sizes();",
            "R024",
            "twits",
        ),
        ("model().new_tolerances().wall_within(60);model().new_tolerances().find_band(1, 1);", "R021", "frames"),
        ("let t = model().new_tolerances(); t.wall_within(60); t.find_band(2, 1);", "R024", "tolerance of walls"),
        ("let t = model().new_tolerances(); t.read_stiffness(\"bend\"); t.find_band(2, 1);", "R024", "bend"),
    ] {
        let error = of(text);
        assert_eq!(error.code.0, code, "{text}: {error}");
        assert!(error.message.contains(says), "{text}: {error}");
        assert!(error.line > 0, "{text}: {error}");
    }
}

/// A host on which somebody asks to stop when the script says that it tries something.
struct Stopped {
    memory: Memory,
    asked: std::sync::atomic::AtomicBool,
}

impl strutwork_script::Host for Stopped {
    fn read_below(&self, path: &str) -> Result<Vec<u8>, strutwork_script::HostError> {
        self.memory.read_below(path)
    }

    fn read_model_folder(&self, path: &str) -> Result<strutwork_model::files::InputFiles, strutwork_script::HostError> {
        self.memory.read_model_folder(path)
    }

    fn write_below(&self, path: &str, bytes: &[u8]) -> Result<(), strutwork_script::HostError> {
        self.memory.write_below(path, bytes)
    }

    fn print(&self, line: &str) {
        self.memory.print(line);
        if line == "trying" {
            self.asked.store(true, std::sync::atomic::Ordering::SeqCst);
        }
    }

    fn stop_asked(&self) -> bool {
        self.asked.load(std::sync::atomic::Ordering::SeqCst)
    }
}

#[test]
fn a_script_that_is_asked_to_stop_ends_quietly_wherever_it_is() {
    let try_it = "|frame| { print(\"trying\"); frame.cases_of(\"twist\") }";
    let sizing = format!(
        "let s = model().new_sizing(); s.choose_wall(\"rails\", [1.5, 2]); s.reach_stiffness(\"twist\", 100); \
         s.size_on({try_it}); s.find_sizes();"
    );
    let band = format!("let t = model().new_tolerances(); t.draw_on({try_it}); t.find_band(500, 1);");
    let loops = "print(\"trying\"); loop { }".to_owned();
    for text in [sizing, band, loops] {
        let host = Arc::new(Stopped { memory: Memory::new(), asked: false.into() });
        let text = format!("open_model(\"my-frame\"); print(\"before\"); {text} print(\"after\");");
        run_script(host.clone(), "s.rhai", &text, &[], Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
        let lines = host.memory.lines();
        assert_eq!(lines[..2], ["before", "trying"], "{text}");
        assert!(lines.len() < 20 && !lines.contains(&"after".to_owned()), "{text}: {lines:?}");
    }
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
