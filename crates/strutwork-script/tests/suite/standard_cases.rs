//! The standard load cases on a small lopsided vehicle: what they say, by hand, and that they balance.

use crate::common;
use std::sync::Arc;

use common::{Memory, run_on};
use strutwork_loads::case::{Measure, Nature};
use strutwork_loads::masses::{MassModel, resultant_about};
use strutwork_loads::wheels::{Ride, wheel_loads};
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;
use strutwork_model::model::Wheel;
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_script::{CaseScript, Limits, run_cases, run_cases_on};
use strutwork_solve::results::MeasureResult;
use strutwork_solve::solve_cases;
use strutwork_testkit::{Folder, buggy};

fn standard(folder: &Folder) -> (Model, LoadCases) {
    let model = folder.model();
    let cases =
        run_cases(&model, &CaseScript::standard(), Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
    (model, cases)
}

fn case<'c>(cases: &'c LoadCases, name: &str) -> &'c LoadCase {
    cases.0.iter().find(|case| case.name == name).unwrap_or_else(|| panic!("no case {name}"))
}

fn step(case: &LoadCase, words: &str) -> f64 {
    let found = case.derivation.steps.iter().find(|step| step.text.contains(words) && step.value.is_some());
    found.and_then(|step| step.value).unwrap_or_else(|| panic!("no step {words}"))
}

fn close(found: f64, wanted: f64) {
    assert!((found - wanted).abs() <= 1e-9 * wanted.abs().max(1.0), "{found} for {wanted}");
}

/// Vertical wheel forces.
fn vertical(case: &LoadCase) -> [f64; 4] {
    case.derivation.wheel_forces.expect("wheels in the case").map(|force| force[2])
}

#[test]
fn the_cases_come_in_order_with_their_natures() {
    let (_, cases) = standard(&buggy());
    let names: Vec<&str> = cases.0.iter().map(|case| case.name.as_str()).collect();
    assert_eq!(
        names,
        [
            "twist",
            "twist-and-bending-left",
            "twist-and-bending-right",
            "bending",
            "cornering-left",
            "cornering-right",
            "bump-front-left",
            "bump-front-right",
            "bump-rear-left",
            "bump-rear-right",
            "bump-front",
            "bump-rear",
            "pothole-front-left",
            "pothole-front-right",
            "pothole-rear-left",
            "pothole-rear-right",
            "bump-cornering-left",
            "bump-cornering-right",
            "braking",
            "braking-panic",
            "acceleration",
            "kerb-left",
            "kerb-right",
        ]
    );
    for case in &cases.0 {
        let wanted = if case.name == "twist" { Nature::Notional } else { Nature::Physical };
        assert_eq!(case.nature, wanted, "{}", case.name);
        for factor in &case.derivation.factors {
            assert!(factor.source.len() > 20, "{}: {}", case.name, factor.source);
        }
    }
}

#[test]
fn every_case_is_in_balance() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let weight = mass.total * STANDARD_GRAVITY;
    for case in &cases.0 {
        let left = resultant_about(case, &model, mass.centre);
        assert!(left.iter().all(|value| value.abs() < 1e-12 * 10.0 * weight), "{}: {left:?}", case.name);
        assert!(case.free && case.supports.is_empty(), "{}", case.name);
        assert!(case.derivation.remarks.iter().all(|remark| remark.code.is_empty()), "{}", case.name);
    }
}

#[test]
fn nothing_is_left_where_a_free_vehicle_is_held_inside() {
    let (model, cases) = standard(&buggy());
    let results = solve_cases(&model, &cases).expect("a braced box");
    for result in &results.cases {
        assert!(result.reactions.is_empty(), "{}", result.name);
        let relief = result.relief.as_ref().expect("a free case");
        assert!(relief.left_over < 1e-9, "{}: {}", result.name, relief.left_over);
    }
    assert_eq!(results.counters.factorisations, 1, "one way of holding for all free cases");
    let [MeasureResult::Twist { stiffness, couple, .. }] = results.cases[0].measures.as_slice() else {
        panic!("twist is measured")
    };
    assert!(*stiffness > 0.0 && *couple > 0.0);
}

#[test]
fn twist_is_the_lighter_axles_couple() {
    let (model, cases) = standard(&buggy());
    let vehicle = model.vehicle().expect("a vehicle");
    let mass = MassModel::of(&model);
    let rest = wheel_loads(vehicle, mass.total, mass.centre, &Ride::REST).expect("wheels");
    let (front, rear) = (rest[0] + rest[1], rest[2] + rest[3]);
    assert!(front < rear, "the fixture's front axle is the lighter one");
    let twist = case(&cases, "twist");
    let couple = front * 1.2 / 2.0 * 1.3;
    close(step(twist, "Couple T"), couple);
    // The front spring joints are 760 mm apart; the rear ones take the opposite couple.
    let forces: Vec<f64> = twist.joint_loads.iter().map(|load| load.load.0[2]).collect();
    let spring = |wheel| vehicle.corner(wheel).spring.at(&model)[1];
    let rear = spring(Wheel::RearLeft) - spring(Wheel::RearRight);
    for (found, wanted) in forces.iter().zip([couple / 0.76, -couple / 0.76, -couple / rear, couple / rear]) {
        close(*found, wanted);
    }
    assert_eq!(forces.len(), 4);
    let acceleration = twist.derivation.acceleration.expect("balanced");
    assert_eq!(acceleration, [0.0; 6], "four forces that cancel");
    let [Measure::Twist { couple: measured, .. }] = twist.measures.as_slice() else { panic!("twist is measured") };
    close(*measured, couple);
}

#[test]
fn a_wheel_of_the_lighter_axle_just_unloads() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    for (name, empty, full) in [
        ("twist-and-bending-left", Wheel::FrontLeft, Wheel::FrontRight),
        ("twist-and-bending-right", Wheel::FrontRight, Wheel::FrontLeft),
    ] {
        let case = case(&cases, name);
        let loads = vertical(case);
        assert_eq!(loads[empty as usize], 0.0);
        assert!(loads[full as usize] > 0.0);
        close(loads.iter().sum::<f64>(), mass.total * STANDARD_GRAVITY);
        // Nothing is left to accelerate: the heavier axle balances the couple.
        let acceleration = case.derivation.acceleration.expect("balanced");
        assert!(acceleration.iter().all(|value| value.abs() < 1e-10), "{name}: {acceleration:?}");
    }
}

#[test]
fn bending_is_the_static_case_times_its_factor() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let rest = wheel_loads(model.vehicle().expect("a vehicle"), mass.total, mass.centre, &Ride::REST).expect("wheels");
    for (found, wanted) in vertical(case(&cases, "bending")).into_iter().zip(rest) {
        close(found, 2.5 * wanted);
    }
}

#[test]
fn cornering_loads_the_outer_wheels() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let (left, right) = (case(&cases, "cornering-left"), case(&cases, "cornering-right"));
    let (l, r) = (vertical(left), vertical(right));
    assert!(l[1] > l[0] && l[3] > l[2], "turning left leans on the right wheels: {l:?}");
    assert!(r[0] > r[1] && r[2] > r[3], "{r:?}");
    let lateral: f64 = left.derivation.wheel_forces.expect("wheels").iter().map(|force| force[1]).sum();
    close(lateral, mass.total * STANDARD_GRAVITY);
    let acceleration = left.derivation.acceleration.expect("recorded");
    close(acceleration[1], STANDARD_GRAVITY);
    assert!([0, 2, 3, 4, 5].iter().all(|&axis: &usize| acceleration[axis].abs() < 1e-9), "{acceleration:?}");
}

#[test]
fn a_bump_throws_the_vehicle_up_and_shows_it() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let rest = wheel_loads(model.vehicle().expect("a vehicle"), mass.total, mass.centre, &Ride::REST).expect("wheels");
    let thrown = case(&cases, "bump-rear-right");
    close(vertical(thrown)[3], 3.0 * rest[3]);
    close(thrown.derivation.acceleration.expect("recorded")[2], 2.0 * rest[3] / mass.total);
    let one = case(&cases, "pothole-rear-right");
    let forces = one.derivation.wheel_forces.expect("wheels");
    close(forces[3][2], 4.0 * rest[3]);
    close(forces[3][0], -3.0 * rest[3]);
    close(forces[0][2], rest[0]);
    let acceleration = one.derivation.acceleration.expect("recorded");
    close(acceleration[2], 3.0 * rest[3] / mass.total);
    close(acceleration[0], -3.0 * rest[3] / mass.total);
    let both = case(&cases, "bump-front");
    close(vertical(both)[0], 3.0 * rest[0]);
    close(vertical(both)[1], 3.0 * rest[1]);
    close(both.derivation.acceleration.expect("recorded")[2], 2.0 * (rest[0] + rest[1]) / mass.total);
}

/// F = m·g·t/(2·h)·1.4, all on the struck wheels, away from the kerb.
#[test]
fn a_kerb_takes_the_overturning_force_and_more() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let weight = mass.total * STANDARD_GRAVITY;
    let vehicle = model.vehicle().expect("a vehicle");
    let track = (vehicle.track_front() + vehicle.track_rear()) / 2.0;
    let height = strutwork_loads::wheels::cg_height(vehicle, mass.centre);
    let limit = weight * track / (2.0 * height);
    for (name, sign, struck) in [("kerb-left", -1.0, [0, 2]), ("kerb-right", 1.0, [1, 3])] {
        let forces = case(&cases, name).derivation.wheel_forces.expect("wheels");
        close(forces.iter().map(|force| force[1]).sum::<f64>(), sign * 1.4 * limit);
        close(struck.iter().map(|&wheel| forces[wheel][2]).sum::<f64>(), weight);
    }
}

/// The outer front wheel carries 3.5 times its static load, and the tyres push sideways as in the turn alone.
#[test]
fn a_struck_outer_wheel_in_a_turn_carries_its_factor() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let rest = wheel_loads(model.vehicle().expect("a vehicle"), mass.total, mass.centre, &Ride::REST).expect("wheels");
    let left = case(&cases, "bump-cornering-left").derivation.wheel_forces.expect("wheels");
    close(left[1][2], 3.5 * rest[1]);
    let lateral: f64 = left.iter().map(|force| force[1]).sum();
    close(lateral, 0.7 * mass.total * STANDARD_GRAVITY);
    let right = case(&cases, "bump-cornering-right").derivation.wheel_forces.expect("wheels");
    close(right[0][2], 3.5 * rest[0]);
}

#[test]
fn braking_follows_the_axle_loads_or_the_given_share() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let forces = case(&cases, "braking").derivation.wheel_forces.expect("wheels");
    let total: f64 = forces.iter().map(|force| force[0]).sum();
    close(total, -1.1 * mass.total * STANDARD_GRAVITY);
    for force in forces {
        close(force[0], -1.1 * force[2]);
    }
    let shared = buggy().with(
        "model.toml",
        String::from_utf8_lossy(buggy().files().get("model.toml").expect("there"))
            .replace("front_roll_share", "front_brake_share = 0.7\nfront_roll_share"),
    );
    let (_, cases) = standard(&shared);
    let forces = case(&cases, "braking").derivation.wheel_forces.expect("wheels");
    close(forces[0][0] + forces[1][0], 0.7 * total);
}

#[test]
fn acceleration_drives_the_driven_axle() {
    let (model, cases) = standard(&buggy());
    let mass = MassModel::of(&model);
    let forces = case(&cases, "acceleration").derivation.wheel_forces.expect("wheels");
    assert_eq!((forces[0][0], forces[1][0]), (0.0, 0.0));
    close(forces[2][0] + forces[3][0], 0.6 * mass.total * STANDARD_GRAVITY);
}

#[test]
fn a_top_heavy_vehicle_is_flagged() {
    let folder =
        buggy().and("model.toml", "[factors.cornering_lateral_g]\nvalue = 3.0\nsource = \"test: beyond all tyres\"\n");
    let (_, cases) = standard(&folder);
    let cornering = case(&cases, "cornering-left");
    assert!(cornering.derivation.remarks.iter().any(|remark| remark.code == "L001"), "{:?}", vertical(cornering));
    let factor = &cornering.derivation.factors[0];
    assert_eq!((factor.value, factor.overridden, factor.source.as_str()), (3.0, true, "test: beyond all tyres"));
}

#[test]
fn scripts_give_the_same_cases_every_time() {
    assert_eq!(standard(&buggy()).1, standard(&buggy()).1);
}

#[test]
fn a_models_own_script_may_import_a_standard_one() {
    let model = buggy().model();
    let own = CaseScript::new(
        "cases.rhai",
        "import \"cases/bending\" as bending; import \"cases/bending\" as again;\n\
         let c = model().new_case(\"own\", \"\", \"notional\"); c.hold_vehicle();",
    );
    let cases = run_cases(&model, &[own], Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
    let names: Vec<&str> = cases.0.iter().map(|case| case.name.as_str()).collect();
    assert_eq!(names, ["bending", "own"]);
}

#[test]
fn a_models_own_script_may_import_one_beside_it() {
    let host = Arc::new(Memory::new().with_script("mine/hoist.rhai", "fn lift(c) { c.gravity(1.5); }"));
    let own = CaseScript::new(
        "cases.rhai",
        "import \"mine/hoist\" as hoist;\nlet c = model().new_case(\"lifted\", \"\", \"notional\"); c.hold_vehicle(); hoist::lift(c); print(\"built\");",
    );
    let cases = run_cases_on(host.clone(), &buggy().model(), &[own], Limits::default()).expect("sound");
    assert!(!cases.0[0].tube_loads.is_empty());
    assert_eq!(host.lines(), ["built"]);
}

#[test]
fn a_free_script_solves_the_models_own_cases() {
    let mut host = Memory::new();
    let folder = buggy()
        .with("cases.rhai", "let c = model().new_case(\"own\", \"\", \"notional\"); c.hold_vehicle(); c.gravity(1);");
    host.models.insert("my-frame".to_owned(), folder.files());
    let host = Arc::new(host);
    let outcome = run_on(
        Arc::clone(&host),
        "let f = model(); let r = f.solve(f.own_cases()); print(r.case_names()); write_text(\"a/b.csv\", csv_row([\"x,y\", 1, 2.5]));",
        Limits::default(),
    )
    .unwrap_or_else(|error| panic!("{error:?}"));
    assert_eq!(host.lines(), ["[\"own\"]"]);
    assert_eq!(outcome.written, ["a/b.csv"]);
    assert_eq!(host.written.lock().expect("no panic")["a/b.csv"], "\"x,y\",1,2.5\n");
    assert!(outcome.operations > 0);
}
