//! The commands beside `run`: what they print, and where.

use serde_json::Value;

use crate::harness::{finish, program, put, starter, strutwork, tests, text};

const COMMANDS: [&str; 10] =
    ["new", "check", "run", "working", "script", "explain", "reference", "validate", "completions", "man"];

#[test]
fn help_of_every_command_has_an_example_and_says_the_exit_codes() {
    let all = strutwork(tests(), &["--help"]);
    all.expect(0);
    for code in ["0  done", "1  done", "2  the input", "3  the structure", "4  the environment"] {
        assert!(all.stdout.contains(code), "{code} is not documented:\n{}", all.stdout);
    }
    for command in COMMANDS {
        assert!(all.stdout.contains(&format!("\n  {command} ")), "{command} is not listed");
        let help = strutwork(tests(), &[command, "--help"]);
        help.expect(0);
        assert!(help.stdout.contains("Example"), "{command} has no example:\n{}", help.stdout);
    }
}

#[test]
fn bad_usage_is_wrong_input() {
    for args in [
        &["rnu", "frame"][..],
        &["run"],
        &["run", "a", "--colour"],
        &["script", "x.rhai", "--max-operations", "0"],
        &[],
    ] {
        let ran = strutwork(tests(), args);
        ran.expect(2);
        assert!(ran.stdout.is_empty() && !ran.stderr.is_empty(), "{args:?}: usage belongs on standard error");
    }
}

#[test]
fn a_new_model_runs_with_every_check_passed() {
    let place = starter();
    let ran = strutwork(place.path(), &["run", "frame"]);
    ran.expect(0);
    assert!(place.path().join("frame/results/report.html").is_file());
    assert!(ran.stdout.contains("push-sideways"), "the summary names the cases:\n{}", ran.stdout);
}

#[test]
fn new_overwrites_nothing() {
    let place = starter();
    put(&place.path().join("frame/joints.csv"), "mine");
    strutwork(place.path(), &["new", "frame"]).expect(4).says("frame/");
    assert_eq!(text(&place.path().join("frame/joints.csv")), "mine");
    std::fs::create_dir(place.path().join("half")).unwrap();
    put(&place.path().join("half/masses.csv"), "mine");
    strutwork(place.path(), &["new", "half"]).expect(4).says("masses.csv");
    assert!(!place.path().join("half/model.toml").exists(), "a refusal writes nothing");
}

#[test]
fn check_says_what_a_right_model_holds() {
    let place = starter();
    let ran = strutwork(place.path(), &["check", "frame"]);
    ran.expect(0);
    for part in ["8 joints", "12 tubes", "kg"] {
        assert!(ran.stdout.contains(part), "{part} is not in\n{}", ran.stdout);
    }
    let json: Value =
        serde_json::from_str(&strutwork(place.path(), &["check", "frame", "--json"]).expect(0).stdout).unwrap();
    assert_eq!(json["valid"], true);
    assert_eq!(json["model"]["joints"], 8);
    assert!(!place.path().join("frame/results").exists(), "check writes nothing");
}

#[test]
fn check_as_json_lists_faults_with_their_places() {
    let place = starter();
    let tubes = place.path().join("frame/tubes.csv");
    put(&tubes, text(&tubes).replace("rear-left-top,front-left-top", "rear-lfet-top,front-left-top"));
    let ran = strutwork(place.path(), &["check", "frame", "--json"]);
    ran.expect(2);
    let json: Value = serde_json::from_str(&ran.stdout).unwrap();
    assert_eq!(json["valid"], false);
    let fault = json["diagnostics"].as_array().unwrap().iter().find(|one| one["code"] == "M102").expect("M102");
    assert_eq!(fault["file"], "tubes.csv");
    assert_eq!(fault["line"], 7);
    assert!(fault["help"].as_str().unwrap().contains("rear-left-top"), "the nearest name is offered: {fault}");
}

#[test]
fn explain_lists_finds_and_suggests() {
    let list = strutwork(tests(), &["explain"]);
    list.expect(0);
    assert!(list.stdout.lines().count() > 60);
    assert!(list.stdout.contains("Scripts\nR001"), "codes stand under their subject:\n{}", list.stdout);
    let checks = strutwork(tests(), &["explain", "d00"]);
    checks.expect(0);
    assert!(checks.stdout.lines().count() > 5 && checks.stdout.lines().all(|line| line.starts_with("D00")));
    let page = strutwork(tests(), &["explain", "m102"]);
    page.expect(0);
    assert!(page.stdout.starts_with("M102") && page.stdout.contains("What to do"), "{}", page.stdout);
    strutwork(tests(), &["explain", "M1022"]).expect(2).says("M102");
    strutwork(tests(), &["explain", "nonsense"]).expect(2);
}

#[test]
fn the_built_in_lists_name_their_sources() {
    for (list, row) in [("--stock", "square 30x2,"), ("--grades", "S235JRH,")] {
        let printed = strutwork(tests(), &["reference", list]);
        printed.expect(0);
        let line = printed.stdout.lines().find(|line| line.starts_with(row));
        let line = line.unwrap_or_else(|| panic!("no {row} in\n{}", printed.stdout));
        assert!(line.contains("EN 10") && (line.ends_with("source read") || line.ends_with("from memory")), "{line}");
    }
    strutwork(tests(), &["reference", "--stock", "--grades"]).expect(2);
}

#[test]
fn the_script_reference_is_a_page_and_definitions() {
    let page = strutwork(tests(), &["reference"]);
    page.expect(0);
    assert!(page.stdout.starts_with('#'), "markdown");
    let definitions = strutwork(tests(), &["reference", "--definitions"]);
    definitions.expect(0);
    assert!(definitions.stdout.contains("fn "), "{}", definitions.stdout);
}

#[test]
fn the_page_of_input_files_lists_files_columns_and_keys() {
    let page = strutwork(tests(), &["reference", "--files"]);
    page.expect(0);
    for part in ["## joints.csv", "| `upright_x_mm` | yes |", "### [vehicle]", "| `front_roll_share` | number |"] {
        assert!(page.stdout.contains(part), "{part}");
    }
    strutwork(tests(), &["reference", "--files", "--grades"]).expect(2);
}

#[test]
fn completions_and_the_manual_are_printed() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let ran = strutwork(tests(), &["completions", shell]);
        ran.expect(0);
        assert!(ran.stdout.contains("strutwork"), "{shell}");
    }
    let manual = strutwork(tests(), &["man"]);
    manual.expect(0);
    assert!(manual.stdout.contains(".TH"), "roff");
    assert!(manual.stdout.contains("STRUTWORK RUN"), "every command is in it");
}

#[test]
fn colour_is_for_terminals_unless_asked_for() {
    let place = starter();
    put(&place.path().join("frame/tubes.csv"), "tube\n");
    let escape = '\u{1b}';
    assert!(!strutwork(place.path(), &["check", "frame"]).expect(2).stderr.contains(escape));
    assert!(strutwork(place.path(), &["check", "frame", "--color", "always"]).expect(2).stderr.contains(escape));
    assert!(!strutwork(place.path(), &["check", "frame", "--color", "never"]).expect(2).stderr.contains(escape));
}

#[cfg(unix)]
#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let mut shell = std::process::Command::new("bash");
    shell.args([
        "-c",
        &format!("set -o pipefail; {} reference | head -n 1", env!("CARGO_BIN_EXE_strutwork-under-test")),
    ]);
    let ran = finish(shell, std::time::Duration::from_secs(60));
    ran.expect(0);
    assert!(!ran.stderr.contains("panic") && !ran.stderr.contains("bug"), "{}", ran.stderr);
}

#[test]
fn a_date_that_is_none_is_told() {
    let place = starter();
    let mut command = program(place.path(), &["run", "frame"]);
    command.env("SOURCE_DATE_EPOCH", "yesterday");
    finish(command, std::time::Duration::from_secs(60)).expect(2).says("SOURCE_DATE_EPOCH");
}

#[test]
fn the_published_cases_agree_on_this_machine() {
    // All of it is solved, unoptimised and beside other tests.
    let solving = std::time::Duration::from_secs(240);
    let ran = finish(program(tests(), &["validate", "--json"]), solving);
    ran.expect(0);
    let json: Value = serde_json::from_str(&ran.stdout).unwrap();
    let cases = json["cases"].as_array().unwrap();
    assert!(cases.len() > 30, "only {} cases", cases.len());
    let rows: usize = cases.iter().map(|case| case["rows"].as_array().unwrap().len()).sum();
    assert!(rows > 100, "only {rows} values");
    let told = finish(program(tests(), &["validate"]), solving);
    told.expect(0);
    assert!(told.stdout.contains(cases[0]["title"].as_str().unwrap()), "people read the titles");
}
