//! The one way from a folder to a model, shared by the commands.

use std::path::Path;

use strutwork_loads::check_suspension;
use strutwork_model::files::InputFiles;
use strutwork_model::{Diagnostic, Model, Warned, read_model};

use strutwork_report::InputDigest;

use crate::exit::Failure;
use crate::files::digest::sha256;
use crate::files::folder;
use crate::render::Sources;

/// A model folder as read: its bytes, and its texts for messages.
#[derive(Debug)]
pub(crate) struct Read {
    /// The files.
    pub files: InputFiles,
    /// The same as text, as far as they are text.
    pub sources: Sources,
}

/// Reads a model's folder.
///
/// # Errors
/// [`Failure::Request`] when there is no such folder, [`Failure::File`] when one of its files cannot be read.
pub(crate) fn read(path: &Path) -> Result<Read, Failure> {
    let files = folder::read(path)?;
    let mut sources = Sources::below(path.display().to_string().trim_end_matches('/'));
    for file in &files.0 {
        if let Ok(text) = std::str::from_utf8(&file.bytes) {
            sources.add(&file.name, text);
        }
    }
    Ok(Read { files, sources })
}

/// The digest of every file.
pub(crate) fn digests(files: &InputFiles) -> Vec<InputDigest> {
    files.0.iter().map(|file| digest(&file.name, &file.bytes)).collect()
}

/// The digest of one file.
pub(crate) fn digest(name: &str, bytes: &[u8]) -> InputDigest {
    InputDigest { file: name.to_owned(), sha256: sha256(bytes), bytes: bytes.len() as u64 }
}

impl Read {
    /// The model, or every fault; the links of a model without other faults must hold its uprights.
    ///
    /// # Errors
    /// [`Failure::Input`] with every fault.
    pub(crate) fn model(&self) -> Result<Warned<Model>, Failure> {
        let wrong = |faults| Failure::Input { faults, sources: self.sources.clone() };
        let model = read_model(&self.files).map_err(|faults| wrong(faults.0))?;
        check_suspension(&model.value).map_err(|faults| wrong(faults.iter().map(Diagnostic::from).collect()))?;
        Ok(model)
    }
}
