//! D024, and what second order changes in other checks.

use strutwork_checks::{Finding, Judged, check_all, written};
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::{Model, Severity};
use strutwork_solve::bays::find_bays;
use strutwork_solve::{Results, SecondOrderWanted, solve_cases, solve_second_order};
use strutwork_testkit::Folder;

/// A clamped post of 2 m, which buckles under 755 N.
fn post(loads: &str) -> Model {
    Folder::default()
        .with(
            "model.toml",
            "title = \"post\"\n[options]\nself_weight = false\n[sections.s]\nshape = \"square\"\nwidth_mm = 20\nwall_mm = 1.5\n\
             [materials.m]\ngrade = \"S235JRH\"\n",
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,0,0,2000\n")
        .with("tubes.csv", "tube,from,to,section,material\npost,foot,head,s,m\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n{loads}"))
        .model()
}

/// The cases that stand, in first and in second order.
fn solved(model: &Model) -> (LoadCases, [Results; 2]) {
    let mut cases = derive_plain(model).unwrap();
    let mut first = solve_cases(model, &cases).unwrap();
    let second = solve_second_order(model, &cases, &first, SecondOrderWanted::default()).unwrap();
    let stands = |name: &str| second.refused.iter().all(|one| one.case != name);
    cases.0.retain(|case| stands(&case.name));
    first.cases.retain(|case| stands(&case.name));
    (cases, [first, second])
}

fn judged(model: &Model, cases: &LoadCases, results: &Results) -> Vec<Finding> {
    check_all(Judged { model, cases, results, bays: &find_bays(model), lengths: None })
}

fn of<'f>(findings: &'f [Finding], code: &str) -> Vec<&'f Finding> {
    findings.iter().filter(|finding| finding.code.0 == code).collect()
}

#[test]
fn growth_is_told_and_a_case_that_falls_is_an_error() {
    let model = post("light,head,10,0,-150,0,0,0\nheavy,head,10,0,-600,0,0,0\ntoo much,head,10,0,-1000,0,0,0\n");
    let (cases, [first, second]) = solved(&model);
    assert!(of(&judged(&model, &cases, &first), "D024").is_empty());
    let findings = judged(&model, &cases, &second);
    let found = of(&findings, "D024");
    let severities: Vec<(&str, Severity)> = found.iter().map(|one| (one.case.as_str(), one.severity)).collect();
    // 600 N is four fifths of what it stands: what grows, grows fivefold.
    assert_eq!(severities, [("too much", Severity::Error), ("light", Severity::Note), ("heavy", Severity::Warning)]);
    assert!((found[0].utilisation.unwrap() - 1000.0 / 754.5).abs() < 0.01, "{found:?}");
    assert!(found[0].message.contains("not judged") && found[2].message.contains("half way to buckling"), "{found:?}");
}

/// The forces that are judged are those of the bent frame, and the page says so; what is left out is printed.
#[test]
fn members_are_judged_with_the_forces_of_the_bent_frame() {
    let model = post("light,head,10,0,-300,0,0,0\n");
    let (cases, [first, second]) = solved(&model);
    let [before, after] = [&first, &second].map(|results| judged(&model, &cases, results));
    let moment = |findings: &[Finding]| {
        let found = of(findings, "D022")[0];
        found.entered.iter().find(|(symbol, ..)| *symbol == "M_y,Ed").unwrap().1
    };
    let u = 2.0 * (300.0 / (210e9 * model.sections().iter().next().unwrap().iy)).sqrt();
    assert!((moment(&after) / moment(&before) / (u.tan() / u) - 1.0).abs() < 1e-6);
    let bays = find_bays(&model);
    let judged = Judged { model: &model, cases: &cases, results: &second, bays: &bays, lengths: None };
    let page = written(judged, of(&after, "D022")[0]).unwrap();
    assert!(page.text().contains("5.2.2(7)b"), "{}", page.text());
    let outside = |findings: &[Finding], what: &str| {
        of(findings, "D002").iter().any(|one| one.clause == format!("outside scope: {what}"))
    };
    assert!(outside(&after, "imperfections") && outside(&after, "what second order leaves out"));
    assert!(!outside(&after, "frame buckling") && outside(&before, "frame buckling"));
}
