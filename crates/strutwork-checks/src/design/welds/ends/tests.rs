//! Which ends are welded to what, under which angle, and the list of them.

use strutwork_model::model::WeldKind;
use strutwork_testkit::{Folder, assert_close};

use super::*;
use crate::code::worked::recomputes;
use crate::design::frames::{TEE, UP, d031, frame, only};
use crate::design::weld_list::weld_list;

fn ends(folder: &Folder) -> Vec<(String, String, f64)> {
    let model = folder.model();
    let name = |tube: TubeId| model.tubes()[tube].name.clone();
    joined(&model).welds.iter().map(|end| (name(end.tube), name(end.host), end.angle.to_degrees())).collect()
}

/// A brace at 45°: the weld is longer, and half of the squared force lies in the face.
#[test]
fn a_skewed_brace_leans_in_its_plane() {
    let folder = frame(TEE, [400.0, 0.0, 400.0], "pull,D,1000,0,1000,0,0,0\n", "");
    assert_eq!(ends(&folder).len(), 1);
    let model = folder.model();
    let [end] = joined(&model).welds.try_into().expect("one weld");
    let WeldedEnd { angle, in_plane, across, at_to, .. } = end;
    assert_close("angle", angle, PI / 4.0, 1e-12);
    // Its plane is that of x and z: of its own axes z lies in it and y across it.
    assert_eq!((in_plane.map(f64::abs), across.map(f64::abs), at_to), ([0.0, 1.0], [1.0, 0.0], false));
    let found = d031(&folder);
    let (finding, page) = only(&found);
    assert!(finding.clause.starts_with("outside scope: tube at 45.0° to the face"), "{}", finding.clause);
    assert!(finding.message.contains("not a pass"), "{}", finding.message);
    assert_eq!(page.outside.len(), 1);
    let (u, v) = (40.0 * 2.0_f64.sqrt(), 40.0);
    let force = 1.5 * 1000.0;
    let (p, q): (f64, f64) = (force / (2.0 * (u + v)), force / (2.0 * u));
    assert_close("utilisation", finding.utilisation.unwrap(), (2.0 * p * p + 3.0 * q * q).sqrt() / 3.0 / 450.0, 1e-6);
    recomputes(page);
}

#[test]
fn what_runs_through_has_no_weld_and_what_does_not_has_one() {
    let load = "pull,D,0,0,1,0,0,0\n";
    // One tube in two pieces alone: nothing to weld.
    let straight =
        frame("AB,A,B,chord,mild,,0\nBC,B,C,chord,mild,,0\nCD,C,D,chord,mild,,0\n", [500.0, 0.0, 400.0], load, "");
    assert_eq!(ends(&straight), [("CD".to_owned(), "BC".to_owned(), 90.0)]);
    // Another section, or another material: spliced square, the narrower onto the wider.
    let other = frame("AB,A,B,brace,mild,,0\nBC,B,C,chord,mild,,0\nBD,B,D,brace,mild,,0\n", UP, load, "");
    assert_eq!(ends(&other), [("AB".to_owned(), "BC".to_owned(), 90.0), ("BD".to_owned(), "BC".to_owned(), 90.0)]);
    let hard = frame("AB,A,B,chord,hard,,0\nBC,B,C,chord,mild,,0\nBD,B,D,brace,mild,,0\n", UP, load, "");
    assert_eq!(ends(&hard)[0], ("BC".to_owned(), "AB".to_owned(), 90.0));
    // A bend of 20° is cut to a mitre, and each half stands at 80° to the cut.
    let rise = 500.0 * 20.0_f64.to_radians().tan();
    let bent = frame("AB,A,B,chord,mild,,0\nBD,B,D,chord,mild,,0\nDC,D,C,pipe,mild,,0\n", [500.0, 0.0, rise], load, "");
    let found = ends(&bent);
    assert_eq!((found[0].0.as_str(), found[0].1.as_str()), ("BD", "AB"));
    assert_close("mitre", found[0].2, 80.0, 1e-9);
    // Of two that cross, the wider runs through, and both halves of the other are welded to it.
    let crossed =
        frame("AB,A,B,brace,mild,,0\nBC,B,C,brace,mild,,0\nBD,B,D,chord,mild,,0\nBE,B,E,chord,mild,,0\n", UP, load, "")
            .and("joints.csv", "E,0,0,-600\n");
    let found: Vec<(String, String)> = ends(&crossed).into_iter().map(|(tube, host, _)| (tube, host)).collect();
    assert_eq!(found, [("AB".to_owned(), "BD".to_owned()), ("BC".to_owned(), "BD".to_owned())]);
}

/// On a round chord the face follows the tube; on a square one a tube that comes over the corner leans.
#[test]
fn the_face_is_the_one_that_the_tube_stands_on() {
    let load = "pull,D,0,0,1,0,0,0\n";
    let skew = [0.0, 300.0, 400.0];
    let of = |chord: &str| {
        ends(&frame(&TEE.replace("chord,mild", &format!("{chord},mild")).replace("brace,", "pipe,"), skew, load, ""))
    };
    assert_close("square", of("chord")[0].2, 0.8_f64.asin().to_degrees(), 1e-9);
    assert_close("round", of("pipe")[0].2, 90.0, 1e-9);
}

#[test]
fn the_list_names_every_weld_with_its_metal() {
    let tubes = format!("{TEE}CD,C,D,pipe,mild,struts,0\n");
    let folder = frame(&tubes, UP, "pull,D,0,0,1,0,0,0\n", "[welds.groups.braces]\nkind = \"butt\"\n");
    let model = folder.model();
    let list = weld_list(&model);
    let told: Vec<_> = list
        .iter()
        .map(|item| (model.tubes()[item.tube].name.as_str(), model.tubes()[item.host].name.as_str(), item.kind))
        .collect();
    let butt = WeldKind::Butt;
    let fillet = WeldKind::Fillet;
    assert_eq!(told, [("BD", "AB", butt), ("CD", "BC", fillet), ("CD", "BD", fillet)]);
    let [brace, foot, head] = [0, 1, 2].map(|place| list[place]);
    assert_close("length", brace.length.unwrap(), 0.16, 1e-9);
    assert_close("metal", brace.metal.unwrap(), 1.2 * 0.003 * 0.003 * 0.16 * 7850.0, 1e-9);
    assert_eq!((brace.throat, brace.throat_given, brace.full_strength_throat), (Some(3e-3), false, None));
    // 0.923 t of S235 with γ_M2 = 1.25.
    assert_close("full strength", foot.full_strength_throat.unwrap() / 2.6e-3, 0.923, 1e-3);
    assert!(foot.length.unwrap() > PI * 33.7e-3 && head.angle < PI / 2.0);
    assert_eq!(list.iter().filter(|item| item.at_to).count(), 1);
}
