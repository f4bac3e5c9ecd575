//! Reading a model's folder: which files are the model's, and their bytes.

use std::fs;
use std::path::Path;

use strutwork_model::files::{CASES, InputFile, InputFiles, MODEL};
use strutwork_revision::baseline::FILE as BASELINE;

use crate::exit::Failure;

/// Reads the files of a model's folder, in the order of their names. Other files and sub-folders are none of the model's
/// and are left alone; links are followed.
///
/// # Errors
/// [`Failure::File`] when the folder or one of the model's files cannot be read.
pub(crate) fn read(path: &Path) -> Result<InputFiles, Failure> {
    let fail = |cause| Failure::read(path, cause);
    if path.is_file() {
        return Err(Failure::Request {
            what: format!("{} is a file; a model is a folder", path.display()),
            help: "give the folder that holds model.toml".into(),
        });
    }
    if !path.exists() {
        return Err(Failure::Request {
            what: format!("there is no folder {}", path.display()),
            help: "check the name, or start a model there with `strutwork new`".into(),
        });
    }
    let mut files = Vec::new();
    for entry in fs::read_dir(path).map_err(fail)? {
        let entry = entry.map_err(fail)?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if is_of_model(&name) && !entry.path().is_dir() {
            files.push(InputFile::new(name, super::read(&entry.path())?));
        }
    }
    files.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(InputFiles(files))
}

/// Whether a file of this name belongs to a model: what an editor leaves behind (`.~lock.joints.csv#`)
/// and the baseline do not.
fn is_of_model(name: &str) -> bool {
    let table = Path::new(name).extension().is_some_and(|extension| extension.eq_ignore_ascii_case("csv"));
    !name.starts_with('.') && name != BASELINE && (table || name == MODEL || name == CASES)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn knows_the_models_files() {
        for name in ["model.toml", "joints.csv", "Joints.CSV", "cases.rhai", "any thing.csv"] {
            assert!(is_of_model(name), "{name}");
        }
        for name in ["README.md", ".hidden.csv", "joints.csv~", "other.rhai", "other.toml", "csv", BASELINE] {
            assert!(!is_of_model(name), "{name}");
        }
    }
}
