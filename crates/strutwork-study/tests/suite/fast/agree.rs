//! Agreement with the whole way.

use std::sync::Arc;

use proptest::prelude::*;
use strutwork_model::Dof;
use strutwork_study::evaluate::Wanted;
use strutwork_study::{Asked, CaseSource, Change, Design, Levels, Parameter, Solved, Status, Value, Way, Why};
use strutwork_testkit::buggy;

use super::frames::{Cases, both, bracket, ended, group, moves, study, switch, together, vary, walls};

fn usual() -> Vec<Asked> {
    vec![
        Asked::TubesMass,
        Asked::TotalMass,
        moves("side", "C", Dof::Uz),
        moves("pull", "F", Dof::Ry),
        Asked::Utilisation(None),
        Asked::Utilisation(Some("D001".to_owned())),
        Asked::OutsideScope,
    ]
}

#[test]
fn walls_and_sizes_of_a_held_frame() {
    for weight in [false, true] {
        let mut study = study(&bracket(weight), &usual());
        walls(&mut study, "sides", &[1.5, 2.0, 3.0]);
        vary(&mut study, Change::Size(group("cross")), &["square 20x2".into(), "rail".into(), "brace".into()]);
        walls(&mut study, "mast", &[1.5, 2.0, 17.0]);
        let rows = both(&study, &Cases);
        // A wall of 17 mm makes no tube of 25.
        assert_eq!((ended(&rows, Status::Solved), ended(&rows, Status::ModelFault)), (18, 9));
        for row in &rows {
            let faulty = row.values[2] == Value::Number(17.0);
            let as_expected = if faulty { row.outcome.way == Way::Whole(Why::Value) } else { together(row) };
            assert!(as_expected, "{row:?}");
        }
    }
}

#[test]
fn tubes_that_are_left_out_and_what_comes_apart() {
    for weight in [false, true] {
        let mut study = study(&bracket(weight), &usual());
        for tube in ["d1", "d2", "d3", "m1", "m2", "m3", "front"] {
            switch(&mut study, tube);
        }
        study.design = Design::Subsets { most: 3 };
        let rows = both(&study, &Cases);
        assert_eq!(rows.len(), 64);
        let apart = rows.iter().filter(|row| row.outcome.way == Way::Whole(Why::ComesApart)).count();
        assert!(apart > 3, "{apart}");
        assert!(ended(&rows, Status::Solved) > 40);
    }
}

#[test]
fn moved_only_by_movements_a_mechanism_is_told_as_the_whole_way_tells_it() {
    // A mast of pin-jointed legs: two of them leave it to fall over.
    let pinned = "\
tube,from,to,section,material,group,release_from,release_to
left,A,C,rail,mild,sides,,
right,B,D,rail,mild,sides,,
front,C,D,rail,mild,front,,
cross,A,D,brace,mild,other,,
d3,B,C,brace,mild,other,,
m0,D,F,brace,mild,mast,rx ry rz,ry rz
m1,A,F,brace,mild,mast,ry rz,rx ry rz
m2,B,F,brace,mild,mast,ry rz,rx ry rz
m3,C,F,brace,mild,mast,ry rz,rx ry rz
";
    let folder = bracket(false)
        .with("tubes.csv", pinned)
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,200,0\nB,0,-200,0\nC,500,200,0\nD,500,-200,0\nF,300,0,400\n");
    let mut study = study(&folder, &[Asked::TubesMass, moves("pull", "F", Dof::Uy), moves("side", "C", Dof::Uz)]);
    for tube in ["m0", "m1", "m2", "m3", "d3"] {
        switch(&mut study, tube);
    }
    study.design = Design::Subsets { most: 3 };
    let rows = both(&study, &Cases);
    assert!(ended(&rows, Status::Mechanism) >= 10, "{}", ended(&rows, Status::Mechanism));
    let of_engine = |way: Way| matches!(way, Way::Lanes | Way::Update | Way::Alone);
    assert!(rows.iter().all(|row| of_engine(row.outcome.way)), "{rows:?}");
}

#[test]
fn a_free_vehicle_whose_own_weight_changes() {
    let asked = [
        Asked::TotalMass,
        Asked::TwistStiffness,
        moves("twist", "FL", Dof::Uz),
        moves("heave", "FLT", Dof::Uz),
        Asked::Utilisation(None),
        Asked::Frequency(1),
    ];
    let mut whole = study(&buggy(), &asked);
    walls(&mut whole, "rails", &[1.5, 2.0, 3.0]);
    switch(&mut whole, "diagonal-left");
    both(&whole, &Cases);
    // The twist alone does not depend on the masses.
    let mut twist = study(&buggy(), &[Asked::TubesMass, Asked::TwistStiffness]);
    walls(&mut twist, "rails", &[1.5, 2.0, 3.0]);
    switch(&mut twist, "diagonal-left");
    let rows = both(&twist, &Cases);
    assert_eq!(ended(&rows, Status::Solved), 6);
}

#[test]
fn panels_patterns_and_ranges() {
    let mut with_panels = study(&bracket(true), &usual());
    vary(&mut with_panels, Change::Thickness("skin".to_owned()), &[0.8.into(), 1.0.into(), 2.0.into()]);
    let patterns = [("one", ["d1", "d2"]), ("other", ["d2", "d3"])];
    let patterns = patterns.map(|(name, tubes)| (name.to_owned(), tubes.map(str::to_owned).to_vec())).to_vec();
    vary(&mut with_panels, Change::Pattern(patterns), &["one".into(), "other".into()]);
    both(&with_panels, &Cases);
    let mut fixed = study(&bracket(false), &usual());
    vary(&mut fixed, Change::Fixing("skin".to_owned()), &["soft".into(), "".into()]);
    walls(&mut fixed, "front", &[1.5, 2.0]);
    let rows = both(&fixed, &Cases);
    assert!(rows.iter().all(together), "{rows:?}");
    let mut ranged = study(&bracket(false), &usual());
    for name in ["sides", "mast"] {
        let levels = Levels::Range { from: 1.0, to: 3.5 };
        let parameter = Parameter::new(&ranged.base, None, Change::Wall(group(name)), levels).unwrap();
        ranged.parameters.push(parameter);
    }
    ranged.design = Design::LatinHypercube { count: 40, seed: 5 };
    both(&ranged, &Cases);
}

#[test]
fn moved_joints_are_grounds_of_their_own() {
    let mut study = study(&bracket(true), &usual());
    walls(&mut study, "sides", &[1.5, 2.0, 3.0, 4.0]);
    walls(&mut study, "mast", &[1.5, 2.0, 2.5, 3.0]);
    let shift = Change::Shift { joint: "F".to_owned(), axis: 2, partner: None };
    vary(&mut study, shift, &[(-50.0).into(), 0.0.into(), 80.0.into()]);
    let rows = both(&study, &Cases);
    assert!(rows.iter().all(together), "{rows:?}");
}

#[test]
fn a_wall_after_a_size_is_the_wall_of_that_size() {
    let mut study = study(&bracket(false), &usual());
    vary(&mut study, Change::Size(group("sides")), &["square 40x2".into(), "rail".into()]);
    walls(&mut study, "sides", &[1.5, 2.0, 2.5, 3.0]);
    walls(&mut study, "mast", &[1.5, 2.0, 2.5, 3.0]);
    let rows = both(&study, &Cases);
    assert!(rows.iter().all(together), "{rows:?}");
}

#[test]
fn one_check_by_itself_says_what_it_says_among_all() {
    for folder in [bracket(true), buggy()] {
        let model = Arc::new(folder.model());
        let cases = Cases.cases(&model, Wanted::Of(&strutwork_study::Cases::All)).unwrap();
        let results = strutwork_solve::solve_cases(&model, &cases).unwrap();
        let solved = Solved::new(model, cases, results);
        let mut told = 0;
        for page in strutwork_checks::PAGES {
            let one = strutwork_checks::check_one(solved.judged(), page.code);
            let among: Vec<_> = solved.findings().iter().filter(|finding| finding.code.0 == page.code).collect();
            assert!(one.iter().eq(among), "{}", page.code);
            told += one.len();
        }
        assert_eq!(told, solved.findings().len(), "every finding has a code with a page");
        assert!(told > 20);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Random walls and random tubes left out, with and without weight, on a frame whose joints are anywhere near their places.
    #[test]
    fn random_frames_and_variants(
        shifts in proptest::collection::vec(-40.0..40.0_f64, 12),
        weight: bool,
        list in proptest::collection::vec((0.8..4.0_f64, 0.8..4.0_f64, 0_u32..64), 3..20),
    ) {
        let places = [("A", 0., 200., 0.), ("B", 0., -200., 0.), ("C", 500., 200., 0.), ("D", 500., -200., 0.), ("E", 250., 0., 0.), ("F", 300., 0., 400.)];
        let mut joints = String::from("joint,x_mm,y_mm,z_mm\n");
        for ((name, x, y, z), pair) in places.into_iter().zip(shifts.chunks(2)) {
            joints.push_str(&format!("{name},{},{},{z}\n", x + pair[0], y + pair[1]));
        }
        let folder = bracket(weight).with("joints.csv", joints).with("panels.csv", "panel,joints,material,thickness_mm\n");
        let mut study = study(&folder, &[Asked::TubesMass, moves("side", "C", Dof::Uz), moves("pull", "F", Dof::Uy), Asked::Utilisation(None)]);
        walls(&mut study, "sides", &[1.5]);
        walls(&mut study, "mast", &[1.5]);
        let tubes = ["d1", "d2", "d3", "m1", "m2", "front"];
        tubes.iter().for_each(|tube| switch(&mut study, tube));
        study.design = Design::List(list.iter().map(|(one, two, bits)| {
            let mut row: Vec<Value> = vec![(*one).into(), (*two).into()];
            row.extend((0..6).map(|bit| Value::from(if bits >> bit & 1 == 1 { "off" } else { "on" })));
            row
        }).collect());
        both(&study, &Cases);
    }
}
