//! Every printed value agrees with ours, and the report says what is so.

use std::path::PathBuf;

use strutwork_validation::{CaseReport, report_markdown, report_text, run, run_all, same_report, suite};

fn reports() -> Vec<CaseReport> {
    run_all(&suite())
}

#[test]
fn every_printed_value_agrees() {
    let reports = reports();
    let mut wrong = Vec::new();
    for report in reports.iter().filter(|report| !report.agrees()) {
        let case = format!("{}/{}", report.family, report.name);
        wrong.extend(report.failure.iter().map(|failure| format!("{case}: {failure}")));
        wrong.extend(report.rows.iter().filter(|row| report.failure.is_none() && !row.agrees).map(|row| {
            let printed = format!("printed {} {}, ours {}", row.printed, row.unit, row.computed);
            format!("{case}: {}: {printed} ({:+.2} last digits) {}", row.what, row.difference, row.problem)
        }));
    }
    assert!(wrong.is_empty(), "{} disagree:\n{}", wrong.len(), wrong.join("\n"));
    // Solved once for all that is asked of them: they take their time unoptimised.
    limits_are_neared_as_fast_as_theory_promises(&reports);
    the_terminal_shows_every_value_and_the_verdict(&reports);
}

fn limits_are_neared_as_fast_as_theory_promises(reports: &[CaseReport]) {
    let studies: Vec<_> = reports.iter().flat_map(|report| &report.studies).collect();
    assert!(studies.len() >= 20, "{} studies", studies.len());
    for study in studies {
        let finest = study.steps.last().expect("a study has steps");
        assert!(study.holds && study.order >= 2.0, "{}: {:?}", study.what, study.steps);
        assert!(finest.error.abs() < study.steps[0].error.abs(), "{}: it does not near its limit", study.what);
    }
}

#[test]
fn an_order_that_is_not_reached_is_no_agreement() {
    let mut case = suite().cases.into_iter().find(|case| case.name == "bow_girder").expect("it is in the suite");
    case.refinements[0].order = 4.0;
    let report = run(&case);
    assert!(!report.agrees() && !report.studies[0].holds);
    assert!(report_markdown(std::slice::from_ref(&report)).contains("**THE ORDER IS NOT REACHED**"));
    assert!(report_text(&[report]).contains("1 near their limit TOO SLOWLY"));
}

#[test]
fn the_suite_is_as_large_as_it_claims() {
    let suite = suite();
    assert!(suite.cases.len() >= 180, "{} cases", suite.cases.len());
    let mut names: Vec<_> = suite.cases.iter().map(|case| (&case.family, &case.name)).collect();
    let count = names.len();
    names.dedup();
    assert_eq!(names.len(), count, "two cases share a name");
}

#[test]
fn the_report_is_up_to_date() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("REPORT.md");
    let now = report_markdown(&reports());
    if std::env::var_os("UPDATE").is_some() {
        std::fs::write(&path, &now).expect("REPORT.md can be written");
    }
    let kept = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        same_report(&kept, &now),
        "validation/REPORT.md is not what the suite gives now: UPDATE=1 cargo nextest run -p strutwork-validation"
    );
}

fn the_terminal_shows_every_value_and_the_verdict(reports: &[CaseReport]) {
    let text = report_text(reports);
    let values: usize = reports.iter().map(|report| report.rows.len()).sum();
    assert!(text.ends_with(&format!("{values} values of {} cases: all agree.\n", reports.len())));
    for report in reports {
        assert!(text.contains(&report.title));
    }
}

#[test]
fn a_wrong_value_is_marked_and_stays_in() {
    let mut case = suite().cases.into_iter().find(|case| case.family == "beams").expect("there are beams");
    case.quantities[0].printed = strutwork_validation::Printed::read("12345.6").expect("a printed value");
    let report = run(&case);
    assert!(!report.agrees() && report.rows.len() == case.quantities.len());
    assert!(report_markdown(std::slice::from_ref(&report)).contains("**DISAGREES**"));
    assert!(report_text(&[report]).contains("1 DISAGREE."));
}

#[test]
fn a_model_that_cannot_be_read_is_reported_not_hidden() {
    let mut case = suite().cases.into_iter().find(|case| case.family == "beams").expect("there are beams");
    case.files.0.retain(|file| file.name != "tubes.csv");
    let report = run(&case);
    assert!(!report.agrees() && report.failure.is_some());
    assert!(report_markdown(&[report]).contains("**NOT SOLVED**"));
}
