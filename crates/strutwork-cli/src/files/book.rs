//! Writing the book of published problems: a folder that may hold an older book, and nothing else of its names.

use std::fs;
use std::path::Path;

use super::whole::make_folder;
use crate::exit::Failure;

/// The page by which a folder is known to hold a book of ours.
pub(crate) const PAGE: &str = "book.html";
/// The same on paper.
pub(crate) const PAPER: &str = "book.pdf";

/// Whether a book may be written into `folder`: asked before all cases are solved for it, too.
///
/// # Errors
/// [`Failure::Occupied`] when files of its names stand there and no page of ours beside them.
pub(crate) fn may_write(folder: &Path) -> Result<(), Failure> {
    let occupied = |path: &Path, why| Failure::Occupied {
        path: path.to_owned(),
        why,
        help: "give another folder with --book, or move it away",
    };
    if folder.exists() && !folder.is_dir() {
        return Err(occupied(folder, "it is not a folder"));
    }
    let ours = fs::read_to_string(folder.join(PAGE)).is_ok_and(|text| text.contains(strutwork_validation::BOOK_MARK));
    for name in [PAGE, PAPER] {
        let path = folder.join(name);
        match path.symlink_metadata() {
            Ok(about) if !about.is_file() => return Err(occupied(&path, "it is not a regular file")),
            Ok(_) if !ours => {
                return Err(occupied(&path, "no earlier book of ours stands there, so it is not overwritten"));
            }
            _ => {}
        }
    }
    Ok(())
}

/// Writes files of a book into `folder`, which is made if it is not there; those of an older book are replaced, each at once.
///
/// # Errors
/// As [`may_write`], and [`Failure::File`] when the system refuses.
pub(crate) fn write(folder: &Path, files: &[(&str, Vec<u8>)]) -> Result<(), Failure> {
    may_write(folder)?;
    make_folder(folder)?;
    // Written whole beside their places and moved there, so that nobody meets half a book.
    let fresh = tempfile::Builder::new()
        .prefix(".strutwork-")
        .tempdir_in(folder)
        .map_err(|cause| Failure::write(folder, cause))?;
    for (name, bytes) in files {
        let path = folder.join(name);
        let whole = fresh.path().join(name);
        fs::write(&whole, bytes)
            .and_then(|()| fs::rename(&whole, &path))
            .map_err(|cause| Failure::write(path, cause))?;
    }
    Ok(())
}
