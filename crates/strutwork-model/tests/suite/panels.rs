//! What panels, fixings, ends of tubes and the rule for soft joints become.

use approx::assert_relative_eq;
use strutwork_model::model::{FixingKind, SoftWhen};
use strutwork_model::{Dof, InputFile, InputFiles, Model, TubeId, ids::Id as _};

use crate::folder::{change, folder, model, toml_with_vehicle};

const PANELS: &str = "panel,joints,material,thickness_mm,fixing,note
side,A B C D,sheet,1.0,rivets,\"left, big\"
wing,A B C,sheet,0.8,glue,
";

const TUBES: &str = "tube,from,to,section,material,release_from,offset_from_x_mm,spring_from_ry_nm_per_deg
AB,A,B,rail,mild,,20,
BC,B,C,rail,mild,,,
CA,C,A,rail,mild,ry rz,,
CD,C,D,rail,mild,,-12.5,100
DA,D,A,rail,mild,,,
";

const TABLES: &str = r#"[materials.sheet]
grade = "5251-H22 sheet"
[fixings.rivets]
kind = "fasteners"
pitch_mm = 50
slip_mm_per_kn = 0.3
strength_n = 1800
source = "own test"
[fixings.glue]
kind = "bond"
thickness_mm = 2.5
width_mm = 25
shear_mpa = 2
strength_mpa = 3
[soft_joints]
use = "band"
narrower_than = 0.8
[factors.bump]"#;

/// A square frame with a diagonal, two panels, offsets, springs and a release.
pub(crate) fn panelled() -> InputFiles {
    let mut files = folder();
    change(&mut files, "joints.csv", "C,500,0,800", "C,1000,0,800\nD,0,0,800");
    change(&mut files, "model.toml", "[factors.bump]", TABLES);
    files.0.retain(|file| file.name != "tubes.csv");
    files.0.push(InputFile::new("tubes.csv", TUBES));
    files.0.push(InputFile::new("panels.csv", PANELS));
    files
}

/// The same with a piece of one file replaced.
pub(crate) fn with(name: &str, from: &str, to: &str) -> InputFiles {
    let mut files = panelled();
    change(&mut files, name, from, to);
    files
}

fn whole() -> Model {
    model(&panelled()).value
}

#[test]
fn panels_keep_their_corners_in_order() {
    let warned = model(&panelled());
    assert_eq!(warned.warnings, Vec::new());
    let model = warned.value;
    let side = &model.panels()[model.panel_named("side").expect("a panel")];
    let corners: Vec<&str> = side.joints.iter().map(|&joint| model.joints()[joint].name.as_str()).collect();
    assert_eq!((corners.as_slice(), side.note.as_str()), (["A", "B", "C", "D"].as_slice(), "left, big"));
    assert_relative_eq!(side.thickness, 1e-3);
    let sheet = &model.materials()[side.material];
    assert_eq!((sheet.grade.as_str(), sheet.shear), ("5251-H22 sheet", 26.3e9));
}

/// c = p·s = 0.05 m · 0.3e-6 m/N; c = t/(G w) = 2.5e-3 / (2e6 · 25e-3) m²/N.
#[test]
fn fixings_have_their_compliance() {
    let model = whole();
    let of = |name: &str| {
        let panel = &model.panels()[model.panel_named(name).expect("a panel")];
        &model.fixings()[panel.fixing.expect("a fixing")]
    };
    let (rivets, glue) = (of("side"), of("wing"));
    assert_relative_eq!(rivets.kind.compliance(), 1.5e-8, max_relative = 1e-12);
    assert_relative_eq!(glue.kind.compliance(), 5e-8, max_relative = 1e-12);
    assert_eq!(rivets.source, "own test");
    assert!(matches!(rivets.kind, FixingKind::Fasteners { strength: Some(1800.0), .. }));
    assert!(matches!(glue.kind, FixingKind::Bond { strength: Some(3e6), .. }));
}

#[test]
fn ends_have_offsets_and_springs() {
    let model = whole();
    let of = |name: &str| model.tube_named(name).expect("a tube");
    let first = of("AB");
    assert_eq!(model.tubes()[first].end_from.offset, [0.02, 0.0, 0.0]);
    assert_relative_eq!(model.length(first), 0.98, max_relative = 1e-12);
    assert_eq!(model.tube_ends(first)[0], [0.02, 0.0, 0.0]);
    let sprung = &model.tubes()[of("CD")].end_from;
    assert_relative_eq!(sprung.springs[Dof::Ry].expect("a spring"), 5_729.577_951_308_232, max_relative = 1e-14);
    assert_eq!(sprung.springs.0.iter().flatten().count(), 1);
    assert_eq!(model.tubes()[TubeId::new(1)].end_from, strutwork_model::model::TubeEnd::default());
}

#[test]
fn all_springs_and_offsets_have_their_place() {
    let mut files = panelled();
    let head = "tube,from,to,section,material,offset_from_x_mm,offset_from_y_mm,offset_from_z_mm,offset_to_x_mm,\
                offset_to_y_mm,offset_to_z_mm,spring_from_ux_n_per_mm,spring_from_rx_nm_per_deg,\
                spring_from_ry_nm_per_deg,spring_from_rz_nm_per_deg,spring_to_ux_n_per_mm,spring_to_rx_nm_per_deg,\
                spring_to_ry_nm_per_deg,spring_to_rz_nm_per_deg\n";
    let none = ",".repeat(14);
    let rest = ["BC,B,C", "CA,C,A", "CD,C,D", "DA,D,A"].map(|tube| format!("{tube},rail,mild{none}\n")).concat();
    files.0.retain(|file| file.name != "tubes.csv");
    let row = "AB,A,B,rail,mild,1,2,3,-4,5,6,7,8,9,10,11,12,13,14\n";
    files.0.push(InputFile::new("tubes.csv", format!("{head}{row}{rest}")));
    let model = model(&files).value;
    let tube = &model.tubes()[TubeId::new(0)];
    assert_relative_eq!(tube.end_from.offset[..], [1e-3, 2e-3, 3e-3], max_relative = 1e-14);
    assert_relative_eq!(tube.end_to.offset[..], [-4e-3, 5e-3, 6e-3], max_relative = 1e-14);
    let deg = 57.295_779_513_082_32;
    for (end, [ux, rx, ry, rz]) in [(&tube.end_from, [7.0, 8.0, 9.0, 10.0]), (&tube.end_to, [11.0, 12.0, 13.0, 14.0])] {
        let springs: Vec<f64> = end.springs.0.into_iter().flatten().collect();
        assert_relative_eq!(
            springs.as_slice(),
            [ux * 1e3, rx * deg, ry * deg, rz * deg].as_slice(),
            max_relative = 1e-14
        );
    }
}

#[test]
fn soft_joints_are_used_as_said_and_by_default_for_a_vehicle() {
    let soft = |files: &InputFiles| model(files).value.options().soft_joints;
    assert_eq!((soft(&panelled()).when, soft(&panelled()).narrower_than), (SoftWhen::Band, 0.8));
    assert_eq!(soft(&with("model.toml", "\"band\"", "\"always\"")).when, SoftWhen::Always);
    assert_eq!((soft(&folder()).when, soft(&folder()).narrower_than), (SoftWhen::Off, 0.85));
    assert_eq!(soft(&toml_with_vehicle()).when, SoftWhen::Band);
}

#[test]
fn a_chain_of_tubes_or_a_body_makes_an_edge() {
    let mut chained = with("joints.csv", "D,0,0,800", "D,0,0,800\nE,1000,0,300");
    change(&mut chained, "tubes.csv", "BC,B,C,rail,mild,,,", "BE,B,E,rail,mild,,,\nBC,E,C,rail,mild,,,");
    assert_eq!(model(&chained).warnings, Vec::new());

    let mut bolted = with("tubes.csv", "CD,C,D,rail,mild,,-12.5,100\n", "");
    bolted.0.push(InputFile::new("bodies.csv", "body,joint\nbulkhead,C\nbulkhead,D\n"));
    assert_eq!(model(&bolted).warnings, Vec::new());
}

#[test]
fn plywood_may_be_what_metals_are_not() {
    let ply = model(&with("model.toml", "5251-H22 sheet", "birch plywood"));
    assert_eq!(ply.warnings, Vec::new());
    let ply = &ply.value.materials()[ply.value.panels().iter().next().expect("a panel").material];
    assert_eq!((ply.strength, ply.shear_strength, ply.verified), (None, Some(9.5e6), false));
    assert!(ply.source.contains("from memory"));
}
