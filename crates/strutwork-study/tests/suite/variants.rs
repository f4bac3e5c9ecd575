//! Every kind of change gives, to the last bit, what a model gives that was changed by hand.

use std::sync::Arc;

use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::{Dof, Model, spec};
use strutwork_study::evaluate::Wanted;
use strutwork_study::{
    Asked, CaseSource, Change, Exact, Levels, Outcome, Parameter, Response, Status, Study, Trouble, Tubes, Value, Why,
};
use strutwork_testkit::Folder;

use crate::bracket::{JOINTS, MODEL, TUBES, bracket};

/// The cases of the load files.
struct Plain;

impl CaseSource for Plain {
    fn cases(&self, model: &Arc<Model>, _: Wanted<'_>) -> Result<LoadCases, Trouble> {
        derive_plain(model).map_err(|error| Trouble::from(&error))
    }

    fn texts(&self) -> Vec<(String, String)> {
        Vec::new()
    }
}

fn study(folder: &Folder) -> Study {
    let mut study = Study::new("test", spec::parse(&folder.files()).0);
    let movement = |dof| Asked::Movement { case: "side".to_owned(), joint: "D".to_owned(), dof };
    let asked = [
        ("kg", Asked::TubesMass),
        ("total", Asked::TotalMass),
        ("uy", movement(Dof::Uy)),
        ("rx", movement(Dof::Rx)),
        ("used", Asked::Utilisation(None)),
        ("hz", Asked::Frequency(1)),
        ("times", Asked::Buckling(None)),
    ];
    study.responses = asked.map(|(name, asked)| Response { name: name.to_owned(), asked }).into();
    study
}

/// The outcome of one value of one parameter.
fn varied(change: Change, value: Value) -> Outcome {
    let folder = bracket(true);
    let mut study = study(&folder);
    let parameter = Parameter::new(&study.base, Some("it"), change, Levels::List(vec![value.clone()]));
    study.parameters.push(parameter.unwrap_or_else(|fault| panic!("{fault}")));
    Exact::new(&Plain, None).outcome(&study, &[value], Why::Asked)
}

/// The outcome of a model in which a text was changed by hand.
fn by_hand(file: &str, from: &str, to: &str) -> Outcome {
    let folder = bracket(true);
    let files = folder.files();
    let text = String::from_utf8(files.get(file).expect("a file").to_vec()).expect("text");
    assert!(text.contains(from), "{file} has no {from:?}");
    Exact::new(&Plain, None).outcome(&study(&folder.with(file, text.replace(from, to))), &[], Why::Asked)
}

#[track_caller]
fn agree(varied: &Outcome, by_hand: &Outcome) {
    assert_eq!(varied.status, Status::Solved, "{varied:?}");
    assert_eq!(varied, by_hand);
    assert_ne!(
        varied,
        &Exact::new(&Plain, None).outcome(&study(&bracket(true)), &[], Why::Asked),
        "nothing was changed"
    );
}

fn group(name: &str) -> Tubes {
    Tubes::Group(name.to_owned())
}

#[test]
fn a_wall_is_that_of_the_group_alone() {
    let sides = TUBES.replace("rail,mild,sides", "thick,mild,sides");
    let model = format!("{MODEL}[sections.thick]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = 3.0\n");
    let changed = study(&bracket(true).with("tubes.csv", sides).with("model.toml", model));
    let changed = Exact::new(&Plain, None).outcome(&changed, &[], Why::Asked);
    agree(&varied(Change::Wall(group("sides")), 3.0.into()), &changed);
}

#[test]
fn a_stock_size_keeps_its_outer_size_when_its_wall_changes() {
    let hand = self::by_hand("model.toml", "stock = \"square 25x2\"", "stock = \"square 25x3\"");
    let mut both = study(&bracket(true));
    for name in ["cross", "other"] {
        let levels = Levels::List(vec![3.0.into()]);
        both.parameters.push(Parameter::new(&both.base, None, Change::Wall(group(name)), levels).unwrap());
    }
    agree(&Exact::new(&Plain, None).outcome(&both, &[3.0.into(), 3.0.into()], Why::Asked), &hand);
}

#[test]
fn a_size_is_of_the_stock_list_or_of_the_model() {
    let of_model = by_hand("tubes.csv", "front,C,D,rail", "front,C,D,brace");
    agree(&varied(Change::Size(group("front")), "brace".into()), &of_model);
    agree(&varied(Change::Size(group("front")), "square 25x2".into()), &of_model);
}

#[test]
fn tubes_are_left_out_and_what_only_they_held_with_them() {
    let change = Change::Presence(vec!["d3".to_owned()]);
    agree(&varied(change, "off".into()), &by_hand("tubes.csv", "d3,B,C,brace,mild,other\n", ""));
    // Joint E goes with the last tube that holds it.
    let without = bracket(true)
        .with("tubes.csv", TUBES.replace("d1,A,E,brace,mild,cross\nd2,E,D,brace,mild,cross\n", ""))
        .with("joints.csv", JOINTS.replace("E,250,0,0\n", ""));
    let without = Exact::new(&Plain, None).outcome(&study(&without), &[], Why::Asked);
    let both = ["d1", "d2"].map(str::to_owned).to_vec();
    agree(&varied(Change::Presence(both.clone()), "off".into()), &without);
    let patterns = vec![
        ("one".to_owned(), vec!["d3".to_owned()]),
        ("two".to_owned(), both),
        ("all".to_owned(), ["d1", "d2", "d3"].map(str::to_owned).to_vec()),
    ];
    agree(&varied(Change::Pattern(patterns.clone()), "one".into()), &without);
    let all = varied(Change::Pattern(patterns), "all".into());
    assert_eq!(all, Exact::new(&Plain, None).outcome(&study(&bracket(true)), &[], Why::Asked), "every tube is there");
}

#[test]
fn joints_move_and_their_partners_with_them() {
    let shift = |axis, partner: Option<&str>| Change::Shift {
        joint: "C".to_owned(),
        axis,
        partner: partner.map(str::to_owned),
    };
    agree(&varied(shift(0, None), 40.0.into()), &by_hand("joints.csv", "C,500,200,0", "C,540,200,0"));
    let wider = by_hand("joints.csv", "C,500,200,0\nD,500,-200,0", "C,500,230,0\nD,500,-230,0");
    agree(&varied(shift(1, Some("D")), 30.0.into()), &wider);
    let higher = by_hand("joints.csv", "C,500,200,0\nD,500,-200,0", "C,500,200,-15\nD,500,-200,-15");
    agree(&varied(shift(2, Some("D")), (-15.0).into()), &higher);
}

#[test]
fn panels_change_their_thickness_and_their_fixing() {
    let skin = "skin,A B D C,mild,1.0,soft";
    agree(
        &varied(Change::Thickness("skin".to_owned()), 1.5.into()),
        &by_hand("panels.csv", skin, "skin,A B D C,mild,1.5,soft"),
    );
    agree(
        &varied(Change::Fixing("skin".to_owned()), "".into()),
        &by_hand("panels.csv", skin, "skin,A B D C,mild,1.0,"),
    );
}

#[test]
fn what_cannot_be_built_or_solved_is_an_outcome() {
    let wall = varied(Change::Wall(group("sides")), 40.0.into());
    assert_eq!(wall.status, Status::ModelFault);
    assert!(wall.note.starts_with("model fault M"), "{}", wall.note);
    // A tube on two pins, with a third in its middle: it swings.
    let pinned = "tube,from,to,section,material,group,release_from,release_to\n\
                  left,A,C,rail,mild,sides,ry rz,\nright,B,D,rail,mild,sides,ry rz,\nfront,C,D,rail,mild,front,,\n\
                  d1,A,E,brace,mild,cross,,\nd2,E,D,brace,mild,cross,,\nd3,B,C,brace,mild,other,,\n";
    let folder = bracket(true).with("tubes.csv", pinned).with("panels.csv", "panel,joints,material,thickness_mm\n");
    let mut study = study(&folder);
    let braces = ["d1", "d2", "d3"].map(str::to_owned).to_vec();
    let levels = Levels::List(vec!["on".into(), "off".into()]);
    study.parameters.push(Parameter::new(&study.base, Some("braces"), Change::Presence(braces), levels).unwrap());
    let swings = Exact::new(&Plain, None).outcome(&study, &["off".into()], Why::Asked);
    assert_eq!(swings.status, Status::Mechanism, "{swings:?}");
    assert!(swings.note.starts_with("mechanism at "), "{}", swings.note);
}
