//! The page of a study and its pictures, as files.

use strutwork_paper::{Document, Drawing, PaperError, Running, Sheet, blocks_of, pdf, png};

use crate::figures::Figure;
use crate::study::StudyRun;
use crate::write::html::Edition;
use crate::write::html::study::{page, pictures};

/// Dots of a PNG file for each px of the drawing: sharp on a screen of two dots a px, and on paper a hand wide.
const DOTS: f64 = 2.0;
/// Digits of the study's digest that stand on every page.
const HASH: usize = 16;

/// `study.html`, every picture of it as `pictures/STEM-….svg` and `.png`, and where sheets are given `study.pdf`, the page in
/// short on these; in a fixed order.
///
/// # Errors
/// None that a study can cause: that a picture is not one that can be drawn is a fault of this program.
pub fn study_files(run: &StudyRun<'_>, paper: Option<Sheet>) -> Result<Vec<(String, Vec<u8>)>, PaperError> {
    let pictures = pictures(run);
    let mut files = vec![("study.html".to_owned(), page(run, &pictures, Edition::Screen).into_bytes())];
    for (name, figure) in &pictures {
        let path = format!("pictures/{}-{name}", run.stem);
        let drawing = Drawing::from_svg(&figure.svg).map_err(strutwork_paper::MarkupError::from)?;
        files.push((format!("{path}.svg"), figure.file().into_bytes()));
        files.push((format!("{path}.png"), png(&drawing, DOTS)?));
    }
    if let Some(sheet) = paper {
        files.push(("study.pdf".to_owned(), on_paper(run, &pictures, sheet)?));
    }
    Ok(files)
}

/// The page in short as the bytes of a PDF file.
fn on_paper(run: &StudyRun<'_>, pictures: &[(String, Figure)], sheet: Sheet) -> Result<Vec<u8>, PaperError> {
    let mut document = Document::new(format!("{}: study of variants", run.study.name), "en-GB");
    document.sheet = sheet;
    let hash: String = run.identity.chars().take(HASH).collect();
    let title = run.start.model.as_ref().map_or("", |model| model.title().title.as_str());
    document.running = Running {
        head: format!("Study {}", run.study.name),
        head_right: title.to_owned(),
        foot: format!("Strutwork {} · study {hash}", run.version),
    };
    document.blocks = blocks_of(&page(run, pictures, Edition::Paper))?;
    pdf(&document)
}
