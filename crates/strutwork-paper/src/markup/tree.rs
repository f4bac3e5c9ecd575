//! Elements within elements.

use super::MarkupError;
use crate::xml::{Event, events};

/// No page needs more elements within each other.
const DEEPEST: usize = 48;

/// What stands in an element.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Node<'a> {
    Element(Element<'a>),
    Letters(String),
    /// The text of a drawing.
    Svg(&'a str),
}

/// An element with its classes.
#[derive(Debug, PartialEq, Eq, Default)]
pub(super) struct Element<'a> {
    pub(super) name: &'a str,
    classes: String,
    /// The name of its place; empty for none.
    pub(super) id: String,
    /// Where it leads within the page; empty for nowhere.
    pub(super) to: String,
    pub(super) inside: Vec<Node<'a>>,
}

impl<'a> Element<'a> {
    /// Whether it has a class.
    pub(super) fn is(&self, class: &str) -> bool {
        self.classes.split(' ').any(|own| own == class)
    }

    /// The elements in it; letters between them are left out.
    pub(super) fn elements(&self) -> impl Iterator<Item = &Element<'a>> {
        self.inside.iter().filter_map(|node| match node {
            Node::Element(element) => Some(element),
            Node::Letters(_) | Node::Svg(_) => None,
        })
    }

    /// The first element of a name in it.
    pub(super) fn first(&self, name: &str) -> Option<&Element<'a>> {
        self.elements().find(|element| element.name == name)
    }

    /// The first element of a class in it.
    pub(super) fn classed(&self, class: &str) -> Option<&Element<'a>> {
        self.elements().find(|element| element.is(class))
    }

    /// That something in it is not read there.
    pub(super) fn stray(&self, element: &str) -> MarkupError {
        MarkupError::Element { element: element.to_owned(), within: self.name.to_owned() }
    }
}

/// The nodes of a text.
pub(super) fn read(text: &str) -> Result<Vec<Node<'_>>, MarkupError> {
    let mut open: Vec<Element<'_>> = vec![Element::default()];
    for event in events(text, "svg")? {
        let node = match event {
            Event::Open { name, attributes } => {
                let of = |name: &str| attributes.iter().find(|(key, _)| *key == name).map(|(_, value)| value.as_str());
                let classes = of("class").unwrap_or_default().to_owned();
                let id = of("id").unwrap_or_default().to_owned();
                let to = of("href").and_then(|to| to.strip_prefix('#')).unwrap_or_default().to_owned();
                if open.len() > DEEPEST {
                    return Err(MarkupError::Deep(DEEPEST));
                }
                open.push(Element { name, classes, id, to, inside: Vec::new() });
                continue;
            }
            Event::Close => match open.pop() {
                Some(element) => Node::Element(element),
                None => break,
            },
            Event::Text(letters) => Node::Letters(letters),
            Event::Whole(svg) => Node::Svg(svg),
        };
        if let Some(around) = open.last_mut() {
            around.inside.push(node);
        }
    }
    Ok(open.pop().map_or_else(Vec::new, |page| page.inside))
}
