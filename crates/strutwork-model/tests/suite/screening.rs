//! What fatigue pairs and limits on movement become.

use approx::assert_relative_eq;
use strutwork_model::InputFiles;
use strutwork_model::model::{Along, CATEGORIES, FatigueCurve, Moved};

use crate::folder::{change, folder, model};

const TUBES: &str = "tube,from,to,section,material,group
AB,A,B,rail,mild,rails
BC,B,C,rail,mild,struts
CA,C,A,rail,mild,
";

const TABLES: &str = r#"[fatigue]
category_mpa = 56
moment_factor = 1.5
[fatigue.groups.struts]
category_mpa = 71
curve = "node-joint"
[fatigue.pairs.stop-and-go]
from = "brake"
to = "none"
cycles = 2e5
share = 0.5
source = "invented"
[fatigue.pairs.winter]
from = "brake"
to = "snow"
cycles = 400
note = "rough"
[limits.door]
between = ["A", "C"]
most_mm = 2
[limits.tip]
joint = "C"
direction = "z"
most_mm = 5.5
cases = ["snow"]
source = "invented"
[limits.pick-up]
joint = "C"
relative_to = "B"
most_mm = 1
[sections.rail]
"#;

/// A good folder with every table and key of this kind.
pub(crate) fn screened() -> InputFiles {
    let mut files = folder();
    change(&mut files, "model.toml", "[sections.rail]\n", TABLES);
    files.0.retain(|file| file.name != "tubes.csv");
    files.0.push(strutwork_model::InputFile::new("tubes.csv", TUBES));
    files
}

/// The folder with a piece of `model.toml` replaced.
pub(crate) fn with(from: &str, to: &str) -> InputFiles {
    let mut files = screened();
    change(&mut files, "model.toml", from, to);
    files
}

#[test]
fn pairs_and_details_are_as_written() {
    let model = model(&screened()).value;
    let fatigue = model.fatigue();
    assert_eq!(fatigue.moment_factor, 1.5);
    let [go, winter] = fatigue.pairs.as_slice() else { panic!("two pairs") };
    assert_eq!((go.from.as_str(), go.to.as_deref(), go.cycles, go.share), ("brake", None, 2e5, 0.5));
    assert_eq!((winter.to.as_deref(), winter.cycles, winter.share), (Some("snow"), 400.0, 1.0));
    assert_eq!((go.source.as_str(), winter.note.as_str()), ("invented", "rough"));
    let detail = |name: &str| model.fatigue_detail(model.tube_named(name).expect("a tube"));
    assert_eq!((detail("AB").category, detail("AB").curve, detail("AB").named), (56e6, FatigueCurve::Member, true));
    assert_eq!((detail("BC").category, detail("BC").curve), (71e6, FatigueCurve::NodeJoint));
    assert_eq!(detail("CA"), detail("AB"));
}

#[test]
fn limits_are_as_written() {
    let model = model(&screened()).value;
    let [a, b, c] = ["A", "B", "C"].map(|name| model.joint_named(name).expect("a joint"));
    let [door, tip, pick_up] = model.limits() else { panic!("three limits") };
    assert_eq!(door.moved, Moved::Distance([a, c]));
    assert_eq!(tip.moved, Moved::Joint { joint: c, from: None, along: Along::Z });
    assert_eq!(pick_up.moved, Moved::Joint { joint: c, from: Some(b), along: Along::Total });
    assert_relative_eq!(tip.most, 5.5e-3, max_relative = 1e-15);
    assert_eq!((tip.cases.as_slice(), tip.source.as_str()), (["snow".to_owned()].as_slice(), "invented"));
    assert!(door.cases.is_empty());
}

#[test]
fn without_a_word_nothing_is_screened_and_the_lowest_category_holds() {
    let model = model(&folder()).value;
    assert!(model.fatigue().pairs.is_empty() && model.limits().is_empty());
    assert_eq!(model.fatigue().moment_factor, 1.0);
    let detail = model.fatigue_detail(model.tube_named("AB").expect("a tube"));
    assert_eq!((detail.category, detail.curve, detail.named), (36e6, FatigueCurve::Member, false));
    assert!(CATEGORIES.iter().all(|category| *category >= 36.0));
    assert!(CATEGORIES.windows(2).all(|pair| pair[0] > pair[1]));
}
