//! What is set smaller, side by side or in columns so that it fits.

use strutwork_paper::{Block, Column, Document, Table, Text, blocks_of};

use super::poppler;

fn table(caption: &str, rows: usize) -> Block {
    let mut table = Table::new(caption, vec![Column::text("name"), Column::number("value", "mm")]);
    for row in 1..=rows {
        table.push([format!("{caption}{row}"), row.to_string()]);
    }
    Block::Table(table)
}

fn lines(count: usize) -> Vec<Block> {
    (1..=count).map(|line| Block::from(format!("Line {line} of the page."))).collect()
}

fn document(blocks: Vec<Block>) -> Document {
    Document { blocks, ..Document::new("Fitting", "en-GB") }
}

#[test]
fn what_is_a_little_too_long_is_set_smaller_and_what_is_far_too_long_is_not() {
    let fits = (1..80).rev().find(|count| poppler::write(&document(lines(*count))).pages() == 1).expect("a line fits");
    let over = fits + fits / 10;
    assert_eq!(poppler::write(&document(lines(over))).pages(), 2);
    let one = poppler::write(&document(vec![Block::OnePage(lines(over))]));
    assert_eq!(one.pages(), 1);
    assert!(one.text().contains(&format!("Line {over} of the page.")), "nothing is cut off");
    let long = poppler::write(&document(vec![Block::OnePage(lines(2 * fits))]));
    assert_eq!(long.pages(), 2);
    // Two that are short share a page; the third starts the next, and is not broken.
    let third = || Block::OnePage(lines(fits * 2 / 5));
    let three = poppler::write(&document(vec![third(), third(), third()]));
    assert_eq!(three.pages(), 2);
    assert!(three.page(2).trim_start().starts_with("Line 1 of the page."), "{}", three.page(2));
}

#[test]
fn small_tables_stand_beside_each_other_and_long_narrow_ones_in_columns() {
    let beside = poppler::write(&document(vec![table("A", 3), table("B", 4)])).page(1);
    let line = beside.lines().find(|line| line.contains("A3")).expect("a row");
    assert!(line.contains("B3"), "{beside}");
    let folded = poppler::write(&document(vec![table("C", 60)]));
    assert_eq!(folded.pages(), 1);
    let page = folded.page(1);
    let line = page.lines().find(|line| line.trim_start().starts_with("C1 ")).expect("a row");
    assert!(line.contains("C2 ") && line.contains("C3 "), "{page}");
    assert!(page.contains("C60"), "{page}");
}

#[test]
fn a_power_is_read_as_one_and_seen_without_its_sign() {
    let html = "<p>n<sup><span class=\"caret\">^</span>1.7</sup> and the rest</p>";
    let written = poppler::write(&document(blocks_of(html).expect("plain HTML")));
    assert!(written.text().contains("^1.7"), "{}", written.text());
    let plain = Text::new().plain("n").high("1.7").plain(" and the rest");
    let seen = poppler::write(&document(vec![Block::from(plain)]));
    assert_eq!(written.ink(1), seen.ink(1), "the sign itself is not drawn");
}

#[test]
fn links_to_places_that_there_are_not_stay_words() {
    let html = "<p>See <a href=\"#there\">the shelf</a> or <a href=\"#nowhere\">nothing</a>.</p><hr/>\
        <section id=\"there\"><h2>The shelf</h2></section>";
    let document = document(blocks_of(html).expect("plain HTML"));
    let written = poppler::write(&document);
    assert!(written.page(1).contains("See the shelf or nothing."), "{}", written.page(1));
    let bytes = strutwork_paper::pdf(&document).expect("writes");
    let links = bytes.windows(13).filter(|part| part == b"/Subtype/Link" || part == b"Subtype /Link").count();
    assert_eq!(links, 1, "one of the two leads somewhere");
}
