//! A whole vehicle: links, a bolted module, a skin, places; everything that acts sums to what was put on, and to nothing
//! once its own inertia balances it.

use proptest::prelude::*;
use strutwork_loads::case::Nature;
use strutwork_loads::masses::{MassKind, pieces, resultant_about};
use strutwork_loads::suspension::{Upright, spring_link, spring_ratio};
use strutwork_loads::wheels::Ride;
use strutwork_loads::{CaseBuilder, Field, LoadCase, MassModel, check_suspension, derive_plain, unit_inertia};
use strutwork_model::Model;
use strutwork_model::ids::Id;
use strutwork_model::model::{Axes, Carrier, Suspension, Wheel};
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_testkit::{buggy, linked_buggy};

fn builder(model: &Model, nature: Nature) -> CaseBuilder<&Model> {
    CaseBuilder::new(model, "test", "", nature).expect("a good name")
}

fn contact(model: &Model, wheel: Wheel) -> [f64; 3] {
    model.vehicle().expect("a vehicle").corner(wheel).contact
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

/// Force and moment about the origin of a force at a place.
fn at(place: [f64; 3], force: [f64; 3]) -> [f64; 6] {
    let [mx, my, mz] = cross(place, force);
    [force[0], force[1], force[2], mx, my, mz]
}

fn assert_near(found: [f64; 6], wanted: [f64; 6], size: f64) {
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 1e-12 * size, "{found} for {wanted}");
    }
}

/// Sum of magnitudes of forces in a case, N, as a measure of rounding.
fn size(case: &LoadCase, model: &Model) -> f64 {
    let joints = case.joint_loads.iter().flat_map(|load| load.load.0);
    let bodies = case.body_loads.iter().flat_map(|load| load.load.0);
    let tubes = case
        .tube_loads
        .iter()
        .map(|load| model.length(load.tube) * load.from.iter().chain(&load.to).map(|w| w.abs()).sum::<f64>() / 2.0);
    joints.chain(bodies).map(f64::abs).sum::<f64>() + tubes.sum::<f64>()
}

#[test]
fn the_fixture_is_linked_and_carried() {
    let model = linked_buggy().model();
    assert!(check_suspension(&model).is_ok());
    let corners = &model.vehicle().expect("a vehicle").corners;
    assert!(matches!(&corners[0].suspension, Suspension::Linked(links) if links.len() == 6));
    assert!(matches!(corners[2].suspension, Suspension::Rigid(Carrier::Body(_))));
    assert!(model.options().inertia_relief);
}

#[test]
fn wheel_forces_keep_their_resultant() {
    let model = linked_buggy().model();
    for wheel in Wheel::ALL {
        let force = [-1500.0, 900.0, 4000.0];
        let mut case = builder(&model, Nature::Notional);
        case.hold_vehicle().expect_err("the rear corners belong to a body");
        case.hold(case.joint("FL").expect("there"), &strutwork_model::Dof::ALL);
        case.wheel_force(wheel, force).expect("finite");
        let case = case.finish().expect("sound");
        assert!(!case.free);
        assert_near(case.resultant(&model), at(contact(&model, wheel), force), 1e4);
        assert_eq!(case.derivation.link_forces.len(), 12);
        let loaded = case.derivation.link_forces.iter().filter(|force| force.on_frame != [0.0; 3]).count();
        assert_eq!(loaded, if wheel.axle() == 0 { 6 } else { 0 }, "{wheel:?}");
    }
}

/// Inboard brakes and shafts: the torque goes to the module, the total stays.
#[test]
fn shaft_torque_leaves_the_total_alone() {
    let model = linked_buggy().model();
    let (wheel, along) = (Wheel::RearRight, -1800.0);
    let held = |act: &dyn Fn(&mut CaseBuilder<&Model>)| {
        let mut case = builder(&model, Nature::Notional);
        case.hold(case.joint("FL").expect("there"), &strutwork_model::Dof::ALL);
        act(&mut case);
        case.finish().expect("sound")
    };
    let patch = held(&|case| case.wheel_force(wheel, [along, 0.0, 0.0]).expect("finite"));
    let brake = held(&|case| case.brake_force(wheel, along).expect("a radius"));
    let drive = held(&|case| case.drive_force(wheel, along).expect("a radius"));
    let centre = held(&|case| case.wheel_centre_force(wheel, [along, 0.0, 0.0]).expect("a radius"));
    assert_near(brake.resultant(&model), patch.resultant(&model), 1e4);
    assert_near(drive.resultant(&model), patch.resultant(&model), 1e4);
    // The force at the wheel's centre, r = 270 mm up, less the torque: M_y = −r·F_x, here +486 N·m: braking tips forwards.
    let difference = patch.resultant(&model)[4] - centre.resultant(&model)[4];
    assert!((difference - 0.27 * 1800.0).abs() < 1e-9, "{difference}");
    assert_eq!(brake.body_loads.len(), 2);
    assert!((brake.body_loads[1].load.0[4] - 486.0).abs() < 1e-9);
    assert_eq!(brake.derivation.wheel_forces.expect("noted")[3], [along, 0.0, 0.0]);
    // The front axle has neither shafts nor inboard brakes: the patch force acts on the upright as it stands.
    let front = |act: fn(&mut CaseBuilder<&Model>)| held(&|case| act(case)).derivation.link_forces;
    let outboard = front(|case| case.brake_force(Wheel::FrontLeft, -900.0).expect("finite"));
    assert_eq!(outboard, front(|case| case.wheel_force(Wheel::FrontLeft, [-900.0, 0.0, 0.0]).expect("finite")));
    assert_ne!(
        outboard,
        front(|case| case.wheel_centre_force(Wheel::FrontLeft, [-900.0, 0.0, 0.0]).expect("a radius"))
    );
}

/// A rear corner on links with inboard brakes: its upright sees the force at the wheel's centre.
#[test]
fn a_linked_corner_with_inboard_brakes_sees_the_force_at_its_centre() {
    let folder = linked_buggy();
    let text = String::from_utf8_lossy(folder.files().get("model.toml").expect("there")).replace(
        "wheel_radius_mm = 260.0\n",
        "wheel_radius_mm = 260.0\nbrakes = \"inboard\"\nshaft_joints = [\"FR\", \"FRT\"]\n",
    );
    let model = folder.with("model.toml", text).model();
    let mut case = builder(&model, Nature::Notional);
    case.hold(case.joint("RL").expect("there"), &strutwork_model::Dof::ALL);
    case.brake_force(Wheel::FrontLeft, -1000.0).expect("a radius");
    let case = case.finish().expect("sound");
    let Suspension::Linked(links) = &model.vehicle().expect("a vehicle").corner(Wheel::FrontLeft).suspension else {
        panic!("linked")
    };
    let place = contact(&model, Wheel::FrontLeft);
    let upright = Upright::of(Wheel::FrontLeft, place, links).expect("holds");
    // At the centre, 260 mm above the contact: M_y = 0.26 · (−1000) about the contact point.
    let wanted = upright.link_forces(&[-1000.0, 0.0, 0.0, 0.0, -260.0, 0.0]);
    for (found, wanted) in case.derivation.link_forces.iter().zip(wanted) {
        assert!((found.axial.expect("two-force") - wanted.axial.expect("two-force")).abs() < 1e-9);
    }
    assert_near(case.resultant(&model), at(place, [-1000.0, 0.0, 0.0]), 1e4);
}

#[test]
fn the_spring_takes_more_than_the_wheel() {
    let model = linked_buggy().model();
    let mut case = builder(&model, Nature::Notional);
    case.hold(case.joint("RL").expect("there"), &strutwork_model::Dof::ALL);
    case.wheel_force(Wheel::FrontLeft, [0.0, 0.0, 2000.0]).expect("finite");
    let case = case.finish().expect("sound");
    let ratio = spring_ratio(&case, &model, Wheel::FrontLeft).expect("a spring");
    assert!(ratio > 1.0 && ratio < 2.0, "{ratio}");
    let Suspension::Linked(links) = &model.vehicle().expect("a vehicle").corner(Wheel::FrontLeft).suspension else {
        panic!("linked")
    };
    let spring = spring_link(links).expect("a spring");
    assert_eq!(case.derivation.link_forces[spring].axial, Some(-ratio * 2000.0));
    assert_eq!(spring_ratio(&case, &model, Wheel::RearLeft), None);
    assert_eq!(spring_ratio(&case, &model, Wheel::FrontRight), None);
}

fn act(case: &mut CaseBuilder<&Model>, force: [f64; 3], moment: [f64; 3], line: [f64; 3]) {
    let body = case.body("rear module").expect("there");
    case.wheel_force(Wheel::FrontLeft, force).expect("finite");
    case.brake_force(Wheel::RearLeft, force[0]).expect("a radius");
    case.drive_force(Wheel::RearRight, force[1]).expect("a radius");
    case.body_load(body, line, moment, Some([0.1, -0.2, 0.3])).expect("finite");
    case.place_force("belt inner", force, moment).expect("there");
    case.place_force("jack", line, [0.0; 3]).expect("there");
    let tube = case.tube("rail-left").expect("there");
    case.tube_load(tube, Axes::Local, line, force.map(|part| part / 10.0)).expect("finite");
    case.gravity(1.0).expect("mass");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn a_free_vehicle_is_balanced(force in prop::array::uniform3(-5e3..5e3), moment in prop::array::uniform3(-2e3..2e3),
                                  line in prop::array::uniform3(-400.0..400.0)) {
        let model = linked_buggy().model();
        let mut case = builder(&model, Nature::Notional);
        act(&mut case, force, moment, line);
        let case = case.finish()?;
        prop_assert!(case.free && case.supports.is_empty());
        let mass = MassModel::of(&model);
        let left = resultant_about(&case, &model, mass.centre);
        prop_assert!(left.iter().all(|value| value.abs() < 1e-12 * size(&case, &model)), "{left:?}");

        // The links of the left front corner carry what acts on the upright: the wheel's force, the hub's weight and its
        // inertia, −m(a + α × r), −I·α.
        let [ax, ay, az, rx, ry, rz] = case.derivation.acceleration.expect("balanced");
        let hub = model.masses().iter().find(|mass| mass.name == "hub left").expect("there");
        let field = Field { force: [-ax, -ay, -az - STANDARD_GRAVITY], turn: [rx, ry, rz], about: mass.centre };
        let pull = field.at(hub.at).map(|b| hub.mass * b);
        let place = contact(&model, Wheel::FrontLeft);
        let arm = [0, 1, 2].map(|axis| hub.at[axis] - place[axis]);
        let lever = cross(arm, pull);
        let acting: [f64; 6] = std::array::from_fn(|row| match row {
            0..3 => force[row] + pull[row],
            _ => lever[row - 3] - hub.inertia[row - 3] * field.turn[row - 3],
        });
        let Suspension::Linked(links) = &model.vehicle().expect("a vehicle").corner(Wheel::FrontLeft).suspension else {
            panic!("linked")
        };
        let wanted = Upright::of(Wheel::FrontLeft, place, links)?.link_forces(&acting);
        for (found, wanted) in case.derivation.link_forces.iter().zip(wanted) {
            let (found, wanted) = (found.axial.expect("two-force"), wanted.axial.expect("two-force"));
            prop_assert!((found - wanted).abs() < 1e-9 * (1.0 + size(&case, &model)), "{found} for {wanted}");
        }
    }

    #[test]
    fn cases_add_up(force in prop::array::uniform3(-5e3..5e3), moment in prop::array::uniform3(-2e3..2e3),
                    line in prop::array::uniform3(-400.0..400.0), times in -3.0..3.0) {
        let model = linked_buggy().model();
        let one = {
            let mut case = builder(&model, Nature::Notional);
            act(&mut case, force, moment, line);
            case.finish()?
        };
        let other = {
            let mut case = builder(&model, Nature::Physical);
            case.wheel_force(Wheel::FrontRight, line)?;
            case.accelerate([1.0, 0.5, 0.0])?;
            case.finish()?
        };
        let mut sum = builder(&model, Nature::Physical);
        sum.add_case(&one, times)?;
        sum.add_case(&other, 2.0)?;
        let sum = sum.finish()?;
        prop_assert!(sum.free);
        let mass = MassModel::of(&model);
        let left = resultant_about(&sum, &model, mass.centre);
        prop_assert!(left.iter().all(|value| value.abs() < 1e-11 * size(&sum, &model)), "{left:?}");
        for (place, link) in sum.derivation.link_forces.iter().enumerate() {
            let of = |case: &LoadCase| case.derivation.link_forces[place].axial.expect("two-force");
            let wanted = times * of(&one) + 2.0 * of(&other);
            prop_assert!((link.axial.expect("two-force") - wanted).abs() < 1e-9 * (1.0 + size(&sum, &model)));
        }
        let of = |case: &LoadCase| case.derivation.acceleration.expect("balanced");
        for axis in 0..6 {
            let wanted = times * of(&one)[axis] + 2.0 * of(&other)[axis];
            prop_assert!((of(&sum)[axis] - wanted).abs() < 1e-9 * (1.0 + wanted.abs()));
        }
        let remarked = sum.derivation.remarks.iter().any(|remark| remark.text.contains("is notional"));
        prop_assert!(remarked);
    }
}

#[test]
fn unit_inertia_weighs_what_the_masses_say() {
    let model = linked_buggy().model();
    let unit = unit_inertia(&model).expect("mass");
    let mass = MassModel::of(&model);
    assert_eq!((unit.about, unit.mass, unit.inertia), (mass.centre, mass.total, mass.inertia));
    for (axis, loads) in unit.loads.iter().enumerate() {
        let mut case = LoadCase::new("unit", Nature::Notional, Vec::new());
        case.joint_loads.clone_from(&loads.joint_loads);
        case.body_loads.clone_from(&loads.body_loads);
        case.tube_loads.clone_from(&loads.tube_loads);
        let found = resultant_about(&case, &model, mass.centre);
        let wanted: [f64; 6] = std::array::from_fn(|row| match (row, axis) {
            (0..3, 0..3) if row == axis => -mass.total,
            (3.., 3..) => -mass.inertia[row - 3][axis - 3],
            _ => 0.0,
        });
        for (found, wanted) in found.iter().zip(wanted) {
            assert!((found - wanted).abs() < 1e-11 * mass.total, "{axis}: {found} for {wanted}");
        }
    }
    // The sum of pieces is the total: tubes, the floor, what is carried.
    let sum: f64 = pieces(&model).map(|piece| piece.mass).sum();
    assert!((sum - mass.total).abs() < 1e-12 * sum);
    let kinds = [MassKind::Tubes, MassKind::Panel, MassKind::Carried].map(|kind| mass.of_kind(kind));
    assert!((kinds[2] - 214.0).abs() < 1e-12);
    // The floor: a trapezium of 840 and 800 mm over 1800 mm, 0.8 mm of steel.
    assert!((kinds[1] - 0.82 * 1.8 * 0.8e-3 * 7850.0).abs() < 1e-12, "{}", kinds[1]);
}

#[test]
fn a_balanced_case_says_so_and_has_no_acceleration() {
    let model = linked_buggy().model();
    let mut case = builder(&model, Nature::Physical);
    let loads = case.wheel_loads(&Ride::REST).expect("a vehicle");
    for wheel in Wheel::ALL {
        case.wheel_force(wheel, [0.0, 0.0, loads[wheel as usize]]).expect("finite");
    }
    case.gravity(1.0).expect("mass");
    assert_eq!(case.balance(), Ok([0.0; 6]));
    let case = case.finish().expect("sound");
    assert!(case.free);
    assert_eq!(case.derivation.acceleration, Some([0.0; 6]));
    assert!(case.derivation.steps.iter().any(|step| step.text.contains("balanced already")));
    let last = case.derivation.steps.last().expect("steps");
    assert_eq!((last.value, last.unit.as_str()), (Some(0.0), "rad/s²"));
}

#[test]
fn plain_cases_of_a_free_vehicle_are_balanced() {
    let folder = linked_buggy().and("model.toml", "[options]\nself_weight = true\n").with(
        "loads.csv",
        "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm,x_mm,y_mm,z_mm\n\
             tug,body: rear module,500,0,0,0,0,0,-200,0,100\ntug,FL,0,0,300,0,0,0,,,\nrest,FL,0,0,0,0,0,1e-9,,,\n",
    );
    let model = folder.model();
    let cases = derive_plain(&model).expect("mass");
    let mass = MassModel::of(&model);
    for case in &cases.0 {
        assert!(case.free && case.nature == Nature::Plain);
        let left = resultant_about(case, &model, mass.centre);
        assert!(left.iter().all(|value| value.abs() < 1e-12 * size(case, &model)), "{left:?}");
    }
    let acceleration = cases.0[0].derivation.acceleration.expect("balanced");
    let close = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-12 * 10.0, "{found} for {wanted}");
    close(acceleration[0], 500.0 / mass.total);
    close(acceleration[2], 300.0 / mass.total - STANDARD_GRAVITY);
    // Written loads come first: the force on the body at its point, reduced to the body's reference point.
    let first = cases.0[0].body_loads[0].load.0;
    close(first[0], 500.0);
    close(first[4], 500.0 * (0.1 - model.bodies()[cases.0[0].body_loads[0].body].at[2]));
    assert_eq!(cases.0[0].derivation.link_forces.len(), 12);
    // The account of the case names both, the body's force already at its reference point.
    let placed = &cases.0[0].derivation.placed;
    assert_eq!(placed.iter().map(|one| one.on.as_str()).collect::<Vec<_>>(), ["joint FL", "body rear module"]);
    assert_eq!(placed[1].load, first);
    // 300 N carry a part of the first case's weight; nothing carries the second's.
    let falls = |case: &LoadCase| case.derivation.remarks.iter().any(|remark| remark.text.contains("falls freely"));
    assert_eq!([falls(&cases.0[0]), falls(&cases.0[1])], [false, true]);
}

#[test]
fn places_are_found_by_role_and_group() {
    use strutwork_loads::build::{groups, places};
    use strutwork_model::model::Role;
    let model = linked_buggy().model();
    let names = |role, group| places(&model, role, group).map(|place| place.name.as_str()).collect::<Vec<_>>();
    assert_eq!(names(Some(Role::LapBelt), Some("driver")), ["belt inner", "belt outer"]);
    assert_eq!(names(Some(Role::TowingEye), None), ["eye"]);
    assert_eq!(names(None, Some("")), ["eye", "jack"]);
    assert_eq!(groups(&model, Role::LapBelt), ["driver"]);
    let mut case = builder(&model, Nature::Ultimate);
    case.hold(case.joint("RL").expect("there"), &strutwork_model::Dof::ALL);
    assert_eq!(case.place_force("belt iner", [1.0; 3], [0.0; 3]).map_err(|error| error.code().0), Err("L006"));
    case.place_force("belt inner", [13_500.0, 0.0, 0.0], [0.0; 3]).expect("there");
    case.place_force("jack", [0.0, 0.0, 900.0], [5.0, 0.0, 0.0]).expect("there");
    let case = case.finish().expect("sound");
    let mut wanted = at([0.5, 0.1, 0.03], [13_500.0, 0.0, 0.0]);
    for (sum, part) in wanted.iter_mut().zip(at([0.05, 0.3, -0.05], [0.0, 0.0, 900.0])) {
        *sum += part;
    }
    wanted[3] += 5.0;
    assert_near(case.resultant(&model), wanted, 1e5);
}

#[test]
fn errors_of_sums_and_of_the_end() {
    let model = linked_buggy().model();
    let free = {
        let mut case = builder(&model, Nature::Physical);
        case.gravity(1.0).expect("mass");
        case.finish().expect("sound")
    };
    let code = |result: Result<(), strutwork_loads::LoadError>| result.map_err(|error| error.code().0);
    let mut case = builder(&model, Nature::Physical);
    case.hold(case.joint("RL").expect("there"), &strutwork_model::Dof::ALL);
    let fault = case.add_case(&free, 1.0).expect_err("held here, free there");
    assert_eq!(fault.code().0, "L019");
    assert!(fault.to_string().contains("it is free") && fault.to_string().contains("is held"), "{fault}");
    let held = case.finish().expect("sound");
    let mut case = builder(&model, Nature::Physical);
    case.add_case(&free, 1.0).expect("nothing held yet");
    assert_eq!(code(case.add_case(&held, 1.0)), Err("L019"));
    assert_eq!(code(case.add_case(&free, f64::NAN)), Err("L005"));
    case.wheel_force(Wheel::FrontLeft, [0.0, 0.0, 100.0]).expect("finite");
    assert_eq!(case.clone().finish().map_err(|error| error.code().0), Err("L018"));
    case.balance().expect("mass");
    assert!(case.finish().expect("sound").free);

    let mut foreign = held;
    foreign.joint_loads.push(strutwork_model::model::JointLoad {
        joint: strutwork_model::JointId::new(99),
        load: strutwork_model::DofMap([0.0; 6]),
    });
    assert_eq!(code(builder(&model, Nature::Physical).add_case(&foreign, 1.0)), Err("L020"));

    let plain = buggy().model();
    let mut case = builder(&plain, Nature::Physical);
    assert_eq!(code(case.wheel_centre_force(Wheel::RearLeft, [1.0; 3])), Err("L017"));
    let twisting = Ride { frame_stiffness: Some(3e5), ..Ride::steady([0.0, 9.0]) };
    assert_eq!(code(case.wheel_loads(&twisting).map(|_| ())), Err("L021"));
    // Brakes and drive without shafts react on the corner: no radius needed.
    assert_eq!(code(case.brake_force(Wheel::RearLeft, -100.0)), Ok(()));
    assert_eq!(code(case.drive_force(Wheel::RearLeft, 100.0)), Ok(()));
}

#[test]
fn a_links_fault_reaches_the_case() {
    let folder = linked_buggy();
    let text = String::from_utf8_lossy(folder.files().get("suspension.csv").expect("there"))
        .replace("front-left,track rod,FL,1910,550,-20,", "front-left,track rod,FL,1802.5,557.5,10,")
        .replace("front-left,spring,FLT,1805,540,-90,", "front-left,spring,FLT,1805,570,-110,");
    let model = folder.with("suspension.csv", text).model();
    let faults = check_suspension(&model).expect_err("the track rod meets the steering axis");
    assert_eq!(faults.len(), 1);
    let case = CaseBuilder::new(&model, "test", "", Nature::Physical);
    let fault = case.map(|_| ()).expect_err("no case on it");
    assert_eq!(fault, faults[0]);
    assert!(
        fault.to_string().starts_with("the front-left upright is not held by its links: it can turn about"),
        "{fault}"
    );
    assert!(fault.help().contains("pull past that axis"));
}
