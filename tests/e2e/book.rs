//! The book of published problems: every case is in it, its links lead somewhere, it shows in a browser and on paper.

use std::collections::BTreeSet;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

use crate::browser::{LIMIT, browser, console, requests, tool};
use crate::harness::{finish, program, put, text};

/// All cases are solved and the book is written, unoptimised and beside other tests.
const WRITING: Duration = Duration::from_secs(240);

/// What stands between quotation marks after each `before`.
fn quoted<'t>(html: &'t str, before: &str) -> Vec<&'t str> {
    html.split(before).skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

/// What a poppler tool prints of a file.
fn told(name: &str, options: &[&str], file: &Path) -> String {
    let mut command = Command::new(tool(&[name], "poppler-utils"));
    command.args(options).arg(file);
    if name == "pdftotext" {
        command.arg("-");
    }
    let ran = finish(command, LIMIT);
    ran.expect(0);
    ran.stdout
}

#[test]
fn the_book_holds_every_case_and_its_links_lead_somewhere() {
    let place = tempfile::tempdir().unwrap();
    let ran = finish(program(place.path(), &["validate", "--book", "book"]), WRITING);
    ran.expect(0);
    // "1915 values of 167 cases: all agree."
    let cases: usize = ran.stdout.split(' ').nth(3).and_then(|word| word.parse().ok()).expect("the number of cases");
    assert!(ran.stdout.ends_with("cases: all agree.\n") && cases > 150, "{}", ran.stdout);
    let page = place.path().join("book/book.html");
    let html = text(&page);
    assert_eq!(html.matches("<section class=\"case\"").count(), cases, "a page a case");
    let pictures = html.matches("<figure>").count();
    assert!(pictures >= cases, "a sketch a case: {pictures} of {cases}");
    for broken in ["NaN", ">inf", "Infinity", "infinity"] {
        assert!(!html.contains(broken), "the book says `{broken}`");
    }
    let ids = quoted(&html, " id=\"");
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(unique.len(), ids.len(), "two places share an id");
    for link in quoted(&html, " href=\"") {
        assert!(link.strip_prefix('#').is_some_and(|id| unique.contains(id)), "{link} leads nowhere");
    }
    let profile = place.path().join("profile");
    let shown = browser(&profile, &page, &["--window-size=390,2400", "--dump-dom"]);
    shown.expect(0);
    assert_eq!(console(&shown), Vec::<&str>::new());
    assert_eq!(requests(&profile.with_extension("net")), Vec::<String>::new());

    let paper = place.path().join("book/book.pdf");
    let info = told("pdfinfo", &[], &paper);
    let pages = info.lines().find_map(|line| line.strip_prefix("Pages:")).and_then(|count| count.trim().parse().ok());
    assert!(pages.is_some_and(|pages: usize| pages >= cases), "{info}");
    let fonts = told("pdffonts", &[], &paper);
    let embedded = fonts.lines().skip(2).map(|line| line.split_whitespace().rev().nth(4) == Some("yes"));
    assert!(fonts.lines().count() > 2 && embedded.into_iter().all(|yes| yes), "{fonts}");
    let bookmarks = told("pdftohtml", &["-xml", "-i", "-stdout", "-l", "1"], &paper);
    let marks = bookmarks.matches("<item ").count();
    assert!(marks >= cases, "{marks} bookmarks for {cases} cases");
    let words = told("pdftotext", &["-layout"], &paper);
    for said in ["Beam with a hinge inside", "Limit:", "Order observed", "What rests on what"] {
        assert!(words.contains(said), "the paper lacks `{said}`");
    }

    // The same version gives the same book, and an older one is replaced; what is not ours is left alone.
    let bytes = std::fs::read(&paper).unwrap();
    finish(program(place.path(), &["validate", "--book", "book"]), WRITING).expect(0);
    assert!(text(&page) == html && std::fs::read(&paper).unwrap() == bytes, "the book differs from run to run");
    put(&page, "<p>somebody's own</p>");
    let refused = finish(program(place.path(), &["validate", "--book", "book"]), WRITING);
    refused.expect(4).says("book.html");
    assert_eq!(text(&page), "<p>somebody's own</p>");
}
