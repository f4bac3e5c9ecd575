//! Every read and write of the program.

pub(crate) mod book;
pub(crate) mod confine;
pub(crate) mod digest;
pub(crate) mod folder;
pub(crate) mod inputs;
pub(crate) mod manifest;
pub(crate) mod whole;

use std::fs;
use std::io::{self, Write as _};
use std::path::Path;

use tempfile::NamedTempFile;

use crate::exit::Failure;

/// The largest file that is read, bytes. A model of a hundred thousand tubes is a tenth of it.
pub(crate) const LARGEST: u64 = 64 * 1024 * 1024;

/// Reads a file: a regular one (links are followed), no larger than [`LARGEST`].
///
/// # Errors
/// [`Failure::File`] when it is not there, cannot be read, is no regular file (a pipe or a device would never end), or is
/// too large.
pub(crate) fn read(path: &Path) -> Result<Vec<u8>, Failure> {
    read_up_to(path, LARGEST)
}

/// The same, no larger than `most` bytes.
///
/// # Errors
/// As [`read`].
pub(crate) fn read_up_to(path: &Path, most: u64) -> Result<Vec<u8>, Failure> {
    let fail = |cause| Failure::read(path, cause);
    let about = fs::metadata(path).map_err(fail)?;
    if about.is_dir() {
        return Err(fail(io::Error::other("it is a folder")));
    }
    if !about.is_file() {
        return Err(fail(io::Error::other("it is not a regular file")));
    }
    if about.len() > most {
        return Err(fail(io::Error::other(format!("it is larger than {} MiB", most / 1024 / 1024))));
    }
    fs::read(path).map_err(fail)
}

/// Writes a file whole: beside its place, then moved into it.
///
/// # Errors
/// What the system says; then what stood there stands there still.
pub(crate) fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut beside = beside(path)?;
    beside.write_all(bytes)?;
    put(beside, path)
}

/// A file in the making, beside the place that it will be moved into.
///
/// # Errors
/// What the system says.
pub(crate) fn beside(path: &Path) -> io::Result<NamedTempFile> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or_else(|| Path::new("."));
    let mut builder = tempfile::Builder::new();
    builder.prefix(".strutwork-");
    // As any new file: readable for those whom the system's mask lets, not for its owner alone.
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
}

/// Moves a finished file into its place; first it is on the disk as a whole.
///
/// # Errors
/// What the system says.
pub(crate) fn put(file: NamedTempFile, path: &Path) -> io::Result<()> {
    file.as_file().sync_data()?;
    file.persist(path)?;
    Ok(())
}
