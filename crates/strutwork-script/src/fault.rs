//! What goes wrong in a function that a script calls: typed, so that it crosses the script and comes back whole.

use rhai::{Dynamic, EvalAltResult, Position};
use strutwork_loads::LoadError;
use strutwork_model::{Code, Diagnostic, Faults, Severity};
use strutwork_solve::SolveError;
use strutwork_study::StudyFault;

use crate::error::ScriptError;
use crate::host::HostError;

/// What goes wrong in a function that a script calls.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A load case could not be built. Code of the [`LoadError`].
    #[error(transparent)]
    Load(#[from] LoadError),
    /// The model is not valid. Code R019; the faults keep their own.
    #[error("the model is not valid: {}", first_of(&.0.0))]
    Model(Faults),
    /// A folder of results that cannot be read. Code R030; the faults keep their own.
    #[error("the results in `{folder}` cannot be read: {}", first_of(&.faults.0))]
    Results {
        /// The folder, as the script gave it.
        folder: String,
        /// What is wrong.
        faults: Faults,
    },
    /// The frame cannot be solved. Code of the [`SolveError`].
    #[error("the frame cannot be solved: {}", first_of(.explained))]
    Solve {
        /// Why, in ids.
        error: SolveError,
        /// Why, in the model's own names.
        explained: Vec<Diagnostic>,
    },
    /// A case script that was run on the way stopped. Code of the [`ScriptError`].
    #[error(transparent)]
    Script(Box<ScriptError>),
    /// A file could not be read or written. Code R020.
    #[error(transparent)]
    Host(#[from] HostError),
    /// A path that leads out of the folder. Code R010.
    #[error("the path `{path}` is refused: {why}")]
    PathRefused {
        /// As the script gave it.
        path: String,
        /// Why.
        why: &'static str,
    },
    /// Something of the wrong type. Code R005.
    #[error("{what} is {got}, and must be {expected}")]
    WrongType {
        /// What.
        what: String,
        /// The type that it must have.
        expected: &'static str,
        /// The type that it has.
        got: String,
    },
    /// A function that scripts may not call. Code R013.
    #[error("`{function}` is not available to scripts: {why}")]
    Refused {
        /// The function.
        function: &'static str,
        /// Why.
        why: &'static str,
    },
    /// A number that is infinite or not a number. Code R014.
    #[error("{what} is not a finite number: {value}")]
    NotFinite {
        /// Which number.
        what: String,
        /// Its value.
        value: f64,
    },
    /// A division by zero. Code R014.
    #[error("division by zero")]
    DivisionByZero,
    /// A key that a map of named values does not have. Code R015.
    #[error("{function} knows no `{key}`: it knows {}", list(.known))]
    UnknownKey {
        /// The function.
        function: &'static str,
        /// The key as the script gave it.
        key: String,
        /// The keys there are.
        known: Vec<&'static str>,
    },
    /// A key that must be there. Code R015.
    #[error("{function} needs `{key}`")]
    MissingKey {
        /// The function.
        function: &'static str,
        /// The key.
        key: &'static str,
    },
    /// A name that does not exist. Code R016.
    #[error("there is no {kind} named `{name}`")]
    UnknownName {
        /// joint, tube, section, load case, …
        kind: &'static str,
        /// As the script gave it.
        name: String,
        /// The nearest that exists.
        nearest: Option<String>,
    },
    /// A name that exists already. Code R016.
    #[error("there is already a {kind} named `{name}`")]
    NameTaken {
        /// joint, tube, section, …
        kind: &'static str,
        /// The name.
        name: String,
    },
    /// A function that does not go with this kind of script, or object. Code R017.
    #[error("`{function}` cannot be used here: {why}")]
    NotHere {
        /// The function.
        function: &'static str,
        /// Why.
        why: &'static str,
    },
    /// A load case for another model, or for the model as it was before a change. Code R018.
    #[error("load case `{case}` was built for another model, or before this one was changed")]
    Stale {
        /// The case's name.
        case: String,
    },
    /// A value outside its range. Code R021.
    #[error("{what} is {value}, and must be {range}")]
    OutOfRange {
        /// Which value.
        what: String,
        /// Its value.
        value: f64,
        /// The range in words.
        range: &'static str,
    },
    /// Something asked of a result that it does not hold. Code R022.
    #[error("load case `{case}` has no {what}")]
    NoResult {
        /// The case's name.
        case: String,
        /// What was asked for.
        what: &'static str,
    },
    /// A study that is not well described. Code R024; an unknown name keeps R016.
    #[error(transparent)]
    Study(#[from] StudyFault),
    /// A task of sizing or tolerances that cannot be worked on. Code R024.
    #[error("{0}")]
    Task(String),
    /// A check of a part that has not what the check needs. Code R023.
    #[error("{function} needs a {needs}")]
    NoCheck {
        /// The function.
        function: &'static str,
        /// What the part does not have.
        needs: &'static str,
    },
}

impl Fault {
    /// Its stable code.
    pub fn code(&self) -> Code {
        Code(match self {
            Self::Load(error) => return error.code(),
            Self::Solve { error, .. } => return error.code(),
            Self::Script(error) => return error.code,
            Self::WrongType { .. } => "R005",
            Self::PathRefused { .. } => "R010",
            Self::Refused { .. } => "R013",
            Self::NotFinite { .. } | Self::DivisionByZero => "R014",
            Self::UnknownKey { .. } | Self::MissingKey { .. } => "R015",
            Self::UnknownName { .. } | Self::NameTaken { .. } => "R016",
            Self::NotHere { .. } => "R017",
            Self::Stale { .. } => "R018",
            Self::Model(_) => "R019",
            Self::Host(_) => "R020",
            Self::OutOfRange { .. } => "R021",
            Self::NoResult { .. } => "R022",
            Self::NoCheck { .. } => "R023",
            Self::Study(StudyFault::UnknownName { .. }) => "R016",
            Self::Study(_) | Self::Task(_) => "R024",
            Self::Results { .. } => "R030",
        })
    }

    /// What to do about it; may be empty.
    pub fn help(&self) -> String {
        match self {
            Self::Load(error) => error.help(),
            Self::Model(faults) | Self::Results { faults, .. } => first_help(&faults.0),
            Self::Solve { explained, .. } => first_help(explained),
            Self::Script(error) => error.help.clone(),
            Self::Host(_) | Self::NotHere { .. } | Self::Study(StudyFault::UnknownName { .. }) => String::new(),
            Self::Study(_) => "see `Studies` in `strutwork reference`".to_owned(),
            Self::Task(_) => "see `Sizing` and `Tolerances` in `strutwork reference`".to_owned(),
            Self::PathRefused { .. } => "give a path below the folder, such as `variants/one.csv`".to_owned(),
            Self::WrongType { expected, .. } => format!("give {expected}"),
            Self::Refused { .. } => "do without it: a script gives the same result every time it is run".to_owned(),
            Self::NotFinite { .. } => "look for a division by zero or an overflow before".to_owned(),
            Self::DivisionByZero => "test the divisor first".to_owned(),
            Self::UnknownKey { key, known, .. } => did_you_mean(nearest(key, known)),
            Self::MissingKey { key, .. } => format!("add `{key}` to the map"),
            Self::UnknownName { nearest, .. } => did_you_mean(nearest.as_deref()),
            Self::NameTaken { .. } => "choose another name".to_owned(),
            Self::Stale { .. } => "change the model first, then build the cases, then solve".to_owned(),
            Self::OutOfRange { .. } => "change the value".to_owned(),
            Self::NoCheck { .. } => {
                "give the section its shape and sizes, or the material its strengths, in model.toml".to_owned()
            }
            Self::NoResult { .. } => "ask for it when the case is built, for example with measure_twist".to_owned(),
        }
    }

    /// A name that does not exist, with the nearest that does.
    pub(crate) fn unknown<'a>(kind: &'static str, name: &str, known: impl Iterator<Item = &'a str>) -> Self {
        let nearest = strutwork_model::nearest::nearest(name, known).map(str::to_owned);
        Self::UnknownName { kind, name: name.to_owned(), nearest }
    }
}

impl From<Fault> for Box<EvalAltResult> {
    /// The fault keeps its type; the script engine adds the place of the call.
    fn from(fault: Fault) -> Self {
        Box::new(EvalAltResult::ErrorRuntime(Dynamic::from(fault), Position::NONE))
    }
}

/// The first error, and how many more there are.
fn first_of(reasons: &[Diagnostic]) -> String {
    let mut errors = reasons.iter().filter(|reason| reason.severity == Severity::Error);
    let first = errors.next().map_or("", |reason| reason.message.as_str());
    match errors.count() {
        0 => first.to_owned(),
        more => format!("{first}; and {more} more"),
    }
}

fn first_help(reasons: &[Diagnostic]) -> String {
    reasons.iter().map(|reason| reason.help.as_str()).find(|help| !help.is_empty()).unwrap_or_default().to_owned()
}

fn nearest<'a>(name: &str, known: &[&'a str]) -> Option<&'a str> {
    strutwork_model::nearest::nearest(name, known.iter().copied())
}

fn did_you_mean(nearest: Option<&str>) -> String {
    nearest.map_or_else(String::new, |name| format!("did you mean `{name}`?"))
}

fn list(names: &[&str]) -> String {
    names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ")
}
