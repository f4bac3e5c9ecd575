//! What bodies, links, places and weights become.

use approx::assert_relative_eq;
use strutwork_model::ids::Id as _;
use strutwork_model::model::{Bond, Carrier, LinkKind, Point, Role, Suspension, Wheel};
use strutwork_model::{BodyId, Dof, DofMap, Model, MountId};

use crate::folder::{change, model};
use crate::vehicle::{vehicle, with, without};

fn whole() -> Model {
    model(&vehicle()).value
}

fn mount(model: &Model, row: usize) -> &strutwork_model::model::Mount {
    &model.mounts()[MountId::new(row)]
}

const NM_PER_DEG: f64 = 57.295_779_513_082_32;

#[test]
fn bodies_come_in_the_order_of_their_names_with_the_mean_of_their_joints() {
    let model = whole();
    let names: Vec<&str> = model.bodies().iter().map(|body| body.name.as_str()).collect();
    assert_eq!(names, ["module", "drive unit"]);
    let module = &model.bodies()[model.body_named("module").expect("a body")];
    assert_eq!(module.at, [0.5, 0.0, 0.0]);
    assert_eq!(module.mounts, [MountId::new(0), MountId::new(1)]);
    let drive = &model.bodies()[BodyId::new(1)];
    assert_eq!((drive.at, drive.mounts.as_slice()), ([0.5, 0.0, 0.8], [MountId::new(2)].as_slice()));
}

#[test]
fn mounts_are_rigid_free_or_springs_and_their_rotations_follow_the_translations() {
    let model = whole();
    let first = mount(&model, 0);
    assert_eq!(first.bonds, DofMap([Bond::Rigid; 6]));
    assert_eq!((first.axis, first.note.as_str()), (Some([0.0, 1.0, 0.0]), "left, low"));
    let bolt = &model.bolts()[first.bolt.expect("a bolt")];
    let (size, class) = (bolt.size.expect("known"), bolt.class.expect("known"));
    assert_eq!((bolt.name.as_str(), size.name, class.name), ("M10", "M10", "8.8"));
    let second = mount(&model, 1);
    assert_eq!(second.bonds.0, [Bond::Rigid, Bond::Free, Bond::Rigid, Bond::Free, Bond::Free, Bond::Free]);
    assert_relative_eq!(second.axis.expect("an axis")[..], [0.0, 0.6, 0.8], max_relative = 1e-15);
    let third = mount(&model, 2);
    assert_eq!(third.bonds.0[..3], [Bond::Spring(900e3), Bond::Spring(450e3), Bond::Spring(1500e3)]);
    assert_eq!(third.bonds.0[3..5], [Bond::Free, Bond::Free]);
    let Bond::Spring(turning) = third.bonds[Dof::Rz] else { panic!("a spring") };
    assert_relative_eq!(turning, 100.0 * NM_PER_DEG, max_relative = 1e-15);
    assert_eq!((third.bolt, third.axis), (None, None));

    let rigid_but_hinged = model_of("module,A,,,,,M10", "module,A,,,,free,M10");
    let bonds = mount(&rigid_but_hinged, 0).bonds.0;
    assert_eq!(bonds, [Bond::Rigid, Bond::Rigid, Bond::Rigid, Bond::Rigid, Bond::Rigid, Bond::Free]);
}

fn model_of(from: &str, to: &str) -> Model {
    model(&with("bodies.csv", from, to)).value
}

#[test]
fn a_joint_may_be_rigid_to_one_body_and_sprung_to_another() {
    let model = model_of("drive unit,C", "drive unit,A");
    assert_eq!(mount(&model, 2).joint, mount(&model, 0).joint);
}

#[test]
fn a_body_may_be_all_that_reaches_a_joint_or_connects_two_parts() {
    let mut files = vehicle();
    change(&mut files, "joints.csv", "C,500,0,800", "C,500,0,800\nD,0,0,-400\nE,0,500,-400\nF,0,800,-400");
    change(&mut files, "tubes.csv", "CA,", "EF,E,F,rail,mild\nCA,");
    change(&mut files, "bodies.csv", "drive", "module,D,,,,,,,\nmodule,E,500,500,500,,,,\ndrive");
    let model = model(&files).value;
    assert_eq!(model.mounts().len(), 5);
}

#[test]
fn loads_on_bodies_are_moved_to_the_reference_point() {
    let model = whole();
    let [module, _] = [0, 1].map(BodyId::new);
    let brake = &model.plain_cases()[0];
    assert_eq!((brake.joint_loads.len(), brake.body_loads.len()), (1, 2));
    assert_eq!(brake.body_loads[0].body, module);
    assert_eq!(brake.body_loads[0].load, DofMap([0.0, 0.0, -500.0, 1.0, 2.0, 3.0]));
    // r = (0.1, 0.1, −0.2) m, r × F = (0.1·30 + 0.2·20, −0.2·10 − 0.1·30, 0.1·20 − 0.1·10) N·m.
    let expected = [10.0, 20.0, 30.0, 1.0 + 7.0, 2.0 - 5.0, 3.0 + 1.0];
    assert_relative_eq!(brake.body_loads[1].load.0[..], expected, max_relative = 1e-12);
}

#[test]
fn masses_sit_on_joints_bodies_or_uprights() {
    let model = whole();
    let [battery, motor, wheel] = model.masses() else { panic!("three masses") };
    assert!(matches!(&battery.carrier, Carrier::Joints(joints) if joints.len() == 2));
    assert_eq!((&motor.carrier, motor.inertia), (&Carrier::Body(BodyId::new(1)), [4.0, 0.0, 3.5]));
    assert_eq!((&wheel.carrier, wheel.inertia), (&Carrier::Upright(Wheel::FrontLeft), [0.0; 3]));
}

#[test]
fn a_linked_corner_has_its_links_and_twists_at_its_spring() {
    let model = whole();
    let car = model.vehicle().expect("a vehicle");
    let corner = car.corner(Wheel::FrontLeft);
    let Suspension::Linked(links) = &corner.suspension else { panic!("linked") };
    let names: Vec<&str> = links.iter().map(|link| link.name.as_str()).collect();
    assert_eq!(names, ["lower front", "lower rear", "upper front", "upper rear", "track rod", "spring"]);
    let [a, b, c] = ["A", "B", "C"].map(|name| model.joint_named(name).expect("a joint"));
    assert_relative_eq!(links[0].chassis[..], [1.3, 0.3, 0.1], max_relative = 1e-15);
    assert_relative_eq!(links[0].upright[..], [1.2, 0.65, 0.15], max_relative = 1e-15);
    assert_eq!(links[1].carrier, Carrier::Body(BodyId::new(0)));
    assert_eq!(links[2].carrier, Carrier::Joints(vec![a, b]));
    assert_eq!((links[4].chassis, links[4].kind), ([0.0; 3], LinkKind::Link));
    assert_eq!((links[5].chassis, links[5].kind), ([0.5, 0.0, 0.8], LinkKind::Spring));
    assert_eq!(corner.spring, Point::Joint(c));
    assert_relative_eq!(corner.contact[..], [1.2, 0.7, 0.0], max_relative = 1e-15);

    let on_body = car.corner(Wheel::RearLeft);
    assert_eq!(on_body.suspension, Suspension::Rigid(Carrier::Body(BodyId::new(0))));
    assert_eq!(on_body.spring, Point::OnBody { body: BodyId::new(0), at: on_body.contact });
}

#[test]
fn a_spring_on_a_body_and_a_corner_without_its_table() {
    let mut files =
        with("suspension.csv", "spring,C,1200,600,160,,,,spring", "spring,body: module,1200,600,160,1,2,3,strut");
    change(&mut files, "suspension.csv", "front-left,upper front,A B,1190,620,400,1300,320,350,\n", "");
    change(&mut files, "suspension.csv", "front-left,upper rear,A,1190,620,400,1000,320,350,\n", "");
    change(&mut files, "model.toml", "[vehicle.corners.front-left]\n", "");
    let model = model(&files).value;
    let spring = &model.vehicle().expect("a vehicle").corner(Wheel::FrontLeft).spring;
    let Point::OnBody { body, at } = *spring else { panic!("on a body") };
    assert_eq!(body, BodyId::new(0));
    assert_relative_eq!(at[..], [1e-3, 2e-3, 3e-3], max_relative = 1e-15);
}

#[test]
fn a_trailing_arm_has_a_pivot_a_guide_and_a_spring() {
    let text = "corner,link,joints,upright_x_mm,upright_y_mm,upright_z_mm,chassis_x_mm,chassis_y_mm,chassis_z_mm,kind
rear-right,outer,B,1000,0,0,,,,pivot
rear-right,inner,A,1000,0,0,,,,guide
rear-right,damper,C,-1200,-600,200,,,,spring\n";
    let mut files = vehicle();
    change(&mut files, "model.toml", "rear-right]\njoints = [\"C\"]\n", "rear-right]\nspring_joint = \"B\"\n");
    files.0.retain(|file| file.name != "suspension.csv");
    files.0.push(strutwork_model::InputFile::new("suspension.csv", text));
    change(&mut files, "masses.csv", "upright: front-left", "upright: rear-right");
    change(&mut files, "model.toml", "front-left]\n", "front-left]\njoints = [\"A\"]\n");
    let model = model(&files).value;
    let corner = model.vehicle().expect("a vehicle").corner(Wheel::RearRight);
    let Suspension::Linked(links) = &corner.suspension else { panic!("linked") };
    assert_eq!(links.iter().map(|link| link.kind.unknowns()).sum::<usize>(), 6);
    assert_eq!(corner.spring, Point::Joint(model.joint_named("B").expect("a joint")));
}

#[test]
fn axles_places_and_weights() {
    let model = whole();
    let car = model.vehicle().expect("a vehicle");
    let [front, rear] = &car.axles;
    assert_eq!((front.wheel_radius, front.inboard_brakes, rear.inboard_brakes), (Some(0.3), true, false));
    assert!(matches!(&front.shaft_reaction, Some(Carrier::Joints(joints)) if joints.len() == 2));
    assert_relative_eq!(front.roll_stiffness.expect("given"), 330.0 * NM_PER_DEG, max_relative = 1e-15);
    assert_eq!((rear.wheel_radius, &rear.shaft_reaction, car.front_roll_share), (None, &None, 0.55));
    let [belt, eye] = model.places() else { panic!("two places") };
    assert_eq!(
        (belt.role, belt.group.as_str(), belt.at, belt.mass),
        (Role::LapBelt, "driver", [0.5, 0.0, 0.0], Some(15.0))
    );
    assert_eq!((eye.role, eye.at, eye.mass), (Role::TowingEye, [1.5, 0.0, 0.2], None));
    assert_eq!(eye.carrier, Carrier::Body(BodyId::new(0)));
    let weighed = model.weighed();
    assert_eq!((weighed.frame, weighed.vehicle), (Some(20.5), None));
    assert_eq!(weighed.corners, [None, None, Some(60.0), None]);
}

#[test]
fn the_roll_share_follows_from_both_axles() {
    let model = model(&with("model.toml", "front_roll_share = 0.55\n", "")).value;
    assert_relative_eq!(model.vehicle().expect("a vehicle").front_roll_share, 0.55, max_relative = 1e-14);
}

#[test]
fn inertia_balances_a_vehicle_that_nothing_holds() {
    assert!(!whole().options().inertia_relief);
    let mut free = without("supports.csv");
    free.0.retain(|file| file.name != "settlements.csv");
    assert!(model(&free).value.options().inertia_relief);
    change(&mut free, "model.toml", "[options]", "[options]\ninertia_relief = false");
    let warned = model(&free);
    assert!(!warned.value.options().inertia_relief);
    assert_eq!(warned.warnings.len(), 1);
    let held = model(&with("model.toml", "[options]", "[options]\ninertia_relief = true")).value;
    assert!(held.options().inertia_relief);
}
