//! Mounts of every kind, tube ends, and what is read off a body.

use strutwork_loads::case::Measure;
use strutwork_loads::derive_plain;
use strutwork_model::model::Point;
use strutwork_model::{Dof, Model};
use strutwork_solve::explain::explain;
use strutwork_solve::results::MeasureResult;
use strutwork_solve::{Results, solve_cases};
use strutwork_testkit::{Folder, assert_close, assert_close_by, solve};

const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";

fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap_or_else(|error| panic!("{:?}", explain(&model, &error)));
    (model, results)
}

/// Two cantilevers from one wall, their tips on one body.
fn fork(bodies: &str) -> Folder {
    Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nw1,0,-300,0\nw2,0,300,0\nt1,1000,-300,0\nt2,1000,300,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nleft,w2,t2,rail,mild\nright,w1,t1,rail,mild\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nw1,fixed,fixed,fixed,fixed,fixed,fixed\nw2,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with("bodies.csv", bodies)
        .with("loads.csv", format!("{LOADS}down,body: plate,0,0,-200,0,0,0\n"))
}

fn rigidity(model: &Model) -> f64 {
    let tube = model.tubes().iter().next().unwrap();
    model.materials()[tube.material].youngs * model.sections()[tube.section].iy
}

/// Rigid bolts hold the tips' slopes: they stay level only where the body stays level, and here the body pitches with them.
/// Pins (rigid translations, free rotations) let each tip turn by itself; the body's pitch is then its own, held by a third.
#[test]
fn rigid_bolts_and_pins_differ_by_the_slope() {
    let (model, results) = solved(&fork("body,joint\nplate,t1\nplate,t2\n"));
    let ei = rigidity(&model);
    let body = results.cases[0].bodies.iter().next().unwrap();
    // Each tip carries half: sag F L³/6EI, slope F L²/4EI. The body turns with the tips.
    assert_close("sag", body[2], -200.0 / (6.0 * ei), 1e-12);
    assert_close("pitch", body[4], 200.0 / (4.0 * ei), 1e-12);

    // A stop on the body that takes its pitch: ky at a third joint far ahead, itself fixed.
    let pins = "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krx_nm_per_deg,kry_nm_per_deg,krz_nm_per_deg\n\
                plate,t1,rigid,rigid,rigid,free,free,free\nplate,t2,,,,free,free,free\nplate,stop,,,,,,\n";
    let folder =
        fork(pins).and("joints.csv", "stop,2000,0,0\n").and("supports.csv", "stop,fixed,fixed,fixed,free,fixed,free\n");
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    // The body's reference point is the mean of three joints; the stop holds it level, sag nil: it may only roll and yaw.
    let body = case.bodies.iter().next().unwrap();
    assert_close_by("level", body[4], 0.0, 1e-18);
    assert_close_by("held", body[2], 0.0, 1e-18);
    // The load goes straight into the stop: the reaction there is the body's, force and moment about the stop.
    let stop = model.joint_named("stop").unwrap();
    let reaction = case.reactions.iter().find(|(joint, _)| *joint == stop).unwrap().1;
    let at = model.bodies().iter().next().unwrap().at;
    assert_close("force", reaction[2], 200.0, 1e-9);
    // Load at the reference point, 2 − x behind the stop: M_y of the reaction about the stop is (2 − x)·200.
    assert_close("moment", reaction[4], (2.0 - at[0]) * 200.0, 1e-9);
    assert!(case.trust.imbalance < 1e-12);
    assert!(case.mounts.iter().take(2).all(|mount| mount.on_frame[3..] == [0.0; 3]), "pins carry no moment");
}

/// Pins on both tips and nothing else: the body swings about the line of its pins and is named.
#[test]
fn a_body_on_two_pins_swings() {
    let pins = "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krx_nm_per_deg,kry_nm_per_deg,krz_nm_per_deg\n\
                plate,t1,,,,free,free,free\nplate,t2,,,,free,free,free\n";
    let model = fork(pins).model();
    let words: Vec<String> = explain(&model, &solve(&model).unwrap_err()).iter().map(ToString::to_string).collect();
    assert_eq!(words.len(), 1, "{words:?}");
    assert!(words[0].contains("body plate can turn about the y axis through (1000, 0, 0) mm"), "{words:?}");
    assert!(!words[0].contains("joint"), "{words:?}");
}

/// A joint bolted rigidly to one body and by a bush to another: forces in series.
#[test]
fn one_joint_between_two_bodies() {
    let bodies = "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krx_nm_per_deg,kry_nm_per_deg,krz_nm_per_deg\n\
                  plate,t1,,,,,,\nplate,t2,,,,,,\nengine,t1,150,150,150,80,80,80\n";
    let (model, results) =
        solved(&fork(bodies).with("loads.csv", format!("{LOADS}hang,body: engine,30,0,-200,0,0,0\n")));
    let case = &results.cases[0];
    let engine = case.bodies[model.body_named("engine").unwrap()];
    let joint = case.displacements[model.joint_named("t1").unwrap()];
    assert_close("bush", engine[2] - joint[2], -200.0 / 150e3, 1e-9);
    assert_close("bush along", engine[0] - joint[0], 30.0 / 150e3, 1e-9);
    let on_frame: Vec<[f64; 6]> = case.mounts.iter().map(|mount| mount.on_frame).collect();
    assert_close("engine on the frame", on_frame[2][2], -200.0, 1e-12);
    // What the plate does at t1 and t2 cancels: nothing acts on the plate itself.
    for (first, second) in on_frame[0].into_iter().zip(on_frame[1]).take(3) {
        assert_close_by("plate", first + second, 0.0, 1e-8);
    }
    assert!(case.trust.imbalance < 1e-12 && case.trust.residual < 1e-14, "{:?}", case.trust);
}

/// Joints that only a bush reaches keep rotations that nothing stiffens: left out, not refused, while nothing loads them.
#[test]
fn a_joint_on_a_bush_alone() {
    let bodies = "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm\nplate,t1,,,\nplate,t2,,,\nplate,lamp,50,50,50\n";
    let folder = fork(bodies)
        .and("joints.csv", "lamp,1200,0,100\n")
        .with("loads.csv", format!("{LOADS}hang,lamp,0,0,-10,0,0,0\n"));
    let (model, results) = solved(&folder);
    let lamp = model.joint_named("lamp").unwrap();
    let left: Vec<Dof> =
        results.systems[0].left_out.iter().filter(|left| left.joint == lamp).map(|left| left.dof).collect();
    assert_eq!(left, [Dof::Rx, Dof::Ry, Dof::Rz]);
    let mount = results.cases[0].mounts.iter().nth(2).unwrap();
    assert_close("holds the lamp", mount.on_frame[2], 10.0, 1e-9);
    let turned = folder.with("loads.csv", format!("{LOADS}turn,lamp,0,0,0,5,0,0\n")).model();
    let words: Vec<String> = explain(&turned, &solve(&turned).unwrap_err()).iter().map(ToString::to_string).collect();
    assert!(words[0].contains("joint lamp can turn about the x axis"), "{words:?}");
}

/// Twist read at places on a body, and at joints: the body's places move with it.
#[test]
fn twist_is_read_on_a_body() {
    let (model, _) = solved(&fork("body,joint\nplate,t1\nplate,t2\n"));
    let mut cases = derive_plain(&model).unwrap();
    let case = &mut cases.0[0];
    let body = model.body_named("plate").unwrap();
    case.body_loads[0].load.0 = [0.0, 0.0, 0.0, 40.0, 0.0, 0.0];
    let joint = |name: &str| Point::Joint(model.joint_named(name).unwrap());
    let (front, rear) = ([joint("t2"), joint("t1")], [joint("w2"), joint("w1")]);
    let far = [Point::OnBody { body, at: [1.4, 0.5, 0.2] }, Point::OnBody { body, at: [1.4, -0.5, 0.2] }];
    case.measures =
        vec![Measure::Twist { front, rear, couple: 40.0 }, Measure::Twist { front: far, rear, couple: 40.0 }];
    let results = solve_cases(&model, &cases).unwrap();
    let twists: Vec<f64> = results.cases[0]
        .measures
        .iter()
        .map(|measure| match measure {
            MeasureResult::Twist { twist, .. } => *twist,
            MeasureResult::Movement { .. } => f64::NAN,
        })
        .collect();
    // A rigid body turns as one: what its joints say, its corners say.
    assert_close("on the body", twists[1], twists[0], 1e-12);
    // Torsion and bending of two arms of 1 m, 0.3 m off the axis, their slopes held by the body: 40 = 2 (GJ/L + 0.3²·12EI/L³) θ.
    let tube = model.tubes().iter().next().unwrap();
    let (section, material) = (&model.sections()[tube.section], &model.materials()[tube.material]);
    let stiffness = 2.0 * (material.shear * section.j + 0.09 * 12.0 * rigidity(&model));
    assert_close("at the joints", twists[0], (40.0 / stiffness).atan(), 1e-12);
}

/// A rigid arm from joint to tube end, and a spring there: PL³/3EI and P L/k at the tip. Source: cantilever formulas.
#[test]
fn offsets_and_end_springs() {
    let folder = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,1000,0,0\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material,offset_from_x_mm,offset_from_y_mm,offset_from_z_mm,spring_from_ry_nm_per_deg\n\
             arm,wall,tip,rail,mild,100,0,0,50\n",
        )
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", format!("{LOADS}down,tip,0,0,-100,0,0,0\n"));
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    let (l, k) = (0.9_f64, 50.0 * 180.0 / std::f64::consts::PI);
    let sag = 100.0 * l.powi(3) / (3.0 * rigidity(&model)) + 100.0 * l * l / k;
    assert_close("tip", case.displacements[model.joint_named("tip").unwrap()][2], -sag, 1e-10);
    // The section force where the tube starts, and the wall's moment at the joint.
    let stations = &case.tubes.iter().next().unwrap().stations;
    assert_close("in the tube", stations[0].forces.my.abs(), 90.0, 1e-9);
    assert_close("at the wall", case.reactions[0].1[4].abs(), 100.0, 1e-9);
    assert!(case.trust.imbalance < 1e-12);
}
