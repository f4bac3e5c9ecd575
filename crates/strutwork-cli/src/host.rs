//! What a script may reach outside itself: files below two folders, lines on the terminal, the clock.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};
use std::time::Instant;

use strutwork_model::files::InputFiles;
use strutwork_report::InputDigest;
use strutwork_script::{Host, HostError, StudyEnd, StudyJob, run_in_memory};
use strutwork_study::Row;

use crate::exit::Failure;
use crate::files::confine::{Confined, Refusal};
use crate::files::digest::sha256;
use crate::files::manifest::{self, Written};
use crate::files::{self, folder, inputs};
use crate::pipeline::digest;
use crate::studies::runner::Runner;
use crate::studies::stop;
use crate::terminal::Terminal;

/// Where the lines go that a script prints.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Prints {
    /// They are the result: standard output.
    Results,
    /// They accompany it: standard error.
    Notes,
}

/// The program as a script sees it.
#[derive(Debug)]
pub(crate) struct ProgramHost {
    terminal: Terminal,
    prints: Prints,
    /// Where it may read.
    reading: Confined,
    /// Where it may write; made with the first file.
    out: PathBuf,
    /// Its arguments: a model folder among them may be read, wherever it is.
    arguments: Vec<String>,
    started: Instant,
    ledger: Mutex<Ledger>,
    /// What runs its studies.
    studies: Option<Arc<Runner>>,
    /// Why a study was not run.
    failure: Mutex<Option<Failure>>,
}

/// What was read, and what was written by earlier scripts and by this one.
#[derive(Debug, Default)]
struct Ledger {
    imported: BTreeMap<String, InputDigest>,
    earlier: Written,
    now: Written,
}

impl ProgramHost {
    /// For a script in this folder, with these arguments, that writes below `out`.
    ///
    /// # Errors
    /// [`Failure::File`] when the script's folder cannot be reached.
    pub(crate) fn new(
        terminal: Terminal,
        folder: &Path,
        out: PathBuf,
        arguments: Vec<String>,
        prints: Prints,
    ) -> Result<Self, Failure> {
        let reading = Confined::to(folder).map_err(|cause| Failure::read(folder, cause))?;
        let earlier = fs::read_to_string(out.join(manifest::SCRIPT))
            .ok()
            .and_then(|text| manifest::read(&text))
            .unwrap_or_default();
        let ledger = Mutex::new(Ledger { earlier, ..Ledger::default() });
        Ok(Self {
            terminal,
            prints,
            reading,
            out,
            arguments,
            started: Instant::now(),
            ledger,
            studies: None,
            failure: Mutex::default(),
        })
    }

    /// With what runs studies.
    #[must_use]
    pub(crate) fn with_studies(mut self, studies: Arc<Runner>) -> Self {
        self.studies = Some(studies);
        self
    }

    /// Why a study was not run, where that ended the script.
    pub(crate) fn take_failure(&self) -> Option<Failure> {
        self.failure.lock().unwrap_or_else(std::sync::PoisonError::into_inner).take()
    }

    /// The digests of the files that scripts imported, by name.
    pub(crate) fn imported(&self) -> Vec<InputDigest> {
        self.ledger().imported.values().cloned().collect()
    }

    /// Writes the manifest of what the script wrote; nothing where it wrote nothing.
    ///
    /// # Errors
    /// [`Failure::File`] when the system refuses.
    pub(crate) fn finish(&self) -> Result<Vec<String>, Failure> {
        let ledger = self.ledger();
        if ledger.now.is_empty() {
            return Ok(Vec::new());
        }
        let mut all = ledger.earlier.clone();
        all.extend(ledger.now.clone());
        let path = self.out.join(manifest::SCRIPT);
        let text = manifest::sealed("{}", &all);
        files::replace(&path, text.as_bytes()).map_err(|cause| Failure::write(path, cause))?;
        Ok(ledger.now.keys().cloned().collect())
    }

    /// A folder that the script may read: one of its arguments as it was typed, or one below its own.
    fn folder_of(&self, path: &str) -> Result<PathBuf, HostError> {
        if self.arguments.iter().any(|argument| argument == path) {
            return Ok(PathBuf::from(path));
        }
        self.reading.folder(path).map_err(|why| host_error(path, &why))
    }

    fn ledger(&self) -> std::sync::MutexGuard<'_, Ledger> {
        // A panic elsewhere leaves the list as it was before: it is still true.
        self.ledger.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    fn write(&self, path: &str, bytes: &[u8]) -> Result<(), HostError> {
        let system = |cause: std::io::Error| HostError {
            path: path.to_owned(),
            reason: format!("cannot be written: {cause}"),
            environment: true,
        };
        if path == manifest::SCRIPT || path == manifest::RUN {
            return Err(refused(path, "this name is kept for the list of files written"));
        }
        fs::create_dir_all(&self.out).map_err(system)?;
        let place = Confined::to(&self.out).map_err(system)?.writable(path).map_err(|why| host_error(path, &why))?;
        let mut ledger = self.ledger();
        if let Ok(there) = fs::read(&place) {
            let ours = ledger.now.get(path).or_else(|| ledger.earlier.get(path));
            if ours.is_none_or(|hash| *hash != sha256(&there)) {
                return Err(HostError {
                    path: path.to_owned(),
                    reason: "a file of this name stands there that no script wrote, or that was changed since"
                        .to_owned(),
                    environment: true,
                });
            }
        }
        files::replace(&place, bytes).map_err(system)?;
        ledger.now.insert(path.to_owned(), sha256(bytes));
        Ok(())
    }
}

impl Host for ProgramHost {
    fn read_below(&self, path: &str) -> Result<Vec<u8>, HostError> {
        let real = self.reading.readable(path).map_err(|why| host_error(path, &why))?;
        let bytes = files::read(&real).map_err(|failure| failed(path, &failure))?;
        self.ledger().imported.insert(path.to_owned(), digest(path, &bytes));
        Ok(bytes)
    }

    fn read_model_folder(&self, path: &str) -> Result<InputFiles, HostError> {
        folder::read(&self.folder_of(path)?).map_err(|failure| failed(path, &failure))
    }

    fn read_results(&self, path: &str) -> Result<(InputFiles, Option<InputFiles>), HostError> {
        let real = self.folder_of(path)?;
        let found = inputs::read(&real).map_err(|failure| failed(path, &failure))?;
        Ok((found.files, found.inputs))
    }

    fn write_below(&self, path: &str, bytes: &[u8]) -> Result<(), HostError> {
        self.write(path, bytes)
    }

    fn print(&self, line: &str) {
        let line = format!("{line}\n");
        match self.prints {
            // A reader that went away does not stop the script: its files may still be wanted.
            Prints::Results => drop(self.terminal.result(&line)),
            Prints::Notes => self.terminal.note(&line),
        }
    }

    fn run_study(&self, job: &StudyJob<'_>, take: &mut dyn FnMut(&Row)) -> Result<StudyEnd, HostError> {
        let Some(studies) = &self.studies else { return run_in_memory(job, take) };
        studies.run(job, take).map_err(|failure| {
            let told = HostError {
                path: job.study.name.clone(),
                reason: failure.to_string(),
                environment: failure.code() == 4,
            };
            *self.failure.lock().unwrap_or_else(std::sync::PoisonError::into_inner) = Some(failure);
            told
        })
    }

    fn stop_asked(&self) -> bool {
        stop::asked()
    }

    fn elapsed_seconds(&self) -> f64 {
        self.started.elapsed().as_secs_f64()
    }
}

fn refused(path: &str, reason: &str) -> HostError {
    HostError { path: path.to_owned(), reason: reason.to_owned(), environment: false }
}

fn host_error(path: &str, why: &Refusal) -> HostError {
    HostError { path: path.to_owned(), reason: why.to_string(), environment: false }
}

fn failed(path: &str, failure: &Failure) -> HostError {
    HostError { path: path.to_owned(), reason: failure.to_string(), environment: failure.code() == 4 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::args::{Colour, LookArgs};

    fn host(folder: &Path, arguments: &[&str]) -> ProgramHost {
        let terminal = Terminal::new(LookArgs { color: Colour::Never });
        let arguments = arguments.iter().map(|&argument| argument.to_owned()).collect();
        ProgramHost::new(terminal, folder, folder.join("out"), arguments, Prints::Results).unwrap()
    }

    #[test]
    fn writes_its_own_files_again_and_no_others() {
        let place = tempfile::tempdir().unwrap();
        let first = host(place.path(), &[]);
        first.write_below("a/one.csv", b"1").unwrap();
        first.write_below("a/one.csv", b"2").unwrap();
        assert_eq!(first.finish().unwrap(), ["a/one.csv"]);
        let second = host(place.path(), &[]);
        second.write_below("a/one.csv", b"3").unwrap();
        second.finish().unwrap();
        fs::write(place.path().join("out/a/one.csv"), "edited").unwrap();
        fs::write(place.path().join("out/mine.csv"), "mine").unwrap();
        let third = host(place.path(), &[]);
        for (name, text) in [("a/one.csv", "edited"), ("mine.csv", "mine")] {
            assert!(third.write_below(name, b"4").unwrap_err().environment);
            assert_eq!(fs::read_to_string(place.path().join("out").join(name)).unwrap(), text);
        }
        assert!(third.write_below("script.json", b"{}").is_err());
    }

    #[test]
    fn reads_below_its_folder_and_the_folders_it_was_given() {
        let place = tempfile::tempdir().unwrap();
        let elsewhere = tempfile::tempdir().unwrap();
        fs::write(elsewhere.path().join("joints.csv"), "joint\n").unwrap();
        fs::write(elsewhere.path().join("secret"), "x").unwrap();
        let given = elsewhere.path().to_str().unwrap();
        let host = host(place.path(), &[given]);
        assert_eq!(host.read_model_folder(given).unwrap().0.len(), 1, "only the model's files");
        for path in [given.to_owned() + "/secret", "../x".into(), "/etc/passwd".into()] {
            assert!(host.read_below(&path).is_err(), "{path}");
        }
        assert!(self::host(place.path(), &[]).read_model_folder(given).is_err());
    }
}
