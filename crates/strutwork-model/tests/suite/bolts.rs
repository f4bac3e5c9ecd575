//! What the tables of bolts become.

use approx::assert_relative_eq;
use strutwork_model::InputFiles;
use strutwork_model::model::{Bolt, Clamps, ShearPlane};

use crate::folder::{change, model};
use crate::vehicle::vehicle;

/// Every key of a bolt; the other bolt has none but its size.
const TABLES: &str = r#"[bolts.M10]
size = "M10 x 1.25"
grade = "10.9"
axis = "y"
shear_plane = "shank"
shear_planes = 2
clamps = "plate"
plate_mm = 4
plate_material = "mild"
edge_mm = 18
hole_mm = 10.5
preload_n = 30000
friction = 0.2
countersunk = true
[bolts.belt]
size = "7/16 UNF"
grade = "8.8"
clamps = "sleeve"
sleeve_outer_mm = 18
sleeve_wall_mm = 3
"#;

/// The vehicle with every key of a bolt.
pub(crate) fn bolted() -> InputFiles {
    let mut files = vehicle();
    change(&mut files, "model.toml", "[bolts.M10]\nsize = \"M10\"\ngrade = \"8.8\"\naxis = \"y\"\n", TABLES);
    change(&mut files, "bodies.csv", "drive unit,C,900,450,1500,100,,,", "drive unit,C,900,450,1500,100,belt,,");
    files
}

/// The folder with a piece of model.toml replaced.
pub(crate) fn with(from: &str, to: &str) -> InputFiles {
    let mut files = bolted();
    change(&mut files, "model.toml", from, to);
    files
}

fn bolt(files: &InputFiles, name: &str) -> Bolt {
    let model = model(files);
    assert_eq!(model.warnings, Vec::new());
    model.value.bolts().iter().find(|bolt| bolt.name == name).expect("a bolt").clone()
}

#[test]
fn every_key_of_a_bolt_arrives() {
    let bolt = bolt(&bolted(), "M10");
    assert_eq!((bolt.size.expect("known").name, bolt.class.expect("known").name), ("M10 × 1.25", "10.9"));
    assert_eq!((bolt.shear_plane, bolt.shear_planes, bolt.countersunk), (ShearPlane::Shank, 2, true));
    let Some(Clamps::Plate { thickness, material: Some(material) }) = bolt.clamps else { panic!("a plate") };
    assert_relative_eq!(thickness, 0.004);
    assert_eq!(model(&bolted()).value.materials()[material].name, "mild");
    assert_relative_eq!(bolt.edge.expect("given"), 0.018);
    assert_relative_eq!(bolt.hole().expect("given"), 0.0105);
    assert_eq!((bolt.preload, bolt.friction), (Some(30_000.0), Some(0.2)));
}

#[test]
fn what_is_not_given_is_the_usual_or_unknown() {
    let belt = bolt(&bolted(), "belt");
    assert_eq!((belt.shear_plane, belt.shear_planes, belt.countersunk), (ShearPlane::Thread, 1, false));
    assert_eq!((belt.edge, belt.preload, belt.friction), (None, None, None));
    let Some(Clamps::Sleeve { outer, wall }) = belt.clamps else { panic!("a sleeve") };
    assert_relative_eq!(outer, 0.018);
    assert_relative_eq!(wall, 0.003);
    assert_relative_eq!(belt.hole().expect("a size"), 0.012_113, max_relative = 1e-12);
    let larger = with("size = \"7/16 UNF\"", "size = \"M16\"").clone();
    let mut larger = larger;
    change(&mut larger, "model.toml", "sleeve_outer_mm = 18", "sleeve_outer_mm = 24");
    assert_relative_eq!(bolt(&larger, "belt").hole().expect("a size"), 0.018, max_relative = 1e-12);
    let bare = bolt(&with("size = \"7/16 UNF\"\ngrade = \"8.8\"\n", "size = \"\"\n"), "belt");
    assert_eq!((bare.size, bare.class, bare.hole()), (None, None, None));
}

#[test]
fn a_plate_uses_its_material() {
    let other = "[materials.strong]\ngrade = \"S355J2H\"\n[bolts.belt]";
    let mut files = with("plate_material = \"mild\"", "plate_material = \"strong\"");
    change(&mut files, "model.toml", "[bolts.belt]", other);
    assert_eq!(model(&files).warnings, Vec::new());
}
