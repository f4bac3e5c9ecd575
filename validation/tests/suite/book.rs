//! The book says what the cases say, whatever they are called.

use strutwork_validation::{Block, Book, Case, Suite, run_all, suite};

/// The case with this name, alone.
fn only(name: &str) -> Suite {
    let cases: Vec<Case> = suite().cases.into_iter().filter(|case| case.name == name).collect();
    assert_eq!(cases.len(), 1, "{name}");
    Suite { cases }
}

fn book(suite: &Suite) -> Book {
    Book::of(suite, &run_all(suite), "1.2.3")
}

/// All tables of the first case.
fn tables(book: &Book) -> Vec<&strutwork_validation::Table> {
    let blocks = &book.families[0].pages[0].blocks;
    blocks.iter().filter_map(|block| if let Block::Table(table) = block { Some(table) } else { None }).collect()
}

#[test]
fn a_page_holds_source_sketch_model_and_every_value() {
    let suite = only("gerber_hinge");
    let book = book(&suite);
    let page = &book.families[0].pages[0];
    assert_eq!(page.title, suite.cases[0].title);
    assert!(page.blocks.iter().any(|block| matches!(block, Block::Figure(_))), "no sketch");
    let rows = &tables(&book)[0].rows;
    assert_eq!(rows.len(), suite.cases[0].quantities.len());
    for (row, quantity) in rows.iter().zip(&suite.cases[0].quantities) {
        assert!(row.cells.iter().any(|cell| cell.text == quantity.printed.text()));
    }
    let html = book.html();
    assert!(html.contains("validation/suite/beams/gerber_hinge") && html.contains("1.2.3"));
    assert!(book.pdf().unwrap().starts_with(b"%PDF"));
}

#[test]
fn names_from_a_case_are_shown_and_not_run() {
    let mut suite = only("simply_supported_uniform");
    let hostile = "<script>alert(1)</script>\" onload=\"x";
    let case = &mut suite.cases[0];
    case.title = hostile.to_owned();
    case.notes.push(hostile.to_owned());
    case.source.author = hostile.to_owned();
    case.quantities[0].formula = hostile.to_owned();
    let html = book(&suite).html();
    assert!(html.contains("&lt;script&gt;alert(1)&lt;/script&gt;&quot; onload"));
    assert!(!html.contains("<script") && !html.contains("\" onload="));
}

#[test]
fn what_disagrees_stands_out() {
    let mut suite = only("simply_supported_uniform");
    suite.cases[0].quantities[0].printed = strutwork_validation::Printed::read("12345.6").unwrap();
    let book = book(&suite);
    assert!(tables(&book)[0].rows[0].strong);
    assert!(book.html().contains("DISAGREES"));
}

#[test]
fn a_model_that_cannot_be_read_has_its_page() {
    let mut suite = only("simply_supported_uniform");
    suite.cases[0].files.0.retain(|file| file.name != "tubes.csv");
    let html = book(&suite).html();
    assert!(html.contains("NOT SOLVED") && !html.contains("NaN"));
}

#[test]
fn a_study_of_order_has_its_table_and_its_picture() {
    let suite = only("ring");
    let book = book(&suite);
    let study = tables(&book)[1];
    assert_eq!(study.rows.len(), suite.cases[0].refinements[0].steps.len());
    let observed: f64 = study.rows.last().unwrap().cells[3].text.parse().expect("the order of the finest division");
    assert!((1.95..2.05).contains(&observed), "{observed}");
    let pictures = book.families[0].pages[0].blocks.iter().filter(|block| matches!(block, Block::Figure(_))).count();
    assert_eq!(pictures, 3, "the sketch, and the errors of both studies");
}
