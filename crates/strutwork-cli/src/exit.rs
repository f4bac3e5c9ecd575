//! How a command ends: its exit code, and what it says when it fails.

use std::io;
use std::path::PathBuf;
use std::process::ExitCode;

use strutwork_model::Diagnostic;

use crate::render::Sources;

/// How a command that did its work ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Done, and no check exceeds its limit: 0.
    Passed,
    /// Done, but findings exceed their limits: 1.
    Exceeded,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Passed => Self::SUCCESS,
            Outcome::Exceeded => Self::from(1),
        }
    }
}

/// Why a command did not do its work.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// The model or script is wrong: 2. Carries the texts that the faults point into.
    #[error("the input is wrong")]
    Input {
        /// Every fault, warning and note.
        faults: Vec<Diagnostic>,
        /// What the faults point into.
        sources: Sources,
    },
    /// What was asked for makes no sense as it stands: 2.
    #[error("{what}")]
    Request {
        /// What is wrong.
        what: String,
        /// What to do about it.
        help: String,
    },
    /// The structure cannot be solved: 3.
    #[error("the structure cannot be solved")]
    Structure {
        /// Why, in the model's own names.
        reasons: Vec<Diagnostic>,
        /// What the reasons point into.
        sources: Sources,
    },
    /// A script met a file or folder that could not be read or written: 4.
    #[error("a file or folder stands in the way")]
    Blocked {
        /// Where the script met it, and what the system said.
        faults: Vec<Diagnostic>,
        /// What the faults point into.
        sources: Sources,
    },
    /// A file or folder could not be read or written: 4.
    #[error("cannot {action} {}: {cause}", .path.display())]
    File {
        /// `read`, `write`, `make the folder`, …
        action: &'static str,
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        cause: io::Error,
    },
    /// Something stands in the way that must not be overwritten: 4.
    #[error("{} stands in the way: {why}", .path.display())]
    Occupied {
        /// What stands there.
        path: PathBuf,
        /// Why it is not overwritten.
        why: &'static str,
        /// What to do about it.
        help: &'static str,
    },
    /// What went wrong was told already, as the result that was asked for.
    #[error("exit code {0}")]
    Told(u8),
    /// The reader of our output went away: not a failure of ours, so it ends quietly.
    #[error("the reader of the output went away")]
    PipeClosed,
    /// Standard output could not be written: 4.
    #[error("cannot write to standard output: {0}")]
    Output(io::Error),
}

impl Failure {
    /// A failed read of a file or folder.
    pub(crate) fn read(path: impl Into<PathBuf>, cause: io::Error) -> Self {
        Self::File { action: "read", path: path.into(), cause }
    }

    /// A failed write of a file.
    pub(crate) fn write(path: impl Into<PathBuf>, cause: io::Error) -> Self {
        Self::File { action: "write", path: path.into(), cause }
    }

    /// The exit code that it ends with.
    pub(crate) fn code(&self) -> u8 {
        match self {
            Self::PipeClosed => 0,
            Self::Told(code) => *code,
            Self::Input { .. } | Self::Request { .. } => 2,
            Self::Structure { .. } => 3,
            Self::Blocked { .. } | Self::File { .. } | Self::Occupied { .. } | Self::Output(_) => 4,
        }
    }
}

impl From<io::Error> for Failure {
    /// A failed write to standard output or standard error.
    fn from(cause: io::Error) -> Self {
        if cause.kind() == io::ErrorKind::BrokenPipe { Self::PipeClosed } else { Self::Output(cause) }
    }
}
