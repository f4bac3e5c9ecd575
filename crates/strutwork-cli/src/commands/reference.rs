//! `strutwork reference`: the script reference, from the registered functions.

use crate::args::ReferenceArgs;
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Prints the page, or the definitions.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(args: &ReferenceArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let text = if args.definitions { strutwork_script::definitions() } else { strutwork_script::reference_markdown() };
    terminal.result(&text)?;
    Ok(Outcome::Passed)
}
