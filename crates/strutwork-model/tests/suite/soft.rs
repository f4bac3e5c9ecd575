//! Which ends the rule for soft joints finds, and what it gives them.

use approx::assert_relative_eq;
use strutwork_model::{Dof, InputFile, InputFiles, Model, SoftEnd};

use crate::folder::{change, model};

const TOML: &str = r#"title = "Brace on a chord"
[soft_joints]
use = "always"
[sections.chord]
stock = "square 40x2"
[sections.brace]
stock = "square 25x1.5"
[sections.pipe]
stock = "round 26.9x2"
[sections.slat]
shape = "rectangular"
height_mm = 30
width_mm = 60
wall_mm = 2
[materials.mild]
grade = "S235JRH"
"#;

const JOINTS: &str = "joint,x_mm,y_mm,z_mm\nA,-800,0,0\nB,0,0,0\nC,800,0,0\nD,0,0,600\n";

const TUBES: &str = "tube,from,to,section,material,release_from,spring_from_ux_n_per_mm\n\
                     AB,A,B,chord,mild,,\nBC,B,C,chord,mild,,\nBD,B,D,brace,mild,,\n";

/// A chord along x through B and a brace from B straight up to D.
fn frame() -> InputFiles {
    let files = [("model.toml", TOML), ("joints.csv", JOINTS), ("tubes.csv", TUBES)];
    InputFiles(files.map(|(name, text)| InputFile::new(name, text)).to_vec())
}

fn changed(name: &str, from: &str, to: &str) -> Model {
    let mut files = frame();
    change(&mut files, name, from, to);
    model(&files).value
}

fn only(model: &Model) -> SoftEnd {
    let ends = model.soft_ends();
    assert_eq!(ends.len(), 1, "{ends:?}");
    ends[0]
}

/// By hand: s = 38, a = 6.5, h = 38 mm, ρ = 0.5702, c = 4.1229, D = 153.47 N·m; K = 2cD(l + 1.6a)/a³,
/// cD(l + 1.9a)³/6a³, and about the chord 2D/a (l + 1.2a)(4.1229·1.9231² + 2·3.3743·1.9231 + 3.1247).
#[test]
fn a_brace_square_to_its_chord() {
    let model = model(&frame()).value;
    let end = only(&model);
    let named = |tube| model.tubes()[tube].name.as_str();
    assert_eq!((named(end.tube), named(end.chord), end.at_to), ("BD", "AB", false));
    assert_relative_eq!(end.share, 0.625, max_relative = 1e-12);
    let spring = |dof| end.springs[dof].expect("a spring");
    assert_relative_eq!(spring(Dof::Ux), 1.6312e8, max_relative = 1e-3);
    // The brace points up: its y is the frame's y, its z the frame's −x.
    assert_relative_eq!(spring(Dof::Ry), 20_007.0, max_relative = 1e-3);
    let about = 2.0 * 153.47 / 0.0065 * 0.0328 * (4.1229 * 1.9231_f64.powi(2) + 2.0 * 3.3743 * 1.9231 + 3.1247);
    assert_relative_eq!(spring(Dof::Rz), about, max_relative = 1e-3);
    assert_eq!([Dof::Uy, Dof::Uz, Dof::Rx].map(|dof| end.springs[dof]), [None; 3]);
}

#[test]
fn the_soft_model_has_the_springs_and_nothing_else_changes() {
    let model = model(&frame()).value;
    let (end, soft) = (only(&model), model.with_soft_joints());
    let brace = model.tube_named("BD").expect("a tube");
    assert_eq!(soft.tubes()[brace].end_from.springs, end.springs);
    for tube in model.tubes().ids().filter(|&tube| tube != brace) {
        assert_eq!(soft.tubes()[tube], model.tubes()[tube]);
    }
    assert_eq!(soft.with_soft_joints(), soft);
    assert_eq!(
        (soft.joints(), soft.tubes()[brace].end_to.clone()),
        (model.joints(), model.tubes()[brace].end_to.clone())
    );
}

#[test]
fn releases_and_springs_of_the_user_stay() {
    let released = changed("tubes.csv", "BD,B,D,brace,mild,,", "BD,B,D,brace,mild,ry,");
    assert_eq!(only(&released).springs[Dof::Ry], None);
    assert!(only(&released).springs[Dof::Rz].is_some());
    let sprung = changed("tubes.csv", "BD,B,D,brace,mild,,", "BD,B,D,brace,mild,,50");
    assert_eq!(only(&sprung).springs[Dof::Ux], None);
    let brace = sprung.tube_named("BD").expect("a tube");
    let springs = sprung.with_soft_joints().tubes()[brace].end_from.springs;
    assert_eq!((springs[Dof::Ux], springs[Dof::Ry].is_some()), (Some(50e3), true));
}

#[test]
fn the_direction_of_the_brace_and_the_turn_of_the_frame_change_nothing() {
    let reference = only(&model(&frame()).value);
    let turned = changed("tubes.csv", "BD,B,D", "BD,D,B");
    // Now at the `to` end.
    let end = only(&turned);
    assert!(end.at_to);
    assert_relative_eq!(end.springs[Dof::Ux].unwrap(), reference.springs[Dof::Ux].unwrap(), max_relative = 1e-12);
    assert_relative_eq!(end.springs[Dof::Ry].unwrap(), reference.springs[Dof::Ry].unwrap(), max_relative = 1e-12);
    // The same frame lying along y, the brace along −z.
    let mut lying = frame();
    lying.0[1] = InputFile::new("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,-800,0\nB,0,0,0\nC,0,800,0\nD,0,0,-600\n");
    let end = only(&model(&lying).value);
    assert_relative_eq!(end.springs[Dof::Ux].unwrap(), reference.springs[Dof::Ux].unwrap(), max_relative = 1e-12);
    // In the plane of the two tubes now means about the brace's z.
    assert_relative_eq!(end.springs[Dof::Rz].unwrap(), reference.springs[Dof::Ry].unwrap(), max_relative = 1e-12);
}

/// At 45° the footprint is √2 longer and the pull acts on the face by its half: K/sin²θ.
#[test]
fn a_slanting_brace_stands_on_a_longer_footprint() {
    let slanting = only(&changed("joints.csv", "D,0,0,600", "D,600,0,600"));
    let longer = (25.0 * 2.0_f64.sqrt() + 1.6 * 6.5) / (25.0 + 1.6 * 6.5);
    assert_relative_eq!(slanting.springs[Dof::Ux].unwrap(), 1.6312e8 * longer * 2.0, max_relative = 1e-3);
    assert_relative_eq!(slanting.share, 0.625, max_relative = 1e-12);
}

#[test]
fn wide_braces_pipes_on_pipes_and_straight_runs_are_left_rigid() {
    let none = |from: &str, to: &str| assert_eq!(changed("tubes.csv", from, to).soft_ends(), Vec::new(), "{to}");
    none("BD,B,D,brace", "BD,B,D,chord");
    // A hollow chord is needed, and a hollow brace.
    let mut pipes = frame();
    change(&mut pipes, "tubes.csv", "AB,A,B,chord", "AB,A,B,pipe");
    change(&mut pipes, "tubes.csv", "BC,B,C,chord", "BC,B,C,pipe");
    assert_eq!(model(&pipes).value.soft_ends(), Vec::new());
    assert_eq!(changed("joints.csv", "D,0,0,600", "D,-800,0,100").soft_ends().len(), 0);
    assert_eq!(changed("model.toml", "use = \"always\"", "narrower_than = 0.6").soft_ends(), Vec::new());
}

#[test]
fn a_pipe_counts_with_its_diameter() {
    let end = only(&changed("tubes.csv", "BD,B,D,brace", "BD,B,D,pipe"));
    assert_relative_eq!(end.share, 26.9 / 40.0, max_relative = 1e-12);
}

#[test]
fn the_face_is_the_one_that_the_brace_leaves_through() {
    // A slat 60 wide (along y) and 30 high: a brace to the side meets its 30 mm edge.
    let mut files = frame();
    change(&mut files, "tubes.csv", "AB,A,B,chord", "AB,A,B,slat");
    change(&mut files, "tubes.csv", "BC,B,C,chord", "BC,B,C,slat");
    assert_relative_eq!(only(&model(&files).value).share, 25.0 / 60.0, max_relative = 1e-12);
    change(&mut files, "joints.csv", "D,0,0,600", "D,0,600,0");
    change(&mut files, "model.toml", "square 25x1.5", "square 20x1.5");
    assert_relative_eq!(only(&model(&files).value).share, 20.0 / 30.0, max_relative = 1e-12);
}

#[test]
fn without_a_chord_that_runs_through_the_widest_tube_is_it() {
    // A corner: the chord ends at B, a pipe and a brace meet it.
    let mut files = frame();
    change(&mut files, "tubes.csv", "BC,B,C,chord", "BC,B,C,pipe");
    change(&mut files, "joints.csv", "C,800,0,0", "C,0,800,0");
    let model = model(&files).value;
    let ends = model.soft_ends();
    let found: Vec<(&str, &str)> = ends
        .iter()
        .map(|end| (model.tubes()[end.tube].name.as_str(), model.tubes()[end.chord].name.as_str()))
        .collect();
    assert_eq!(found, [("BC", "AB"), ("BD", "AB")]);
}
