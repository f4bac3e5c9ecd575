//! Masses, resultants and self weight against hand computation.

use approx::assert_relative_eq;
use strutwork_loads::masses::{MassKind, MassModel, Massless, Scale, overlap, weighing};
use strutwork_loads::wheels::static_loads;
use strutwork_loads::{LoadCase, case::Nature, derive_plain};
use strutwork_model::DofMap;
use strutwork_model::model::{Axes, JointLoad, TubeLoad, TubePointLoad};
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_testkit::{Folder, buggy, linked_buggy};

/// Two tubes of 1 m along x and y from the origin, and a mass of 10 kg at (0, 0, 2) m.
fn corner() -> Folder {
    Folder::default()
        .with(
            "model.toml",
            "title = \"corner\"\n[options]\nself_weight = true\n\
             [materials.heavy]\ne_mpa = 210000.0\ng_mpa = 81000.0\ndensity_kg_m3 = 10000.0\nsource = \"test\"\n\
             [sections.bar]\nshape = \"flat\"\nheight_mm = 10.0\nwidth_mm = 10.0\n",
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nO,0,0,0\nX,1000,0,0\nY,0,1000,0\n")
        .with("tubes.csv", "tube,from,to,section,material,group\nx,O,X,bar,heavy,arms\ny,O,Y,bar,heavy,\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nO,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,X,0,0,-100,0,0,0\n")
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\ncrate,10,0,0,2000,X Y\n")
}

#[test]
fn mass_centre_and_inertia_by_hand() {
    // Each bar: 1e-4 m² × 10 000 kg/m³ × 1 m = 1 kg.
    let mass = MassModel::of(&corner().model());
    assert_relative_eq!(mass.total, 12.0, max_relative = 1e-14);
    for (found, wanted) in mass.centre.iter().zip([0.5 / 12.0, 0.5 / 12.0, 20.0 / 12.0]) {
        assert_relative_eq!(*found, wanted, max_relative = 1e-14);
    }
    // About the origin: Ixx = 1/3 (bar y) + 10·4, Izz = 2/3, Ixy = 0 (each bar lies on an axis).
    // About the centre c: I_c = I_o − m(|c|² 1 − c cᵀ).
    let [x, y, z] = mass.centre;
    assert_relative_eq!(mass.inertia[0][0], 1.0 / 3.0 + 40.0 - 12.0 * (y * y + z * z), max_relative = 1e-12);
    assert_relative_eq!(mass.inertia[2][2], 2.0 / 3.0 - 12.0 * (x * x + y * y), max_relative = 1e-12);
    assert_relative_eq!(mass.inertia[0][1], 12.0 * x * y, max_relative = 1e-12);
    assert_eq!(mass.inertia[0][1], mass.inertia[1][0]);
}

#[test]
fn items_are_groups_then_masses() {
    let mass = MassModel::of(&corner().model());
    let rows: Vec<(&str, MassKind, f64)> =
        mass.items.iter().map(|item| (item.name.as_str(), item.kind, item.mass)).collect();
    assert_eq!(rows.len(), 3);
    assert_eq!((rows[0].0, rows[0].1), ("arms", MassKind::Tubes));
    assert_eq!((rows[1].0, rows[1].1), ("", MassKind::Tubes));
    assert_eq!((rows[2].0, rows[2].1, rows[2].2), ("crate", MassKind::Carried, 10.0));
    let total: f64 = rows.iter().map(|row| row.2).sum();
    assert_relative_eq!(total, mass.total, max_relative = 1e-14);
}

#[test]
fn materials_without_density_are_named() {
    let folder = corner().with(
        "model.toml",
        "title = \"corner\"\n[materials.heavy]\ne_mpa = 210000.0\ng_mpa = 81000.0\nsource = \"test\"\n\
         [sections.bar]\nshape = \"flat\"\nheight_mm = 10.0\nwidth_mm = 10.0\n",
    );
    let model = folder.model();
    let mass = MassModel::of(&model);
    assert_eq!(mass.without_density.len(), 1);
    assert_eq!(mass.total, 10.0);
}

#[test]
fn self_weight_weighs_what_the_masses_say() {
    let model = corner().model();
    let cases = derive_plain(&model).expect("sound");
    assert_eq!(cases.0.len(), 1);
    let case = &cases.0[0];
    assert_eq!((case.name.as_str(), case.nature), ("push", Nature::Plain));
    assert_eq!(case.supports, model.supports());
    let mass = MassModel::of(&model);
    let weight = mass.total * STANDARD_GRAVITY;
    let [fx, fy, fz, mx, my, mz] = case.resultant(&model);
    assert_eq!((fx, fy), (0.0, 0.0));
    assert_relative_eq!(fz, -weight - 100.0, max_relative = 1e-14);
    assert_relative_eq!(mx, -weight * mass.centre[1], max_relative = 1e-12);
    // The 100 N at X add 100 N × 1 m about +y.
    assert_relative_eq!(my, weight * mass.centre[0] + 100.0, max_relative = 1e-12);
    assert!(mz.abs() < 1e-12 * weight);
    assert_eq!(case.derivation.steps.len(), 3);
}

#[test]
fn without_the_option_nothing_weighs() {
    let model = buggy()
        .and("model.toml", "[options]\nself_weight = false\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,FL,1,2,3,4,5,6\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nRL,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .model();
    let cases = derive_plain(&model).expect("sound");
    assert!(cases.0[0].tube_loads.is_empty());
    // r × F of (1.8, 0.4, 0) × (1, 2, 3) = (1.2, −5.4, 3.2).
    let found = cases.0[0].resultant(&model);
    for (found, wanted) in found.iter().zip([1.0, 2.0, 3.0, 5.2, -0.4, 9.2]) {
        assert_relative_eq!(*found, wanted, max_relative = 1e-12);
    }
}

#[test]
fn resultant_of_linear_loads_is_exact() {
    let model = corner().model();
    let tube = model.tube_named("y").expect("in the fixture");
    let mut case = LoadCase::new("linear", Nature::Notional, Vec::new());
    // From 0 to 60 N/m downwards over 1 m: 30 N at two thirds of the length.
    case.tube_loads.push(TubeLoad { tube, axes: Axes::Global, from: [0.0; 3], to: [0.0, 0.0, -60.0] });
    let found = case.resultant(&model);
    assert_relative_eq!(found[2], -30.0, max_relative = 1e-14);
    assert_relative_eq!(found[3], -20.0, max_relative = 1e-14);
}

#[test]
fn local_axes_are_turned_into_global_ones() {
    let model = corner().model();
    let tube = model.tube_named("y").expect("in the fixture");
    // A tube along +y: local x is global y, local z global z, local y = z × x = −global x.
    let mut case = LoadCase::new("local", Nature::Notional, Vec::new());
    case.tube_loads.push(TubeLoad { tube, axes: Axes::Local, from: [0.0, 7.0, 0.0], to: [0.0, 7.0, 0.0] });
    case.tube_point_loads.push(TubePointLoad {
        tube,
        axes: Axes::Local,
        at: 0.25,
        force: [0.0, 0.0, 8.0],
        moment: [3.0, 0.0, 0.0],
    });
    let joint = model.joint_named("X").expect("in the fixture");
    case.joint_loads.push(JointLoad { joint, load: DofMap([0.0, 5.0, 0.0, 0.0, 0.0, 1.0]) });
    let found = case.resultant(&model);
    // Line: −7 N along x at y = 0.5: mz = +3.5. Point: 8 N along z at y = 0.25: mx = 2, and 3 N·m about y. Joint: mz = 5 + 1.
    for (found, wanted) in found.iter().zip([-7.0, 5.0, 8.0, 2.0, 3.0, 9.5]) {
        assert_relative_eq!(*found, wanted, max_relative = 1e-12);
    }
}

/// Two square 30 × 30 flats of 1 m meet at a right angle: one runs through, the other is cut half a depth short.
#[test]
fn overlap_by_hand() {
    let line = 30.0e-3 * 30.0e-3 * 10_000.0;
    let square = |joints: &str, tubes: &str| {
        let text = corner().files();
        let toml = String::from_utf8_lossy(text.get("model.toml").expect("there")).replace(
            "height_mm = 10.0\nwidth_mm = 10.0\n",
            "height_mm = 30.0\nwidth_mm = 30.0\n[sections.thin]\nshape = \"flat\"\nheight_mm = 10.0\nwidth_mm = 10.0\n",
        );
        overlap(&corner().with("model.toml", toml).with("joints.csv", joints).with("tubes.csv", tubes).model())
    };
    let joints = "joint,x_mm,y_mm,z_mm\nO,0,0,0\nX,1000,0,0\nY,0,1000,0\nW,-1000,0,0\n";
    let head = "tube,from,to,section,material,offset_to_y_mm\n";
    let found = square(&joints.replace("W,-1000,0,0\n", ""), &format!("{head}x,O,X,bar,heavy,\ny,O,Y,bar,heavy,\n"));
    assert_relative_eq!(found, line * 15.0e-3, max_relative = 1e-12);
    // A chord of two tubes straight through the joint is cut nowhere; the post on it is.
    let chord = "w,W,O,bar,heavy,\nx,O,X,bar,heavy,\n";
    let found = square(joints, &format!("{head}{chord}y,O,Y,bar,heavy,\n"));
    assert_relative_eq!(found, line * 15.0e-3, max_relative = 1e-12);
    // A thin post loses half the chord's depth of its own mass; one that is cut already loses nothing.
    let thin = 10.0e-3 * 10.0e-3 * 10_000.0;
    let found = square(joints, &format!("{head}y,O,Y,thin,heavy,\n{chord}"));
    assert_relative_eq!(found, thin * 15.0e-3, max_relative = 1e-12);
    let found = square(joints, &format!("{head}y,Y,O,thin,heavy,15\n{chord}"));
    assert_eq!(found, 0.0);
}

#[test]
fn the_scales_are_compared() {
    let model = linked_buggy().model();
    let mass = MassModel::of(&model);
    let found = weighing(&model);
    let whats: Vec<Scale> = found.rows.iter().map(|row| row.what).collect();
    assert_eq!((whats.len(), whats[0], whats[1]), (6, Scale::Frame, Scale::Vehicle));
    let tubes = mass.of_kind(MassKind::Tubes);
    assert_relative_eq!(found.rows[0].difference(), 40.0 - tubes, max_relative = 1e-12);
    assert_relative_eq!(found.rows[1].share().expect("weighed"), (260.0 - mass.total) / 260.0, max_relative = 1e-12);
    let corners: f64 = found.rows[2..].iter().map(|row| row.model).sum();
    assert_relative_eq!(corners, mass.total, max_relative = 1e-12);
    let [least, most] = found.likely().expect("the frame was weighed");
    let cut = overlap(&model);
    assert!(cut > 0.0 && cut < 0.1 * tubes, "{cut} of {tubes}");
    assert_relative_eq!(least, tubes * (0.015 + 0.1 - 0.06) - cut, max_relative = 1e-12);
    assert_relative_eq!(most, tubes * (0.02 + 0.2 + 0.06) - cut, max_relative = 1e-12);
    assert!(found.explanations.iter().all(|one| !one.source.is_empty() && one.adds[0] <= one.adds[1]));

    let nothing = weighing(&buggy().model());
    assert!(nothing.rows.is_empty() && nothing.explanations.is_empty());
    assert_eq!(nothing.likely(), None);
}

/// A corner was weighed and there is no vehicle: frame and whole are compared all the same.
#[test]
fn corners_of_no_vehicle_take_nothing_with_them() {
    let text = |files: &Folder| String::from_utf8_lossy(files.files().get("model.toml").expect("a model")).into_owned();
    let weighed = "[weighed]\nframe_kg = 2.1\nvehicle_kg = 12.3\n[weighed.corners_kg]\nfront-left = 6\n";
    let found = weighing(&corner().with("model.toml", format!("{}{weighed}", text(&corner()))).model());
    let rows: Vec<(Scale, f64)> = found.rows.iter().map(|row| (row.what, row.model)).collect();
    assert_eq!((rows.len(), rows[0].0, rows[1].0), (2, Scale::Frame, Scale::Vehicle));
    assert_relative_eq!(rows[0].1, 2.0, max_relative = 1e-12);
    assert_relative_eq!(rows[1].1, 12.0, max_relative = 1e-12);
}

#[test]
fn static_shares_are_of_the_whole() {
    let model = linked_buggy().model();
    let mass = MassModel::of(&model);
    let found = static_loads(&model).expect("a vehicle");
    assert_relative_eq!(found.loads.iter().sum::<f64>(), mass.total * STANDARD_GRAVITY, max_relative = 1e-12);
    assert_relative_eq!(found.shares.iter().sum::<f64>(), 1.0, max_relative = 1e-14);
    assert_relative_eq!(found.front, mass.centre[0] / 1.8, max_relative = 1e-12);
    assert!((found.left - 0.5) * mass.centre[1] > 0.0);
}

#[test]
fn what_has_no_mass_is_listed() {
    let text = linked_buggy().files();
    let masses = String::from_utf8_lossy(text.get("masses.csv").expect("there"));
    let without_motor: String =
        masses.lines().filter(|line| !line.starts_with("motor")).map(|line| format!("{line}\n")).collect();
    let model = linked_buggy().with("masses.csv", without_motor).model();
    let mass = MassModel::of(&model);
    let words: Vec<String> = mass.massless.iter().map(|one| one.words(&model)).collect();
    assert_eq!(words, ["body `rear module` carries no mass"]);
    assert!(mass.needed(&model, "test").is_ok());

    let bare = corner().with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\n").with(
        "model.toml",
        "title = \"corner\"\n[materials.heavy]\ne_mpa = 210000.0\ng_mpa = 81000.0\nsource = \"test\"\n\
         [sections.bar]\nshape = \"flat\"\nheight_mm = 10.0\nwidth_mm = 10.0\n",
    );
    let model = bare.model();
    let mass = MassModel::of(&model);
    assert!(matches!(
        mass.massless.as_slice(),
        [Massless::Material { tubes: 2, panels: 0, .. }, Massless::NothingCarried]
    ));
    let fault = mass.needed(&model, "the balance").expect_err("nothing weighs");
    assert_eq!(fault.code().0, "L002");
    assert_eq!(
        fault.to_string(),
        "nothing in the model has mass, so the balance has nothing to act on: material `heavy` has no density (2 tubes); \
         masses.csv lists nothing"
    );
}
