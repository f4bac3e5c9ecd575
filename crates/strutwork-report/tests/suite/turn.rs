//! The frame to turn: what the page hands to its view is whole, and cannot break out of its element.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use strutwork_report::report_html;

use crate::fixture::{Finished, cantilever, twisted_box};

const DATA: &str = "<script type=\"application/json\" id=\"turn-frame\">";
const PROGRAM: &str = "<script>\n\"use strict\";";
const END: &str = "</script>";

/// The page without the two elements of the view, each of which stands in it at most once.
pub(crate) fn without_view_program(html: &str) -> String {
    let mut page = html.to_owned();
    for opening in [DATA, PROGRAM] {
        assert!(page.matches(opening).count() <= 1, "{opening}");
        if let Some(start) = page.find(opening) {
            let end = start + page[start..].find(END).expect("an unclosed script") + END.len();
            page.replace_range(start..end, "");
        }
    }
    page
}

/// What the page hands to its view.
fn data(html: &str) -> serde_json::Value {
    let text = html.split_once(DATA).expect("the data of the view").1.split_once(END).expect("its end").0;
    assert!(!text.contains('<'), "nothing in it looks like an element");
    serde_json::from_str(text).expect("it is JSON")
}

/// How many numbers of so many bytes are packed in a text of base64.
fn numbers(packed: &serde_json::Value, bytes: usize) -> usize {
    let text = packed.as_str().expect("packed numbers");
    (text.len() / 4 * 3 - text.matches('=').count()) / bytes
}

fn list(of: &serde_json::Value) -> &[serde_json::Value] {
    of.as_array().expect("a list")
}

#[test]
fn the_view_gets_every_joint_tube_and_case() {
    let finished = twisted_box();
    let frame = data(&report_html(&finished.run()));
    let (joints, tubes) = (finished.model.joints().len(), finished.model.tubes().len());
    assert_eq!(list(&frame["joints"]).len(), joints);
    assert_eq!(list(&frame["tubes"]).len(), tubes);
    assert_eq!(numbers(&frame["at"], 4), 3 * joints);
    assert_eq!(numbers(&frame["ends"], 4), 6 * tubes);
    assert_eq!(numbers(&frame["ups"], 3), 3 * tubes);
    assert_eq!(list(&frame["cases"]).len(), finished.cases.0.len());
    let packed = STANDARD.decode(frame["worth"]["grams"].as_str().expect("packed numbers")).expect("base64");
    let grams: Vec<f32> = packed.chunks(4).map(|bytes| f32::from_le_bytes(bytes.try_into().expect("four"))).collect();
    let worth = finished.worth.as_ref().expect("a twist is measured");
    assert_eq!(grams.len(), tubes);
    for (told, grams) in grams.iter().zip(&worth.grams) {
        match grams {
            Some(grams) => assert_eq!(*told, *grams as f32, "with all digits that there are"),
            None => assert!(told.is_nan()),
        }
    }
    for case in list(&frame["cases"]) {
        assert_eq!(numbers(&case["moved"], 3), 6 * joints);
        assert_eq!(numbers(&case["forces"], 3), 6 * tubes);
        // Two joints are pushed; nothing is said of the others.
        assert_eq!(list(&case["acting"]["at"]).len(), 2);
        assert_eq!(numbers(&case["acting"]["all"], 3), 3 * 2);
        assert!(case["most"].as_f64().is_some_and(|most| most > 0.0));
    }
}

#[test]
fn a_name_cannot_end_the_data() {
    let name = "</script><script>alert(1)</script>";
    let quoted = format!("\"{name}\"");
    let folder = cantilever(-100.0)
        .with("joints.csv", format!("joint,x_mm,y_mm,z_mm\nwall,0,0,0\n{quoted},500,0,0\n"))
        .with("tubes.csv", format!("tube,from,to,section,material\nbeam,wall,{quoted},rail,mild\n"))
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,{quoted},0,0,-4000,0,0,0\n"));
    let frame = data(&report_html(&Finished::plain(&folder).run()));
    assert_eq!(frame["joints"][1], name);
}
