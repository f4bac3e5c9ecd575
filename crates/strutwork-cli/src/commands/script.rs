//! `strutwork script`: a free-standing script, confined and limited.

use std::path::PathBuf;
use std::sync::Arc;

use strutwork_script::{Limits, run_script};
use strutwork_study::journal::Shard;

use crate::args::ScriptArgs;
use crate::cases::{failure, folder_of, text};
use crate::exit::{Failure, Outcome};
use crate::host::{Prints, ProgramHost};
use crate::render::{Sources, counted};
use crate::studies::runner::{Ended, Options, Runner};
use crate::studies::stop;
use crate::terminal::Terminal;

/// Runs a script.
///
/// # Errors
/// [`Failure::Input`] with the line where it failed, [`Failure::Structure`] when a frame that it solves cannot be solved,
/// [`Failure::Blocked`] and [`Failure::File`] when a file cannot be read or written.
pub(crate) fn run(args: &ScriptArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let text = text(&args.file)?;
    let name = args.file.display().to_string();
    let mut sources = Sources::default();
    sources.add_shown(&name, name.clone(), &text);
    let out = args.out.clone().unwrap_or_else(|| beside(args));
    let options =
        Options { out: out.clone(), shard: Shard::WHOLE, fresh: args.fresh, threads: 0, json: false, paper: None };
    let runner = Arc::new(Runner::new(*terminal, options));
    let host = ProgramHost::new(*terminal, folder_of(&args.file), out.clone(), args.args.clone(), Prints::Results)?;
    let host = Arc::new(host.with_studies(Arc::clone(&runner)));
    stop::watch();
    let ran = run_script(host.clone(), &name, &text, &args.args, limits(args));
    // What was written before a fault stays, and is ours to overwrite the next time.
    let written = host.finish()?;
    if let Some(stopped) = host.take_failure() {
        return Err(stopped);
    }
    ran.map_err(|error| failure(&error, sources))?;
    if !written.is_empty() {
        terminal.note(&format!("Wrote {} below {}\n", counted(written.len(), "file"), out.display()));
    }
    // What a study found is the script's to judge; that it was stopped is not.
    if stop::asked() || runner.ended() == Some(Ended::Stopped) { Ended::Stopped.outcome() } else { Ok(Outcome::Passed) }
}

/// `results` beside the script.
fn beside(args: &ScriptArgs) -> PathBuf {
    folder_of(&args.file).join("results")
}

fn limits(args: &ScriptArgs) -> Limits {
    let usual = Limits::default();
    let times = usize::from(args.max_size);
    Limits {
        operations: args.max_operations,
        seconds: args.max_seconds as f64,
        depth: usize::from(args.max_depth),
        text_bytes: usual.text_bytes * times,
        list_items: usual.list_items * times,
        map_entries: usual.map_entries * times,
    }
}
