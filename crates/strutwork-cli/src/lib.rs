//! The outside world: arguments, files, terminal, exit codes. The only crate that touches any of them.
//!
//! The way through: `args` (what was typed) → `commands` (one file each) → `pipeline` (read, solve, judge) →
//! `files` (every read and write) and `render` (what people see) → `exit` (how it ends).

mod args;
mod asked;
mod baseline_args;
mod cases;
mod clock;
mod columns;
mod commands;
mod compare_args;
mod exit;
mod files;
mod host;
mod pages;
mod pipeline;
mod ran;
mod render;
mod revisions;
mod solved;
mod starter;
mod studies;
mod study_args;
mod terminal;

use std::process::ExitCode;

use clap::Parser as _;
use strutwork_model::Severity;

use args::{Cli, Command};
use exit::{Failure, Outcome};
use terminal::Terminal;

/// Runs the program with the process's own arguments.
///
/// # Errors
/// None: every failure is told on standard error and becomes the exit code.
///
/// # Panics
/// Only for our own bugs; the message says so, and the exit code is 101.
pub fn main() -> ExitCode {
    std::panic::set_hook(Box::new(|info| {
        let terminal = Terminal::new(args::LookArgs { color: args::Colour::Never });
        terminal.note(&format!(
            "This is a bug in Strutwork, not in your model. Nothing was written that was not finished.\n{info}\n\
             Please report it with the model that showed it.\n"
        ));
    }));
    // Bad usage ends here: clap tells it and exits with 2.
    let cli = Cli::parse();
    let terminal = Terminal::new(cli.look);
    match dispatch(&cli.command, &terminal) {
        Ok(outcome) => outcome.into(),
        Err(failure) => {
            tell(&failure, &terminal);
            ExitCode::from(failure.code())
        }
    }
}

fn dispatch(command: &Command, terminal: &Terminal) -> Result<Outcome, Failure> {
    match command {
        Command::New(args) => commands::new::run(args, terminal),
        Command::Check(args) => commands::check::run(args, terminal),
        Command::Run(args) => commands::run::run(args, terminal),
        Command::Working(args) => commands::working::run(args, terminal),
        Command::Compare(args) => commands::compare::run(args, terminal),
        Command::Script(args) => commands::script::run(args, terminal),
        Command::Study(args) => commands::study::run(args, terminal),
        Command::Baseline(args) => commands::baseline::run(args, terminal),
        Command::Explain(args) => commands::explain::run(args, terminal),
        Command::Reference(args) => commands::reference::run(args, terminal),
        Command::Validate(args) => commands::validate::run(args, terminal),
        Command::Completions(args) => commands::completions::run(args, terminal),
        Command::Man => commands::man::run(terminal),
    }
}

/// Says on standard error why a command failed.
pub(crate) fn tell(failure: &Failure, terminal: &Terminal) {
    let text = match failure {
        Failure::PipeClosed | Failure::Told(_) => return,
        Failure::Input { faults, sources } => {
            format!("{}{}\n", render::diagnostics(faults, sources, terminal), render::tally(faults))
        }
        Failure::Structure { reasons: faults, sources } | Failure::Blocked { faults, sources } => {
            render::diagnostics(faults, sources, terminal)
        }
        Failure::Request { help, .. } => render::plain(Severity::Error, &failure.to_string(), help, terminal),
        Failure::Occupied { help, .. } => render::plain(Severity::Error, &failure.to_string(), help, terminal),
        Failure::File { .. } | Failure::Output(_) => render::plain(Severity::Error, &failure.to_string(), "", terminal),
    };
    terminal.note(&text);
}
