//! The files that come of a finished study: made beside their places while the journal passes by, then moved into them.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{self, BufWriter, Read as _, Write};
use std::path::{Path, PathBuf};

use sha2::{Digest as _, Sha256};
use strutwork_report::study::{ParquetRows, csv_header, csv_row};
use strutwork_study::journal::Header;
use strutwork_study::{Row, Tally};
use tempfile::NamedTempFile;

use super::told;
use crate::exit::Failure;
use crate::files;
use crate::files::digest::sha256;
use crate::files::manifest::{self, Written};

/// The names of the files of a study.
#[derive(Debug, Clone)]
pub(crate) struct Names {
    folder: PathBuf,
    stem: String,
}

impl Names {
    /// Below this folder, for a study of this name: letters, digits, `-`, `_` and `.` of it, others as `-`.
    pub(crate) fn new(folder: &Path, study: &str) -> Self {
        let plain = |sign: char| if sign.is_alphanumeric() || "-_.".contains(sign) { sign } else { '-' };
        let stem: String = study.chars().map(plain).collect();
        let stem = stem.trim_start_matches('.');
        Self { folder: folder.to_owned(), stem: if stem.is_empty() { "study".to_owned() } else { stem.to_owned() } }
    }

    pub(crate) fn name(&self, extension: &str) -> String {
        format!("{}.{extension}", self.stem)
    }

    pub(crate) fn path(&self, extension: &str) -> PathBuf {
        self.folder.join(self.name(extension))
    }

    /// What the names begin with.
    pub(crate) fn stem(&self) -> &str {
        &self.stem
    }

    pub(crate) fn folder(&self) -> &Path {
        &self.folder
    }

    /// What an earlier study of this name wrote.
    fn earlier(&self) -> Written {
        let text = fs::read_to_string(self.path("json")).ok();
        text.and_then(|text| manifest::read(&text)).unwrap_or_default()
    }

    /// Refuses to begin where a file of one of the names stands that no study wrote, or that was changed since.
    ///
    /// # Errors
    /// [`Failure::Occupied`].
    pub(crate) fn may_begin(&self) -> Result<(), Failure> {
        let earlier = self.earlier();
        for extension in ["csv", "parquet"] {
            may_replace(&self.path(extension), earlier.get(&self.name(extension)).map(String::as_str), None)?;
        }
        if self.path("json").exists() && earlier.is_empty() {
            return Err(occupied(&self.path("json")));
        }
        Ok(())
    }
}

fn occupied(path: &Path) -> Failure {
    Failure::Occupied {
        path: path.to_owned(),
        why: "no study wrote it, or it was changed since",
        help: "move it away, or give another folder with --out",
    }
}

/// Whether a file may be replaced: it is not there, it is as it was written, or it is what will be written.
pub(super) fn may_replace(path: &Path, written: Option<&str>, new: Option<&str>) -> Result<(), Failure> {
    if fs::symlink_metadata(path).is_err() {
        return Ok(());
    }
    let there = digest_of(path).map_err(|cause| Failure::read(path, cause))?;
    if [written, new].into_iter().flatten().any(|known| known == there) { Ok(()) } else { Err(occupied(path)) }
}

fn digest_of(path: &Path) -> io::Result<String> {
    let mut file = File::open(path)?;
    let mut digest = Sha256::new();
    let mut part = vec![0; 1 << 16];
    loop {
        match file.read(&mut part)? {
            0 => break,
            count => digest.update(&part[..count]),
        }
    }
    Ok(digest.finalize().iter().map(|byte| format!("{byte:02x}")).collect())
}

/// The files of a study in the making.
pub(crate) struct Results {
    names: Names,
    header: Header,
    csv: BufWriter<NamedTempFile>,
    parquet: ParquetRows<BufWriter<NamedTempFile>>,
    tally: Tally,
}

impl Results {
    /// Begins the files beside their places.
    ///
    /// # Errors
    /// [`Failure::File`].
    pub(crate) fn begin(names: &Names, header: Header) -> Result<Self, Failure> {
        let beside = |extension: &str| {
            let path = names.path(extension);
            files::beside(&path).map(BufWriter::new).map_err(|cause| Failure::write(path, cause))
        };
        let mut csv = beside("csv")?;
        csv.write_all(csv_header(&header).as_bytes()).map_err(|cause| Failure::write(names.path("csv"), cause))?;
        let parquet = ParquetRows::new(beside("parquet")?, &header);
        let parquet = parquet.map_err(|cause| Failure::write(names.path("parquet"), io::Error::other(cause)))?;
        let tally = Tally::new(header.responses.len());
        Ok(Self { names: names.clone(), header, csv, parquet, tally })
    }

    /// Adds a variant.
    ///
    /// # Errors
    /// [`Failure::File`].
    pub(crate) fn add(&mut self, row: &Row) -> Result<(), Failure> {
        self.tally.add(row);
        let csv = self.csv.write_all(csv_row(&self.header, row).as_bytes());
        csv.map_err(|cause| Failure::write(self.names.path("csv"), cause))?;
        let parquet = self.parquet.push(row);
        parquet.map_err(|cause| Failure::write(self.names.path("parquet"), io::Error::other(cause)))
    }

    /// Moves the files into their places, the list of them the last.
    ///
    /// # Errors
    /// [`Failure::Occupied`] where a file stands in the way that no study wrote; [`Failure::File`].
    pub(crate) fn finish(self) -> Result<Tally, Failure> {
        let Self { names, header, csv, parquet, tally } = self;
        let whole = |file: BufWriter<NamedTempFile>| file.into_inner().map_err(io::IntoInnerError::into_error);
        let csv = whole(csv).map_err(|cause| Failure::write(names.path("csv"), cause))?;
        let parquet = parquet.finish().map_err(io::Error::other).and_then(whole);
        let parquet = parquet.map_err(|cause| Failure::write(names.path("parquet"), cause))?;
        let earlier = names.earlier();
        let mut written = BTreeMap::new();
        let made = [("csv", csv), ("parquet", parquet)];
        for (extension, file) in &made {
            let (name, path) = (names.name(extension), names.path(extension));
            let new = digest_of(file.path()).map_err(|cause| Failure::read(file.path(), cause))?;
            may_replace(&path, earlier.get(&name).map(String::as_str), Some(&new))?;
            written.insert(name, new);
        }
        for (extension, file) in made {
            let path = names.path(extension);
            files::put(file, &path).map_err(|cause| Failure::write(path, cause))?;
        }
        let text = manifest::sealed(&told::json(&header, &tally), &written);
        put_text(&names.path("json"), &text, earlier.is_empty())?;
        Ok(tally)
    }
}

/// Writes the list of files; over another only where a study wrote that, or it is the same.
pub(super) fn put_text(path: &Path, text: &str, foreign: bool) -> Result<(), Failure> {
    if foreign {
        may_replace(path, None, Some(&sha256(text.as_bytes())))?;
    }
    files::replace(path, text.as_bytes()).map_err(|cause| Failure::write(path, cause))
}
