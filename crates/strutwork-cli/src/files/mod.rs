//! Every read and write of the program.

pub(crate) mod book;
pub(crate) mod confine;
pub(crate) mod digest;
pub(crate) mod folder;
pub(crate) mod inputs;
pub(crate) mod manifest;
pub(crate) mod whole;

use std::fs;
use std::path::Path;

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
        return Err(fail(std::io::Error::other("it is a folder")));
    }
    if !about.is_file() {
        return Err(fail(std::io::Error::other("it is not a regular file")));
    }
    if about.len() > most {
        return Err(fail(std::io::Error::other(format!("it is larger than {} MiB", most / 1024 / 1024))));
    }
    fs::read(path).map_err(fail)
}
