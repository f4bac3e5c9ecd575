//! Standard output and standard error: results to the one, notes to the other. The only file that holds the handles.

use std::io::{self, IsTerminal, Write};

use crate::args::{Colour, LookArgs};
use crate::exit::Failure;

/// Where a command prints.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Terminal {
    /// Whether standard output is coloured.
    colour_out: bool,
    /// Whether standard error is coloured.
    colour_err: bool,
    /// Whether line-drawing characters may be used.
    drawing: bool,
}

impl Terminal {
    /// What the arguments and the environment ask for.
    ///
    /// Colour by `auto` needs a terminal and no `NO_COLOR` (set and not empty). Line-drawing characters need a locale
    /// that says UTF-8, or Windows, whose terminals show them.
    pub(crate) fn new(look: LookArgs) -> Self {
        let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
        let dumb = std::env::var_os("TERM").is_some_and(|term| term == "dumb");
        let wanted = |terminal: bool| match look.color {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => terminal && !dumb && !set("NO_COLOR"),
        };
        let locale = ["LC_ALL", "LC_CTYPE", "LANG"]
            .into_iter()
            .find_map(|name| std::env::var(name).ok().filter(|value| !value.is_empty()))
            .unwrap_or_default()
            .to_ascii_lowercase();
        Self {
            colour_out: wanted(io::stdout().is_terminal()),
            colour_err: wanted(io::stderr().is_terminal()),
            drawing: cfg!(windows) || locale.contains("utf-8") || locale.contains("utf8"),
        }
    }

    /// Whether standard output is coloured.
    pub(crate) const fn colour_out(&self) -> bool {
        self.colour_out
    }

    /// Whether standard error is coloured.
    pub(crate) const fn colour_err(&self) -> bool {
        self.colour_err
    }

    /// Whether line-drawing characters may be used.
    pub(crate) const fn drawing(&self) -> bool {
        self.drawing
    }

    /// Prints a result.
    ///
    /// # Errors
    /// [`Failure::PipeClosed`] when nobody reads any more, [`Failure::Output`] when it cannot be written.
    pub(crate) fn result(&self, text: &str) -> Result<(), Failure> {
        let mut out = io::stdout().lock();
        out.write_all(text.as_bytes())?;
        Ok(out.flush()?)
    }

    /// Prints a word of progress, where somebody sits and waits for it.
    pub(crate) fn progress(&self, text: &str) {
        if io::stderr().is_terminal() {
            self.note(text);
        }
    }

    /// Prints a note, a fault, progress. A standard error that is gone is no reason to stop.
    pub(crate) fn note(&self, text: &str) {
        let mut err = io::stderr().lock();
        // Nothing is left to tell it to.
        let _ = err.write_all(text.as_bytes()).and_then(|()| err.flush());
    }
}
