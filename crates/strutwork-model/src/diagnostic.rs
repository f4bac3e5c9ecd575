//! What is wrong, where, and what to do: one structure for every message to the model's author.

use std::fmt;

use crate::spec::Spot;

/// A stable code: a letter for whose problem it is (`M` model, `L` loads, `S` solve, `T` trust, `D` design, `R` script) and a number.
///
/// Each has a page (`strutwork explain M012`) and a test that triggers it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Code(pub &'static str);

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// How bad it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Good to know; nothing to do.
    Note,
    /// Probably not what was meant; the run goes on.
    Warning,
    /// Wrong; nothing is computed.
    Error,
}

impl Severity {
    /// Its word in files and on the terminal.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// Where it is written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Place {
    /// File name within the model folder.
    pub file: String,
    /// Line, counted from 1; 0 for the file as a whole.
    pub line: usize,
    /// First column of what is meant, counted from 1 in characters; 0 for the whole line.
    pub column: usize,
    /// How many characters are meant; 0 for the whole line.
    pub width: usize,
}

impl Place {
    /// The file as a whole.
    pub fn file(file: impl Into<String>) -> Self {
        Self { file: file.into(), line: 0, column: 0, width: 0 }
    }

    /// A whole line.
    pub fn line(file: impl Into<String>, line: usize) -> Self {
        Self { file: file.into(), line, column: 0, width: 0 }
    }
}

/// One fault, warning or note.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// Its stable code.
    pub code: Code,
    /// How bad it is.
    pub severity: Severity,
    /// Where it is written; `None` where it is the frame as a whole.
    pub place: Option<Place>,
    /// The name of the joint, tube, section, … that it is about; empty for none.
    pub subject: String,
    /// What is wrong, in the fabricator's words.
    pub message: String,
    /// What to do about it.
    pub help: String,
}

impl Diagnostic {
    /// A fault that stops the run. Invisible signs of the user's texts become spaces: they would garble a terminal.
    pub(crate) fn error(
        code: Code,
        spot: Option<Spot>,
        subject: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Self {
        Self {
            code,
            severity: Severity::Error,
            place: spot.map(Spot::place),
            subject: visible(subject.to_owned()),
            message: visible(message.into()),
            help: visible(help.into()),
        }
    }

    /// The same as a warning.
    pub(crate) fn into_warning(self) -> Self {
        Self { severity: Severity::Warning, ..self }
    }

    /// The same as a note.
    pub(crate) fn into_note(self) -> Self {
        Self { severity: Severity::Note, ..self }
    }
}

impl fmt::Display for Diagnostic {
    /// One line without the source: `error M012 tubes.csv:7: … (help)`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}", self.severity.word(), self.code)?;
        match &self.place {
            Some(place) if place.line > 0 => write!(f, " {}:{}", place.file, place.line)?,
            Some(place) => write!(f, " {}", place.file)?,
            None => {}
        }
        write!(f, ": {}", self.message)?;
        if self.help.is_empty() { Ok(()) } else { write!(f, " ({})", self.help) }
    }
}

fn visible(text: String) -> String {
    if text.contains(char::is_control) { text.replace(char::is_control, " ") } else { text }
}

/// Every fault found; at least one is an error. Warnings and notes found on the way are kept.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"))]
pub struct Faults(pub Vec<Diagnostic>);

/// A value, and the warnings and notes that came with it.
#[derive(Debug, Clone, PartialEq)]
pub struct Warned<T> {
    /// What was asked for.
    pub value: T,
    /// No errors among them.
    pub warnings: Vec<Diagnostic>,
}
