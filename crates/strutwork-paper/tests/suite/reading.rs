//! What a reader, a search and a screen reader find in the file.

use strutwork_paper::{Sheet, pdf};

use super::{poppler, specimen};

/// Places of these words in a text, which must all be there.
#[track_caller]
fn places(text: &str, words: &[&str]) -> Vec<usize> {
    words.iter().map(|word| text.find(word).unwrap_or_else(|| panic!("no {word:?} in {text}"))).collect()
}

#[test]
fn the_same_document_gives_the_same_bytes_and_no_time() {
    let first = pdf(&specimen::document()).expect("writes");
    assert!(first == pdf(&specimen::document()).expect("writes"));
    let info = poppler::write(&specimen::document()).info(&[]);
    assert!(!info.contains("CreationDate") && !info.contains("ModDate"), "{info}");
}

#[test]
fn it_is_tagged_has_a_title_and_embeds_its_faces() {
    let written = poppler::write(&specimen::document());
    let info = written.info(&[]);
    for line in ["Title:           What a shelf bears", "Tagged:          yes", "(A4)", "Encrypted:       no"] {
        assert!(info.contains(line), "{line}: {info}");
    }
    let fonts = written.fonts();
    let faces: Vec<&str> = fonts.lines().skip(2).collect();
    assert!(faces.len() >= 3, "{fonts}");
    for face in faces {
        // Embedded, a subset, with letters that can be read back.
        assert!(face.contains("yes yes yes"), "{fonts}");
    }
}

#[test]
fn words_can_be_read_back_in_order() {
    let text = poppler::write(&specimen::document()).text();
    let head = places(&text, &["Shelf of planks", "Model of it", "Contents", "A plank bends"]);
    assert!(head.is_sorted(), "{head:?}");
    let words = [
        "A plank bends",
        "first item",
        "third item",
        "Caution",
        "Nobody stands",
        "A calculation",
        "√(2) / 1.5 · 10⁻³ ≤ 1",
        "Two bars",
        "A long table",
        "P1",
        "P120",
        "On its side",
        "The last words.",
    ];
    // The contents name headings before their time: words are looked for behind them.
    let found = places(&text[head[3]..], &words);
    assert!(found.is_sorted(), "{found:?}");
}

#[test]
fn contents_bookmarks_and_running_heads_know_the_pages() {
    let written = poppler::write(&specimen::document());
    let pages = written.pages();
    let of_heading = |heading: &str| {
        (2..=pages).find(|page| written.page(*page).contains(heading)).unwrap_or_else(|| panic!("no {heading}"))
    };
    let contents = written.page(1);
    for heading in ["1 What was asked", "1.1 A calculation", "2 A long table", "2.1 On its side", "3 The end"] {
        let (_, name) = heading.split_once(' ').expect("a number");
        let line = contents.lines().find(|line| line.contains(heading)).unwrap_or_else(|| panic!("{contents}"));
        assert!(line.ends_with(&format!(" {}", of_heading(name))), "{line}: {}", of_heading(name));
    }
    for page in 1..=pages {
        let text = written.page(page);
        for running in
            ["Shelf of planks", "revision B · 2024-01-02", "input 3f2a 91c0", &format!("page {page} of {pages}")]
        {
            assert!(text.contains(running), "{running} on page {page}: {text}");
        }
    }
    // Links of the contents lead to pages, and so do the bookmarks.
    let dests = written.info(&["-dests"]);
    assert!(!dests.contains("Error"), "{dests}");
    let bytes = pdf(&specimen::document()).expect("writes");
    let raw = String::from_utf8_lossy(&bytes);
    assert_eq!(raw.matches("/Subtype/Link").count() + raw.matches("/Subtype /Link").count(), 7);
    assert!(raw.contains("/Outlines"));
}

#[test]
fn the_tree_of_meanings_has_headings_tables_and_what_a_picture_shows() {
    let tree = poppler::write(&specimen::document()).info(&["-struct-text"]);
    for part in [
        "H1",
        "H2",
        "P (block)",
        "L (block)",
        "LBody",
        "Table (block)",
        "THead",
        "TH:",
        "TD",
        "Figure",
        "Caption",
        "TOC",
        "Link (inline)",
    ] {
        assert!(tree.contains(part), "{part}: {}", &tree[..tree.len().min(4000)]);
    }
    // The tool does not print what is said of a picture.
    let bytes = pdf(&specimen::document()).expect("writes");
    let said = b"(A chart of two bars)";
    assert!(bytes.windows(said.len()).any(|some| some == said));
    // Running heads and heads that stand again are not read aloud again.
    assert_eq!(tree.matches("bending moment at the middle N·m").count(), 1);
    assert!(!tree.contains("page 1 of"));
}

#[test]
fn no_page_is_blank_and_pages_turn() {
    let written = poppler::write(&specimen::document());
    let mut turned = 0;
    for page in 1..=written.pages() {
        let (ink, (width, height)) = written.ink(page);
        assert!(ink > 0.005, "page {page}: {ink}");
        turned += usize::from(width > height);
    }
    assert_eq!(turned, 1);
}

#[test]
fn paper_is_a4_or_letter() {
    let mut document = specimen::document();
    document.sheet = Sheet::Letter;
    let info = poppler::write(&document).info(&[]);
    assert!(info.contains("612 x 792 pts (letter)"), "{info}");
}
