//! The suite as it was at build time: the binary needs no files to re-solve it.

use strutwork_model::files::{InputFile, InputFiles};

use crate::case::Suite;
use crate::read::read_case;

/// A case's folder.
struct Folder {
    family: &'static str,
    name: &'static str,
    files: &'static [(&'static str, &'static str)],
}

const FOLDERS: &[Folder] = include!(concat!(env!("OUT_DIR"), "/suite.rs"));

/// All cases, by family and name.
pub fn suite() -> Suite {
    let cases = FOLDERS.iter().map(|folder| {
        let files = folder.files.iter().map(|(name, text)| InputFile::new(*name, *text)).collect();
        read_case(folder.family, folder.name, InputFiles(files))
            .unwrap_or_else(|fault| panic!("bug: the embedded case {}/{}: {fault}", folder.family, folder.name))
    });
    Suite { cases: cases.collect() }
}
