//! What stands below each other.

use super::MarkupError;
use super::parts::{conventions, facts, figure, given, heading, item, steps, table, title, working};
use super::tree::{Element, Node};
use super::words::{SOFT, words};
use crate::block::{Block, Contents, List, Note, Share};
use crate::text::{Style, Text};

/// How much wider than another the major one of two columns is.
const MAJOR: f64 = 1.6;

/// The blocks of a page or of a part of it.
pub(super) fn blocks(nodes: &[Node<'_>], within: &str) -> Result<Vec<Block>, MarkupError> {
    let mut blocks = Vec::new();
    for node in nodes {
        match node {
            Node::Element(element) => push(element, within, &mut blocks)?,
            Node::Letters(letters) if letters.trim().is_empty() => {}
            Node::Letters(letters) => blocks.push(Block::Paragraph(Text::from(letters.trim()))),
            Node::Svg(_) => return Err(stray("svg", within)),
        }
    }
    Ok(blocks)
}

fn push(element: &Element<'_>, within: &str, out: &mut Vec<Block>) -> Result<(), MarkupError> {
    if !element.id.is_empty() {
        out.push(Block::Anchor(element.id.clone()));
    }
    match element.name {
        "header" if element.is("sheet-head") => out.push(Block::Title(title(element)?)),
        "div" if element.is("pair") => {
            let columns = element.inside.iter().filter_map(|node| match node {
                Node::Element(column) => Some((node, if column.is("major") { MAJOR } else { 1.0 })),
                Node::Letters(_) | Node::Svg(_) => None,
            });
            let columns = columns.map(|(node, share)| {
                let blocks = blocks(std::slice::from_ref(node), element.name)?;
                Ok(Share { share, blocks })
            });
            let mut columns = columns.collect::<Result<Vec<_>, MarkupError>>()?;
            columns.iter_mut().flat_map(|column| &mut column.blocks).for_each(small);
            out.push(Block::Beside(columns));
        }
        "section" | "article" | "div" | "main" | "header" => {
            let inside = if element.is("cautions") || element.is("remark") {
                vec![note(element)?]
            } else {
                blocks(&element.inside, element.name)?
            };
            let mut inside = inside;
            if element.is("prose") || element.is("governing") {
                inside.iter_mut().for_each(small);
            }
            if element.is("page") {
                out.push(Block::OnePage(inside));
            } else if element.is("short") {
                out.push(Block::Together(inside));
            } else {
                out.extend(inside);
            }
        }
        "h2" | "h3" | "h4" | "h5" => out.push(Block::Heading(heading(element)?)),
        "nav" => out.push(Block::Contents(Contents { lowest: 2, numbered: true })),
        "hr" => out.push(Block::PageBreak),
        "p" => out.extend(paragraph(element)?),
        "ul" if element.is("given") => out.push(Block::Calculation(given(element)?)),
        "ol" if element.is("working") => out.push(Block::Calculation(working(element)?)),
        "ol" if element.is("steps") => out.push(Block::Table(steps(element)?)),
        "ul" | "ol" => {
            let items = element.elements().map(|one| item(one, element)).collect::<Result<Vec<_>, _>>()?;
            if !items.is_empty() {
                out.push(Block::List(List { numbered: element.name == "ol", items }));
            }
        }
        "dl" if element.is("conventions") => out.push(Block::List(conventions(element)?)),
        "dl" => out.extend(facts(element)?),
        "table" => out.push(Block::Table(table(element)?)),
        "figure" => {
            let picture = Block::Picture(figure(element)?);
            out.push(if element.is("wide") { Block::Sideways(vec![picture]) } else { picture });
        }
        other => return Err(stray(other, within)),
    }
    Ok(())
}

/// Tables of half the width have small letters.
fn small(block: &mut Block) {
    match block {
        Block::Table(table) => table.fine = true,
        Block::Together(inside) => inside.iter_mut().for_each(small),
        _ => {}
    }
}

/// A paragraph; in a box where it is a remark, bold where it is the outcome. Nothing for one without words.
fn paragraph(element: &Element<'_>) -> Result<Option<Block>, MarkupError> {
    let soft = ["more", "helps", "nature"].iter().any(|class| element.is(class));
    let text = words(element, if soft { SOFT } else { Style::default() })?;
    if text.is_empty() {
        return Ok(None);
    }
    let boxed = ["remark", "verdict", "outcome"].iter().any(|class| element.is(class));
    let warns = element.is("over") || element.is("remark");
    let fine = element.is("more");
    Ok(Some(if fine {
        Block::Small(text)
    } else if boxed {
        Block::Note(Note { warns, label: Text::new(), blocks: vec![Block::Paragraph(text)] })
    } else {
        Block::Paragraph(text)
    }))
}

fn note(element: &Element<'_>) -> Result<Block, MarkupError> {
    let mut inside = blocks(&element.inside, element.name)?;
    let label = match inside.first_mut() {
        Some(Block::Heading(heading)) => Some(std::mem::take(&mut heading.text)),
        _ => None,
    };
    if label.is_some() {
        inside.remove(0);
    }
    Ok(Block::Note(Note { warns: true, label: label.unwrap_or_default(), blocks: inside }))
}

fn stray(element: &str, within: &str) -> MarkupError {
    MarkupError::Element { element: element.to_owned(), within: within.to_owned() }
}
