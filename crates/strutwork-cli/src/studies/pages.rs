//! The page of a study and its pictures: written whole, over nothing but what a study wrote.
//!
//! `study.html` is that of the study that ran last in its folder; pictures carry the study's name. What was written, with
//! digests, stands in `pictures/NAME.json`.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use super::results::{Names, may_replace, put_text};
use crate::exit::Failure;
use crate::files;
use crate::files::digest::sha256;
use crate::files::manifest::{self, Written};
use crate::files::whole::make_folder;

const FOLDER: &str = "pictures";
/// Files that every study of a folder writes, and so writes over.
const SHARED: [&str; 2] = ["study.html", "study.pdf"];

/// Refuses to begin where a page stands that no study wrote.
///
/// # Errors
/// [`Failure::Occupied`], [`Failure::File`].
pub(crate) fn may_begin(names: &Names) -> Result<(), Failure> {
    let known = of_all(names);
    for name in SHARED {
        may_replace(&names.folder().join(name), known.get(name).map(String::as_str), None)?;
    }
    Ok(())
}

/// Writes the files, each by its path below the study's folder, and takes away pictures of an earlier run that are not drawn any
/// more.
///
/// # Errors
/// [`Failure::Occupied`] where a file stands in the way that no study wrote, or that was changed since; [`Failure::File`].
pub(crate) fn write(names: &Names, files: &[(String, Vec<u8>)]) -> Result<(), Failure> {
    let folder = names.folder().join(FOLDER);
    make_folder(&folder)?;
    let list = folder.join(names.name("json"));
    let (own, all) = (read(&list), of_all(names));
    let written = manifest::of(files);
    for (name, new) in &written {
        // A shared file is as another study may have left it.
        let known = all.get(name).or_else(|| own.get(name)).map(String::as_str);
        may_replace(&names.folder().join(name), known, Some(new))?;
    }
    for (name, bytes) in files {
        let path = names.folder().join(name);
        files::replace(&path, bytes).map_err(|cause| Failure::write(path, cause))?;
    }
    for (name, digest) in own.iter().filter(|(name, _)| !written.contains_key(*name) && is_picture(name)) {
        let path = names.folder().join(name);
        if path.exists() && may_replace(&path, Some(digest), None).is_ok() {
            fs::remove_file(&path).map_err(|cause| Failure::File { action: "remove", path, cause })?;
        }
    }
    put_text(&list, &manifest::sealed("{}", &written), own.is_empty())
}

/// A manifest is a file that anybody may have written: its names must be those of pictures.
fn is_picture(name: &str) -> bool {
    name.strip_prefix(FOLDER)
        .and_then(|rest| rest.strip_prefix('/'))
        .is_some_and(|file| Path::new(file).file_name() == Some(file.as_ref()))
}

fn read(list: &Path) -> Written {
    fs::read_to_string(list).ok().and_then(|text| manifest::read(&text)).unwrap_or_default()
}

/// What the studies of this folder wrote; the shared files as one of them left them.
fn of_all(names: &Names) -> Written {
    let mut all: BTreeMap<String, String> = BTreeMap::new();
    let entries = fs::read_dir(names.folder().join(FOLDER)).into_iter().flatten().flatten();
    let mut lists: Vec<_> =
        entries.map(|entry| entry.path()).filter(|path| path.extension() == Some("json".as_ref())).collect();
    lists.sort();
    let digest = |name: &str| fs::read(names.folder().join(name)).ok().map(|bytes| sha256(&bytes));
    let now: Vec<(&str, Option<String>)> = SHARED.iter().map(|name| (*name, digest(name))).collect();
    for list in lists {
        let written = read(&list);
        for (name, now) in &now {
            if let Some(known) = written.get(*name).filter(|known| now.as_ref() == Some(*known)) {
                all.insert((*name).to_owned(), known.clone());
            }
        }
    }
    all
}
