//! Masses, resultants and self weight against hand computation.

use approx::assert_relative_eq;
use strutwork_loads::masses::{MassKind, MassModel};
use strutwork_loads::{LoadCase, case::Nature, derive_plain};
use strutwork_model::DofMap;
use strutwork_model::model::{Axes, JointLoad, TubeLoad, TubePointLoad};
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_testkit::{Folder, buggy};

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
    let cases = derive_plain(&model);
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
    let cases = derive_plain(&model);
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
