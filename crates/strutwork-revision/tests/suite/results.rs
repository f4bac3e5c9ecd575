//! Results of two revisions: compared under the right names, with the right signs, and no rounding taken for a change.

use strutwork_revision::differences::{Fate, SAME};
use strutwork_revision::results::{FindingRow, ItemRow};
use strutwork_revision::{Comparison, Kind, Quantity, ResultSet, Revision, compare};

use crate::common::{model, renamed, small, with};

fn quantity(kind: Kind, case: &str, subject: &str, quantity: &'static str, unit: &'static str, value: f64) -> Quantity {
    let (quantity, unit) = (quantity.into(), unit.into());
    Quantity { kind, case: case.into(), subject: subject.into(), quantity, unit, value }
}

fn set(quantities: Vec<Quantity>) -> ResultSet {
    let mut cases: Vec<String> =
        quantities.iter().map(|one| one.case.clone()).filter(|case| !case.is_empty()).collect();
    cases.dedup();
    ResultSet { quantities, cases, ..ResultSet::default() }
}

fn finding(code: &str, severity: &str, case: &str, subject: &str, utilisation: f64) -> FindingRow {
    FindingRow {
        code: code.into(),
        severity: severity.into(),
        case: case.into(),
        subject: subject.into(),
        value: Some(utilisation),
        limit: Some(1.0),
        utilisation: Some(utilisation),
        clause: "a clause".into(),
        message: format!("{subject} is used to {utilisation}"),
    }
}

fn item(kind: &str, name: &str, utilisation: f64) -> ItemRow {
    ItemRow {
        kind: kind.into(),
        item: name.into(),
        code: "D001".into(),
        case: "push".into(),
        utilisation: Some(utilisation),
        scope: "in".into(),
        severity: "note".into(),
    }
}

type Files = Vec<(String, String)>;

fn both(a: (&ResultSet, &Files), b: (&ResultSet, &Files)) -> Comparison {
    let (before, after) = (model(a.1), model(b.1));
    let revision = |results, model| Revision { results, model: Some(model), script: None };
    compare(revision(a.0, &before), revision(b.0, &after))
}

fn told(of: &Comparison) -> Vec<(String, f64, f64)> {
    of.differences.iter().map(|one| (format!("{} {}", one.subject, one.quantity), one.before, one.after)).collect()
}

#[test]
fn results_of_a_renamed_joint_are_compared_under_its_pair() {
    let a = set(vec![
        quantity(Kind::Joint, "push", "t3", "ux_mm", "mm", 1.0),
        quantity(Kind::Joint, "push", "t1", "ux_mm", "mm", 4.0),
        quantity(Kind::Mount, "push", "box at t2", "axial_n", "N", 10.0),
        quantity(Kind::Utilisation, "", "r2 at t3", "weld_utilisation", "", 0.5),
    ]);
    let b = set(vec![
        quantity(Kind::Joint, "push", "t1", "ux_mm", "mm", 4.0),
        quantity(Kind::Joint, "push", "corner", "ux_mm", "mm", 1.5),
        quantity(Kind::Mount, "push", "crate at t2", "axial_n", "N", 12.0),
        quantity(Kind::Utilisation, "", "side at corner", "weld_utilisation", "", 0.6),
    ]);
    let other = renamed(renamed(renamed(small(), "t3", "corner"), "r2", "side"), "box", "crate");
    let of = both((&a, &small()), (&b, &other));
    assert_eq!(of.alone, [0, 0]);
    let expected = [
        ("side at corner weld_utilisation".to_owned(), 0.5, 0.6),
        ("crate at t2 axial_n".to_owned(), 10.0, 12.0),
        ("corner ux_mm".to_owned(), 1.0, 1.5),
    ];
    assert_eq!(told(&of), expected);
    assert_eq!(of.differences[2].old_subject.as_deref(), Some("t3"));
    // Without the models they are strangers.
    let revision = |results| Revision { results, model: None, script: None };
    let strangers = compare(revision(&a), revision(&b));
    assert_eq!((strangers.alone, strangers.differences.len(), strangers.inputs), ([3, 3], 0, None));
}

/// Turned round, the tube's forces change ends; N, T and what is along or about the axis that flips keep their signs, the
/// other two change theirs. Level tubes flip y; upright ones keep y and flip z.
#[test]
fn forces_of_a_turned_tube_are_compared_from_its_other_end() {
    let forces = |tube: &str, values: [f64; 12]| {
        let names = [
            "n_from_n",
            "n_to_n",
            "vy_from_n",
            "vy_to_n",
            "vz_from_n",
            "vz_to_n",
            "t_from_nm",
            "t_to_nm",
            "my_from_nm",
            "my_to_nm",
            "mz_from_nm",
            "mz_to_nm",
        ];
        let of = |(name, value)| quantity(Kind::Tube, "push", tube, name, "N", value);
        names.into_iter().zip(values).map(of).collect::<Vec<_>>()
    };
    for (tube, rows, turned_row, expected) in [
        // Level: vy, my as they are; vz, mz with the other sign.
        ("r1", "r1,t1,t2,leg", "r1,t2,t1,leg", [2.0, 1.0, 4.0, 3.0, -6.0, -5.0, 8.0, 7.0, 10.0, 9.0, -12.0, -11.0]),
        // Upright: y stays global +y, so vy and my change their signs; vz and mz do not.
        ("l1", "l1,f1,t1,leg", "l1,t1,f1,leg", [2.0, 1.0, -4.0, -3.0, 6.0, 5.0, 8.0, 7.0, -10.0, -9.0, 12.0, 11.0]),
    ] {
        let a = set(forces(tube, [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0]));
        let b = set(forces(tube, expected));
        let mut other = with(small(), "tubes.csv", rows, turned_row);
        if tube == "r1" {
            other = with(other, "tube_loads.csv", "0,10,-100,0,20,-300", "0,-20,-300,0,-10,-100");
        }
        let of = both((&a, &small()), (&b, &other));
        assert_eq!((told(&of), of.compared), (vec![], 12), "{tube}");
    }
}

#[test]
fn rounding_is_no_change_and_the_largest_stands_first() {
    let of_joint = |joint: &str, value: f64| quantity(Kind::Joint, "push", joint, "ux_mm", "mm", value);
    let a = set(vec![of_joint("f1", 0.0), of_joint("t1", 10.0), of_joint("t2", 1.0), of_joint("t3", 2.0)]);
    let b = set(vec![
        of_joint("f1", 10.0 * SAME * 0.9),
        of_joint("t1", 10.0 * (1.0 + SAME * 0.9)),
        of_joint("t2", 1.5),
        of_joint("t3", 3.0),
    ]);
    let of = both((&a, &small()), (&b, &small()));
    assert_eq!(told(&of), [("t3 ux_mm".to_owned(), 2.0, 3.0), ("t2 ux_mm".to_owned(), 1.0, 1.5)]);
    assert_eq!(of.compared, 4);
    let just =
        set(vec![of_joint("f1", 10.0 * SAME * 1.2), of_joint("t1", 10.0), of_joint("t2", 1.0), of_joint("t3", 2.0)]);
    assert_eq!(both((&a, &small()), (&just, &small())).differences.len(), 1);
}

#[test]
fn modes_are_paired_by_shape_not_by_number() {
    let mode = |number: &str, hertz: f64| quantity(Kind::Mode, "", number, "frequency_hz", "Hz", hertz);
    let named = |names: [&str; 3], hertz: [f64; 3]| ResultSet {
        mode_names: names.iter().enumerate().map(|(place, name)| (place + 7, (*name).to_owned())).collect(),
        ..set(vec![mode("7", hertz[0]), mode("8", hertz[1]), mode("9", hertz[2])])
    };
    let a = named(["first torsion", "first vertical bending", "local mode of tube r2"], [20.0, 25.0, 30.0]);
    let b = named(["first vertical bending", "first torsion", "local mode of tube side"], [25.0, 28.0, 31.0]);
    let of = both((&a, &small()), (&b, &renamed(small(), "r2", "side")));
    let expected = [
        ("8 first torsion frequency_hz".to_owned(), 20.0, 28.0),
        ("9 local mode of tube side frequency_hz".to_owned(), 30.0, 31.0),
    ];
    assert_eq!(told(&of), expected);
}

#[test]
fn findings_that_cross_their_limits_are_told_once_over_all_cases() {
    let rows = |findings| ResultSet { findings, ..set(vec![]) };
    let a = rows(vec![
        finding("D001", "note", "push", "r2", 0.9),
        finding("D001", "note", "pull", "r2", 0.8),
        finding("D022", "error", "push", "r1", 1.2),
        finding("D030", "warning", "push", "l1 at t1", 0.4),
        finding("D021", "error", "push", "l2", 1.1),
    ]);
    let b = rows(vec![
        finding("D001", "error", "push", "side", 1.05),
        finding("D001", "error", "pull", "side", 1.3),
        finding("D022", "note", "push", "r1", 0.95),
        finding("D031", "warning", "push", "l1 at t1", 0.3),
        finding("D021", "error", "push", "l2", 1.4),
    ]);
    let of = both((&a, &small()), (&b, &renamed(small(), "r2", "side")));
    let told: Vec<_> =
        of.findings.iter().map(|one| (one.code.as_str(), one.subject.as_str(), one.fate, one.cases)).collect();
    assert_eq!(
        told,
        [
            ("D001", "side", Fate::Over, 2),
            ("D022", "r1", Fate::Within, 1),
            ("D031", "l1 at t1", Fate::New, 1),
            ("D030", "l1 at t1", Fate::Gone, 1),
        ],
        "what was over and still is, is no news"
    );
    let over: Vec<_> = of.newly_over().collect();
    assert_eq!((over.len(), over[0].before, over[0].after, over[0].case.as_str()), (1, Some(0.9), Some(1.3), "pull"));
}

#[test]
fn a_case_of_one_revision_alone_is_said_and_not_compared() {
    let of_case = |case: &str| quantity(Kind::Case, case, "", "energy", "J", 2.0);
    let a = set(vec![of_case("push"), of_case("pull")]);
    let b = set(vec![of_case("push"), of_case("twist")]);
    let of = both((&a, &small()), (&b, &small()));
    assert_eq!(
        (of.cases_gone.as_slice(), of.cases_new.as_slice()),
        (&["pull".to_owned()][..], &["twist".to_owned()][..])
    );
    assert_eq!((of.compared, of.alone, of.differences.len()), (1, [0, 0], 0));
    assert!(!of.is_same());
}

#[test]
fn the_verdict_says_what_the_change_did_and_what_it_cost() {
    let frame = |stiffness: f64, tubes: f64, used: f64| {
        let of = |name, unit, value| quantity(Kind::Frame, "", "", name, unit, value);
        let quantities = vec![
            of("torsional_stiffness", "N·m/deg", stiffness),
            of("frame_mass", "kg", tubes),
            of("mass", "kg", tubes + 500.0),
            of("frame_mass_per_stiffness", "g per N·m/deg", 1000.0 * tubes / stiffness),
        ];
        ResultSet { items: vec![item("tube", "r1", used), item("tube", "r2", used / 2.0)], ..set(quantities) }
    };
    let verdict = both((&frame(6000.0, 60.0, 0.8), &small()), (&frame(6400.0, 61.0, 0.7), &small())).verdict;
    assert_eq!(verdict.stiffness, Some([6000.0, 6400.0]));
    assert_eq!(verdict.mass, Some([560.0, 561.0]));
    assert_eq!(verdict.grams, Some([10.0, 61_000.0 / 6400.0]));
    assert_eq!(verdict.grams_of_change(), Some(2.5));
    assert_eq!(
        verdict.worst.map(|worst| worst.map(|worst| (worst.item, worst.utilisation))),
        [Some(("r1".into(), 0.8)), Some(("r1".into(), 0.7))]
    );
    let same = both((&frame(6000.0, 60.0, 0.8), &small()), (&frame(6000.0, 61.0, 0.8), &small()));
    assert_eq!(same.verdict.grams_of_change(), None, "no change of stiffness has no price");
}
