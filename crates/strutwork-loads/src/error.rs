//! What can be wrong with loads: facts in fields, words in `Display`, a stable code and what to do for each.

use strutwork_model::{Code, Diagnostic, Severity};

/// Why a load case could not be built.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LoadError {
    /// Nothing has mass, and the case needs it. Code L002.
    #[error("nothing in the model has mass, so {wanted} has nothing to act on")]
    NoMass {
        /// What was asked for: `gravity`, `inertia`, `balance`.
        wanted: &'static str,
    },
    /// The model has no vehicle table. Code L003.
    #[error("the model has no vehicle, so {wanted} is not known")]
    NoVehicle {
        /// What was asked for.
        wanted: &'static str,
    },
    /// Two cases of a run have one name. Code L004.
    #[error("there are two load cases named `{name}`")]
    DuplicateCase {
        /// The name.
        name: String,
    },
    /// A number of a load, factor or step is not finite. Code L005.
    #[error("{what} is not a finite number: {value}")]
    NotFinite {
        /// Which number.
        what: String,
        /// Its value.
        value: f64,
    },
    /// A name that is not in the model. Code L006.
    #[error("there is no {kind} named `{name}`")]
    UnknownName {
        /// joint, tube, wheel, freedom, axes, nature.
        kind: &'static str,
        /// The name as given.
        name: String,
        /// The nearest known name, where one is near.
        nearest: Option<String>,
    },
    /// Tubes of a material without density, and the case needs their mass. Code L007.
    #[error("material `{material}` has no density, so its tubes have no mass")]
    NoDensity {
        /// The material.
        material: String,
    },
    /// The case turns about an axis about which nothing has inertia. Code L008.
    #[error(
        "a moment of {moment:.6} N·m about the direction ({:.3}, {:.3}, {:.3}) has no inertia to balance it",
        axis[0], axis[1], axis[2]
    )]
    NoInertia {
        /// Unit vector, global axes.
        axis: [f64; 3],
        /// N·m.
        moment: f64,
    },
    /// A value outside its range. Code L009.
    #[error("{what} is {value}, and must be {range}")]
    OutOfRange {
        /// Which value.
        what: &'static str,
        /// Its value.
        value: f64,
        /// The range in words.
        range: &'static str,
    },
    /// The wheels do not span a plane. Code L010.
    #[error("the wheels' contact points do not span a wheelbase and two tracks")]
    DegenerateWheels,
    /// A case or factor without a usable name. Code L012.
    #[error("a {kind} needs a name of at least one visible character and no control characters")]
    BadName {
        /// case, factor.
        kind: &'static str,
    },
    /// A settlement of a freedom that the case does not hold fixed. Code L013.
    #[error("joint `{joint}` is not held fixed in {dof}, so it cannot be moved there")]
    SettlementNotFixed {
        /// The joint.
        joint: String,
        /// The freedom's name.
        dof: &'static str,
    },
}

impl LoadError {
    /// Its stable code.
    pub const fn code(&self) -> Code {
        Code(match self {
            Self::NoMass { .. } => "L002",
            Self::NoVehicle { .. } => "L003",
            Self::DuplicateCase { .. } => "L004",
            Self::NotFinite { .. } => "L005",
            Self::UnknownName { .. } => "L006",
            Self::NoDensity { .. } => "L007",
            Self::NoInertia { .. } => "L008",
            Self::OutOfRange { .. } => "L009",
            Self::DegenerateWheels => "L010",
            Self::BadName { .. } => "L012",
            Self::SettlementNotFixed { .. } => "L013",
        })
    }

    /// What to do about it.
    pub fn help(&self) -> String {
        match self {
            Self::NoMass { .. } => "give the materials a density, and list in masses.csv what the frame carries".into(),
            Self::NoVehicle { .. } => "add the [vehicle] table with its four corners to model.toml".into(),
            Self::DuplicateCase { .. } => "give each case a name of its own".into(),
            Self::NotFinite { .. } => "look for a division by zero or a missing value in the step before".into(),
            Self::UnknownName { kind, nearest, .. } => match (nearest, *kind) {
                (Some(nearest), _) => format!("did you mean `{nearest}`?"),
                (None, "wheel") => "wheels are front-left, front-right, rear-left, rear-right".into(),
                (None, "freedom") => "freedoms are ux, uy, uz, rx, ry, rz".into(),
                (None, "axes") => "axes are `local` or `global`".into(),
                (None, "nature") => "a case is `physical` or `notional`".into(),
                (None, _) => "names are compared exactly, capitals and spaces included".into(),
            },
            Self::NoDensity { .. } => "add density_kg_m3 to the material in model.toml".into(),
            Self::NoInertia { .. } => "list in masses.csv what the frame carries, at its place".into(),
            Self::OutOfRange { .. } => "change the value".into(),
            Self::DegenerateWheels => {
                "check the contact points in model.toml: front ahead of rear along +x, left wheels on the +y side"
                    .into()
            }
            Self::BadName { kind, .. } => format!("give the {kind} a name"),
            Self::SettlementNotFixed { dof, .. } => format!("hold the joint in {dof} first"),
        }
    }

    /// The name it is about; empty for none.
    fn subject(&self) -> String {
        match self {
            Self::DuplicateCase { name } | Self::UnknownName { name, .. } => name.clone(),
            Self::NoDensity { material } => material.clone(),
            Self::SettlementNotFixed { joint, .. } => joint.clone(),
            _ => String::new(),
        }
    }
}

impl From<&LoadError> for Diagnostic {
    /// As a message without a place: the caller knows the file and line.
    fn from(error: &LoadError) -> Self {
        Self {
            code: error.code(),
            severity: Severity::Error,
            place: None,
            subject: error.subject(),
            message: error.to_string(),
            help: error.help(),
        }
    }
}

/// The known name nearest to what was written, where one is near enough to be meant: at most a third of its letters differ.
///
/// # Signs and order
/// Of equally near names, the first.
pub fn nearest<'a>(written: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let written: Vec<char> = written.to_lowercase().chars().collect();
    let mut best: Option<(usize, &str)> = None;
    for name in known {
        let letters: Vec<char> = name.to_lowercase().chars().collect();
        let allowed = letters.len().max(written.len()).div_ceil(3);
        // Names of very different lengths cannot be near: skip the table.
        if letters.len().abs_diff(written.len()) > allowed {
            continue;
        }
        let distance = edits(&written, &letters);
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, name));
        }
    }
    best.map(|(_, name)| name)
}

/// Least number of letters added, dropped or changed.
fn edits(a: &[char], b: &[char]) -> usize {
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, letter) in a.iter().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, other) in b.iter().enumerate() {
            let changed = diagonal + usize::from(letter != other);
            diagonal = row[j + 1];
            row[j + 1] = changed.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nearest_finds_a_slip_and_leaves_a_stranger() {
        let known = ["front-left", "front-right", "rear-left"];
        assert_eq!(nearest("front-lft", known), Some("front-left"));
        assert_eq!(nearest("Front-Right", known), Some("front-right"));
        assert_eq!(nearest("steering", known), None);
        assert_eq!(nearest("", known), None);
    }

    #[test]
    fn edits_are_counted() {
        let chars = |s: &str| s.chars().collect::<Vec<_>>();
        assert_eq!(edits(&chars("kitten"), &chars("sitting")), 3);
        assert_eq!(edits(&chars(""), &chars("abc")), 3);
    }
}
