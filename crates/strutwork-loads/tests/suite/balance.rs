//! Inertia relief: whatever acts on a free vehicle, its own inertia brings the total to zero.

use proptest::prelude::*;
use strutwork_loads::case::{Measure, Nature};
use strutwork_loads::masses::resultant_about;
use strutwork_loads::wheels::Ride;
use strutwork_loads::{CaseBuilder, Entry, LoadCase, LoadError, MassModel, account};
use strutwork_model::Model;
use strutwork_model::model::Point;
use strutwork_model::model::{Axes, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_testkit::{Folder, buggy};

fn builder(model: &Model, nature: Nature) -> CaseBuilder<&Model> {
    CaseBuilder::new(model, "test", "", nature).expect("a good name")
}

/// What is left about the centre of gravity, over the sizes of what acts.
fn imbalance(case: &LoadCase, model: &Model) -> f64 {
    let mass = MassModel::of(model);
    let left = resultant_about(case, model, mass.centre);
    let size: f64 = case.joint_loads.iter().flat_map(|load| load.load.0).map(f64::abs).sum::<f64>()
        + case
            .tube_loads
            .iter()
            .map(|load| model.length(load.tube) * load.from.iter().chain(&load.to).map(|w| w.abs()).sum::<f64>() / 2.0)
            .sum::<f64>();
    left.iter().fold(0.0_f64, |worst, value| worst.max(value.abs())) / size
}

fn stand(case: &mut CaseBuilder<&Model>) {
    let loads = case.wheel_loads(&Ride::REST).expect("a vehicle with masses");
    for wheel in Wheel::ALL {
        case.wheel_force(wheel, [0.0, 0.0, loads[wheel as usize]]).expect("finite");
    }
    case.gravity(1.0).expect("masses");
}

#[test]
fn a_car_standing_on_its_wheels_needs_no_acceleration() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Physical);
    stand(&mut case);
    case.hold_vehicle().expect("a vehicle");
    let found = case.balance().expect("masses");
    for value in found {
        assert!(value.abs() < 1e-12 * STANDARD_GRAVITY, "{found:?}");
    }
    let case = case.finish().expect("sound");
    assert!(imbalance(&case, &model) < 1e-13);
    assert!(case.derivation.remarks.iter().all(|remark| remark.code.is_empty()), "{:?}", case.derivation.remarks);
}

#[test]
fn an_acceleration_that_is_prescribed_is_not_found_again() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Physical);
    let acceleration = [-8.0, 0.0];
    let loads = case.wheel_loads(&Ride::steady(acceleration)).expect("a vehicle with masses");
    let weight: f64 = loads.iter().sum();
    let mass = case.mass().total;
    for wheel in Wheel::ALL {
        let share = loads[wheel as usize] / weight;
        case.wheel_force(wheel, [mass * acceleration[0] * share, 0.0, loads[wheel as usize]]).expect("finite");
    }
    case.gravity(1.0).expect("masses");
    case.accelerate([-8.0, 0.0, 0.0]).expect("masses");
    let found = case.balance().expect("masses");
    // Yaw too: the wheels' forces are in proportion to loads whose centre is the centre of gravity's.
    assert!(found.iter().all(|value| value.abs() < 1e-11), "{found:?}");
    let case = case.finish().expect("sound");
    let acceleration = case.derivation.acceleration.expect("recorded");
    assert!((acceleration[0] + 8.0).abs() < 1e-11);
    assert!(imbalance(&case, &model) < 1e-13);
}

/// The four wheels, the weight and the inertia of a free case add up to nothing, and there is nothing else.
#[test]
fn the_account_of_a_braking_car_adds_up_without_anything_else() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Physical);
    stand(&mut case);
    case.wheel_force(Wheel::FrontLeft, [-900.0, 120.0, 300.0]).expect("finite");
    case.balance().expect("masses");
    let case = case.finish().expect("sound");
    let account = account(&case, &model, &MassModel::of(&model));
    let entries: Vec<Entry> = account.lines.iter().map(|line| line.entry).collect();
    let mut wanted: Vec<Entry> = Wheel::ALL.into_iter().map(Entry::Wheel).collect();
    wanted.extend([Entry::Weight, Entry::Inertia]);
    assert_eq!(entries, wanted);
    for row in 0..6 {
        let sum: f64 = account.lines.iter().map(|line| line.load[row]).sum();
        let size: f64 = account.lines.iter().map(|line| line.load[row].abs()).sum();
        assert!(sum.abs() <= 1e-9 * size.max(1.0) && account.sum[row].abs() <= 1e-9 * size.max(1.0), "{row}: {sum}");
    }
}

/// What is put on a joint is told apart, also in a case that another was added to; a prescribed acceleration is no weight.
#[test]
fn the_account_tells_what_else_acts() {
    let model = buggy().model();
    let mass = MassModel::of(&model);
    let mut pulled = builder(&model, Nature::Physical);
    stand(&mut pulled);
    pulled.accelerate([2.0, 0.0, 0.0]).expect("masses");
    let joint = pulled.joint("FLT").expect("in the fixture");
    pulled.joint_load(joint, [mass.total * 2.0, 0.0, 0.0], [0.0; 3]).expect("finite");
    pulled.balance().expect("masses");
    let pulled = pulled.finish().expect("sound");
    let mut twice = builder(&model, Nature::Physical);
    twice.add_case(&pulled, 2.0).expect("the same model");
    let twice = twice.finish().expect("sound");
    for (case, times) in [(&pulled, 1.0), (&twice, 2.0)] {
        let account = account(case, &model, &mass);
        let of = |entry: Entry| account.lines.iter().find(|line| line.entry == entry).expect("it acts").load;
        let near = |value: f64, wanted: f64| (value - wanted).abs() < 1e-6 * mass.total;
        assert!(near(of(Entry::Placed(0))[0], times * 2.0 * mass.total), "{account:?}");
        assert!(near(of(Entry::Weight)[2], -times * STANDARD_GRAVITY * mass.total), "{account:?}");
        assert!(near(of(Entry::Inertia)[0], -times * 2.0 * mass.total), "{account:?}");
        assert!(near(account.sum[0], 0.0) && near(account.sum[4], 0.0), "{account:?}");
    }
}

#[test]
fn a_single_force_is_found_by_newton() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Notional);
    let joint = case.joint("FLT").expect("in the fixture");
    case.joint_load(joint, [1000.0, 0.0, 0.0], [0.0; 3]).expect("finite");
    let mass = case.mass().clone();
    let found = case.balance().expect("masses");
    assert!((found[0] - 1000.0 / mass.total).abs() < 1e-12);
    assert!(found[1].abs() < 1e-12 && found[2].abs() < 1e-12);
    // I α is the moment of the force about the centre of gravity: (0, arm_z F, −arm_y F).
    let at = model.joints()[joint].at;
    let moment = [0.0, 1000.0 * (at[2] - mass.centre[2]), -1000.0 * (at[1] - mass.centre[1])];
    for (row, wanted) in mass.inertia.iter().zip(moment) {
        let made: f64 = row.iter().zip(&found[3..]).map(|(i, alpha)| i * alpha).sum();
        assert!((made - wanted).abs() < 1e-9, "{made} for {wanted}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn whatever_acts_is_balanced(
        force in prop::array::uniform3(-5e3..5e3), moment in prop::array::uniform3(-2e3..2e3),
        wheel in prop::array::uniform3(-5e3..5e3), line in prop::array::uniform3(-400.0..400.0), at in 0.0..1.0,
    ) {
        let model = buggy().model();
        let mut case = builder(&model, Nature::Notional);
        case.joint_load(case.joint("RRT")?, force, moment)?;
        case.wheel_force(Wheel::FrontRight, wheel)?;
        let tube = case.tube("diagonal-top")?;
        case.tube_load(tube, Axes::Local, line, [0.0; 3])?;
        case.tube_point_load(tube, Axes::Global, at, line, moment)?;
        case.gravity(1.0)?;
        case.balance()?;
        let again = case.clone().balance()?;
        prop_assert!(again.iter().all(|value| value.abs() < 1e-10), "{:?}", again);
        let case = case.finish()?;
        prop_assert!(imbalance(&case, &model) < 1e-12, "{}", imbalance(&case, &model));
    }
}

#[test]
fn a_wheel_that_pulls_is_remarked_on_in_physical_cases_only() {
    let model = buggy().model();
    for (nature, flagged) in [(Nature::Physical, true), (Nature::Notional, false)] {
        let mut case = builder(&model, nature);
        case.wheel_force(Wheel::RearLeft, [0.0, 0.0, -200.0]).expect("finite");
        case.wheel_force(Wheel::RearLeft, [0.0, 0.0, 50.0]).expect("finite");
        case.wheel_force(Wheel::RearRight, [0.0, 0.0, -1e-9]).expect("finite");
        let case = case.finish().expect("sound");
        let codes: Vec<&str> = case.derivation.remarks.iter().map(|remark| remark.code).collect();
        assert_eq!(codes.contains(&"L001"), flagged);
        assert_eq!(codes.iter().filter(|code| **code == "L001").count(), usize::from(flagged));
        assert_eq!(case.wheel_force(Wheel::RearLeft), Some([0.0, 0.0, -150.0]));
    }
}

#[test]
fn a_physical_case_left_to_its_supports_is_remarked_on() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Physical);
    stand(&mut case);
    case.wheel_force(Wheel::FrontLeft, [0.0, 0.0, 500.0]).expect("finite");
    case.hold_vehicle().expect("a vehicle");
    let case = case.finish().expect("sound");
    assert!(case.derivation.remarks.iter().any(|remark| remark.code == "L014"));
}

#[test]
fn the_vehicle_is_held_determinate() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Notional);
    case.hold_vehicle().expect("a vehicle");
    case.measure_vehicle_twist(1000.0).expect("a vehicle");
    let case = case.finish().expect("sound");
    let held: usize = case
        .supports
        .iter()
        .flat_map(|support| support.holds.0)
        .filter(|hold| *hold != strutwork_model::model::Hold::Free)
        .count();
    assert_eq!((case.supports.len(), held), (3, 6));
    assert!(matches!(case.measures.as_slice(), [Measure::Twist { couple: 1000.0, .. }]));
}

#[test]
fn factors_of_the_model_replace_those_of_the_case() {
    let model = buggy()
        .and("model.toml", "[factors.braking_g]\nvalue = 0.8\nsource = \"measured\"\n[factors.braking_gg]\nvalue = 1.0\nsource = \"slip\"\n")
        .model();
    let mut case = builder(&model, Nature::Physical);
    assert_eq!(case.factor("braking_g", 1.1, "g", "the book"), Ok(0.8));
    assert_eq!(case.factor("braking_g", 1.1, "g", "the book"), Ok(0.8));
    assert_eq!(case.factor("other", 2.0, "×", "common practice, no source"), Ok(2.0));
    let case = case.finish().expect("sound");
    let [braking, other] = case.derivation.factors.as_slice() else { panic!("two factors") };
    assert_eq!((braking.overridden, braking.source.as_str()), (true, "measured"));
    assert_eq!((other.overridden, other.value), (false, 2.0));
    let unused = strutwork_loads::factors::unused_factors(&model, &strutwork_loads::LoadCases(vec![case]));
    assert_eq!(unused.len(), 1);
    assert_eq!((unused[0].code.0, unused[0].subject.as_str()), ("L011", "braking_gg"));
    assert!(unused[0].help.contains("braking_g`"));
}

/// What each error looks like, and that it can happen.
#[test]
fn every_error_has_its_code() {
    let model = buggy().model();
    let mut case = builder(&model, Nature::Physical);
    let code = |result: Result<(), LoadError>| result.expect_err("wrong on purpose").code().0;
    let joint = case.joint("FL").expect("in the fixture");
    let tube = case.tube("rail-left").expect("in the fixture");
    assert_eq!(code(case.joint_load(joint, [f64::NAN, 0.0, 0.0], [0.0; 3])), "L005");
    assert_eq!(code(case.act([0.0, f64::INFINITY, 0.0])), "L005");
    assert_eq!(code(case.step("a", f64::NAN, "N")), "L005");
    assert_eq!(code(case.joint("FFL").map(|_| ())), "L006");
    assert_eq!(code(case.wheel("front").map(|_| ())), "L006");
    assert_eq!(code(strutwork_loads::build::freedoms("ux uw").map(|_| ())), "L006");
    assert_eq!(code(case.tube_point_load(tube, Axes::Global, 1.5, [0.0; 3], [0.0; 3])), "L009");
    assert_eq!(code(case.spread_load([1.0; 3], [0.0; 3], [0.0; 3], &[])), "L009");
    assert_eq!(code(case.measure_twist([Point::Joint(joint); 2], [Point::Joint(joint); 2], 1.0)), "L009");
    assert_eq!(code(CaseBuilder::new(&model, " ", "", Nature::Physical).map(|_| ())), "L012");
    assert_eq!(code(case.factor("a\nb", 1.0, "", "").map(|_| ())), "L012");
    case.settle(joint, strutwork_model::Dof::Uz, 1e-3).expect("finite");
    assert_eq!(code(case.finish().map(|_| ())), "L013");

    let bare = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nAB,A,B,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .model();
    let mut case = builder(&bare, Nature::Physical);
    assert_eq!(code(case.hold_vehicle()), "L003");
    // One straight tube: no inertia about its own line.
    let joint = case.joint("B").expect("in the fixture");
    case.joint_load(joint, [0.0; 3], [10.0, 0.0, 0.0]).expect("finite");
    assert_eq!(code(case.balance().map(|_| ())), "L008");
}

#[test]
fn without_mass_there_is_nothing_to_act_on() {
    const NO_DENSITY: &str = "title = \"t\"\n\
        [materials.m]\ne_mpa = 1000.0\ng_mpa = 400.0\nsource = \"test\"\n\
        [sections.bar]\nshape = \"solid-round\"\ndiameter_mm = 20.0\n";
    let folder = Folder::default()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nAB,A,B,bar,m\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\n");
    let model = folder.clone().with("model.toml", NO_DENSITY).model();
    let mut case = builder(&model, Nature::Physical);
    assert_eq!(case.gravity(1.0).map_err(|error| error.code().0), Err("L002"));

    let carried =
        folder.with("model.toml", NO_DENSITY).with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\ncrate,10,0,0,0,A\n");
    let model = carried.model();
    let mut case = builder(&model, Nature::Physical);
    let missing = vec!["material `m` has no density (1 tube)".to_owned()];
    let wanted = LoadError::NoDensity { wanted: "a body force", materials: vec!["m".to_owned()], missing };
    assert_eq!(case.gravity(1.0), Err(wanted));
}

/// Four masses on six weightless bars under arbitrary forces. Source: Newton and Euler (derived), worked by an independent
/// dense elimination; linear acceleration of the joint at the origin, then angular acceleration.
#[test]
fn a_free_tetrahedron_by_hand() {
    let model = Folder::default()
        .with(
            "model.toml",
            "title = \"t\"\n[options]\ninertia_relief = true\n\
             [materials.m]\ne_mpa = 210000.0\ng_mpa = 81000.0\ndensity_kg_m3 = 1e-9\nsource = \"test\"\n\
             [sections.bar]\nshape = \"solid-round\"\ndiameter_mm = 20.0\n",
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\n0,0,0,0\n1,1200,100,0\n2,300,900,100\n3,400,200,800\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material\na,0,1,bar,m\nb,0,2,bar,m\nc,0,3,bar,m\nd,1,2,bar,m\ne,1,3,bar,m\nf,2,3,bar,m\n",
        )
        .with(
            "masses.csv",
            "mass,kg,x_mm,y_mm,z_mm,joints\nm0,3,0,0,0,0\nm1,5,1200,100,0,1\nm2,2,300,900,100,2\nm3,4,400,200,800,3\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,0,300,-150,500,0,0,0\npush,2,0,200,0,0,0,0\n",
        )
        .model();
    let cases = strutwork_loads::derive_plain(&model).expect("mass");
    let case = &cases.0[0];
    assert!(case.free && case.supports.is_empty());
    let [ax, ay, az, rx, ry, rz] = case.derivation.acceleration.expect("balanced");
    // From the centre of gravity to the origin: a_0 = a + α × (0 − c).
    let [x, y, z] = MassModel::of(&model).centre;
    let found = [ax - (ry * z - rz * y), ay - (rz * x - rx * z), az - (rx * y - ry * x), rx, ry, rz];
    let wanted = [16.52335253846, -27.70624888206, 76.06240189215, -53.85789332449, 48.52611672978, 31.06959110312];
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-10 * wanted.abs(), "{found} for {wanted}");
    }
    assert!(imbalance(case, &model) < 1e-14);
}
