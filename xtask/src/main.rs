//! Chores of the house, in Rust: `cargo xtask tidy | docs [--check] | second [--check] | faults | ci`.
#![expect(clippy::print_stdout, clippy::print_stderr, reason = "a chore talks to whoever runs it")]

mod build;
mod ci;
mod command;
mod docs;
mod failure;
mod faults;
mod readme;
mod second;
mod tidy;
mod workspace;

use std::process::ExitCode;

use workspace::Workspace;

const USAGE: &str = "\
usage: cargo xtask CHORE

  tidy             what the compiler does not check: arrows, paths, boundaries, licences
  docs [--check]   regenerate the generated pages; with --check, fail where one is stale
  second [--check] the second calculation (Python): its answers anew; with --check, against those in the tree
  faults [PART]    faults planted in a copy of the code, those whose description contains PART: each must be caught (slow)
  ci               everything that must pass before a change is taken";

fn main() -> ExitCode {
    let typed: Vec<String> = std::env::args().skip(1).collect();
    let typed: Vec<&str> = typed.iter().map(String::as_str).collect();
    let done = match typed.as_slice() {
        ["tidy"] => Workspace::open().and_then(|workspace| tidy::run(&workspace)),
        ["docs"] => Workspace::open().and_then(|workspace| docs::write(&workspace)),
        ["docs", "--check"] => Workspace::open().and_then(|workspace| docs::check(&workspace)),
        ["second"] => Workspace::open().and_then(|workspace| second::run(&workspace, "write")),
        ["second", "--check"] => Workspace::open().and_then(|workspace| second::run(&workspace, "check")),
        ["faults"] => Workspace::open().and_then(|workspace| faults::run(&workspace, "")),
        ["faults", part] => Workspace::open().and_then(|workspace| faults::run(&workspace, part)),
        ["ci"] => Workspace::open().and_then(|workspace| ci::run(&workspace)),
        _ => {
            eprintln!("{USAGE}");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("\nxtask: {failure}");
            ExitCode::FAILURE
        }
    }
}

/// Announces a step, so that a long log can be read by its headings.
pub(crate) fn heading(step: &str) {
    println!("\n==> {step}");
}

/// Says how a step went.
pub(crate) fn say(text: &str) {
    println!("    {text}");
}
