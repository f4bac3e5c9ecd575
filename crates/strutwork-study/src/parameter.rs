//! What is varied, held against the model that it is varied in.

use serde::Serialize;
use strutwork_model::gauges;
use strutwork_model::spec::{ModelSpec, SectionEntry, TubeRow};
use strutwork_model::stock;

use crate::fault::StudyFault;
use crate::value::Value;

/// The word of a diagonal that is there.
pub const ON: &str = "on";
/// The word of a diagonal that is left out.
pub const OFF: &str = "off";
/// The word for what differs from tube to tube, or is not known: nothing is changed.
pub const AS_IT_IS: &str = "as it is";

/// Tubes that are changed together.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub enum Tubes {
    /// Those of a group.
    Group(String),
    /// Those that have a section and belong to no group.
    Section(String),
}

impl Tubes {
    /// The name of group or section.
    pub fn name(&self) -> &str {
        match self {
            Self::Group(name) | Self::Section(name) => name,
        }
    }

    /// Whether a tube is one of them.
    pub fn holds(&self, tube: &TubeRow) -> bool {
        match self {
            Self::Group(group) => tube.group.value == *group,
            Self::Section(section) => tube.group.is_empty() && tube.section.value == *section,
        }
    }

    /// Their sections, in order of first use.
    ///
    /// # Errors
    /// [`StudyFault::UnknownName`] where there are no such tubes.
    fn sections<'s>(&self, spec: &'s ModelSpec) -> Result<Vec<&'s SectionEntry>, StudyFault> {
        let mut sections: Vec<&SectionEntry> = Vec::new();
        for tube in spec.tubes.iter().filter(|tube| self.holds(tube)) {
            let section = spec.sections.iter().find(|section| section.name == tube.section);
            if let Some(section) = section.filter(|section| sections.iter().all(|known| known.name != section.name)) {
                sections.push(section);
            }
        }
        if sections.is_empty() {
            let groups = spec.tubes.iter().map(|tube| tube.group.value.as_str()).filter(|group| !group.is_empty());
            return Err(StudyFault::unknown("group of tubes", self.name(), groups));
        }
        Ok(sections)
    }
}

/// How a value changes the model.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Change {
    /// The wall of tubes, mm.
    Wall(Tubes),
    /// The section of tubes: a size of the stock list, or a section of the model.
    Size(Tubes),
    /// Whether these tubes are there.
    Presence(Vec<String>),
    /// Which of several patterns of tubes is there: name and tubes of each.
    Pattern(Vec<(String, Vec<String>)>),
    /// How far a joint is moved along an axis, mm; a mirrored partner moves alike, and in y the other way.
    Shift {
        /// The joint.
        joint: String,
        /// 0, 1 or 2 for x, y, z.
        axis: usize,
        /// The joint on the other side.
        partner: Option<String>,
    },
    /// The thickness of a panel, mm.
    Thickness(String),
    /// The fixing of a panel; an empty word for rigid edges.
    Fixing(String),
    /// What the caller's own function makes of it.
    Own,
}

/// The values that a parameter may take.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Levels {
    /// One of these.
    List(Vec<Value>),
    /// Any number between; for sampled designs.
    Range {
        /// The least.
        from: f64,
        /// The greatest.
        to: f64,
    },
}

/// Something that is varied.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Parameter {
    /// The column's name, with its unit: `floor.wall_mm`.
    pub name: String,
    /// The values it may take.
    pub levels: Levels,
    /// What the model has: this value changes nothing.
    pub as_it_is: Value,
    /// The value where the design varies another parameter; usually as it is.
    pub start: Value,
    /// How a value changes the model.
    pub change: Change,
}

impl Parameter {
    /// A parameter with these levels, held against the model.
    ///
    /// # Errors
    /// [`StudyFault`]: a name that the model does not have, no value or one of them twice, a value of the wrong kind.
    pub fn new(spec: &ModelSpec, name: Option<&str>, change: Change, levels: Levels) -> Result<Self, StudyFault> {
        let as_it_is = current(spec, &change)?;
        let name = name.map_or_else(|| usual_name(&change), str::to_owned);
        let parameter = Self { name, levels, start: as_it_is.clone(), as_it_is, change };
        parameter.check(spec)?;
        Ok(parameter)
    }

    /// The same, with another value where the design varies another parameter.
    #[must_use]
    pub fn starting(mut self, start: Value) -> Self {
        self.start = start;
        self
    }

    /// Whether its values are numbers.
    pub fn is_number(&self) -> bool {
        match &self.levels {
            Levels::Range { .. } => self.start.number().is_some(),
            Levels::List(values) => values.iter().chain([&self.start]).all(|value| value.number().is_some()),
        }
    }

    /// Holds a value against what the parameter takes.
    ///
    /// # Errors
    /// [`StudyFault::Levels`].
    pub fn takes(&self, spec: &ModelSpec, value: &Value) -> Result<(), StudyFault> {
        if *value == self.as_it_is {
            return Ok(());
        }
        match (&self.change, value) {
            (Change::Own, Value::Number(number)) if number.is_finite() => Ok(()),
            (Change::Own, Value::Word(_)) => Ok(()),
            (Change::Wall(_) | Change::Thickness(_), Value::Number(number)) if *number > 0.0 && number.is_finite() => {
                Ok(())
            }
            (Change::Shift { .. }, Value::Number(number)) if number.is_finite() => Ok(()),
            (Change::Size(_), Value::Word(word)) => {
                let known = || spec.sections.iter().map(|section| section.name.value.as_str());
                if stock::find(word).is_some() || known().any(|name| name == word) {
                    Ok(())
                } else {
                    Err(self.wrong(format!(
                        "hold `{word}`, which is neither a size of the stock list nor a section of the model"
                    )))
                }
            }
            (Change::Presence(_), Value::Word(word)) if word == ON || word == OFF => Ok(()),
            (Change::Pattern(patterns), Value::Word(word)) => {
                let known = || patterns.iter().map(|(name, _)| name.as_str());
                if known().any(|name| name == word) {
                    Ok(())
                } else {
                    Err(StudyFault::unknown("pattern", word, known()))
                }
            }
            (Change::Fixing(_), Value::Word(word)) => {
                let known = || spec.fixings.iter().map(|fixing| fixing.name.value.as_str());
                if word.is_empty() || known().any(|name| name == word) {
                    Ok(())
                } else {
                    Err(StudyFault::unknown("fixing", word, known()))
                }
            }
            _ => Err(self.wrong(format!("hold `{value}`, which is not what it takes"))),
        }
    }

    fn wrong(&self, why: impl Into<String>) -> StudyFault {
        StudyFault::Levels { parameter: self.name.clone(), why: why.into() }
    }

    fn check(&self, spec: &ModelSpec) -> Result<(), StudyFault> {
        match &self.levels {
            Levels::List(values) => {
                if values.is_empty() {
                    return Err(self.wrong("are missing"));
                }
                for (place, value) in values.iter().enumerate() {
                    self.takes(spec, value)?;
                    if values[..place].contains(value) {
                        return Err(self.wrong(format!("hold {value} twice")));
                    }
                }
            }
            Levels::Range { from, to } => {
                if from.partial_cmp(to) != Some(std::cmp::Ordering::Less) {
                    return Err(self.wrong(format!("run from {from} to {to}: the first must be the less")));
                }
                for end in [*from, *to] {
                    self.takes(spec, &Value::Number(end))?;
                }
            }
        }
        Ok(())
    }
}

/// The name of a parameter that was given none.
fn usual_name(change: &Change) -> String {
    match change {
        Change::Wall(tubes) => format!("{}.wall_mm", tubes.name()),
        Change::Size(tubes) => format!("{}.size", tubes.name()),
        Change::Presence(tubes) => tubes.join("+"),
        Change::Pattern(_) => "pattern".to_owned(),
        Change::Shift { joint, axis, .. } => format!("{joint}.d{}_mm", ["x", "y", "z"][*axis]),
        Change::Thickness(panel) => format!("{panel}.thickness_mm"),
        Change::Fixing(panel) => format!("{panel}.fixing"),
        Change::Own => "number".to_owned(),
    }
}

/// What the model has, after the names were found in it.
fn current(spec: &ModelSpec, change: &Change) -> Result<Value, StudyFault> {
    match change {
        Change::Wall(tubes) => Ok(common_wall(spec, tubes)?.map_or_else(|| AS_IT_IS.into(), Value::Number)),
        Change::Size(tubes) => {
            let sections = tubes.sections(spec)?;
            Ok(if let [only] = sections.as_slice() { only.name.value.as_str().into() } else { AS_IT_IS.into() })
        }
        Change::Presence(tubes) => {
            known_tubes(spec, tubes)?;
            Ok(ON.into())
        }
        Change::Pattern(patterns) => {
            for (_, tubes) in patterns {
                known_tubes(spec, tubes)?;
            }
            Ok(AS_IT_IS.into())
        }
        Change::Shift { joint, partner, .. } => {
            let names = || spec.joints.iter().map(|row| row.joint.value.as_str());
            for name in std::iter::once(joint).chain(partner) {
                if names().all(|known| known != name) {
                    return Err(StudyFault::unknown("joint", name, names()));
                }
            }
            Ok(0.0.into())
        }
        Change::Thickness(panel) => Ok(panel_named(spec, panel)?.thickness_mm.value.into()),
        Change::Fixing(panel) => Ok(panel_named(spec, panel)?.fixing.value.as_str().into()),
        Change::Own => Ok(AS_IT_IS.into()),
    }
}

/// The wall that all these tubes have, mm; `None` where it differs from tube to tube.
///
/// # Errors
/// [`StudyFault::UnknownName`] where there are no such tubes; [`StudyFault::NoWall`].
pub fn common_wall(spec: &ModelSpec, tubes: &Tubes) -> Result<Option<f64>, StudyFault> {
    let walls = tubes.sections(spec)?.into_iter().map(|section| {
        wall_of(section)
            .ok_or_else(|| StudyFault::NoWall { tubes: tubes.name().to_owned(), section: section.name.value.clone() })
    });
    let walls: Vec<f64> = walls.collect::<Result<_, _>>()?;
    Ok(walls.iter().all(|wall| *wall == walls[0]).then_some(walls[0]))
}

fn known_tubes(spec: &ModelSpec, tubes: &[String]) -> Result<(), StudyFault> {
    let names = || spec.tubes.iter().map(|row| row.tube.value.as_str());
    match tubes.iter().find(|tube| names().all(|known| known != tube.as_str())) {
        None => Ok(()),
        Some(tube) => Err(StudyFault::unknown("tube", tube, names())),
    }
}

fn panel_named<'s>(spec: &'s ModelSpec, name: &str) -> Result<&'s strutwork_model::spec::PanelRow, StudyFault> {
    let names = || spec.panels.iter().map(|row| row.panel.value.as_str());
    spec.panels.iter().find(|row| row.panel.value == name).ok_or_else(|| StudyFault::unknown("panel", name, names()))
}

/// The wall of a section as written, mm; `None` where it has none.
pub(crate) fn wall_of(section: &SectionEntry) -> Option<f64> {
    if let Some(stock) = &section.stock {
        return stock::find(stock).map(|size| size.wall_mm);
    }
    let wall = section.wall_mm.as_ref().map(|wall| wall.value);
    wall.or_else(|| section.wall.as_ref().and_then(|wall| gauges::wall_mm(wall)))
}
