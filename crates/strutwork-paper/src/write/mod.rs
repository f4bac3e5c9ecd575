//! Pages to the bytes of a file. Only this folder names the library that knows PDF.

mod ops;
mod outline;
mod picture;
mod running;
mod tags;

use krilla::configure::{ConfigurationBuilder, PdfVersion};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::tagging::{Artifact, ArtifactType, ContentTag};
use krilla::{Document as File, SerializeSettings};

use crate::document::Document;
use crate::error::PaperError;
use crate::lay::page_size;
use crate::pages::{Page, What};
use crate::piece::{Laid, Part, Piece};
use crate::theme;
use ops::Pen;
use tags::Leaves;

/// Where a heading stands: its page, counted from 0, and its top, pt from the upper edge of the paper.
pub(super) type Spot = (usize, f64);

/// The bytes of the file.
///
/// # Errors
/// What the library refuses.
pub(crate) fn write(document: &Document, laid: Laid<'_>, pages: &[Page]) -> Result<Vec<u8>, PaperError> {
    let Laid { flows, heads, headings, nodes, mut shaper, paper } = laid;
    let piece = |what: What| match what {
        What::Piece { flow, at } => &flows[flow].pieces[at],
        What::Head { head, at } => &heads[head][at],
    };
    let spots = spots(pages, headings.len(), piece);
    let configuration = ConfigurationBuilder::new().with_version(PdfVersion::Pdf17).finish();
    let configuration = configuration.map_err(|refused| PaperError::Writing(format!("{refused:?}")))?;
    let mut file = File::new_with(SerializeSettings { configuration, ..SerializeSettings::default() });
    let title = tags::clean(&document.title);
    file.set_metadata(Metadata::new().title(title).language(document.language.clone()));
    let mut leaves = Leaves::of(nodes);
    let faces = ops::faces()?;
    for (number, page) in pages.iter().enumerate() {
        let (width, height) = page_size(paper, page.sideways);
        let settings = PageSettings::from_wh(width as f32, height as f32)
            .ok_or_else(|| PaperError::Writing("a page has no size".to_owned()))?;
        let mut sheet = file.start_page_with(settings);
        let mut links = Vec::new();
        let mut surface = sheet.surface();
        let mut pen = Pen { surface: &mut surface, faces: &faces, shaper: &mut shaper, spots: &spots };
        running::draw(&mut pen, &document.running, (width, height), (number, pages.len()));
        for placed in &page.placed {
            let at = (theme::SIDE, theme::TOP + placed.y);
            for part in &piece(placed.what).parts {
                draw(&mut pen, part, at, &mut leaves, &mut links);
            }
        }
        surface.finish();
        for link in links {
            let heading = &headings[link.heading].line;
            let identifier = sheet.add_tagged_annotation(ops::annotation(&link, &spots, heading));
            leaves.add(link.node, identifier);
        }
        sheet.finish();
    }
    file.set_outline(outline::of(&headings, &spots));
    file.set_tag_tree(leaves.tree(&document.language));
    file.finish().map_err(|refused| PaperError::Writing(refused.to_string()))
}

fn draw(pen: &mut Pen<'_, '_>, part: &Part<'_>, at: (f64, f64), leaves: &mut Leaves, links: &mut Vec<ops::Link>) {
    if part.ops.is_empty() {
        return;
    }
    match part.node {
        Some(node) => {
            let identifier = pen.surface.start_tagged(ContentTag::Other);
            leaves.add(node, identifier);
        }
        None => {
            let layout = Artifact::with_kind(ArtifactType::Layout);
            pen.surface.start_tagged(ContentTag::Artifact(layout));
        }
    }
    for op in &part.ops {
        let link = pen.draw(op, at);
        links.extend(link.zip(part.node).map(|(link, node)| link.of(node)));
    }
    pen.surface.end_tagged();
}

/// Where each heading stands.
fn spots<'p>(pages: &[Page], count: usize, piece: impl Fn(What) -> &'p Piece<'p>) -> Vec<Spot> {
    let mut spots = vec![(0, 0.0); count];
    for (number, page) in pages.iter().enumerate() {
        for placed in &page.placed {
            if let Some(heading) = piece(placed.what).heading {
                spots[heading] = (number, theme::TOP + placed.y);
            }
        }
    }
    spots
}
