//! The outside world of a script: the program that runs it brings files, terminal and clock.

use std::sync::Arc;

use strutwork_model::files::InputFiles;

use strutwork_study::Row;

use crate::fault::Fault;
use crate::studies::{StudyEnd, StudyJob, run_in_memory};

/// What a script can reach outside itself. The script crate touches no file, terminal or clock but through this.
///
/// Paths are relative, separated by `/`; those with `..`, a leading `/`, a drive or a NUL are refused before they get
/// here. An implementation refuses symbolic links that lead out of the folder.
pub trait Host: Send + Sync {
    /// The bytes of a file below the folder that the script may read: an imported script.
    ///
    /// # Errors
    /// [`HostError`], with the reason in words.
    fn read_below(&self, path: &str) -> Result<Vec<u8>, HostError>;

    /// The files of a model folder. A path that is exactly one of the script's arguments is passed on as the user
    /// typed it, absolute or with `..`; any other is relative as said above.
    ///
    /// # Errors
    /// [`HostError`], with the reason in words.
    fn read_model_folder(&self, path: &str) -> Result<InputFiles, HostError>;

    /// The files of a folder of results: `run.json` and the tables, and the copy of the model's files where the run kept one.
    /// Paths are as for [`Host::read_model_folder`]. The default knows no results.
    ///
    /// # Errors
    /// [`HostError`], with the reason in words.
    fn read_results(&self, path: &str) -> Result<(InputFiles, Option<InputFiles>), HostError> {
        Err(no_files(path))
    }

    /// Writes a file below the output folder, whole or not at all.
    ///
    /// # Errors
    /// [`HostError`], with the reason in words.
    fn write_below(&self, path: &str, bytes: &[u8]) -> Result<(), HostError>;

    /// Shows a line that the script printed; without the line end.
    fn print(&self, line: &str);

    /// Runs a study and hands over every variant in its order, those of an earlier run among them. The default keeps nothing.
    ///
    /// # Errors
    /// [`HostError`], with the reason in words.
    fn run_study(&self, job: &StudyJob<'_>, take: &mut dyn FnMut(&Row)) -> Result<StudyEnd, HostError> {
        run_in_memory(job, take)
    }

    /// Whether somebody asked to stop: the script then ends at its next step, as if it had come to its end. The default is
    /// never.
    fn stop_asked(&self) -> bool {
        false
    }

    /// Seconds since the script was started. The default is no clock: the time limit then does not apply.
    fn elapsed_seconds(&self) -> f64 {
        0.0
    }
}

/// A host that scripts share.
pub type ScriptHost = Arc<dyn Host>;

/// Why the host did not do what the script asked for.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{path}`: {reason}")]
pub struct HostError {
    /// The path as the script gave it.
    pub path: String,
    /// Why not, in words.
    pub reason: String,
    /// Whether the environment is at fault (permissions, a full disk), not the script.
    pub environment: bool,
}

/// A host without files, terminal and clock: for case scripts, which need none.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoHost;

impl Host for NoHost {
    fn read_below(&self, path: &str) -> Result<Vec<u8>, HostError> {
        Err(no_files(path))
    }

    fn read_model_folder(&self, path: &str) -> Result<InputFiles, HostError> {
        Err(no_files(path))
    }

    fn write_below(&self, path: &str, _bytes: &[u8]) -> Result<(), HostError> {
        Err(no_files(path))
    }

    fn print(&self, _line: &str) {}
}

fn no_files(path: &str) -> HostError {
    HostError { path: path.to_owned(), reason: "this script is run without files".to_owned(), environment: false }
}

/// A path as the script gave it, if it can only lie below the folder that it is relative to.
///
/// # Errors
/// [`Fault::PathRefused`].
pub(crate) fn below(path: &str) -> Result<&str, Fault> {
    let refuse = |why| Err(Fault::PathRefused { path: path.to_owned(), why });
    if path.is_empty() {
        return refuse("a path needs a name");
    }
    if path.starts_with('/') || path.contains(':') {
        return refuse("an absolute path leads out of the folder");
    }
    if path.contains('\\') {
        return refuse("folders are separated by `/`");
    }
    if path.chars().any(char::is_control) {
        return refuse("a control character has no place in a path");
    }
    if path.split('/').any(|part| part == "..") {
        return refuse("`..` leads out of the folder");
    }
    if path.split('/').any(|part| part.is_empty() || part == ".") {
        return refuse("write it without `.`, `//` or a `/` at the end");
    }
    Ok(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_that_leave_the_folder_are_refused() {
        for path in ["", "/etc/passwd", "../secret", "a/../../b", "C:/x", "a\\b", "a\0b", "a//b", "./a", "a/"] {
            assert!(matches!(below(path), Err(Fault::PathRefused { .. })), "{path:?} passed");
        }
        for path in ["a", "a/b.csv", "cases/bending", "..a", "a..b", "frame 2/x"] {
            assert_eq!(below(path), Ok(path));
        }
    }
}
