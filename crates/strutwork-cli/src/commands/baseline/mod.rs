//! `strutwork baseline`: expected values of a model, recorded and checked.

mod check;
mod options;
mod outputs;
mod record;
mod told;

use std::path::{Path, PathBuf};

use strutwork_report::{RunInfo, csv_files};
use strutwork_revision::ResultSet;
use strutwork_revision::baseline::{Baseline, Circumstances, FILE, read_baseline};
use strutwork_solve::half_diagonal;

use crate::args::{AskedArgs, SolveArgs};
use crate::baseline_args::{BaselineArgs, BaselineCommand, Repeated};
use crate::clock::Clock;
use crate::exit::{Failure, Outcome};
use crate::files;
use crate::ran;
use crate::render::Sources;
use crate::revisions;
use crate::terminal::Terminal;

/// Records or checks.
///
/// # Errors
/// [`Failure::Occupied`] where a baseline would be overwritten; otherwise as [`crate::ran::solve`].
pub(crate) fn run(args: &BaselineArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    match &args.command {
        BaselineCommand::Record(args) => record::run(args, terminal),
        BaselineCommand::Check(args) => check::run(args, terminal),
    }
}

/// Where the baseline of a model stands.
fn place(folder: &Path) -> PathBuf {
    folder.join(FILE)
}

/// The baseline of a model; `None` where there is none.
fn read(folder: &Path) -> Result<Option<Baseline>, Failure> {
    let path = place(folder);
    if !path.exists() {
        return Ok(None);
    }
    let bytes = files::read(&path)?;
    read_baseline(&bytes)
        .map(Some)
        .map_err(|faults| Failure::Input { faults: faults.0, sources: sources(folder, &bytes) })
}

/// What messages about a baseline point into.
fn sources(folder: &Path, bytes: &[u8]) -> Sources {
    let mut sources = Sources::below(folder.display().to_string().trim_end_matches('/'));
    sources.add(FILE, &String::from_utf8_lossy(bytes));
    sources
}

/// The options of a baseline, as if they had been typed for its model.
fn repeated(baseline: &Baseline, folder: &Path, operations: u64) -> Result<Repeated, Failure> {
    options::repeated(&baseline.options, folder, operations).map_err(|faults| {
        let bytes = files::read(&place(folder)).unwrap_or_default();
        Failure::Input { faults, sources: sources(folder, &bytes) }
    })
}

/// A model's run as quantities, and what its tables do not say.
struct Measured {
    set: ResultSet,
    of: Circumstances,
}

/// Runs a model in memory and reads the tables that `run` would write.
fn measure(solve: &SolveArgs, asked: &AskedArgs, terminal: &Terminal) -> Result<Measured, Failure> {
    let ran = ran::solve(solve, asked, &mut Clock::start()?, terminal)?;
    let info = RunInfo {
        tool_version: env!("CARGO_PKG_VERSION").to_owned(),
        inputs: ran.inputs.clone(),
        ..RunInfo::default()
    };
    let set = revisions::results_of(&ran, &info, &csv_files(&ran.told(&info)))?;
    let of = Circumstances {
        options: options::written(solve, asked),
        size_m: 2.0 * half_diagonal(&ran.model),
        steady: solve.second_order.then_some(solve.tolerance),
    };
    Ok(Measured { set, of })
}
