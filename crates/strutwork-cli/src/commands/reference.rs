//! `strutwork reference`: the script reference from the registered functions, the input files, and the built-in lists.

use crate::args::ReferenceArgs;
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Prints one of the pages, the definitions, or one of the lists.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(args: &ReferenceArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let text = if args.definitions {
        strutwork_script::definitions()
    } else if args.files {
        strutwork_model::reference::markdown()
    } else if args.stock {
        strutwork_report::lists::stock_csv()
    } else if args.grades {
        strutwork_report::lists::grades_csv()
    } else if args.fixings {
        strutwork_report::lists::fixings_csv()
    } else {
        strutwork_script::reference_markdown()
    };
    terminal.result(&text)?;
    Ok(Outcome::Passed)
}
