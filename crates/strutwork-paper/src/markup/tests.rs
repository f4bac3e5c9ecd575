//! Each element, and what is not read.

use super::*;
use crate::block::{Heading, Step};
use crate::table::Align;
use crate::text::Text;

#[track_caller]
fn one(html: &str) -> Block {
    let mut blocks = blocks_of(html).expect("plain");
    assert_eq!(blocks.len(), 1, "{blocks:?}");
    blocks.remove(0)
}

#[test]
fn words_keep_their_looks_and_lose_double_blanks() {
    let Block::Paragraph(text) = one("<p>\n a <b>bold</b>  &lt;word&gt;, <i>f</i><sub>y</sub>\n</p>") else {
        panic!("a paragraph")
    };
    assert_eq!(text.letters(), "a bold <word>, fy");
    assert_eq!(text, Text::new().plain("a ").bold("bold").plain(" <word>, ").italic("f").low("y"));
}

#[test]
fn sections_are_seen_through_and_headings_keep_their_numbers() {
    let blocks =
        blocks_of("<section><h2><span class=\"no\">3</span> The <b>model</b></h2><div><h3>x</h3></div></section>");
    let expected = Heading::new(1, "3", Text::new().plain("The ").bold("model"));
    assert_eq!(blocks.expect("plain"), [Block::Heading(expected), Block::Heading(Heading::new(2, "", "x"))]);
}

#[test]
fn tables_keep_their_heads_their_units_and_their_alarms() {
    let html = "<table><caption>c</caption><thead><tr><th>tube</th><th class=\"n\">N <span class=\"unit\">kN</span></th></tr>\
                </thead><tbody><tr><th>T1</th><td class=\"n over\">2</td></tr></tbody></table>";
    let Block::Table(table) = one(html) else { panic!("a table") };
    assert_eq!(table.columns.iter().map(|column| column.align).collect::<Vec<_>>(), [Align::Left, Align::Right]);
    assert_eq!((table.columns[1].head.letters(), table.columns[1].unit.as_str()), ("N".to_owned(), "kN"));
    assert_eq!(
        table.rows[0].cells[1],
        Text::new()
            .styled("2", crate::text::Style { bold: true, ink: crate::text::Ink::Red, ..Default::default() })
            .alarm("\u{a0}▲")
    );
}

#[test]
fn calculations_fall_into_symbol_sides_and_note() {
    let given = "<ul class=\"given\"><li><span class=\"line\"><i>A</i> = <b>5</b> <span class=\"unit\">mm²</span></span> \
                 <span class=\"why\">area = sum</span></li></ul>";
    let Block::Calculation(steps) = one(given) else { panic!("a calculation") };
    assert_eq!(steps[0].symbol, Text::new().italic("A"));
    assert_eq!(steps[0].equals[0].letters(), "5 mm²");
    assert_eq!(steps[0].note.letters(), "area = sum");
    let working = "<ol class=\"working\"><li><span class=\"line\"><span class=\"side\">u</span> <span class=\"side\">= a / b\
                   </span> <span class=\"side\">= <b>2</b></span></span></li><li><span class=\"why\">so</span></li></ol>";
    let Block::Calculation(steps) = one(working) else { panic!("a calculation") };
    let letters = |step: &Step| step.equals.iter().map(Text::letters).collect::<Vec<_>>();
    assert_eq!(
        (steps[0].symbol.letters(), letters(&steps[0])),
        ("u".to_owned(), vec!["a / b".to_owned(), "2".to_owned()])
    );
    assert_eq!((steps[1].symbol.is_empty(), steps[1].note.letters()), (true, "so".to_owned()));
}

#[test]
fn boxes_facts_pictures_and_pages_are_read() {
    let blocks = blocks_of(
        "<div class=\"cautions\"><h3>Read</h3><p>it</p></div><dl class=\"facts\"><div><dt>Mass</dt><dd><span class=\"value\">\
         5</span> <span class=\"unit\">kg</span><span class=\"note\">all</span></dd></div></dl><hr/><figure class=\"wide\">\
         <svg viewBox=\"0 0 2 1\"><path d=\"M0 0\"/></svg><figcaption>c</figcaption></figure>",
    )
    .expect("plain");
    let Block::Note(note) = &blocks[0] else { panic!("a box") };
    assert_eq!((note.warns, note.label.letters(), note.blocks.len()), (true, "Read".to_owned(), 1));
    let Block::Facts(facts) = &blocks[1] else { panic!("facts") };
    assert_eq!((facts[0].name.as_str(), facts[0].value.letters().as_str()), ("Mass", "5 kg\nall"));
    assert_eq!(blocks[2], Block::PageBreak);
    assert!(matches!(&blocks[3], Block::Sideways(inside) if matches!(inside[0], Block::Picture(_))));
}

#[test]
fn what_is_not_read_is_named() {
    let stray = |element: &str, within: &str| {
        Err(MarkupError::Element { element: element.to_owned(), within: within.to_owned() })
    };
    assert_eq!(blocks_of("<p><img/></p>"), stray("img", "p"));
    assert_eq!(blocks_of("<form></form>"), stray("form", "page"));
    assert_eq!(blocks_of("<ul><b>x</b></ul>"), stray("b", "ul"));
    assert!(matches!(blocks_of("<p>"), Err(MarkupError::Written { .. })));
    assert!(matches!(blocks_of("<figure></figure>"), Err(MarkupError::Drawing(_))));
    let deep = format!("{}{}", "<div>".repeat(100), "</div>".repeat(100));
    assert_eq!(blocks_of(&deep), Err(MarkupError::Deep(48)));
}
