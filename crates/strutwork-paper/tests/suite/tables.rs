//! Tables over many pages.

use strutwork_paper::{Block, Column, Document, PaperError, Row, Table, Text, pdf};

use super::{poppler, specimen};

fn with(table: Table) -> Document {
    let mut document = Document::new("tables", "en-GB");
    document.blocks.push(Block::from(table));
    document
}

#[test]
fn the_head_stands_again_on_each_page_and_each_row_once() {
    let written = poppler::write(&with(specimen::long_table(200)));
    let pages = written.pages();
    assert!(pages >= 4);
    for page in 1..=pages {
        let text = written.page(page);
        assert_eq!(text.matches("what it is for").count(), 1, "page {page}");
        assert_eq!(text.contains("continued"), page > 1, "page {page}");
        assert!(text.matches("books").count() > 1, "page {page} has a row alone: {text}");
    }
    let text = written.text();
    for row in 1..=200 {
        assert_eq!(text.lines().filter(|line| *line == format!("P{row}")).count(), 1, "P{row}");
    }
}

#[test]
fn wide_tables_are_set_smaller_and_stay_on_the_page() {
    let columns = (0..16).map(|at| Column::number(format!("force {at}"), "kN")).collect();
    let mut table = Table::new("wide", columns);
    table.push((0..16).map(|at| format!("-1234.{at}")));
    let text = poppler::write(&with(table)).page(1);
    let row = text.lines().find(|line| line.contains("-1234.0")).expect("the row");
    assert!(row.contains("-1234.15"), "{text}");
}

#[test]
fn a_cell_taller_than_a_page_goes_on_over_pages() {
    let mut table = Table::new("tall", vec![Column::text("name"), Column::text("said")]);
    table.push(["one".to_owned(), "word ".repeat(6000) + "last"]);
    let written = poppler::write(&with(table));
    assert!(written.pages() > 2);
    let text = written.text();
    assert_eq!(text.matches("word").count(), 6000);
    assert!(text.contains("last"));
}

#[test]
fn a_row_that_does_not_fit_its_columns_is_told() {
    let mut table = Table::new("of planks", vec![Column::text("a"), Column::text("b")]);
    table.push(["1", "2"]);
    table.rows.push(Row { cells: vec![Text::from("1")], ..Row::default() });
    let told = PaperError::Cells { caption: "of planks".to_owned(), row: 2, cells: 1, columns: 2 };
    assert_eq!(told.to_string(), "table \"of planks\": row 2 has 1 cells, and there are 2 columns");
    assert_eq!(pdf(&with(table)), Err(told));
}

#[test]
fn empty_tables_are_written() {
    assert_eq!(poppler::write(&with(Table::new("nothing", Vec::new()))).pages(), 1);
    let heads = poppler::write(&with(Table::new("heads alone", vec![Column::text("a head")])));
    assert!(heads.text().contains("a head"));
}
