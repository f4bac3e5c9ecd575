//! Single parts: headings, tables, facts, pictures, calculations.

use super::MarkupError;
use super::tree::{Element, Node};
use super::words::{SOFT, words, words_but};
use crate::block::{Block, Fact, Heading, List, Picture, Step, TitleBlock};
use crate::drawing::Drawing;
use crate::table::{Align, Column, Row, RowKind, Table};
use crate::text::{Ink, Style, Text};

/// A table with more columns than this has small letters.
const MANY_COLUMNS: usize = 8;
/// A table with more rows has small letters.
const MANY_ROWS: usize = 14;
/// Lines left to write in.
const ROOM: usize = 3;

/// The head of the document.
pub(super) fn title(header: &Element<'_>) -> Result<TitleBlock, MarkupError> {
    let mut title = TitleBlock::default();
    for element in header.elements() {
        match element.name {
            "p" if element.is("kind") => title.kind = words(element, Style::default())?.letters(),
            "p" => title.subtitle = words(element, Style::default())?,
            "h1" => title.title = words(element, Style::default())?,
            "dl" => {
                for of in element.elements() {
                    title.facts.extend(fact(of)?);
                }
            }
            other => return Err(header.stray(other)),
        }
    }
    Ok(title)
}

pub(super) fn heading(element: &Element<'_>) -> Result<Heading, MarkupError> {
    let level = element.name[1..].parse::<u8>().unwrap_or(2) - 1;
    let number = match element.classed("no") {
        Some(no) => words(no, Style::default())?.letters(),
        None => String::new(),
    };
    Ok(Heading::new(level, number, words_but(element, Style::default(), "no")?))
}

pub(super) fn item(element: &Element<'_>, list: &Element<'_>) -> Result<Text, MarkupError> {
    if element.name == "li" { words(element, Style::default()) } else { Err(list.stray(element.name)) }
}

/// Words with what they mean, as a list.
pub(super) fn conventions(list: &Element<'_>) -> Result<List, MarkupError> {
    let mut items = Vec::new();
    for of in list.elements() {
        if let (Some(word), Some(means)) = (of.first("dt"), of.first("dd")) {
            let word = words(word, Style { bold: true, ..Style::default() })?;
            items.push(word.plain(": ").then(words(means, Style::default())?));
        }
    }
    Ok(List { numbered: false, items })
}

/// Facts side by side; those that take the whole width by themselves.
pub(super) fn facts(list: &Element<'_>) -> Result<Vec<Block>, MarkupError> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut beside = false;
    for of in list.elements() {
        let full = of.is("full");
        let Some(fact) = fact(of)? else { continue };
        match blocks.last_mut() {
            Some(Block::Facts(facts)) if beside && !full => facts.push(fact),
            _ => blocks.push(Block::Facts(vec![fact])),
        }
        beside = !full;
    }
    Ok(blocks)
}

fn fact(of: &Element<'_>) -> Result<Option<Fact>, MarkupError> {
    let (Some(name), Some(value)) = (of.first("dt"), of.first("dd")) else { return Ok(None) };
    let style = if of.is("over") { Style { ink: Ink::Red, ..Style::default() } } else { Style::default() };
    let mut text = words(value, style)?;
    if of.is("tall") {
        text = text.plain("\u{a0}\n".repeat(ROOM)).plain("\u{a0}");
    }
    Ok(Some(Fact::new(words(name, Style::default())?.letters(), text)))
}

pub(super) fn table(element: &Element<'_>) -> Result<Table, MarkupError> {
    let mut table = Table { names_rows: true, ..Table::default() };
    for part in element.elements() {
        match part.name {
            "caption" => table.caption = words(part, Style::default())?,
            "thead" => {
                for head in part.elements().flat_map(Element::elements) {
                    let unit = match head.classed("unit") {
                        Some(unit) => words(unit, Style::default())?.letters(),
                        None => String::new(),
                    };
                    let align = if head.is("n") { Align::Right } else { Align::Left };
                    table.columns.push(Column { head: words_but(head, Style::default(), "unit")?, unit, align });
                }
            }
            "tbody" => {
                for row in part.elements() {
                    let cells = row.elements().map(cell).collect::<Result<Vec<_>, _>>()?;
                    table.rows.push(Row { cells, kind: RowKind::Plain });
                }
            }
            other => return Err(element.stray(other)),
        }
    }
    // So many columns leave no room for words in larger letters.
    table.fine = table.columns.len() > MANY_COLUMNS || table.rows.len() > MANY_ROWS;
    Ok(table)
}

/// Steps with their results, two side by side, counted.
pub(super) fn steps(list: &Element<'_>) -> Result<Table, MarkupError> {
    let mut cells = Vec::new();
    for (at, one) in list.elements().enumerate() {
        let result = one.classed("result").map_or_else(|| Ok(Text::new()), |of| words(of, Style::default()))?;
        let result = unbroken(result);
        let number = Text::new().styled((at + 1).to_string(), Style { ink: Ink::Blue, ..Style::default() });
        cells.extend([number, words_but(one, Style::default(), "result")?, result]);
    }
    let columns = || [Column::number("", ""), Column::text("step"), Column::number("value", "")];
    let mut table = Table::new("", columns().into_iter().chain(columns()).collect());
    table.fine = true;
    for row in cells.chunks(6) {
        let mut cells = row.to_vec();
        cells.resize(6, Text::new());
        table.rows.push(Row { cells, kind: RowKind::Plain });
    }
    Ok(table)
}

/// A value and its unit stay on one line.
fn unbroken(mut text: Text) -> Text {
    for span in &mut text.spans {
        span.text = span.text.replace(' ', "\u{a0}");
    }
    text
}

fn cell(element: &Element<'_>) -> Result<Text, MarkupError> {
    if element.is("over") {
        // The mark is for those who see no colours.
        return Ok(words(element, Style { bold: true, ink: Ink::Red, ..Style::default() })?.alarm("\u{a0}▲"));
    }
    words(element, Style { mono: element.is("hash"), ..Style::default() })
}

pub(super) fn figure(element: &Element<'_>) -> Result<Picture, MarkupError> {
    let svg = element.inside.iter().find_map(|node| match node {
        Node::Svg(svg) => Some(*svg),
        Node::Element(_) | Node::Letters(_) => None,
    });
    let caption = match element.first("figcaption") {
        Some(caption) => words(caption, Style::default())?,
        None => Text::new(),
    };
    let drawing = Drawing::from_svg(svg.unwrap_or_default())?;
    Ok(Picture { drawing, caption, width: if element.is("half") { 0.42 } else { 1.0 } })
}

/// Inputs: symbol, value, why.
pub(super) fn given(list: &Element<'_>) -> Result<Vec<Step>, MarkupError> {
    list.elements()
        .map(|one| {
            let line = one.classed("line").map_or_else(|| Ok(Text::new()), |line| words(line, Style::default()))?;
            let (symbol, value) = parted(line);
            Ok(Step { symbol, equals: vec![value], note: note(one)? })
        })
        .collect()
}

/// Steps: symbol, formula, numbers put in, result, remark.
pub(super) fn working(list: &Element<'_>) -> Result<Vec<Step>, MarkupError> {
    list.elements()
        .map(|one| {
            let mut sides = Vec::new();
            for side in one.classed("line").iter().flat_map(|line| line.elements()) {
                sides.push(words(side, Style::default())?);
            }
            let equals = if sides.len() > 1 { sides.split_off(1) } else { Vec::new() };
            Ok(Step {
                symbol: sides.pop().unwrap_or_default(),
                equals: equals.into_iter().map(|side| parted(side).1).collect(),
                note: note(one)?,
            })
        })
        .collect()
}

fn note(one: &Element<'_>) -> Result<Text, MarkupError> {
    one.classed("why").map_or_else(|| Ok(Text::new()), |why| words(why, SOFT))
}

/// What stands before and after the first equals sign.
fn parted(text: Text) -> (Text, Text) {
    let (mut before, mut after, mut met) = (Text::new(), Text::new(), false);
    for span in text.spans {
        if met {
            after.spans.push(span);
            continue;
        }
        match span.text.split_once('=') {
            Some((left, right)) => {
                met = true;
                before = before.styled(left.trim_end(), span.style);
                after = after.styled(right.trim_start(), span.style);
            }
            None => before.spans.push(span),
        }
    }
    after.spans.retain(|span| !span.text.is_empty());
    before.spans.retain(|span| !span.text.is_empty());
    (before, after)
}
