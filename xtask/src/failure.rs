//! Why a chore stopped.

use std::fmt;
use std::io;
use std::path::Path;

/// What went wrong, told to whoever ran the chore.
#[derive(Debug)]
pub(crate) enum Failure {
    /// A file or folder could not be read or written.
    File { action: &'static str, path: String, cause: io::Error },
    /// A command did not start.
    Start { command: String, cause: io::Error },
    /// A command ended badly.
    Ended { command: String, how: String },
    /// Output of a command was not what it should be.
    Output { command: String, why: String },
    /// The rules that were broken, each with its place.
    Broken(Vec<String>),
}

impl Failure {
    /// A failed read.
    pub(crate) fn read(path: &Path, cause: io::Error) -> Self {
        Self::File { action: "read", path: path.display().to_string(), cause }
    }

    /// A failed write.
    pub(crate) fn write(path: &Path, cause: io::Error) -> Self {
        Self::File { action: "write", path: path.display().to_string(), cause }
    }

    /// `Ok` where the list is empty.
    pub(crate) fn unless_empty(broken: Vec<String>) -> Result<(), Self> {
        if broken.is_empty() { Ok(()) } else { Err(Self::Broken(broken)) }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::File { action, path, cause } => write!(f, "cannot {action} {path}: {cause}"),
            Self::Start { command, cause } => write!(f, "`{command}` does not start: {cause}"),
            Self::Ended { command, how } => write!(f, "`{command}` failed: {how}"),
            Self::Output { command, why } => write!(f, "`{command}`: {why}"),
            Self::Broken(broken) => {
                write!(f, "{} to put right:", broken.len())?;
                broken.iter().try_for_each(|one| write!(f, "\n  {one}"))
            }
        }
    }
}
