//! Bodies against hand calculations: rigid arms, bolt groups, bushes, supports at bolted joints.

use strutwork_model::Model;
use strutwork_solve::error::Motion;
use strutwork_solve::explain::explain;
use strutwork_solve::{Results, SolveError};
use strutwork_testkit::{Folder, assert_close, assert_close_by, solve};

const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm,x_mm,y_mm,z_mm\n";

fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap_or_else(|error| panic!("{:?}", explain(&model, &error)));
    (model, results)
}

fn told(folder: &Folder) -> (Vec<Motion>, Vec<String>) {
    let model = folder.model();
    let error = solve(&model).map(|_| "solved").unwrap_err();
    let words = explain(&model, &error).iter().map(ToString::to_string).collect();
    match error {
        SolveError::Mechanism { motions, .. } => (motions, words),
        other => panic!("{other:?}"),
    }
}

/// A cantilever with a body at its tip. Source: cantilever formulas and the movement of a rigid body; the numbers are
/// PL/EA, PL³/3EI + ML²/2EI, TL/GJ … worked out for these values.
fn armed() -> Folder {
    Folder::default()
        .with(
            "model.toml",
            "title = \"arm\"\n[options]\nself_weight = false\n\
             [sections.s]\nshape = \"properties\"\narea_mm2 = 540.8230016469244\niy_mm4 = 134395.56709132508\n\
             iz_mm4 = 253788.3077171564\nj_mm4 = 292836.1519369186\n\
             [materials.m]\ne_mpa = 210000.0\ng_mpa = 80769.23076923077\n",
        )
        .with("tubes.csv", "tube,from,to,section,material\nbeam,wall,tip,s,m\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
}

const TIP: [f64; 6] = [
    7.748332037866868e-6,
    -0.005448860726863424,
    0.013719273363805299,
    0.0055808878223402025,
    -0.020656860462547753,
    -0.008771840185291497,
];
const ARM: [f64; 3] = [0.004266394424615517, -0.006645139981687703, 0.0192458674118999];

#[test]
fn a_load_on_a_rigid_arm() {
    let folder = armed()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,1100,0,0\n")
        .with("bodies.csv", "body,joint,axis\narm,tip,x\n")
        .with("loads.csv", format!("{LOADS}pull,body: arm,800,-300,600,0,0,0,1300,250,-100\n"));
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    let tip = case.displacements[model.joint_named("tip").unwrap()];
    let body = case.bodies.iter().next().unwrap();
    for dof in 0..6 {
        assert_close("tip", tip[dof], TIP[dof], 1e-12);
        assert_close("body", body[dof], TIP[dof], 1e-12);
    }
    // The bolt carries the load and its moment about the tip: r × F with r = (0.2, 0.25, −0.1) m.
    let mount = case.mounts.iter().next().unwrap();
    for (got, expected) in mount.on_frame.into_iter().zip([800.0, -300.0, 600.0, 120.0, -200.0, -260.0]) {
        assert_close("bolt", got, expected, 1e-9);
    }
    assert_close("along the bolt", mount.axial.unwrap(), 800.0, 1e-9);
    assert_close("across the bolt", mount.shear.unwrap(), 300.0_f64.hypot(600.0), 1e-9);
    assert!(case.trust.imbalance < 1e-12, "{:?}", case.trust);
}

#[test]
fn a_load_at_a_joint_that_only_a_body_reaches() {
    let folder = armed()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,1100,0,0\nend,1300,250,-100\n")
        .with("bodies.csv", "body,joint\narm,tip\narm,end\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,end,800,-300,600,0,0,0\n");
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    for (dof, expected) in TIP.into_iter().enumerate() {
        assert_close("tip", case.displacements[model.joint_named("tip").unwrap()][dof], expected, 1e-12);
    }
    for (dof, expected) in ARM.into_iter().enumerate() {
        assert_close("end", case.displacements[model.joint_named("end").unwrap()][dof], expected, 1e-12);
    }
    // Nothing but the load is at the end: the body takes it there, and hands it on at the tip.
    let mounts: Vec<[f64; 6]> = case.mounts.iter().map(|mount| mount.on_frame).collect();
    assert_close("at the end", mounts[1][2], -600.0, 1e-9);
    assert_close("at the tip", mounts[0][2], 600.0, 1e-9);
    assert!(case.mounts.iter().all(|mount| mount.axial.is_none() && mount.shear.is_none()));
}

/// Joints held fixed and tubes between them: ground for a body on bushes.
fn ground(joints: &[(&str, [f64; 3])]) -> Folder {
    let mut folder = Folder::steel();
    let (mut rows, mut supports, mut tubes) = (
        String::from("joint,x_mm,y_mm,z_mm\n"),
        String::from("joint,ux,uy,uz,rx,ry,rz\n"),
        String::from("tube,from,to,section,material\n"),
    );
    for (place, (name, [x, y, z])) in joints.iter().enumerate() {
        rows += &format!("{name},{x},{y},{z}\n");
        supports += &format!("{name},fixed,fixed,fixed,fixed,fixed,fixed\n");
        if place > 0 {
            tubes += &format!("t{place},{},{name},rail,mild\n", joints[place - 1].0);
        }
    }
    folder = folder.with("joints.csv", rows).with("supports.csv", supports);
    folder.with("tubes.csv", tubes)
}

/// Four equal bolts in one plane, an eccentric load in it: R = F/n + M r/Σr² across the bolts.
///
/// Source: elastic centre of a bolt group (from memory: any steel design text).
#[test]
fn a_bolt_group_about_its_elastic_centre() {
    let corners = [[60.0, 40.0], [-60.0, 40.0], [-60.0, -40.0], [60.0, -40.0]];
    let places: Vec<(String, [f64; 3])> =
        corners.iter().enumerate().map(|(i, [x, z])| (format!("b{i}"), [200.0 + x, 0.0, 100.0 + z])).collect();
    let joints: Vec<(&str, [f64; 3])> = places.iter().map(|(name, at)| (name.as_str(), *at)).collect();
    let bolts: String = (0..4).map(|i| format!("bracket,b{i},900,900,900,y\n")).collect();
    let folder = ground(&joints)
        .with("bodies.csv", format!("body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,axis\n{bolts}"))
        // 5 kN down at 300 mm from the middle of the group.
        .with("loads.csv", format!("{LOADS}eccentric,body: bracket,0,0,-5000,0,0,0,500,0,100\n"));
    let (_, results) = solved(&folder);
    // About y: (0.3, 0, 0) × (0, 0, −5000) = +1500 N·m; θ × r = θ (z, 0, −x).
    let sum: f64 = corners.iter().map(|[x, z]| (x * x + z * z) * 1e-6).sum();
    for ([x, z], mount) in corners.iter().zip(&results.cases[0].mounts) {
        let expected = [1500.0 / sum * z * 1e-3, 0.0, -5000.0 / 4.0 - 1500.0 / sum * x * 1e-3];
        for (got, expected) in mount.on_frame.into_iter().zip(expected) {
            assert_close_by("bolt", got, expected, 1e-8);
        }
        assert_close_by("along", mount.axial.unwrap(), 0.0, 1e-8);
        assert_close("across", mount.shear.unwrap(), expected[0].hypot(expected[2]), 1e-12);
        assert_eq!(mount.moment, 0.0);
    }
    let (applied, reacted) = (results.cases[0].trust.applied, results.cases[0].trust.reacted);
    assert_close("down", reacted[2], -applied[2], 1e-12);
}

/// Three bushes of different stiffness: u = F/Σk at the centre of stiffness, and a turn where the load is off it.
#[test]
fn bushes_of_different_stiffness_by_hand() {
    let joints = [("a", [0.0, 0.0, 0.0]), ("b", [600.0, 0.0, 0.0]), ("c", [0.0, 400.0, 0.0])];
    let folder = ground(&joints)
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm\nunit,a,500,500,100\nunit,b,500,500,200\nunit,c,500,500,300\n",
        )
        .with("loads.csv", format!("{LOADS}lift,body: unit,0,0,700,0,0,0,150,100,0\n"));
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    // Statics alone: three supports along z share a force at (150, 100) by its position in the triangle.
    let expected = [700.0 * (1.0 - 150.0 / 600.0 - 100.0 / 400.0), 700.0 * 150.0 / 600.0, 700.0 * 100.0 / 400.0];
    let springs = [100e3, 200e3, 300e3];
    let body = case.bodies.iter().next().unwrap();
    let at = model.bodies().iter().next().unwrap().at;
    for (place, ((_, [x, y, _]), mount)) in joints.iter().zip(&case.mounts).enumerate() {
        assert_close("bush", mount.on_frame[2], expected[place], 1e-12);
        let lifted = body[2] + body[3] * (y * 1e-3 - at[1]) - body[4] * (x * 1e-3 - at[0]);
        assert_close("stretch", lifted, expected[place] / springs[place], 1e-12);
        assert_close("reaction", case.reactions[place].1[2], -expected[place], 1e-12);
    }
}

/// A body on a square of joints that are held along z, all four where three would do, and by one along the rest.
#[test]
fn supports_at_bolted_joints_hold_the_body() {
    let joints = "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,800,0,0\nc,800,600,0\nd,0,600,0\nmast,300,200,500\n";
    let tubes = "tube,from,to,section,material\nleg,a,mast,rail,mild\nback,c,mast,rail,mild\n";
    let folder = Folder::steel()
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with("bodies.csv", "body,joint\nbase,a\nbase,b\nbase,c\nbase,d\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\ntop,mast,120,50,-1000,0,0,0\n");
    let three = "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,free,free,free\nb,free,fixed,fixed,free,free,free\nd,free,free,fixed,free,free,free\n";
    let (model, results) = solved(&folder.clone().with("supports.csv", three));
    let case = &results.cases[0];
    let named = |name: &str| model.joint_named(name).unwrap();
    for name in ["a", "b", "c", "d"] {
        assert_eq!(case.displacements[named(name)], [0.0; 6], "held as a rigid piece");
    }
    // Moments about the sides through a: fz at d = 0.2·1000/0.6 − 0.5·50/0.6, at b = −(−0.3·1000 …) by hand.
    let z = |joint: &str| case.reactions.iter().find(|(id, _)| *id == named(joint)).unwrap().1[2];
    assert_close("at d", z("d"), (1000.0 * 0.2 + 50.0 * 0.5) / 0.6, 1e-12);
    assert_close("at b", z("b"), (1000.0 * 0.3 + 120.0 * 0.5) / 0.8, 1e-12);
    assert_close("in all", z("a") + z("b") + z("d"), 1000.0, 1e-12);
    assert!(results.systems[0].over_held.is_empty());
    // Every mount: the tubes' force less the reaction; their sum on the body is nil.
    let mut sum = [0.0; 3];
    for mount in &case.mounts {
        sum.iter_mut().zip(mount.on_frame).for_each(|(sum, force)| *sum += force);
    }
    assert!(sum.iter().all(|force| force.abs() < 1e-9), "{sum:?}");
    assert!(case.trust.imbalance < 1e-12);

    // One support more than are needed: reactions of least squares, and the run says so.
    let (_, results) = solved(&folder.with("supports.csv", format!("{three}c,free,free,fixed,free,free,free\n")));
    let case = &results.cases[0];
    assert_eq!(results.systems[0].over_held.len(), 1);
    assert!(case.trust.imbalance < 1e-12);
    // The least squares of four corners of a rectangle have no part in the pattern (+, −, +, −).
    let z = |joint: &str| case.reactions.iter().find(|(id, _)| *id == named(joint)).unwrap().1[2];
    assert_close_by("least squares", z("a") - z("b") + z("c") - z("d"), 0.0, 1e-9);
}

#[test]
fn bolted_joints_settle_as_one_piece_or_not_at_all() {
    let folder = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,800,0,0\nc,800,600,0\nd,0,600,0\nmast,300,200,500\n")
        .with("tubes.csv", "tube,from,to,section,material\nleg,a,mast,rail,mild\nback,c,mast,rail,mild\n")
        .with("bodies.csv", "body,joint\nbase,a\nbase,b\nbase,c\nbase,d\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,free,free,free\nb,free,fixed,fixed,free,free,free\n\
             c,free,free,fixed,free,free,free\nd,free,free,fixed,free,free,free\n",
        );
    let header = "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\n";
    // A turn about y through a: b and c sink by 4 mm, the mast moves with them and nothing is strained.
    let sunk = format!("{header}sunk,b,,,-4,,,\nsunk,c,,,-4,,,\n");
    let (model, results) = solved(&folder.clone().with("settlements.csv", sunk));
    let case = &results.cases[0];
    let mast = case.displacements[model.joint_named("mast").unwrap()];
    let turn = 4e-3 / 0.8;
    for (got, expected) in mast.into_iter().zip([turn * 0.5, 0.0, -turn * 0.3, 0.0, turn, 0.0]) {
        assert_close_by("mast", got, expected, 1e-15);
    }
    assert!(case.tubes.iter().flat_map(|tube| &tube.stations).all(|station| station.forces.n.abs() < 1e-6));

    let model = folder.with("settlements.csv", format!("{header}bent,c,,,-4,,,\n")).model();
    let error = solve(&model).unwrap_err();
    let told = explain(&model, &error);
    assert_eq!((told[0].code.0, told[0].subject.as_str()), ("S006", "base"));
    assert!(told[0].message.contains("off by") && told[0].message.contains("4.0000 mm"), "{}", told[0].message);
}

/// A support spring at a joint that is bolted rigidly: the body rests on it.
#[test]
fn a_spring_under_a_bolted_joint() {
    let folder = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,800,0,0\nc,0,600,0\ntop,0,0,400\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,top,rail,mild\n")
        .with("bodies.csv", "body,joint\nbase,a\nbase,b\nbase,c\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,200,free,free,free\nb,free,fixed,100,free,free,free\nc,free,free,400,free,free,free\n",
        )
        .with("loads.csv", format!("{LOADS}down,body: base,0,0,-1200,0,0,0,200,150,0\n"));
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    // By position in the triangle: half at a, a quarter each at b and c.
    for (joint, force, stiffness) in [("a", 600.0, 200e3), ("b", 300.0, 100e3), ("c", 300.0, 400e3)] {
        let id = model.joint_named(joint).unwrap();
        assert_close("reaction", case.reactions.iter().find(|(held, _)| *held == id).unwrap().1[2], force, 1e-12);
        assert_close("sinks", case.displacements[id][2], -force / stiffness, 1e-12);
    }
    assert!(case.trust.imbalance < 1e-12);
}

#[test]
fn a_body_on_one_bush_swings_about_it_and_is_named() {
    let joints = [("a", [0.0, 0.0, 0.0]), ("b", [600.0, 0.0, 100.0])];
    let folder = ground(&joints)
        .with("bodies.csv", "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm\nengine,b,500,500,500\n")
        .with("loads.csv", format!("{LOADS}down,body: engine,0,0,-100,0,0,0,,,\n"));
    let (motions, words) = told(&folder);
    assert_eq!(motions.len(), 3, "{words:?}");
    for axis in ["x", "y", "z"] {
        let told = format!("body engine can turn about the {axis} axis through (600, 0, 100) mm");
        assert!(words.iter().any(|word| word.contains(&told)), "{words:?}");
    }
    assert!(words.iter().all(|word| word.contains("S001") && !word.contains("joint")), "{words:?}");
}

#[test]
fn a_body_on_two_bushes_swings_about_their_line() {
    let joints = [("a", [0.0, 0.0, 0.0]), ("b", [0.0, 600.0, 100.0])];
    let folder = ground(&joints)
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm\nengine,a,500,500,500\nengine,b,rigid,800,free\n",
        )
        .with("loads.csv", format!("{LOADS}down,body: engine,0,0,-100,0,0,0,,,\n"));
    let (motions, words) = told(&folder);
    assert_eq!(motions.len(), 1, "{words:?}");
    assert!(words[0].contains("body engine can turn about the direction (0, 0.99, 0.16)"), "{words:?}");
    let Motion::Part { bodies, joints } = &motions[0] else { panic!("{motions:?}") };
    assert_eq!((bodies.len(), joints.len()), (1, 0), "{motions:?}");
}

/// Bolted rigidly to a part of the frame that hinges: the body and the joints swing together.
#[test]
fn a_body_on_a_hinged_arm_is_named_with_the_joints_that_move_with_it() {
    let folder = Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,900,0,0\nfar,900,300,0\n")
        .with("tubes.csv", "tube,from,to,section,material,release_from\narm,wall,tip,rail,mild,ry\n")
        .with("bodies.csv", "body,joint\nplate,tip\nplate,far\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", format!("{LOADS}down,body: plate,0,0,-100,0,0,0,,,\n"));
    let (motions, words) = told(&folder);
    assert_eq!(motions.len(), 1, "{words:?}");
    assert!(words[0].contains("body plate can turn about the y axis through (0, 150, 0) mm"), "{words:?}");
    assert!(words[0].contains("joint tip can move along z"), "{words:?}");
}
