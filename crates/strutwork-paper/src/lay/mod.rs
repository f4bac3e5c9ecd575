//! Blocks to pieces.

mod beside;
mod calculation;
mod columns;
mod contents;
mod facts;
mod flowing;
mod note;
mod one_page;
mod packed;
mod picture;
mod table;

use crate::block::{Block, Heading};
use crate::document::Document;
use crate::error::PaperError;
use crate::piece::{Flow, Laid, Mark, Meaning, Node, Piece};
use crate::theme;
use crate::words::Shaper;

/// Where blocks stand: from the left edge of the text, and how wide.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Strip {
    pub left: f64,
    pub width: f64,
}

/// Lays out a document.
///
/// # Errors
/// A table whose rows do not fit its columns.
pub(crate) fn lay_out(document: &Document) -> Result<Laid<'_>, PaperError> {
    let paper = document.sheet.size();
    let mut layer = Layer {
        shaper: Shaper::new()?,
        nodes: vec![Node { meaning: Meaning::Group, children: Vec::new() }],
        parent: 0,
        pieces: Vec::new(),
        heads: Vec::new(),
        headings: Vec::new(),
        next_heading: 0,
        space: Space::Free,
        fresh: false,
        anchors: Vec::new(),
        height: 0.0,
    };
    headings(&document.blocks, &mut layer.headings);
    let mut flows: Vec<Flow<'_>> = Vec::new();
    let turned = |block: &Block| matches!(block, Block::Sideways(_));
    // What stands upright is laid out together, each turned block by itself.
    for some in document.blocks.chunk_by(|a, b| !turned(a) && !turned(b)) {
        let (sideways, inside) = match some {
            [Block::Sideways(blocks)] => (true, blocks.as_slice()),
            upright => (false, upright),
        };
        let turned = flows.last().is_none_or(|flow| flow.sideways != sideways);
        if turned {
            layer.space = Space::Free;
            layer.fresh = false;
            flows.push(Flow { sideways, pieces: Vec::new() });
        }
        layer.height = text_size(paper, sideways).1;
        layer.blocks(inside, Strip { left: 0.0, width: text_size(paper, sideways).0 })?;
        if let Some(flow) = flows.last_mut() {
            flow.pieces.append(&mut layer.pieces);
        }
    }
    let Layer { shaper, nodes, heads, headings, .. } = layer;
    Ok(Laid { flows, heads, headings, nodes, shaper, paper })
}

/// Width and height of a page, pt.
pub(crate) const fn page_size(paper: (f64, f64), sideways: bool) -> (f64, f64) {
    if sideways { (paper.1, paper.0) } else { paper }
}

/// Width and height of the text on a page, pt.
pub(crate) const fn text_size(paper: (f64, f64), sideways: bool) -> (f64, f64) {
    let (width, height) = page_size(paper, sideways);
    (width - 2.0 * theme::SIDE, height - theme::TOP - theme::BOTTOM)
}

/// All headings in order, as they will be met.
fn headings(blocks: &[Block], found: &mut Vec<Mark>) {
    for block in blocks {
        match block {
            Block::Heading(heading) => {
                found.push(Mark { level: level(heading), numbered: !heading.number.is_empty(), line: heading.line() })
            }
            Block::Together(blocks) | Block::OnePage(blocks) | Block::Sideways(blocks) => headings(blocks, found),
            Block::Note(note) => headings(&note.blocks, found),
            Block::Beside(columns) => columns.iter().for_each(|column| headings(&column.blocks, found)),
            _ => {}
        }
    }
}

/// A heading's level, from 1 to 4.
fn level(heading: &Heading) -> u8 {
    heading.level.clamp(1, 4)
}

/// What the last block asks of the space below it.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Space {
    /// Nothing.
    Free,
    /// Just so much: below a heading.
    Exactly(f64),
    /// At least so much: below a table or a picture.
    AtLeast(f64),
}

/// A place on the way through the blocks.
struct Place {
    nodes: usize,
    children: usize,
    heads: usize,
    next_heading: usize,
    space: Space,
    fresh: bool,
    anchors: Vec<usize>,
}

/// Turns blocks into pieces, one after the other.
pub(crate) struct Layer<'a> {
    shaper: Shaper,
    nodes: Vec<Node>,
    /// The node that new nodes stand in.
    parent: usize,
    pieces: Vec<Piece<'a>>,
    heads: Vec<Vec<Piece<'a>>>,
    headings: Vec<Mark>,
    next_heading: usize,
    space: Space,
    /// Whether the next piece starts a page.
    fresh: bool,
    /// Names of the place of the next piece.
    anchors: Vec<usize>,
    /// Height of the text on a page.
    height: f64,
}

impl<'a> Layer<'a> {
    /// Blocks one below the other.
    fn each(&mut self, blocks: &'a [Block], strip: Strip) -> Result<(), PaperError> {
        for block in blocks {
            self.block(block, strip)?;
        }
        Ok(())
    }

    fn block(&mut self, block: &'a Block, strip: Strip) -> Result<(), PaperError> {
        match block {
            Block::Title(title) => self.title(title, strip),
            Block::Contents(wanted) => self.contents(*wanted, strip),
            Block::Heading(heading) => self.heading(heading, strip),
            Block::Paragraph(text) => self.paragraph(text, strip),
            Block::Small(text) => self.small(text, strip),
            Block::List(list) => self.list(list, strip),
            Block::Note(note) => self.note(note, strip)?,
            Block::Table(table) => self.table(table, strip)?,
            Block::Picture(picture) => self.picture(picture, strip),
            Block::Calculation(steps) => self.calculation(steps, strip),
            Block::Facts(facts) => self.facts(facts, strip),
            Block::Together(blocks) => self.together(blocks, strip)?,
            Block::OnePage(blocks) => self.one_page(blocks, strip)?,
            Block::Beside(columns) => self.beside(columns, strip)?,
            // Within another block the page cannot be turned: it stands upright there.
            Block::Sideways(blocks) => self.blocks(blocks, strip)?,
            Block::PageBreak => self.fresh = true,
            Block::Anchor(name) => self.anchors.extend(self.shaper.place_named(name)),
        }
        Ok(())
    }

    /// Where it is, to come back to.
    fn place(&self) -> Place {
        Place {
            nodes: self.nodes.len(),
            children: self.nodes[self.parent].children.len(),
            heads: self.heads.len(),
            next_heading: self.next_heading,
            space: self.space,
            fresh: self.fresh,
            anchors: self.anchors.clone(),
        }
    }

    /// Forgets what was laid since it was there, down to so many pieces.
    fn back_to(&mut self, place: &Place, pieces: usize) {
        self.pieces.truncate(pieces);
        self.nodes.truncate(place.nodes);
        self.nodes[self.parent].children.truncate(place.children);
        self.heads.truncate(place.heads);
        self.next_heading = place.next_heading;
        self.space = place.space;
        self.fresh = place.fresh;
        self.anchors.clone_from(&place.anchors);
    }

    /// A node in the current one.
    fn node(&mut self, meaning: Meaning) -> usize {
        self.node_in(self.parent, meaning)
    }

    /// A node in another.
    fn node_in(&mut self, parent: usize, meaning: Meaning) -> usize {
        let node = self.nodes.len();
        self.nodes.push(Node { meaning, children: Vec::new() });
        self.nodes[parent].children.push(node);
        node
    }

    /// The space above a block that wishes so much.
    fn above(&mut self, wish: f64) -> f64 {
        match std::mem::replace(&mut self.space, Space::Free) {
            Space::Free => wish,
            Space::Exactly(space) => space,
            Space::AtLeast(space) => wish.max(space),
        }
    }

    fn push(&mut self, mut piece: Piece<'a>) {
        piece.fresh |= std::mem::take(&mut self.fresh);
        piece.anchors.append(&mut self.anchors);
        self.pieces.push(piece);
    }
}
