//! Panels in frames of bars that do not give: single panel, closed boxes, fixings.

use std::fmt::Write as _;

use strutwork_model::Model;
use strutwork_solve::Results;
use strutwork_solve::explain::explain;
use strutwork_testkit::{Folder, assert_close, assert_close_by, solve};

const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n";
const HELD: &str = "joint,ux,uy,uz,rx,ry,rz\n";

/// Bars of this area, mm², and no bending stiffness to speak of; sheet of G = 80 GPa.
fn bars(area: &str) -> Folder {
    Folder::default().with(
        "model.toml",
        format!(
            "title = \"panels\"\n[options]\nself_weight = false\n\
             [sections.bar]\nshape = \"properties\"\narea_mm2 = {area}\niy_mm4 = 1e4\niz_mm4 = 1e4\nj_mm4 = 1e4\n\
             [materials.m]\ne_mpa = 210000.0\ng_mpa = 80769.23076923077\n\
             [materials.sheet]\ne_mpa = 208000.0\ng_mpa = 80000.0\n"
        ),
    )
}

fn solved(folder: &Folder) -> (Model, Results) {
    let model = folder.model();
    let results = solve(&model).unwrap_or_else(|error| panic!("{:?}", explain(&model, &error)));
    (model, results)
}

fn bay() -> Folder {
    let tubes: String = (0..4).map(|i| format!("t{i},c{i},c{},bar,m,ry rz,ry rz\n", (i + 1) % 4)).collect();
    let flat = "fixed,fixed,fixed,fixed";
    bars("1e6")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nc0,0,0,0\nc1,800,0,0\nc2,800,500,0\nc3,0,500,0\n")
        .with("tubes.csv", format!("tube,from,to,section,material,release_from,release_to\n{tubes}"))
        .with(
            "supports.csv",
            format!("{HELD}c0,fixed,fixed,{flat}\nc1,free,fixed,{flat}\nc2,free,free,{flat}\nc3,free,free,{flat}\n"),
        )
        .with("loads.csv", format!("{LOADS}rack,c3,4000,0,0,0,0,0\n"))
}

/// q = P/a, the top moves by P b/(G t a). Source: Bruhn, Analysis and Design of Flight Vehicle Structures, shear panels;
/// Kuhn, Stresses in Aircraft and Shell Structures (both from memory).
#[test]
fn a_single_panel_in_a_pinned_frame() {
    let folder = bay().with("panels.csv", "panel,joints,material,thickness_mm\np,c0 c1 c2 c3,sheet,1\n");
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    let panel = case.panels.iter().next().unwrap();
    for flow in &panel.edge_flows {
        assert_close("flow", *flow, 5000.0, 1e-9);
    }
    assert_close("stress", panel.stress, 5e6, 1e-9);
    assert_eq!((panel.fastener, panel.bond_stress), (None, None));
    let top = case.displacements[model.joint_named("c3").unwrap()][0];
    // Bars of 1 m² give by 0.03 %.
    assert_close("top", top, 3.125e-5, 4e-4);
    let reaction = |joint: &str| {
        let id = model.joint_named(joint).unwrap();
        case.reactions.iter().find(|(held, _)| *held == id).unwrap().1
    };
    assert_close("along", reaction("c0")[0], -4000.0, 1e-9);
    assert_close("up at one", reaction("c0")[1], -2500.0, 1e-9);
    assert_close("up at the other", reaction("c1")[1], 2500.0, 1e-9);
    assert!(case.trust.imbalance < 1e-12);
}

/// 1/(Gt)_eff = 1/(Gt) + 2c(1/a + 1/b), c = p·s of fasteners, t/(G·w) of a bond. Source: derived (edges slip by q·c).
#[test]
fn fixings_give_in_series() {
    let top = |fixing: &str, table: &str| {
        let folder = bay()
            .and("model.toml", &format!("[fixings.f]\n{table}source = \"invented\"\n"))
            .with("panels.csv", format!("panel,joints,material,thickness_mm,fixing\np,c0 c1 c2 c3,sheet,1,{fixing}\n"));
        let (model, results) = solved(&folder);
        let case = &results.cases[0];
        (case.displacements[model.joint_named("c3").unwrap()][0], case.panels.iter().next().unwrap().clone())
    };
    let expected = |c: f64| 4000.0 * 0.5 / 0.8 * (1.0 / 80e6 + 2.0 * c * (1.0 / 0.8 + 1.0 / 0.5));
    let (moved, panel) = top("f", "kind = \"fasteners\"\npitch_mm = 40.0\nslip_mm_per_kn = 0.3\n");
    assert_close("riveted", moved, expected(0.040 * 0.3e-6), 4e-4);
    assert_close("a rivet", panel.fastener.unwrap(), 5000.0 * 0.040, 1e-9);
    let (moved, panel) = top("f", "kind = \"bond\"\nthickness_mm = 2.0\nwidth_mm = 20.0\nshear_mpa = 1.5\n");
    assert_close("bonded", moved, expected(0.002 / (1.5e6 * 0.020)), 1e-4);
    assert_close("bond", panel.bond_stress.unwrap(), 5000.0 / 0.020, 1e-9);
}

/// A box of four bays, 0.5 × 0.5 × 2 m, a torque of 1.5 kN·m brought in as the flow of a closed tube; every face is a panel,
/// but for the bays of face 2 when it is open. Bars hold the sections' shape.
fn closed_box(open: bool) -> Folder {
    let corner = [[-250, -250], [250, -250], [250, 250], [-250, 250]];
    let (mut joints, mut tubes, mut panels) = (
        String::from("joint,x_mm,y_mm,z_mm\n"),
        String::from("tube,from,to,section,material,release_from,release_to\n"),
        String::from("panel,joints,material,thickness_mm\n"),
    );
    let mut supports = String::from(HELD);
    let mut tube = |name: String, a: String, b: String| {
        writeln!(tubes, "{name},{a},{b},bar,m,ry rz,ry rz").unwrap();
    };
    for ring in 0..=4 {
        writeln!(joints, "o{ring},0,0,{}", 500 * ring).unwrap();
        let middle = if ring == 4 { "fixed,fixed" } else { "free,free" };
        writeln!(supports, "o{ring},{middle},fixed,fixed,fixed,fixed").unwrap();
        for (c, [x, y]) in corner.iter().enumerate() {
            let next = (c + 1) % 4;
            writeln!(joints, "{ring}{c},{x},{y},{}", 500 * ring).unwrap();
            let (slide, up) =
                if ring == 0 { ("fixed,fixed", if c == 0 { "fixed" } else { "free" }) } else { ("free,free", "free") };
            writeln!(supports, "{ring}{c},{slide},{up},fixed,fixed,fixed").unwrap();
            tube(format!("r{ring}{c}"), format!("{ring}{c}"), format!("{ring}{next}"));
            tube(format!("d{ring}{c}"), format!("{ring}{c}"), format!("o{ring}"));
            if ring < 4 {
                let above = ring + 1;
                tube(format!("l{ring}{c}"), format!("{ring}{c}"), format!("{above}{c}"));
                if !(open && c == 2) {
                    writeln!(panels, "p{ring}{c},{ring}{c} {ring}{next} {above}{next} {above}{c},sheet,1").unwrap();
                }
            }
        }
    }
    let loads = [(750, -750), (750, 750), (-750, 750), (-750, -750)];
    let loads: String = loads.iter().enumerate().map(|(c, (x, y))| format!("twist,4{c},{x},{y},0,0,0,0\n")).collect();
    bars("1e8")
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with("supports.csv", supports)
        .with("panels.csv", panels)
        .with("loads.csv", format!("{LOADS}{loads}"))
}

/// q = T/2A, θ = T L/(4A²G) ∮ds/t = 3·10⁻⁴ rad. Source: Bredt (1896) and Batho; any text on thin-walled tubes (from memory).
#[test]
fn a_closed_box_twists_as_bredt_says() {
    let (model, results) = solved(&closed_box(false));
    let case = &results.cases[0];
    let end = case.displacements[model.joint_named("40").unwrap()];
    assert_close("ux", end[0], 3e-4 * 0.25, 1e-6);
    assert_close("uy", end[1], -3e-4 * 0.25, 1e-6);
    let first = case.panels.iter().next().unwrap().edge_flows[0];
    for flow in case.panels.iter().flat_map(|panel| &panel.edge_flows) {
        assert_close("flow", *flow, first, 1e-6);
    }
    assert_close("q = T/2A", first.abs(), 1500.0 / (2.0 * 0.25), 1e-6);
}

/// One face open and the ends free to warp: nothing is left that carries a torque, and the whole box is named.
///
/// With one end held against warping, and stringers that do not give, the two faces beside the open one carry the torque as a
/// couple, Q = T/b, and the third nothing: q = T/(b·h), θ = q L/(G t)·2/b. Source: equilibrium of the section (derived).
#[test]
fn a_box_without_one_face_carries_by_warping_or_not_at_all() {
    let model = closed_box(true).model();
    let words: Vec<String> = explain(&model, &solve(&model).unwrap_err()).iter().map(ToString::to_string).collect();
    assert_eq!(words.len(), 1, "{words:?}");
    assert!(words[0].contains("S001") && words[0].contains("more joints with them"), "{words:?}");

    let folder = closed_box(true);
    let file = folder.files().0.into_iter().find(|file| file.name == "supports.csv").unwrap();
    let supports = String::from_utf8(file.bytes).unwrap().replace("o4,fixed,fixed", "o4,free,free");
    let built_in = (1..4)
        .fold(supports, |text, c| text.replace(&format!("0{c},fixed,fixed,free"), &format!("0{c},fixed,fixed,fixed")));
    let (model, results) = solved(&folder.with("supports.csv", built_in));
    let case = &results.cases[0];
    let end = |joint: &str| case.displacements[model.joint_named(joint).unwrap()];
    // Bars of 100 m² give by 10⁻⁵ of it.
    assert_close("turn", (end("40")[0] - end("42")[0]) / 0.5, 6e-4, 1e-4);
    for (id, panel) in model.panels().iter_with_id() {
        let expected = if panel.name.ends_with('0') { 0.0 } else { 6000.0 };
        assert_close_by(&panel.name, case.panels[id].flow, expected, 0.6);
    }
    assert!(case.trust.imbalance < 1e-9, "{:?}", case.trust);
}

/// A panel between joints that a rigid body holds: its corners move with the body, and the bolts carry its flow.
#[test]
fn a_panel_on_a_body() {
    let folder = bay()
        .with("panels.csv", "panel,joints,material,thickness_mm\np,c0 c1 c2 c3,sheet,1\n")
        .with("bodies.csv", "body,joint\nrail,c2\nrail,c3\n")
        .with("supports.csv", format!("{HELD}c0,fixed,fixed,fixed,fixed,fixed,fixed\nc1,fixed,fixed,fixed,fixed,fixed,fixed\nc3,free,fixed,fixed,fixed,fixed,fixed\n"))
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nrack,body: rail,4000,0,0,0,0,0\n");
    let (model, results) = solved(&folder);
    let case = &results.cases[0];
    let panel = case.panels.iter().next().unwrap();
    assert_close("flow", panel.flow, 5000.0, 1e-9);
    assert_close("top", case.displacements[model.joint_named("c2").unwrap()][0], 3.125e-5, 4e-4);
    let on_frame: f64 = case.mounts.iter().map(|mount| mount.on_frame[0]).sum();
    assert_close("through the bolts", on_frame, 4000.0, 1e-9);
    assert_close_by("halves", case.mounts.iter().next().unwrap().on_frame[0], 2000.0, 1e-6);
    assert!(case.trust.imbalance < 1e-12);
}
