//! `strutwork baseline check`: models are run anew and held against their baselines.

use std::path::Path;

use serde_json::json;
use strutwork_revision::baseline::{Baseline, Held, hold};

use super::outputs::{self, Outputs};
use super::{Measured, measure, place, read, repeated, told};
use crate::baseline_args::{CheckArgs, Repeated};
use crate::exit::{Failure, Outcome};
use crate::render::{self, Sources};
use crate::terminal::Terminal;

/// One model that was asked for.
struct Checked {
    folder: String,
    file: String,
    ended: Result<Ran, Failure>,
}

/// A model that was run.
struct Ran {
    baseline: Baseline,
    measured: Measured,
}

/// What came of one model.
pub(super) struct Ended<'c> {
    /// Its folder as it was typed.
    pub folder: &'c str,
    /// Its baseline's path.
    pub file: &'c str,
    /// How it stands to its baseline, or why that cannot be said.
    pub held: Result<Held<'c>, &'c Failure>,
    /// Its title; empty where it could not be run.
    pub title: &'c str,
}

impl Checked {
    fn ended(&self) -> Ended<'_> {
        let (held, title) = match &self.ended {
            Ok(ran) => (Ok(hold(&ran.baseline, &ran.measured.set)), ran.measured.set.about.title.as_str()),
            Err(failure) => (Err(failure), ""),
        };
        Ended { folder: &self.folder, file: &self.file, held, title }
    }
}

impl Ended<'_> {
    /// What it is called among others: its folder's name.
    pub(super) fn name(&self) -> String {
        let path = Path::new(self.folder);
        let named = path.canonicalize().ok().and_then(|path| Some(path.file_name()?.to_string_lossy().into_owned()));
        named.unwrap_or_else(|| self.folder.to_owned())
    }

    /// The exit code that it asks for.
    pub(super) fn code(&self) -> u8 {
        match &self.held {
            Ok(held) => u8::from(!held.holds()),
            Err(failure) => failure.code(),
        }
    }
}

/// Checks every model, then tells.
///
/// # Errors
/// [`Failure::Told`] with the highest exit code where a model could not be checked; [`Failure::File`] and
/// [`Failure::Occupied`] where what was asked for cannot be written.
pub(super) fn run(args: &CheckArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let outputs = Outputs::of(args)?;
    let checked: Vec<Checked> =
        args.folders.iter().map(|folder| check(folder, args.max_operations, terminal)).collect();
    let all: Vec<Ended<'_>> = checked.iter().map(Checked::ended).collect();
    for one in &all {
        match one.held {
            Ok(ref held) => {
                terminal.note(&render::diagnostics(&told::changes(held), &Sources::below(one.folder), terminal));
            }
            // To a machine it is told in its own way below.
            Err(_) if args.json => {}
            Err(failure) => {
                if all.len() > 1 {
                    terminal.note(&format!("{}:\n", one.folder));
                }
                crate::tell(failure, terminal);
            }
        }
    }
    outputs.write(&all)?;
    let code = all.iter().map(Ended::code).max().unwrap_or(0);
    if args.json {
        let list: Vec<_> = all.iter().map(outputs::json).collect();
        terminal.result(&format!("{:#}\n", json!({ "exit": code, "baselines": list })))?;
    } else {
        outputs.print(&all, &told::check(&all, args.all), terminal)?;
    }
    match code {
        0 => Ok(Outcome::Passed),
        1 => Ok(Outcome::Exceeded),
        code => Err(Failure::Told(code)),
    }
}

fn check(folder: &Path, operations: u64, terminal: &Terminal) -> Checked {
    let ended = checked(folder, operations, terminal);
    Checked { folder: folder.display().to_string(), file: place(folder).display().to_string(), ended }
}

fn checked(folder: &Path, operations: u64, terminal: &Terminal) -> Result<Ran, Failure> {
    let Some(baseline) = read(folder)? else {
        let shown = folder.display();
        return Err(if folder.is_dir() {
            Failure::Request {
                what: format!("{shown} has no baseline.csv: there is nothing to hold a run against"),
                help: format!("record one: strutwork baseline record {shown}"),
            }
        } else {
            Failure::Request { what: format!("there is no folder {shown}"), help: "check the name".into() }
        });
    };
    let Repeated { solve, asked } = repeated(&baseline, folder, operations)?;
    let measured = measure(&solve, &asked, terminal)?;
    Ok(Ran { baseline, measured })
}
