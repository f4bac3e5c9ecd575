//! The tree of meanings, for readers who do not see the page.

use std::num::NonZeroU16;

use krilla::tagging::{Identifier, ListNumbering, Node as Child, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};

use crate::piece::{Meaning, Node};

/// The nodes with what was drawn of each.
pub(super) struct Leaves {
    nodes: Vec<Node>,
    drawn: Vec<Vec<Leaf>>,
}

/// Where the area of a link belongs: to a node, or to words among its others.
#[derive(Debug, Clone, Copy)]
pub(super) struct Home {
    pub node: usize,
    pub leaf: Option<usize>,
}

/// What stands in a node in the order in which it was drawn.
enum Leaf {
    /// Something on a page.
    Drawn(Identifier),
    /// A link among the words.
    Link(Vec<Identifier>),
}

impl Leaves {
    /// Nodes of which nothing is drawn yet.
    pub(super) fn of(nodes: Vec<Node>) -> Self {
        let drawn = nodes.iter().map(|_| Vec::new()).collect();
        Self { nodes, drawn }
    }

    /// Something drawn belongs to a node.
    pub(super) fn add(&mut self, node: usize, identifier: Identifier) {
        self.drawn[node].push(Leaf::Drawn(identifier));
    }

    /// Words within a node lead somewhere: where their area belongs.
    pub(super) fn add_link(&mut self, node: usize, words: Identifier) -> Home {
        self.drawn[node].push(Leaf::Link(vec![words]));
        Home { node, leaf: Some(self.drawn[node].len() - 1) }
    }

    /// The area of a link.
    pub(super) fn add_area(&mut self, home: Home, area: Identifier) {
        match home.leaf.and_then(|leaf| self.drawn[home.node].get_mut(leaf)) {
            Some(Leaf::Link(of)) => of.push(area),
            _ => self.add(home.node, area),
        }
    }

    /// The tree as the library wants it.
    pub(super) fn tree(mut self, language: &str) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        for child in self.children(0) {
            tree.push(child);
        }
        tree
    }

    fn children(&mut self, node: usize) -> Vec<Child> {
        let below = std::mem::take(&mut self.nodes[node].children);
        let mut children: Vec<Child> = Vec::with_capacity(below.len());
        for child in below {
            let inside = self.children(child);
            if !inside.is_empty() {
                children.push(TagGroup::with_children(tag(&self.nodes[child].meaning), inside).into());
            }
        }
        children.extend(std::mem::take(&mut self.drawn[node]).into_iter().map(|leaf| match leaf {
            Leaf::Drawn(identifier) => Child::from(identifier),
            Leaf::Link(of) => {
                TagGroup::with_children(tag(&Meaning::Link), of.into_iter().map(Child::from).collect()).into()
            }
        }));
        children
    }
}

fn tag(meaning: &Meaning) -> TagKind {
    match meaning {
        Meaning::Group => Tag::Div.into(),
        Meaning::Title | Meaning::Paragraph => Tag::P.into(),
        Meaning::Heading(level, line) => {
            let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(clean(line))).into()
        }
        Meaning::List(numbered) => Tag::L(if *numbered { ListNumbering::Decimal } else { ListNumbering::Disc }).into(),
        Meaning::Item => Tag::LI.into(),
        Meaning::Label => Tag::Lbl.into(),
        Meaning::Body => Tag::LBody.into(),
        Meaning::Table => Tag::Table.into(),
        Meaning::TableHead => Tag::THead.into(),
        Meaning::TableBody => Tag::TBody.into(),
        Meaning::Row => Tag::TR.into(),
        Meaning::HeadCell { of_column } => {
            Tag::TH(if *of_column { TableHeaderScope::Column } else { TableHeaderScope::Row }).into()
        }
        Meaning::Cell => Tag::TD.into(),
        Meaning::Caption => Tag::Caption.into(),
        Meaning::Figure(said) => Tag::Figure(Some(clean(said))).into(),
        Meaning::Contents => Tag::TOC.into(),
        Meaning::Entry => Tag::TOCI.into(),
        Meaning::Link => Tag::Link.into(),
    }
}

/// Text without control characters, for the parts of a file that are not drawn.
pub(super) fn clean(text: &str) -> String {
    text.chars().filter(|letter| !letter.is_control()).collect()
}
