//! Plain names of natural modes: frames of which the eye would say the same.

use std::fmt::Write as _;
use std::path::Path;

use strutwork_loads::carried_inertia;
use strutwork_model::Model;
use strutwork_solve::modes::ModeName;
use strutwork_solve::{ModesWanted, natural_modes};
use strutwork_testkit::Folder;

const MODEL: &str = "title = \"box\"\n[sections.s]\nshape = \"square\"\nwidth_mm = 40\nwall_mm = 2\n\
                     [sections.thin]\nshape = \"solid-round\"\ndiameter_mm = 8\n\
                     [materials.m]\ne_mpa = 210000\ng_mpa = 81000\ndensity_kg_m3 = 7850\n";

fn names(model: &Model, count: usize, pieces: usize) -> Vec<String> {
    let wanted = ModesWanted { count, pieces, ..ModesWanted::default() };
    let modes = natural_modes(model, model.supports(), &carried_inertia(model).unwrap(), wanted).unwrap();
    assert!(modes.proof.complete(), "{}", modes.proof.words());
    modes.modes.iter().map(|mode| mode.name.words(model)).collect()
}

/// A box of bays of 0.5 m along x, with diagonals in its sides where `braced`, and a thin bar where `thin`.
fn box_frame(width: i32, height: i32, braced: bool, thin: bool) -> Folder {
    let (mut joints, mut tubes) =
        (String::from("joint,x_mm,y_mm,z_mm\n"), String::from("tube,from,to,section,material\n"));
    let mut tube = |name: String, from: String, to: String, section: &str| {
        writeln!(tubes, "{name},{from},{to},{section},m").unwrap();
    };
    for ring in 0..5 {
        for (corner, (y, z)) in [(0, 0), (width, 0), (width, height), (0, height)].into_iter().enumerate() {
            writeln!(joints, "j{ring}{corner},{},{y},{z}", 500 * ring).unwrap();
            let after = (corner + 1) % 4;
            tube(format!("ring-{ring}-{corner}"), format!("j{ring}{corner}"), format!("j{ring}{after}"), "s");
            if ring < 4 {
                let next = ring + 1;
                tube(format!("rail-{ring}-{corner}"), format!("j{ring}{corner}"), format!("j{next}{corner}"), "s");
                if braced {
                    tube(
                        format!("diagonal-{ring}-{corner}"),
                        format!("j{ring}{corner}"),
                        format!("j{next}{after}"),
                        "s",
                    );
                }
            }
        }
    }
    if thin {
        tube("thin".to_owned(), "j10".to_owned(), "j32".to_owned(), "thin");
    }
    Folder::default().with("model.toml", MODEL).with("joints.csv", joints).with("tubes.csv", tubes)
}

/// Without diagonals a long box twists and bends by the bending of its tubes: torsion is among its lowest modes.
#[test]
fn an_open_box_twists_and_bends() {
    let names = names(&box_frame(500, 400, false, false).model(), 4, 2);
    assert!(names.iter().any(|name| name.starts_with("first torsion")), "{names:?}");
    assert!(names.iter().any(|name| name.starts_with("first lateral bending")), "{names:?}");
}

/// Braced, wide and flat: it bends up and down before it bends sideways.
#[test]
fn a_flat_braced_box_bends_up_and_down() {
    let names = names(&box_frame(900, 150, true, false).model(), 4, 2);
    let place = |wanted: &str| names.iter().position(|name| name.starts_with(wanted));
    let vertical = place("first vertical bending").unwrap_or_else(|| panic!("{names:?}"));
    assert!(place("first lateral bending").is_none_or(|lateral| lateral > vertical), "{names:?}");
}

/// A thin bar through the box swings by itself, in two planes.
#[test]
fn a_thin_bar_has_local_modes() {
    let names = names(&box_frame(500, 400, true, true).model(), 2, 4);
    assert_eq!(names, ["local mode of tube thin", "local mode of tube thin"]);
}

/// A mast swings along x and along y, softest first, and turns.
#[test]
fn a_mast_sways() {
    let folder = Folder::default()
        .with(
            "model.toml",
            format!("{MODEL}[sections.flat]\nshape = \"rectangular\"\nheight_mm = 60\nwidth_mm = 30\nwall_mm = 2\n"),
        )
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,0,0,3000\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,flat,m\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,fixed,fixed\n");
    let mut names = names(&folder.model(), 2, 8);
    names.sort();
    assert_eq!(names, ["first sway along x", "first sway along y"]);
}

/// Joints on a straight line move nowhere when it twists.
#[test]
fn a_shaft_twists() {
    let folder = Folder::default()
        .with("model.toml", MODEL)
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,1000,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nt,a,b,s,m\n")
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,fixed,fixed\nb,fixed,fixed,fixed,free,fixed,fixed\n",
        );
    let names = names(&folder.model(), 8, 8);
    assert!(names.iter().any(|name| name == "first torsion"), "{names:?}");
}

/// The demo car: its lowest modes are those of the frame as a whole.
#[test]
fn the_demo_car_twists_first_and_then_bends() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-models/trials-car");
    let mut files = Folder::default();
    for name in ["model.toml", "joints.csv", "tubes.csv", "bodies.csv", "masses.csv", "panels.csv", "suspension.csv"] {
        files = files.with(name, std::fs::read_to_string(folder.join(name)).unwrap());
    }
    assert_eq!(names(&files.model(), 2, 1), ["first torsion", "first vertical bending"]);
}

#[test]
fn names_are_counted_in_words() {
    let model = box_frame(500, 400, false, false).model();
    let shape = strutwork_solve::modes::Shape::Torsion;
    let told = |order| ModeName::Whole { shape, order, with: None }.words(&model);
    assert_eq!(
        [told(2), told(7), told(11), told(21)],
        ["second torsion", "7th torsion", "11th torsion", "21st torsion"]
    );
}
