//! Text that wants to do harm, and documents that are hardly any.

use strutwork_paper::{
    Block, Column, Contents, Document, Fact, Heading, List, Note, Step, Table, Text, TitleBlock, pdf,
};

use super::poppler;

/// Letters that mean something to somebody.
const HOSTILE: &str = "(a) Tj ET /JS <script>alert('1')</script> \\) >> endobj %%EOF \u{0}\u{7}\u{202e}abc\u{feff} 梁 \
                       مرحبا é\u{301}\u{302} \u{e000}\u{10ffff} &amp; ]]> {{x}}";

fn everywhere(text: &str) -> Document {
    let mut document = Document::new(text, "en-GB");
    document.running.head = text.to_owned();
    document.running.head_right = text.to_owned();
    document.running.foot = text.to_owned();
    let mut table = Table::new(text, vec![Column::text(text), Column::number(text, text)]);
    table.push([text, text]);
    document.blocks = vec![
        Block::from(TitleBlock {
            kind: text.to_owned(),
            title: text.into(),
            subtitle: text.into(),
            facts: vec![Fact::new(text, text)],
        }),
        Block::Contents(Contents { lowest: 4, numbered: false }),
        Block::from(Heading::new(0, text, text)),
        Block::from(Heading::new(9, text, text)),
        Block::from(Text::new().bold(text).low(text).mono(text)),
        Block::from(List { numbered: true, items: vec![text.into()] }),
        Block::from(Note { warns: true, label: text.into(), blocks: vec![Block::from(text)] }),
        Block::Calculation(vec![Step { symbol: text.into(), equals: vec![text.into()], note: text.into() }]),
        Block::from(table),
    ];
    document
}

#[test]
fn hostile_text_is_text() {
    let written = poppler::write(&everywhere(HOSTILE));
    let info = written.info(&[]);
    assert!(info.contains("JavaScript:      no") && info.contains("Form:            none"), "{info}");
    assert!(written.info(&["-js"]).trim().is_empty());
    let text = written.text();
    assert!(text.contains("<script>alert('1')</script>"), "{text}");
    assert!(!text.contains('\u{202e}'));
}

#[test]
fn very_long_words_and_texts_end() {
    for text in ["x".repeat(5_000), "word ".repeat(1_000), "\n".repeat(900)] {
        let written = poppler::write(&everywhere(&text));
        assert!(written.pages() > 1);
    }
}

#[test]
fn nothing_is_a_page() {
    assert_eq!(poppler::write(&Document::new("", "en-GB")).pages(), 1);
    let mut document = everywhere("");
    assert_eq!(poppler::write(&document).pages(), 1);
    document.blocks = vec![Block::PageBreak, Block::PageBreak, Block::from("x"), Block::PageBreak];
    assert_eq!(poppler::write(&document).pages(), 1);
    document.blocks = vec![Block::Sideways(Vec::new()), Block::from("x")];
    assert_eq!(poppler::write(&document).pages(), 1);
}

#[test]
fn breaks_start_pages_and_what_is_kept_together_moves_as_one() {
    let mut document = Document::new("pages", "en-GB");
    let lines = |count: usize| Block::from(List { numbered: false, items: vec!["a line".into(); count] });
    document.blocks = vec![lines(30), Block::Together(vec![lines(30), Block::from("the end of it")])];
    let written = poppler::write(&document);
    assert_eq!(written.pages(), 2);
    assert_eq!(written.page(1).matches("a line").count(), 30);
    document.blocks =
        vec![Block::from("one"), Block::PageBreak, Block::from("two"), Block::PageBreak, Block::from("three")];
    assert_eq!(poppler::write(&document).pages(), 3);
    // What no page can hold goes on over pages, and starts where it stands.
    document.blocks = vec![Block::from("first"), Block::Together(vec![lines(200)])];
    let written = poppler::write(&document);
    assert!(written.page(1).matches("a line").count() > 20);
    assert!(pdf(&document).is_ok());
}
