//! `strutwork script`: a free-standing script, confined and limited.

use std::path::PathBuf;
use std::sync::Arc;

use strutwork_script::{Limits, run_script};

use crate::args::ScriptArgs;
use crate::cases::{failure, folder_of, text};
use crate::exit::{Failure, Outcome};
use crate::host::{Prints, ProgramHost};
use crate::render::{Sources, counted};
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
    let host =
        Arc::new(ProgramHost::new(*terminal, folder_of(&args.file), out.clone(), args.args.clone(), Prints::Results)?);
    let ran = run_script(host.clone(), &name, &text, &args.args, limits(args));
    // What was written before a fault stays, and is ours to overwrite the next time.
    let written = host.finish()?;
    ran.map_err(|error| failure(&error, sources))?;
    if !written.is_empty() {
        terminal.note(&format!("Wrote {} below {}\n", counted(written.len(), "file"), out.display()));
    }
    Ok(Outcome::Passed)
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
