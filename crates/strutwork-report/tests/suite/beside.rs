//! Natural modes and buckling in tables, report and run.json.

use strutwork_loads::carried_inertia;
use strutwork_report::{Asked, Run, csv_files, report_html, run_json};
use strutwork_solve::{BucklingWanted, FrameLengths, ModesWanted, Pieces, buckling, natural_modes};
use strutwork_testkit::Lattice;

use crate::fixture::Finished;

#[test]
fn what_was_asked_for_is_told_everywhere_with_its_proof() {
    let finished = Finished::plain(&Lattice { cubes: [2, 1, 1], cases: 1 }.folder());
    let (model, case) = (&finished.model, &finished.cases.0[0]);
    let carried = carried_inertia(model).unwrap();
    let wanted = ModesWanted { count: 3, pieces: 1, ..ModesWanted::default() };
    let modes = natural_modes(model, model.supports(), &carried, wanted).unwrap();
    let factors = BucklingWanted { count: 2, pieces: Pieces::Each(2) };
    let buckled = buckling(model, &case.supports, &carried, &finished.results.cases[0], factors).unwrap();
    let lowest = buckled.positive[0].factor;
    let bound = buckled.positive[0].error_bound.unwrap();
    let lengths = FrameLengths::of(model, [(&finished.results.cases[0], &buckled)]);
    let buckling = Some(vec![buckled]);
    let asked = Asked { modes: Some(modes), buckling, lengths: Some(lengths), pieces: 1, ..Asked::NOTHING };
    let run = Run { asked: &asked, ..finished.run() };

    let files = csv_files(&run);
    let file = |name: &str| &files.iter().find(|(file, _)| file == name).unwrap_or_else(|| panic!("no {name}")).1;
    let hz = |line: &str| line.split(',').nth(1).unwrap().parse::<f64>().unwrap();
    let told: Vec<f64> = file("modes.csv").lines().skip(1).map(hz).collect();
    let expected: Vec<f64> = asked.modes.as_ref().unwrap().modes.iter().map(|mode| mode.frequency).collect();
    assert_eq!(told, expected);
    let first = file("buckling.csv").lines().nth(1).unwrap();
    assert!(first.starts_with(&format!("{},1,{lowest}", case.name)), "{first}");
    assert!(first.ends_with(&format!(",{bound}")), "{first}");
    assert!(file("buckling_reversed.csv").lines().nth(1).unwrap().contains(",1,-"));

    let html = report_html(&run);
    for said in [
        "Natural modes",
        "counted, 3 found",
        "Buckling of the frame",
        "counted, 2 found",
        "divided into 2 pieces.",
        "with the case turned round",
        "N_cr = α_cr N",
    ] {
        assert!(html.contains(said), "{said}");
    }
    let json = run_json(&run);
    assert!(
        json.contains("\"counted\": 3") && json.contains(&format!("{lowest}")) && json.contains("\"error_bounds\""),
        "{json}"
    );

    let nothing = report_html(&finished.run());
    assert!(!nothing.contains("Natural modes</h3>") && !run_json(&finished.run()).contains("\"modes\""));
}
