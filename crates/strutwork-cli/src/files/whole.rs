//! Writing a folder of results whole: everything into a folder beside it, then each file moved into place; on a fault
//! what stood there before stands there again.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::digest::sha256;
use super::manifest::{self, Written};
use crate::exit::Failure;

/// Writes these files into `out`, which is made if it is not there.
///
/// Files that an earlier run wrote and that were not changed since are replaced, or removed where this run does not write
/// them. Everything else in the folder is left alone. The last of the files is the manifest. A name may lie in a folder:
/// `inputs/joints.csv`.
///
/// # Errors
/// [`Failure::Occupied`] when a file of the same name stands there that no run wrote, or that was changed since;
/// [`Failure::File`] when the system refuses. Then nothing has changed.
pub(crate) fn write(out: &Path, files: &[(String, Vec<u8>)]) -> Result<(), Failure> {
    let manifest = files.last().map_or(manifest::RUN, |(name, _)| name.as_str());
    let earlier = earlier(out, manifest)?;
    for (name, _) in files {
        real_folder(out, name)?;
        may_replace(&out.join(name), name, &earlier)?;
    }
    let parent = match out.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    make_folder(parent)?;
    let beside = tempfile::Builder::new()
        .prefix(".strutwork-")
        .tempdir_in(parent)
        .map_err(|cause| Failure::write(parent, cause))?;
    let fresh = beside.path().join("fresh");
    let old = beside.path().join("old");
    for folder in [&fresh, &old] {
        fs::create_dir(folder).map_err(|cause| Failure::write(folder, cause))?;
    }
    let folders: BTreeSet<&str> = files
        .iter()
        .map(|(name, _)| name.as_str())
        .chain(earlier.keys().map(String::as_str))
        .filter_map(folder_of)
        .collect();
    for folder in [&fresh, &old] {
        for within in &folders {
            make_folder(&folder.join(within))?;
        }
    }
    for (name, bytes) in files {
        fs::write(fresh.join(name), bytes).map_err(|cause| Failure::write(out.join(name), cause))?;
    }
    let was_there = out.is_dir();
    make_folder(out)?;
    let _lock = lock(out)?;
    let new_folders: BTreeSet<&str> = files.iter().filter_map(|(name, _)| folder_of(name)).collect();
    for within in &new_folders {
        make_folder(&out.join(within))?;
    }
    let mut moves = Moves::default();
    let names = files.iter().map(|(name, _)| name.as_str());
    let done = retire(out, &old, &earlier, &mut moves)
        .and_then(|()| names.clone().try_for_each(|name| moves.take(&fresh.join(name), &out.join(name))));
    // Folders that are empty now are not needed any more; one in which somebody else has files stays.
    let sweep = || folders.iter().for_each(|within| drop(fs::remove_dir(out.join(within))));
    if let Err(failure) = done {
        moves.undo();
        sweep();
        if !was_there {
            // Ours and empty again; if it is not, somebody else uses it by now.
            let _ = fs::remove_dir(out);
        }
        return Err(failure);
    }
    sweep();
    Ok(())
}

/// The folder that a name lies in, where it is one of the form `folder/name`.
fn folder_of(name: &str) -> Option<&str> {
    let (folder, file) = name.split_once('/')?;
    let plain = |part: &str| Path::new(part).file_name() == Some(part.as_ref()) && !part.contains(['/', '\\']);
    (plain(folder) && plain(file)).then_some(folder)
}

/// Refuses a folder within the folder that is none: a link might lead elsewhere.
fn real_folder(out: &Path, name: &str) -> Result<(), Failure> {
    let Some(within) = folder_of(name) else { return Ok(()) };
    let path = out.join(within);
    match fs::symlink_metadata(&path) {
        Ok(about) if !about.is_dir() => Err(Failure::Occupied {
            path,
            why: "it is not a folder",
            help: "move it away, or give another folder with --out",
        }),
        _ => Ok(()),
    }
}

/// Makes a folder, and those above it, where it is not there.
pub(crate) fn make_folder(folder: &Path) -> Result<(), Failure> {
    fs::create_dir_all(folder).map_err(|cause| Failure::File {
        action: "make the folder",
        path: folder.to_owned(),
        cause,
    })
}

/// What an earlier run wrote into the folder, the manifest itself among it; empty where none did.
fn earlier(out: &Path, manifest: &str) -> Result<Written, Failure> {
    if out.exists() && !out.is_dir() {
        return Err(Failure::Occupied {
            path: out.to_owned(),
            why: "it is not a folder",
            help: "give another folder with --out, or move it away",
        });
    }
    let path = out.join(manifest);
    let text = match fs::read_to_string(&path) {
        Ok(text) => text,
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => return Ok(Written::new()),
        Err(cause) if cause.kind() == io::ErrorKind::InvalidData => return Ok(Written::new()),
        Err(cause) => return Err(Failure::read(path, cause)),
    };
    Ok(manifest::read(&text).map_or_else(Written::new, |mut written| {
        written.insert(manifest.to_owned(), sha256(text.as_bytes()));
        written
    }))
}

/// Whether a file of this name may be replaced: nothing stands there, or exactly what an earlier run wrote.
fn may_replace(path: &Path, name: &str, earlier: &Written) -> Result<(), Failure> {
    let help = "move it away, or give another folder with --out";
    let occupied = |why| Failure::Occupied { path: path.to_owned(), why, help };
    match fs::symlink_metadata(path) {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(cause) => return Err(Failure::read(path, cause)),
        Ok(about) if !about.is_file() => return Err(occupied("it is not a regular file")),
        Ok(_) => {}
    }
    let Some(hash) = earlier.get(name) else {
        return Err(occupied("no earlier run wrote it, so it is not overwritten"));
    };
    let bytes = fs::read(path).map_err(|cause| Failure::read(path, cause))?;
    if sha256(&bytes) == *hash {
        Ok(())
    } else {
        Err(occupied("it was changed after the run that wrote it, so it is not overwritten"))
    }
}

/// Moves out of the way all that an earlier run wrote and that is still as it was written.
fn retire(out: &Path, old: &Path, earlier: &Written, moves: &mut Moves) -> Result<(), Failure> {
    for name in earlier.keys() {
        // A manifest is a file that anybody may have written: its names must be names.
        if Path::new(name).file_name() != Some(name.as_ref()) && folder_of(name).is_none() {
            continue;
        }
        if real_folder(out, name).is_err() {
            continue;
        }
        let path = out.join(name);
        if path.symlink_metadata().is_ok() && may_replace(&path, name, earlier).is_ok() {
            moves.take(&path, &old.join(name))?;
        }
    }
    Ok(())
}

/// Only one run writes into a folder at a time.
#[cfg(unix)]
fn lock(out: &Path) -> Result<fs::File, Failure> {
    let folder = fs::File::open(out).map_err(|cause| Failure::read(out, cause))?;
    match folder.try_lock() {
        Err(fs::TryLockError::WouldBlock) => Err(Failure::Occupied {
            path: out.to_owned(),
            why: "another run is writing into it",
            help: "wait for it, or give another folder with --out",
        }),
        // A file system without locks is used without one.
        Ok(()) | Err(fs::TryLockError::Error(_)) => Ok(folder),
    }
}

#[cfg(not(unix))]
fn lock(_out: &Path) -> Result<(), Failure> {
    Ok(())
}

/// Moves made so far, so that they can be taken back.
#[derive(Debug, Default)]
struct Moves(Vec<(PathBuf, PathBuf)>);

impl Moves {
    fn take(&mut self, from: &Path, to: &Path) -> Result<(), Failure> {
        fs::rename(from, to).map_err(|cause| Failure::write(to, cause))?;
        self.0.push((from.to_owned(), to.to_owned()));
        Ok(())
    }

    /// Takes back every move, the last one first.
    fn undo(self) {
        for (from, to) in self.0.into_iter().rev() {
            // The first fault is the one that is told; a second one while taking back cannot be mended here.
            let _ = fs::rename(to, from);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn files(names: &[&str], text: &str) -> Vec<(String, Vec<u8>)> {
        let mut files: Vec<_> =
            names.iter().map(|name| ((*name).to_owned(), format!("{name} {text}").into_bytes())).collect();
        let run = manifest::sealed("{}", &manifest::of(&files));
        files.push((manifest::RUN.to_owned(), run.into_bytes()));
        files
    }

    fn names(folder: &Path) -> Vec<String> {
        let mut names: Vec<String> =
            fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    #[test]
    fn replaces_its_own_files_and_removes_those_no_longer_written() {
        let root = tempfile::tempdir().unwrap();
        let out = root.path().join("a/results");
        write(&out, &files(&["one.csv", "two.csv"], "first")).unwrap();
        fs::write(out.join("notes.txt"), "mine").unwrap();
        write(&out, &files(&["one.csv"], "second")).unwrap();
        assert_eq!(names(&out), ["notes.txt", "one.csv", "run.json"]);
        assert_eq!(fs::read_to_string(out.join("one.csv")).unwrap(), "one.csv second");
        assert_eq!(names(&root.path().join("a")), ["results"], "no temporary folder is left");
    }

    #[test]
    fn refuses_what_it_did_not_write_and_what_was_changed() {
        let root = tempfile::tempdir().unwrap();
        let out = root.path().join("results");
        fs::create_dir(&out).unwrap();
        fs::write(out.join("one.csv"), "foreign").unwrap();
        assert!(
            matches!(write(&out, &files(&["one.csv"], "x")), Err(Failure::Occupied { path, .. }) if path == out.join("one.csv"))
        );
        assert_eq!(names(&out), ["one.csv"]);
        fs::remove_file(out.join("one.csv")).unwrap();
        write(&out, &files(&["one.csv"], "x")).unwrap();
        fs::write(out.join("one.csv"), "edited").unwrap();
        assert!(matches!(write(&out, &files(&["one.csv"], "y")), Err(Failure::Occupied { .. })));
        assert_eq!(fs::read_to_string(out.join("one.csv")).unwrap(), "edited");
        fs::write(out.join("one.csv"), "one.csv x").unwrap();
        fs::write(out.join("run.json"), "{}").unwrap();
        assert!(matches!(write(&out, &files(&["one.csv"], "y")), Err(Failure::Occupied { .. })));
    }

    #[test]
    fn a_folder_within_comes_and_goes_with_its_files() {
        let root = tempfile::tempdir().unwrap();
        let out = root.path().join("results");
        write(&out, &files(&["one.csv", "inputs/a.csv", "inputs/b.csv"], "first")).unwrap();
        assert_eq!(names(&out.join("inputs")), ["a.csv", "b.csv"]);
        write(&out, &files(&["one.csv", "inputs/a.csv"], "second")).unwrap();
        assert_eq!(names(&out.join("inputs")), ["a.csv"]);
        fs::write(out.join("inputs/mine.txt"), "mine").unwrap();
        write(&out, &files(&["one.csv"], "third")).unwrap();
        assert_eq!(names(&out.join("inputs")), ["mine.txt"], "what is not ours stays");
        fs::remove_file(out.join("inputs/mine.txt")).unwrap();
        write(&out, &files(&["one.csv", "inputs/a.csv"], "fourth")).unwrap();
        write(&out, &files(&["one.csv"], "fifth")).unwrap();
        assert_eq!(names(&out), ["one.csv", "run.json"], "an empty folder goes");
    }

    #[cfg(unix)]
    #[test]
    fn a_link_in_the_place_of_a_folder_is_not_followed() {
        let root = tempfile::tempdir().unwrap();
        let (out, elsewhere) = (root.path().join("results"), root.path().join("elsewhere"));
        fs::create_dir_all(&out).unwrap();
        fs::create_dir(&elsewhere).unwrap();
        std::os::unix::fs::symlink(&elsewhere, out.join("inputs")).unwrap();
        let written = write(&out, &files(&["inputs/a.csv"], "x"));
        assert!(matches!(written, Err(Failure::Occupied { path, .. }) if path == out.join("inputs")));
        assert!(names(&elsewhere).is_empty());
    }

    #[test]
    fn takes_everything_back_when_a_move_fails() {
        let root = tempfile::tempdir().unwrap();
        let (from, to) = (root.path().join("from"), root.path().join("to"));
        fs::write(&from, "x").unwrap();
        let mut moves = Moves::default();
        moves.take(&from, &to).unwrap();
        assert!(moves.take(&root.path().join("missing"), &root.path().join("y")).is_err());
        moves.undo();
        assert!(from.exists() && !to.exists());
    }
}
