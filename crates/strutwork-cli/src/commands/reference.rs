//! `strutwork reference`: the script reference from the registered functions, and the built-in lists.

use crate::args::ReferenceArgs;
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Prints the page, the definitions, or one of the lists.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(args: &ReferenceArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let text = if args.definitions {
        strutwork_script::definitions()
    } else if args.stock {
        strutwork_report::lists::stock_csv()
    } else if args.grades {
        strutwork_report::lists::grades_csv()
    } else {
        strutwork_script::reference_markdown()
    };
    terminal.result(&text)?;
    Ok(Outcome::Passed)
}
