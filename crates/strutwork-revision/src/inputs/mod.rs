//! What differs between two models: each change told once, in the fabricator's words.
//!
//! Models are compared as they are, not as they are written: the order of rows, a comment, another spelling of a number or of
//! a gauge is no change. What only follows from another change (the radius of a corner from the wall, the place of a towing
//! eye from its joint) is not told beside it.

mod acting;
mod carried;
mod change;
mod evidence;
mod facts;
mod frame;
mod judged;
mod listed;
mod names;
mod pairs;
mod rolling;
mod script;
mod shapes;
mod used;

use strutwork_model::Model;

pub use change::{Change, How, Part};
pub use facts::{Detail, Value};
pub(crate) use pairs::axes;
pub use pairs::{Pairs, TubePair};

use listed::{Listed, single};
use names::Side;

/// What differs between two models, and which part is which.
#[derive(Debug, Clone, PartialEq)]
pub struct Inputs {
    /// Every change, in the order of [`Part`].
    pub changes: Vec<Change>,
    /// Which joint and which tube is which.
    pub pairs: Pairs,
}

/// Compares two models, and the texts of their own case scripts.
///
/// # Example
/// ```
/// use strutwork_model::{InputFile, InputFiles, read_model};
/// use strutwork_revision::compare_models;
/// let model = |wall: &str, x: &str| {
///     let settings = format!(
///         "title = \"A bar\"\n[sections.bar]\nshape = \"round\"\ndiameter_mm = 30\nwall = \"{wall}\"\n\
///          [materials.mild]\ngrade = \"S235JRH\""
///     );
///     read_model(&InputFiles(vec![
///         InputFile::new("model.toml", settings),
///         InputFile::new("joints.csv", format!("joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,{x},0,0\n")),
///         InputFile::new("tubes.csv", "tube,from,to,section,material\nAB,A,B,bar,mild\n"),
///     ])).unwrap().value
/// };
/// let same = compare_models(&model("16 swg", "500"), &model("1.626 mm", "500.0"), [None, None]);
/// assert!(same.changes.is_empty());
/// let other = compare_models(&model("16 swg", "500"), &model("2 mm", "510"), [None, None]);
/// let told: Vec<String> = other.changes.iter().map(|change| change.sentence()).collect();
/// assert_eq!(told, ["joint B: moved by 10 mm (x +10)", "section bar: wall 1.626 → 2 mm: tube AB"]);
/// ```
pub fn compare_models(before: &Model, after: &Model, scripts: [Option<&str>; 2]) -> Inputs {
    let pairs = Pairs::of(before, after);
    let mut out = Vec::new();
    let (mut a, b) = (Side::of(before), Side::of(after));
    for (id, joint) in a.joints.iter_mut().enumerate() {
        if let Some(other) = pairs.joints[id] {
            *joint = &after.joints()[other].name;
        }
    }
    for (id, tube) in a.tubes.iter_mut().enumerate() {
        if let Some(other) = pairs.tubes[id] {
            *tube = &after.tubes()[other.tube].name;
        }
    }
    // Parts that others name are paired before those are compared.
    let materials = Listed::of(shapes::materials(before), shapes::materials(after));
    materials.rename(&mut a.materials, &b.materials);
    let sections = Listed::of(shapes::sections(before), shapes::sections(after));
    sections.rename(&mut a.sections, &b.sections);
    let fixings = Listed::of(shapes::fixings(before), shapes::fixings(after));
    fixings.rename(&mut a.fixings, &b.fixings);
    let bolts = Listed::of(shapes::bolts(&a), shapes::bolts(&b));
    bolts.rename(&mut a.bolts, &b.bolts);
    let bodies = Listed::of(carried::bodies(&a), carried::bodies(&b));
    bodies.rename(&mut a.bodies, &b.bodies);

    frame::joints(&a, &b, &pairs, &mut out);
    frame::tubes(&a, &b, &pairs, &mut out);
    used::used(&sections, Part::Section, &a, &b, &mut out);
    used::used(&materials, Part::Material, &a, &b, &mut out);
    Listed::of(carried::supports(&a), carried::supports(&b)).by_name_only().told(Part::Support, &mut out);
    Listed::of(carried::masses(&a), carried::masses(&b)).told(Part::Mass, &mut out);
    Listed::of(carried::panels(&a), carried::panels(&b)).told(Part::Panel, &mut out);
    fixings.told(Part::Fixing, &mut out);
    carried::told_bodies(&bodies, &a, &b, &mut out);
    bolts.told(Part::Bolt, &mut out);
    acting::cases(&a, &b, &pairs, &mut out);
    out.extend(script::changed(scripts[0], scripts[1]));
    rolling::told_vehicle(&a, &b, &mut out);
    Listed::of(rolling::links(&a), rolling::links(&b)).told(Part::Link, &mut out);
    Listed::of(rolling::places(&a), rolling::places(&b)).told(Part::Place, &mut out);
    Listed::of(judged::factors(&a), judged::factors(&b)).by_name_only().told(Part::Factor, &mut out);
    single(Part::Options, &judged::options(&a), &judged::options(&b), &mut out);
    single(Part::Basis, &judged::basis(&a), &judged::basis(&b), &mut out);
    Listed::of(judged::switched_off(&a), judged::switched_off(&b)).by_name_only().told(Part::SwitchedOff, &mut out);
    Listed::of(judged::fatigue(&a), judged::fatigue(&b)).told(Part::FatiguePair, &mut out);
    Listed::of(judged::limits(&a), judged::limits(&b)).told(Part::Limit, &mut out);
    single(Part::Weighed, &evidence::weighed(&a), &evidence::weighed(&b), &mut out);
    evidence::rig(&a, &b, &mut out);
    single(Part::Title, &judged::title(&a), &judged::title(&b), &mut out);
    Inputs { changes: out, pairs }
}
