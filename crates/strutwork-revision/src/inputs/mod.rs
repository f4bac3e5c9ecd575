//! What differs between two models: each change told once, in the fabricator's words.
//!
//! Models are compared as they are, not as they are written: the order of rows, a comment, another spelling of a number or of
//! a gauge is no change. What only follows from another change (the radius of a corner from the wall, the place of a towing
//! eye from its joint) is not told beside it.

mod acting;
mod carried;
mod evidence;
mod facts;
mod frame;
mod judged;
mod names;
mod pairs;
mod rolling;
mod script;
mod shapes;

use strutwork_model::Model;
use strutwork_model::ids::Id;

pub use facts::{Detail, Value};
pub use pairs::{Pairs, TubePair};

use facts::{Item, differ, pair};
use names::Side;

/// What a change is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A joint.
    Joint,
    /// A tube.
    Tube,
    /// A section.
    Section,
    /// A material.
    Material,
    /// A support, by its joint.
    Support,
    /// A mass that the frame carries.
    Mass,
    /// A panel.
    Panel,
    /// A way of fixing panels.
    Fixing,
    /// A body.
    Body,
    /// A mount of a body: `BODY at JOINT`.
    Mount,
    /// A kind of bolt.
    Bolt,
    /// A case of the load files.
    Case,
    /// What acts on one thing in such a case.
    Load,
    /// The model's own case script.
    Script,
    /// The vehicle.
    Vehicle,
    /// A suspension link: `CORNER LINK`.
    Link,
    /// A place at which standard cases act.
    Place,
    /// A factor of a case script.
    Factor,
    /// The options.
    Options,
    /// What the frame is judged by.
    Basis,
    /// A check that is switched off.
    SwitchedOff,
    /// A pair of cases for fatigue.
    FatiguePair,
    /// A limit on movement.
    Limit,
    /// What the scales say.
    Weighed,
    /// The sheet of a twist rig.
    Rig,
    /// The title block.
    Title,
}

impl Part {
    /// All, in the order of lists.
    pub const ALL: [Self; 26] = [
        Self::Joint,
        Self::Tube,
        Self::Section,
        Self::Material,
        Self::Support,
        Self::Mass,
        Self::Panel,
        Self::Fixing,
        Self::Body,
        Self::Mount,
        Self::Bolt,
        Self::Case,
        Self::Load,
        Self::Script,
        Self::Vehicle,
        Self::Link,
        Self::Place,
        Self::Factor,
        Self::Options,
        Self::Basis,
        Self::SwitchedOff,
        Self::FatiguePair,
        Self::Limit,
        Self::Weighed,
        Self::Rig,
        Self::Title,
    ];

    /// Its word in sentences and files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Joint => "joint",
            Self::Tube => "tube",
            Self::Section => "section",
            Self::Material => "material",
            Self::Support => "support",
            Self::Mass => "mass",
            Self::Panel => "panel",
            Self::Fixing => "fixing",
            Self::Body => "body",
            Self::Mount => "mount",
            Self::Bolt => "bolt",
            Self::Case => "load case",
            Self::Load => "load",
            Self::Script => "script",
            Self::Vehicle => "vehicle",
            Self::Link => "link",
            Self::Place => "place",
            Self::Factor => "factor",
            Self::Options => "options",
            Self::Basis => "basis",
            Self::SwitchedOff => "check switched off",
            Self::FatiguePair => "fatigue pair",
            Self::Limit => "limit",
            Self::Weighed => "weighed",
            Self::Rig => "rig sheet",
            Self::Title => "title block",
        }
    }
}

/// What happened to it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum How {
    /// Only the second model has it.
    Added,
    /// Only the first model has it.
    Gone,
    /// It has another name, and nothing else differs.
    Renamed,
    /// A tube runs the other way, and nothing else differs.
    Reversed,
    /// A joint stands elsewhere.
    Moved,
    /// Something else of it differs.
    Changed,
}

impl How {
    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Added => "added",
            Self::Gone => "gone",
            Self::Renamed => "renamed",
            Self::Reversed => "reversed",
            Self::Moved => "moved",
            Self::Changed => "changed",
        }
    }
}

/// A change, told once.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What it is of.
    pub part: Part,
    /// What happened to it.
    pub how: How,
    /// Its name; that of the second model where it has two. Empty where there is only one of its kind.
    pub name: String,
    /// Its name in the first model, where that is another.
    pub old_name: Option<String>,
    /// What differs, one an entry; none of what was added or is gone.
    pub details: Vec<Detail>,
    /// What a reader wants to know besides, in words: what an added tube is, which tubes a section touches.
    pub about: String,
}

impl Change {
    fn new(part: Part, how: How, old_name: &str, name: &str) -> Self {
        let old_name = (old_name != name).then(|| old_name.to_owned());
        Self { part, how, name: name.to_owned(), old_name, details: Vec::new(), about: String::new() }
    }

    fn added(part: Part, name: &str, about: String) -> Self {
        Self { about, ..Self::new(part, How::Added, name, name) }
    }

    fn gone(part: Part, name: &str, about: String) -> Self {
        Self { about, ..Self::new(part, How::Gone, name, name) }
    }

    /// A change of what both models have; `None` where there is none.
    fn of(part: Part, old_name: &str, name: &str, details: Vec<Detail>) -> Option<Self> {
        let how = match (details.is_empty(), old_name == name) {
            (true, true) => return None,
            (true, false) => How::Renamed,
            (false, _) if part == Part::Joint => How::Moved,
            (false, _) => How::Changed,
        };
        Some(Self { details, ..Self::new(part, how, old_name, name) })
    }

    /// What it is of, by name: `tube t12`, `joint K7 (was J7)`, `vehicle`.
    pub fn subject(&self) -> String {
        let was = self.old_name.as_ref().map_or_else(String::new, |old| format!(" (was {old})"));
        match (self.name.is_empty(), self.part) {
            (true, _) => self.part.word().to_owned(),
            (false, Part::Script) => format!("{}{was}", self.name),
            (false, _) => format!("{} {}{was}", self.part.word(), self.name),
        }
    }

    /// What happened, in words: `wall 1.5 → 2 mm; group floor → sill`.
    pub fn happened(&self) -> String {
        let details: Vec<String> = self.details.iter().map(Detail::words).collect();
        let told = match self.how {
            How::Renamed => format!("renamed, was {}", self.old_name.as_deref().unwrap_or_default()),
            How::Added | How::Gone => self.how.word().to_owned(),
            How::Reversed => "runs the other way, nothing else of it differs".to_owned(),
            How::Moved | How::Changed if details.is_empty() => self.how.word().to_owned(),
            How::Moved | How::Changed => details.join("; "),
        };
        if self.about.is_empty() { told } else { format!("{told}: {}", self.about) }
    }

    /// The whole sentence: `tube t12: wall 1.5 → 2 mm`.
    pub fn sentence(&self) -> String {
        if self.how == How::Renamed {
            return format!("{} {}: {}", self.part.word(), self.name, self.happened());
        }
        format!("{}: {}", self.subject(), self.happened())
    }
}

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
    used(&sections, Part::Section, &a, &b, &mut out);
    used(&materials, Part::Material, &a, &b, &mut out);
    Listed::of(carried::supports(&a), carried::supports(&b)).by_name_only().told(Part::Support, &mut out);
    Listed::of(carried::masses(&a), carried::masses(&b)).told(Part::Mass, &mut out);
    Listed::of(carried::panels(&a), carried::panels(&b)).told(Part::Panel, &mut out);
    fixings.told(Part::Fixing, &mut out);
    told_bodies(&bodies, &a, &b, &mut out);
    bolts.told(Part::Bolt, &mut out);
    cases(&a, &b, &pairs, &mut out);
    out.extend(script::changed(scripts[0], scripts[1]));
    vehicle(&a, &b, &mut out);
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

/// Two lists of items, and which is which.
struct Listed {
    before: Vec<Item>,
    after: Vec<Item>,
    pairs: Vec<Option<usize>>,
}

impl Listed {
    fn of(before: Vec<Item>, after: Vec<Item>) -> Self {
        let pairs = pair(&before, &after);
        Self { before, after, pairs }
    }

    /// Without pairs of different names: what is alike is not the same thing by another name.
    fn by_name_only(mut self) -> Self {
        for (item, pair) in self.before.iter().zip(&mut self.pairs) {
            *pair = pair.filter(|&place| self.after[place].name == item.name);
        }
        self
    }

    /// Tells the parts of the first model by the names of their pairs.
    fn rename<'m>(&self, names: &mut [&'m str], others: &[&'m str]) {
        for (name, pair) in names.iter_mut().zip(&self.pairs) {
            if let Some(place) = *pair {
                *name = others[place];
            }
        }
    }

    /// Which item of the first list each of the second was.
    fn came_from(&self) -> Vec<Option<usize>> {
        let mut from = vec![None; self.after.len()];
        for (place, pair) in self.pairs.iter().enumerate() {
            if let Some(other) = *pair {
                from[other] = Some(place);
            }
        }
        from
    }

    /// Tells what happened to each, in the order of the second list, then what is gone.
    fn told(&self, part: Part, out: &mut Vec<Change>) {
        for (item, from) in self.after.iter().zip(self.came_from()) {
            match from {
                None => out.push(Change::added(part, &item.name, summary(item))),
                Some(was) => {
                    let was = &self.before[was];
                    out.extend(Change::of(part, &was.name, &item.name, differ(&was.facts, &item.facts)));
                }
            }
        }
        for (item, pair) in self.before.iter().zip(&self.pairs) {
            if pair.is_none() {
                out.push(Change::gone(part, &item.name, summary(item)));
            }
        }
    }
}

/// An item in a few words.
fn summary(item: &Item) -> String {
    let told = item.facts.iter().filter(|fact| fact.what != "source").take(3);
    let words = told.map(|fact| format!("{} {}", fact.what, fact.value.with_unit()));
    words.collect::<Vec<_>>().join(", ")
}

/// Sections or materials: a change of one is told with the tubes that it touches; one that came or went with the tubes that
/// use it is told by those tubes.
fn used(listed: &Listed, part: Part, a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    let of = |side: &Side<'_>, place: usize| -> Vec<String> {
        let uses = |tube: &&strutwork_model::model::Tube| match part {
            Part::Section => tube.section.index() == place,
            _ => tube.material.index() == place,
        };
        side.model.tubes().iter().filter(uses).map(|tube| tube.name.clone()).collect()
    };
    for (place, (item, from)) in listed.after.iter().zip(listed.came_from()).enumerate() {
        let touched = of(b, place);
        match from {
            None if touched.is_empty() => {
                out.push(Change::added(part, &item.name, format!("{}; no tube uses it", summary(item))));
            }
            None => {}
            Some(was) => {
                let was = &listed.before[was];
                let mut details = differ(&was.facts, &item.facts);
                // Another grade has other values and another source: those follow.
                if details.len() > 1 {
                    details.retain(|detail| detail.what != "source");
                }
                if let Some(mut change) = Change::of(part, &was.name, &item.name, details) {
                    if change.how == How::Changed {
                        change.about = tubes_in_words(&touched);
                    }
                    out.push(change);
                }
            }
        }
    }
    for (place, (item, pair)) in listed.before.iter().zip(&listed.pairs).enumerate() {
        if pair.is_none() && of(a, place).is_empty() {
            out.push(Change::gone(part, &item.name, "no tube used it".to_owned()));
        }
    }
}

/// `tubes t1, t2, t3 and 14 more`.
fn tubes_in_words(names: &[String]) -> String {
    const SHOWN: usize = 4;
    match names.len() {
        0 => "no tube uses it".to_owned(),
        1 => format!("tube {}", names[0]),
        number if number <= SHOWN => format!("tubes {}", names.join(", ")),
        number => format!("{number} tubes: {} and {} more", names[..SHOWN - 1].join(", "), number - (SHOWN - 1)),
    }
}

/// Bodies, and of those in both models their bolts.
fn told_bodies(listed: &Listed, a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    let mut of_bodies = Vec::new();
    listed.told(Part::Body, &mut of_bodies);
    // Where a body is bolted is told bolt by bolt.
    for mut change in of_bodies {
        change.details.clear();
        match change.how {
            How::Changed if change.old_name.is_none() => {}
            How::Changed => out.push(Change { how: How::Renamed, ..change }),
            _ => out.push(change),
        }
    }
    for (place, from) in listed.came_from().into_iter().enumerate() {
        let Some(was) = from else { continue };
        let mounts = Listed::of(carried::mounts(a, Id::new(was)), carried::mounts(b, Id::new(place))).by_name_only();
        let before = out.len();
        mounts.told(Part::Mount, out);
        for change in &mut out[before..] {
            change.name = format!("{} at {}", b.bodies[place], change.name);
        }
    }
}

fn single(part: Part, before: &Item, after: &Item, out: &mut Vec<Change>) {
    out.extend(Change::of(part, "", "", differ(&before.facts, &after.facts)));
}

fn vehicle(a: &Side<'_>, b: &Side<'_>, out: &mut Vec<Change>) {
    match (rolling::vehicle(a), rolling::vehicle(b)) {
        (Some(before), Some(after)) => {
            let mut details = differ(&before.facts, &after.facts);
            rolling::told_once(&mut details);
            out.extend(Change::of(Part::Vehicle, "", "", details));
        }
        (None, Some(_)) => out.push(Change::added(Part::Vehicle, "", String::new())),
        (Some(_), None) => out.push(Change::gone(Part::Vehicle, "", String::new())),
        (None, None) => {}
    }
}

fn cases(a: &Side<'_>, b: &Side<'_>, pairs: &Pairs, out: &mut Vec<Change>) {
    let turned = acting::Turned::of(a.model, b.model, pairs);
    for case in b.model.plain_cases() {
        match a.model.plain_cases().iter().find(|other| other.name == case.name) {
            None => {
                let loads = acting::acting(b, case, None).len();
                let about = format!("something acts on {loads} place{}", if loads == 1 { "" } else { "s" });
                out.push(Change::added(Part::Case, &case.name, about));
            }
            Some(was) => {
                let listed = Listed::of(acting::acting(a, was, Some(&turned)), acting::acting(b, case, None));
                let before = out.len();
                listed.by_name_only().told(Part::Load, out);
                for change in &mut out[before..] {
                    change.name = format!("on {} in case {}", change.name, case.name);
                }
            }
        }
    }
    for case in a.model.plain_cases() {
        if b.model.plain_cases().iter().all(|other| other.name != case.name) {
            out.push(Change::gone(Part::Case, &case.name, String::new()));
        }
    }
}
