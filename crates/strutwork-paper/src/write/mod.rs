//! Pages to the bytes of a file. Only this folder names the library that knows PDF.

mod ops;
mod outline;
mod picture;
mod running;
mod tags;

use krilla::configure::{ConfigurationBuilder, PdfVersion};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};
use krilla::{Document as File, SerializeSettings};

use crate::document::Document;
use crate::error::PaperError;
use crate::lay::page_size;
use crate::pages::{Page, What};
use crate::piece::{Laid, Mark, Op, Part, Piece};
use crate::theme;
use ops::{Link, Pen};
use tags::{Home, Leaves};

/// Where a heading stands: its page, counted from 0, and its top, pt from the upper edge of the paper.
pub(super) type Spot = (usize, f64);

/// The oldest version that has all that is used here. From 1.6 on the library states that nothing is suspect about the tags,
/// which is the default, and poppler 22.12 takes the statement for a mistake.
const VERSION: PdfVersion = PdfVersion::Pdf15;

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
    let Spots { headings: spots, named } = spots(pages, headings.len(), shaper.places(), piece);
    let configuration = ConfigurationBuilder::new().with_version(VERSION).finish();
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
        let mut told = Told { leaves: &mut leaves, headings: &headings, named: &named, links: Vec::new() };
        let mut surface = sheet.surface();
        let mut pen = Pen { surface: &mut surface, faces: &faces, shaper: &mut shaper, spots: &spots };
        running::draw(&mut pen, &document.running, (width, height), (number, pages.len()));
        for placed in &page.placed {
            let at = (theme::SIDE, theme::TOP + placed.y);
            for part in &piece(placed.what).parts {
                draw(&mut pen, part, at, &mut told);
            }
        }
        surface.finish();
        for link in told.links {
            let area = sheet.add_tagged_annotation(ops::annotation(&link));
            leaves.add_area(link.home, area);
        }
        sheet.finish();
    }
    file.set_outline(outline::of(&headings, &spots));
    file.set_tag_tree(leaves.tree(&document.language));
    file.finish().map_err(|refused| PaperError::Writing(refused.to_string()))
}

/// Where headings and named places are.
struct Spots {
    headings: Vec<Spot>,
    /// `None` for a name that no place has.
    named: Vec<Option<Spot>>,
}

/// What is drawn of the document while it goes on.
struct Told<'t> {
    leaves: &'t mut Leaves,
    headings: &'t [Mark],
    named: &'t [Option<Spot>],
    links: Vec<Link>,
}

fn draw(pen: &mut Pen<'_, '_>, part: &Part<'_>, at: (f64, f64), told: &mut Told<'_>) {
    if part.ops.is_empty() {
        return;
    }
    let Some(node) = part.node else {
        pen.surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)));
        part.ops.iter().for_each(|op| pen.draw(op, at));
        pen.surface.end_tagged();
        return;
    };
    if part.ops.iter().any(|op| told.leads(op) || has_unseen(op)) {
        part.ops.iter().for_each(|op| led(pen, op, node, at, told));
        return;
    }
    let identifier = pen.surface.start_tagged(ContentTag::Other);
    told.leaves.add(node, identifier);
    part.ops.iter().for_each(|op| pen.draw(op, at));
    pen.surface.end_tagged();
    for op in &part.ops {
        if let Op::Link { x, y, width, height, heading } = op {
            told.links.push(Link {
                home: Home { node, leaf: None },
                to: pen.spots[*heading],
                said: told.headings[*heading].line.clone(),
                corner: (at.0 + x, at.1 + y),
                size: (*width, *height),
            });
        }
    }
}

/// Whether some of its words are read and not seen.
fn has_unseen(op: &Op<'_>) -> bool {
    matches!(op, Op::Words { line, .. } if line.runs.iter().any(|run| run.unseen))
}

/// Draws an op part by part: words that lead somewhere stand in a node of their own among the others, and those that follow what
/// is not seen are read with it.
fn led(pen: &mut Pen<'_, '_>, op: &Op<'_>, node: usize, at: (f64, f64), told: &mut Told<'_>) {
    let Op::Words { x, y, line } = op else {
        let identifier = pen.surface.start_tagged(ContentTag::Other);
        told.leaves.add(node, identifier);
        pen.draw(op, at);
        pen.surface.end_tagged();
        return;
    };
    let mut unseen = String::new();
    for run in &line.runs {
        if run.unseen {
            unseen.push_str(&run.text);
            continue;
        }
        let read = format!("{unseen}{}", run.text);
        let tag = if std::mem::take(&mut unseen).is_empty() {
            ContentTag::Other
        } else {
            ContentTag::Span(SpanTag::empty().with_actual_text(Some(&read)))
        };
        let identifier = pen.surface.start_tagged(tag);
        pen.run((at.0 + x, at.1 + y), run);
        pen.surface.end_tagged();
        match run.to.and_then(|to| told.named[to]) {
            Some(to) => told.links.push(Link {
                home: told.leaves.add_link(node, identifier),
                to,
                said: run.text.clone(),
                corner: (at.0 + x + run.x, at.1 + y - run.size),
                size: (run.width, run.size * 1.25),
            }),
            None => told.leaves.add(node, identifier),
        }
    }
}

impl Told<'_> {
    /// Whether some of its words lead to a place that there is.
    fn leads(&self, op: &Op<'_>) -> bool {
        let Op::Words { line, .. } = op else { return false };
        line.runs.iter().any(|run| run.to.is_some_and(|to| self.named[to].is_some()))
    }
}

/// Where headings and named places stand.
fn spots<'p>(pages: &[Page], headings: usize, named: usize, piece: impl Fn(What) -> &'p Piece<'p>) -> Spots {
    let mut spots = Spots { headings: vec![(0, 0.0); headings], named: vec![None; named] };
    for (number, page) in pages.iter().enumerate() {
        for placed in &page.placed {
            let (piece, spot) = (piece(placed.what), (number, theme::TOP + placed.y));
            if let Some(heading) = piece.heading {
                spots.headings[heading] = spot;
            }
            for name in &piece.anchors {
                // Of two places with one name the first is meant.
                spots.named[*name].get_or_insert(spot);
            }
        }
    }
    spots
}
