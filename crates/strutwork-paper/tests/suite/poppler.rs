//! The tools that read a PDF back.

use std::path::Path;
use std::process::Command;

use strutwork_paper::{Document, pdf};
use tempfile::TempDir;

/// A written file in a folder of its own.
pub(crate) struct Written {
    folder: TempDir,
}

/// Writes a document to a file.
#[track_caller]
pub(crate) fn write(document: &Document) -> Written {
    let folder = tempfile::tempdir().expect("a folder");
    let bytes = pdf(document).expect("a document that can be written");
    std::fs::write(folder.path().join("it.pdf"), bytes).expect("writes");
    Written { folder }
}

impl Written {
    /// What a tool says about the file.
    #[track_caller]
    fn run(&self, tool: &str, args: &[&str]) -> String {
        let output = Command::new(tool).args(args).current_dir(self.folder.path()).output();
        let output = output.unwrap_or_else(|cause| panic!("{tool} of poppler-utils does not start: {cause}"));
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success() && said.is_empty(), "{tool}: {said:?}");
        String::from_utf8(output.stdout).expect("UTF-8")
    }

    /// `pdfinfo`, with more arguments.
    pub(crate) fn info(&self, args: &[&str]) -> String {
        self.run("pdfinfo", &[args, &["it.pdf"]].concat())
    }

    /// How many pages there are.
    pub(crate) fn pages(&self) -> usize {
        let info = self.info(&[]);
        let line = info.lines().find_map(|line| line.strip_prefix("Pages:")).expect("a line of pages");
        line.trim().parse().expect("a number")
    }

    /// `pdffonts`.
    pub(crate) fn fonts(&self) -> String {
        self.run("pdffonts", &["it.pdf"])
    }

    /// The text of a page, counted from 1, as it stands.
    pub(crate) fn page(&self, page: usize) -> String {
        let page = page.to_string();
        self.run("pdftotext", &["-layout", "-f", &page, "-l", &page, "it.pdf", "-"])
    }

    /// The whole text in the order of reading.
    pub(crate) fn text(&self) -> String {
        self.run("pdftotext", &["it.pdf", "-"])
    }

    /// The share of a page that is not white, and its width and height in px.
    pub(crate) fn ink(&self, page: usize) -> (f64, (usize, usize)) {
        let number = page.to_string();
        self.run("pdftoppm", &["-gray", "-r", "40", "-f", &number, "-l", &number, "-singlefile", "it.pdf", "seen"]);
        grey(&self.folder.path().join("seen.pgm"))
    }
}

/// The share of a grey picture that is not white, and its size.
fn grey(path: &Path) -> (f64, (usize, usize)) {
    let bytes = std::fs::read(path).expect("a picture");
    let mut head = bytes.split(|byte| byte.is_ascii_whitespace());
    let mut next = || String::from_utf8(head.next().expect("a head").to_vec()).expect("plain");
    assert_eq!(next(), "P5");
    let (width, height): (usize, usize) = (next().parse().expect("a width"), next().parse().expect("a height"));
    let pixels = &bytes[bytes.len() - width * height..];
    let dark = pixels.iter().filter(|pixel| **pixel < 250).count();
    (dark as f64 / pixels.len() as f64, (width, height))
}
