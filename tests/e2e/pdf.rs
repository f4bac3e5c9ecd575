//! `report.pdf` as the tools of poppler read it.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::browser::{LIMIT, tool};
use crate::harness::{copy_of, entries, finish, program, project, put, starter, strutwork, text};

/// What a tool of poppler prints about a file.
#[track_caller]
fn said(name: &str, args: &[&str], file: &Path) -> String {
    let mut command = Command::new(tool(&[name], "poppler-utils"));
    command.args(args).arg(file);
    if matches!(name, "pdftotext") {
        command.arg("-");
    }
    let ran = finish(command, LIMIT);
    ran.expect(0);
    assert_eq!(ran.stderr, "", "{name} complains");
    ran.stdout
}

/// A line of `pdfinfo`.
#[track_caller]
fn info(file: &Path, key: &str) -> String {
    let all = said("pdfinfo", &[], file);
    let line = all.lines().find_map(|line| line.strip_prefix(key)).unwrap_or_else(|| panic!("no {key} in {all}"));
    line.trim_start_matches(':').trim().to_owned()
}

/// The bookmarks, in order.
fn bookmarks(file: &Path) -> Vec<String> {
    let xml = said("pdftohtml", &["-xml", "-i", "-stdout"], file);
    let outline = xml.split_once("<outline>").expect("an outline").1;
    outline
        .split("<item page=")
        .skip(1)
        .filter_map(|item| Some(item.split_once('>')?.1.split_once('<')?.0.to_owned()))
        .collect()
}

/// Links within the file: what is underlined by them, and the page that they lead to.
fn links(file: &Path) -> Vec<(String, usize)> {
    let xml = said("pdftohtml", &["-xml", "-i", "-stdout"], file);
    let link = |part: &str| {
        let (place, rest) = part.split_once("\">")?;
        let page = place.rsplit_once('#')?.1.parse().ok()?;
        let letters = rest.split_once("</a>")?.0.replace("<b>", "").replace("</b>", "");
        Some((letters.trim().to_owned(), page))
    };
    xml.split("<a href=\"").skip(1).filter_map(link).collect()
}

/// The text of some pages.
fn words(file: &Path, first: usize, last: usize) -> String {
    said("pdftotext", &["-f", &first.to_string(), "-l", &last.to_string()], file)
}

/// Pages that are blank.
fn blank(file: &Path, folder: &Path) -> Vec<PathBuf> {
    let mut command = Command::new(tool(&["pdftoppm"], "poppler-utils"));
    command.args(["-gray", "-r", "20"]).arg(file).arg(folder.join("page"));
    finish(command, LIMIT).expect(0);
    let pages = entries(folder).into_iter().filter(|path| path.extension().is_some_and(|end| end == "pgm"));
    // Below the head line and above the foot line.
    pages
        .filter(|page| {
            let bytes = std::fs::read(page).unwrap();
            let inner = &bytes[bytes.len() / 10..bytes.len() * 9 / 10];
            inner.iter().filter(|pixel| **pixel < 200).count() < 40
        })
        .collect()
}

#[test]
fn the_demo_on_paper_has_its_words_its_bookmarks_and_no_blank_page() {
    let copy = copy_of(&project().join("demo-models/trials-car"));
    let ran = strutwork(copy.path(), &["run", ".", "--pdf"]);
    assert!(matches!(ran.code, 0 | 1), "{}", ran.stderr);
    let file = copy.path().join("results/report.pdf");
    let pages: usize = info(&file, "Pages").parse().unwrap();
    // 70, and two of the rig that is read beside the model.
    assert!((40..=72).contains(&pages), "{pages} pages");
    assert_eq!(info(&file, "Tagged"), "yes");
    assert!(info(&file, "Page size").contains("A4"));
    let fonts = said("pdffonts", &[], &file);
    for font in fonts.lines().skip(2) {
        assert_eq!(font.split_whitespace().rev().nth(4), Some("yes"), "not embedded: {font}");
    }
    let marks = bookmarks(&file);
    let chapters: Vec<&str> = marks
        .iter()
        .filter_map(|mark| mark.split_once(' '))
        .filter_map(|(number, title)| number.parse::<u32>().ok().map(|_| title))
        .collect();
    assert_eq!(
        chapters,
        [
            "Summary",
            "Purpose and cautions",
            "Basis, assumptions, and what is outside",
            "The model",
            "Load cases",
            "What governs, calculations, envelope",
            "Bodies, links and panels",
            "Stiffness",
            "Trust in the numbers",
            "Warnings and findings",
            "Sources",
            "Files and tables",
            "Sign-off by the reviewing engineer",
        ]
    );
    assert_eq!(marks.iter().filter(|mark| mark.starts_with("5.")).count(), 28);
    // The summary is one page, and says what is asked, what is worst and what is not covered.
    let first = words(&file, 1, 1);
    for part in ["28 load cases", "In plain words", "What is not covered", "crash", "revision A", "page 1 of"] {
        assert!(first.contains(part), "`{part}` is not on the first page:\n{first}");
    }
    // What governs leads to its calculation, a case of the table to its page, the contents to every chapter.
    let links = links(&file);
    let leads = |letters: &str, what: &str| {
        let found: Vec<usize> = links.iter().filter(|link| link.0 == letters).map(|link| link.1).collect();
        assert!(!found.is_empty(), "nothing leads from `{letters}`: {links:?}");
        for page in found {
            assert!(words(&file, page, page).contains(what), "`{letters}` leads to page {page}, without {what}");
        }
    };
    for number in ["6.1", "6.2", "6.3", "6.4", "6.5", "6.6"] {
        leads(number, number);
    }
    leads("bump-front", "Case bump-front");
    leads("belt-anchorages", "Case belt-anchorages");
    leads("bolt of rear-module at joint 7-in-low-L", "Bolt M10");
    assert!(links.len() > 13 + 28 + 28 + 5, "{} links", links.len());
    // Running heads on every page; its last page is to be signed.
    let last = words(&file, pages, pages);
    assert!(
        last.contains("Signature") && last.contains(&format!("page {pages} of {pages}")) && last.contains("inputs ")
    );
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(blank(&file, folder.path()), Vec::<PathBuf>::new());
}

#[test]
fn letter_paper_hostile_names_and_the_same_bytes_twice() {
    let place = starter();
    for name in ["joints.csv", "tubes.csv", "supports.csv", "loads.csv", "masses.csv"] {
        let file = place.path().join("frame").join(name);
        put(&file, text(&file).replace("rear-left-top", "</td><script>&lt;"));
    }
    let run = || {
        let ran = strutwork(place.path(), &["run", "frame", "--pdf", "--paper", "letter"]);
        assert!(ran.expect(0).stdout.contains("report.pdf"), "the terminal names the file");
        std::fs::read(place.path().join("frame/results/report.pdf")).unwrap()
    };
    let bytes = run();
    assert!(bytes == run(), "the second file differs");
    let file = place.path().join("frame/results/report.pdf");
    assert!(info(&file, "Page size").contains("letter"));
    let pages = info(&file, "Pages").parse().unwrap();
    assert!(words(&file, 1, pages).contains("</td><script>&lt;"), "a name is not shown as it is");
}

#[test]
fn without_being_asked_there_is_no_pdf_and_paper_alone_is_refused() {
    let place = starter();
    let ran = strutwork(place.path(), &["run", "frame"]);
    assert!(!ran.expect(0).stdout.contains("On paper"));
    assert!(!place.path().join("frame/results/report.pdf").exists());
    finish(program(place.path(), &["run", "frame", "--paper", "letter"]), LIMIT).expect(2);
}

/// All that can be asked for beside the load cases is on paper as well: its pictures do not swing there.
#[test]
fn modes_buckling_and_second_order_are_on_paper() {
    let place = starter();
    strutwork(
        place.path(),
        &[
            "run",
            "frame",
            "--modes",
            "2",
            "--modes-under",
            "push-sideways",
            "--buckling",
            "1",
            "--second-order",
            "--pdf",
        ],
    )
    .expect_done();
    let pdf = place.path().join("frame/results/report.pdf");
    let pages: usize = info(&pdf, "Pages").parse().unwrap();
    let all = words(&pdf, 1, pages);
    for part in ["Natural modes", "under case push-sideways", "Buckling of the frame", "Second order"] {
        assert!(all.contains(part), "`{part}` is not on paper");
    }
    assert!(!all.contains("Let it swing"), "paper does not swing");
    let folder = place.path().join("pages");
    std::fs::create_dir(&folder).unwrap();
    assert_eq!(blank(&pdf, &folder), Vec::<PathBuf>::new());
}
