//! `strutwork man`: the manual page, every command in it.

use clap::CommandFactory as _;

use crate::args::Cli;
use crate::exit::{Failure, Outcome};
use crate::terminal::Terminal;

/// Prints it.
///
/// # Errors
/// [`Failure::Output`] when standard output cannot be written.
pub(crate) fn run(terminal: &Terminal) -> Result<Outcome, Failure> {
    let mut command = Cli::command();
    command.build();
    let mut text = Vec::new();
    clap_mangen::Man::new(command.clone()).render(&mut text)?;
    for sub in command.get_subcommands().filter(|sub| sub.get_name() != "help") {
        let page = clap_mangen::Man::new(sub.clone());
        text.extend_from_slice(format!(".SH STRUTWORK {}\n", sub.get_name().to_uppercase()).as_bytes());
        page.render_synopsis_section(&mut text)?;
        page.render_description_section(&mut text)?;
        page.render_options_section(&mut text)?;
        page.render_extra_section(&mut text)?;
    }
    terminal.result(&String::from_utf8_lossy(&text))?;
    Ok(Outcome::Passed)
}
