//! Pieces to pages.

use crate::lay::text_size;
use crate::piece::{Bond, Laid, Piece};

/// A page.
#[derive(Debug, Clone, PartialEq, Default)]
pub(crate) struct Page {
    /// Whether it is turned on its side.
    pub sideways: bool,
    /// Its pieces.
    pub placed: Vec<Placed>,
}

/// A piece on a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Placed {
    /// From the top of the text to the top of the piece, pt.
    pub y: f64,
    /// Which piece.
    pub what: What,
}

/// Which piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum What {
    /// One of a flow.
    Piece { flow: usize, at: usize },
    /// One of a head that stands again.
    Head { head: usize, at: usize },
}

/// Rounding of sums of heights must not break a page.
const SLACK: f64 = 1e-6;

/// Puts the pieces on pages. There is at least one page.
pub(crate) fn break_into_pages(laid: &Laid<'_>) -> Vec<Page> {
    let mut pages = Vec::new();
    for (place, flow) in laid.flows.iter().enumerate() {
        let height = text_size(laid.paper, flow.sideways).1;
        let mut breaker =
            Breaker { heads: &laid.heads, height, place, sideways: flow.sideways, y: 0.0, pages: Vec::new() };
        breaker.chains(&flow.pieces, 0, Bond::Wished);
        pages.append(&mut breaker.pages);
    }
    if pages.is_empty() {
        pages.push(Page::default());
    }
    pages
}

struct Breaker<'l, 'a> {
    heads: &'l [Vec<Piece<'a>>],
    height: f64,
    place: usize,
    sideways: bool,
    /// Where the next piece stands.
    y: f64,
    pages: Vec<Page>,
}

impl Breaker<'_, '_> {
    /// Places pieces chain by chain: what bonds of at least this strength hold together. A chain that no page can hold is
    /// broken at its weaker bonds first.
    fn chains(&mut self, pieces: &[Piece<'_>], offset: usize, bond: Bond) {
        let mut start = 0;
        while start < pieces.len() {
            let held = |piece: &Piece<'_>| piece.bond >= bond;
            let mut end = start;
            while end + 1 < pieces.len() && held(&pieces[end]) && !pieces[end + 1].fresh {
                end += 1;
            }
            let chain = &pieces[start..=end];
            if chain[0].fresh {
                self.turn();
            }
            let tall: f64 = chain.iter().skip(1).map(|piece| piece.before + piece.height).sum();
            let again = chain[0].head.map_or(0.0, |head| height_of(&self.heads[head]));
            let fits_a_page = again + chain[0].height + tall <= self.height + SLACK;
            let fits_here = self.y + chain[0].before + chain[0].height + tall <= self.height + SLACK;
            if self.is_open() && !fits_here && fits_a_page {
                self.turn();
            }
            match (fits_a_page || chain.len() == 1, bond) {
                (true, _) | (false, Bond::Free) => {
                    for (at, piece) in chain.iter().enumerate() {
                        self.put(piece, offset + start + at);
                    }
                }
                (false, Bond::Wished) => self.chains(chain, offset + start, Bond::Firm),
                (false, Bond::Firm) => self.pieces(chain, offset + start),
            }
            start = end + 1;
        }
    }

    /// Places pieces that nothing holds together.
    fn pieces(&mut self, pieces: &[Piece<'_>], offset: usize) {
        for (at, piece) in pieces.iter().enumerate() {
            if self.is_open() && self.y + piece.before + piece.height > self.height + SLACK {
                self.turn();
            }
            self.put(piece, offset + at);
        }
    }

    /// Whether the page has something on it.
    fn is_open(&self) -> bool {
        self.pages.last().is_some_and(|page| !page.placed.is_empty())
    }

    /// Starts a page, unless the last one is empty.
    fn turn(&mut self) {
        if self.is_open() {
            self.pages.push(Page { sideways: self.sideways, placed: Vec::new() });
        }
        self.y = 0.0;
    }

    fn put(&mut self, piece: &Piece<'_>, at: usize) {
        if self.pages.is_empty() {
            self.pages.push(Page { sideways: self.sideways, placed: Vec::new() });
        }
        let open = self.is_open();
        let (heads, place) = (self.heads, self.place);
        let Some(page) = self.pages.last_mut() else { return };
        if open {
            self.y += piece.before;
        } else if let Some(head) = piece.head {
            for (at, part) in heads[head].iter().enumerate() {
                page.placed.push(Placed { y: self.y, what: What::Head { head, at } });
                self.y += part.height;
            }
        }
        page.placed.push(Placed { y: self.y, what: What::Piece { flow: place, at } });
        self.y += piece.height;
    }
}

fn height_of(pieces: &[Piece<'_>]) -> f64 {
    pieces.iter().map(|piece| piece.height).sum()
}
