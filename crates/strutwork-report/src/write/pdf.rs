//! The report as PDF: the page for paper, read into blocks and laid on sheets. No browser takes part.

use strutwork_paper::{Document, PaperError, Running, Sheet, blocks_of, pdf};

use crate::run::{Run, RunInfo};
use crate::write::html::{Edition, page};

/// Digits of the hash of all inputs that stand on every page.
const HASH: usize = 16;

/// The whole report as the bytes of a PDF file, on sheets of this size.
///
/// # Errors
/// None that a model can cause: that the page is not one that can be laid on sheets is a fault of this program.
pub fn report_pdf(run: &Run<'_>, sheet: Sheet) -> Result<Vec<u8>, PaperError> {
    let title = run.model.title();
    let mut document = Document::new(format!("{}: frame report", title.title), "en-GB");
    document.sheet = sheet;
    document.running = running(&title.title, &title.revision, run.info);
    document.blocks = blocks_of(&page(run, Edition::Paper))?;
    pdf(&document)
}

fn running(title: &str, revision: &str, info: &RunInfo) -> Running {
    let dated = if revision.is_empty() { info.date.clone() } else { format!("revision {revision} · {}", info.date) };
    let hash: String = info.input_hash.chars().take(HASH).collect();
    let inputs = if hash.is_empty() { String::new() } else { format!(" · inputs {hash}") };
    Running { head: title.to_owned(), head_right: dated, foot: format!("Strutwork {}{inputs}", info.tool_version) }
}
