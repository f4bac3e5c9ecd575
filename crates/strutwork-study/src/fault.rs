//! What is wrong with a study before any variant is looked at.

/// What is wrong with the description of a study.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum StudyFault {
    /// A name that the model does not have.
    #[error("there is no {kind} named `{name}`{}", hint(.nearest))]
    UnknownName {
        /// joint, group of tubes, panel, parameter, …
        kind: &'static str,
        /// As given.
        name: String,
        /// The nearest that there is.
        nearest: Option<String>,
    },
    /// A parameter that is named twice, or two that change one thing.
    #[error("two parameters are named `{name}`: each thing is varied once")]
    Twice {
        /// The name.
        name: String,
    },
    /// A parameter without values, or with one of them twice.
    #[error("the values of `{parameter}` {why}")]
    Levels {
        /// The parameter.
        parameter: String,
        /// What is wrong with them.
        why: String,
    },
    /// Tubes that have no wall to be changed.
    #[error("`{tubes}` has tubes of section `{section}`, which has no wall to vary")]
    NoWall {
        /// Group or section.
        tubes: String,
        /// The section.
        section: String,
    },
    /// A design that does not go with the parameters.
    #[error("{0}")]
    Design(String),
    /// Nothing is varied, or nothing is asked.
    #[error("a study needs {0}")]
    Needs(&'static str),
}

impl StudyFault {
    /// A name that does not exist, with the nearest that does.
    pub fn unknown<'a>(kind: &'static str, name: &str, known: impl Iterator<Item = &'a str>) -> Self {
        let nearest = strutwork_model::nearest::nearest(name, known).map(str::to_owned);
        Self::UnknownName { kind, name: name.to_owned(), nearest }
    }
}

fn hint(nearest: &Option<String>) -> String {
    nearest.as_ref().map_or_else(String::new, |name| format!("; did you mean `{name}`?"))
}
