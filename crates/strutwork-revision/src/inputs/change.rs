//! A change of a model, told once, in the fabricator's words.

use super::facts::Detail;

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
    pub(super) fn new(part: Part, how: How, old_name: &str, name: &str) -> Self {
        let old_name = (old_name != name).then(|| old_name.to_owned());
        Self { part, how, name: name.to_owned(), old_name, details: Vec::new(), about: String::new() }
    }

    pub(super) fn added(part: Part, name: &str, about: String) -> Self {
        Self { about, ..Self::new(part, How::Added, name, name) }
    }

    pub(super) fn gone(part: Part, name: &str, about: String) -> Self {
        Self { about, ..Self::new(part, How::Gone, name, name) }
    }

    /// A change of what both models have; `None` where there is none.
    pub(super) fn of(part: Part, old_name: &str, name: &str, details: Vec<Detail>) -> Option<Self> {
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
