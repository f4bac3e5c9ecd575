//! `strutwork completions`: completions for a shell.

use clap::CommandFactory as _;

use crate::args::{Cli, CompletionsArgs};
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Prints them.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(args: &CompletionsArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut text = Vec::new();
    clap_complete::generate(args.shell, &mut Cli::command(), "strutwork", &mut text);
    terminal.result(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Passed)
}
