//! The copy of a model's files that `run` keeps beside its results, byte by byte, so that a later comparison can tell what was
//! changed and a reviewer sees what was solved.

use std::fs;
use std::path::Path;

use strutwork_model::files::{InputFile, InputFiles, MODEL};
use strutwork_revision::results;

use super::manifest::{self, Written};
use super::{digest, folder};
use crate::exit::Failure;

/// The folder within the results.
pub(crate) const INPUTS: &str = "inputs";

/// A table of results is no larger than this, bytes.
const LARGEST_TABLE: u64 = 2 * 1024 * 1024 * 1024;

/// The files as they are written with the results.
pub(crate) fn kept(files: &InputFiles) -> impl Iterator<Item = (String, Vec<u8>)> {
    files.0.iter().map(|file| (format!("{INPUTS}/{}", file.name), file.bytes.clone()))
}

/// A folder of results as it was read.
#[derive(Debug)]
pub(crate) struct ResultFolder {
    /// `run.json` and the tables.
    pub files: InputFiles,
    /// The model's files as the run kept them; `None` in a folder of an older version.
    pub inputs: Option<InputFiles>,
    /// What is not as the run wrote it; `None` where `run.json` itself was changed.
    pub changed: Option<Changed>,
}

/// Names of files that are not as their run wrote them.
#[derive(Debug)]
pub(crate) struct Changed {
    /// Those that are other than they were.
    pub other: Vec<String>,
    /// Tables and kept inputs that are no longer there.
    pub gone: Vec<String>,
}

/// Whether a run has written this folder.
pub(crate) fn is_results(folder: &Path) -> bool {
    folder.join(results::RUN).is_file()
}

/// Whether a model stands in this folder.
pub(crate) fn is_model(folder: &Path) -> bool {
    folder.join(MODEL).is_file()
}

/// Reads a folder of results.
///
/// # Errors
/// [`Failure::File`] when the folder or one of its files cannot be read.
pub(crate) fn read(folder: &Path) -> Result<ResultFolder, Failure> {
    let fail = |cause| Failure::read(folder, cause);
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(fail)? {
        let path = entry.map_err(fail)?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        if (name == results::RUN || name.ends_with(".csv")) && !path.is_dir() {
            files.push(InputFile::new(name, super::read_up_to(&path, LARGEST_TABLE)?));
        }
    }
    files.sort_by(|a, b| a.name.cmp(&b.name));
    let files = InputFiles(files);
    let within = folder.join(INPUTS);
    let inputs = if is_model(&within) { Some(folder::read(&within)?) } else { None };
    let run = files.get(results::RUN).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or_default();
    let changed = manifest::read(run).map(|written| Changed {
        other: other(&files, inputs.as_ref(), &written),
        gone: gone(folder, inputs.is_some(), &written),
    });
    Ok(ResultFolder { files, inputs, changed })
}

/// The files that are there and are not as they were written.
fn other(files: &InputFiles, inputs: Option<&InputFiles>, written: &Written) -> Vec<String> {
    let tables = files.0.iter().map(|file| (file.name.clone(), file));
    let inputs = inputs.into_iter().flat_map(|inputs| &inputs.0).map(|file| (format!("{INPUTS}/{}", file.name), file));
    let other = |(name, file): &(String, &InputFile)| {
        written.get(name).is_some_and(|hash| *hash != digest::sha256(&file.bytes))
    };
    tables.chain(inputs).filter(other).map(|(name, _)| name).collect()
}

/// The tables that were written and are no longer there, and the inputs, where there still is a copy of these that would be
/// taken for whole.
fn gone(folder: &Path, copied: bool, written: &Written) -> Vec<String> {
    let within = format!("{INPUTS}/");
    let read = |name: &&String| if name.starts_with(&within) { copied } else { name.ends_with(".csv") };
    written.keys().filter(read).filter(|name| !folder.join(name).exists()).cloned().collect()
}
