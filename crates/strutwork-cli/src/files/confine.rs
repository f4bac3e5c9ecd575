//! Confinement: which files a script may reach, with links followed and `..` refused.

use std::io;
use std::path::{Component, Path, PathBuf};

/// A folder, and nothing outside it.
#[derive(Debug, Clone)]
pub(crate) struct Confined {
    /// Canonical.
    root: PathBuf,
}

/// Why a path is refused.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Refusal {
    /// It is absolute, or holds `..`, or is empty.
    #[error("`{0}`: only plain paths below the folder are allowed, without `..` and without a leading `/`")]
    NotPlain(String),
    /// A link leads outside.
    #[error("`{0}` leads outside the folder that the script is confined to")]
    Outside(String),
    /// It stands where only a regular file may stand.
    #[error("`{0}` is not a regular file")]
    NotRegular(String),
    /// The system refused.
    #[error("`{path}`: {cause}")]
    System {
        /// The path as written.
        path: String,
        /// What the system said.
        cause: io::Error,
    },
}

impl Confined {
    /// Confines to a folder that exists.
    ///
    /// # Errors
    /// What the system says when the folder is not there.
    pub(crate) fn to(folder: &Path) -> io::Result<Self> {
        Ok(Self { root: folder.canonicalize()? })
    }

    /// The real file that a plain path below the folder means, for reading.
    ///
    /// # Errors
    /// [`Refusal`] when the path is not plain, leads outside, is not there, or is no regular file.
    pub(crate) fn readable(&self, path: &str) -> Result<PathBuf, Refusal> {
        let real = self.existing(path)?;
        if real.is_file() { Ok(real) } else { Err(Refusal::NotRegular(path.to_owned())) }
    }

    /// The real folder that a plain path below the folder means; `.` is the folder itself.
    ///
    /// # Errors
    /// [`Refusal`] as for [`Self::readable`].
    pub(crate) fn folder(&self, path: &str) -> Result<PathBuf, Refusal> {
        let real = self.existing(path)?;
        if real.is_dir() { Ok(real) } else { Err(Refusal::NotRegular(path.to_owned())) }
    }

    /// Where a plain path below the folder may be written. Folders on the way are made.
    ///
    /// # Errors
    /// [`Refusal`] when the path is not plain, a folder on the way leads outside, or something other than a regular file
    /// stands there (a link to a file is not followed).
    pub(crate) fn writable(&self, path: &str) -> Result<PathBuf, Refusal> {
        let plain = plain(path)?;
        let system = |cause| Refusal::System { path: path.to_owned(), cause };
        let mut at = self.root.clone();
        let parts: Vec<&std::ffi::OsStr> = plain.iter().collect();
        let (name, folders) = parts.split_last().ok_or_else(|| Refusal::NotPlain(path.to_owned()))?;
        for folder in folders {
            at.push(folder);
            match std::fs::create_dir(&at) {
                Err(cause) if cause.kind() != io::ErrorKind::AlreadyExists => return Err(system(cause)),
                _ => {}
            }
            at = at.canonicalize().map_err(system)?;
            if !at.starts_with(&self.root) {
                return Err(Refusal::Outside(path.to_owned()));
            }
        }
        at.push(name);
        match std::fs::symlink_metadata(&at) {
            Ok(about) if !about.is_file() => Err(Refusal::NotRegular(path.to_owned())),
            Ok(_) => Ok(at),
            Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(at),
            Err(cause) => Err(system(cause)),
        }
    }

    fn existing(&self, path: &str) -> Result<PathBuf, Refusal> {
        let real = self
            .root
            .join(plain(path)?)
            .canonicalize()
            .map_err(|cause| Refusal::System { path: path.to_owned(), cause })?;
        if real.starts_with(&self.root) { Ok(real) } else { Err(Refusal::Outside(path.to_owned())) }
    }
}

/// A path of names only. Backslashes are refused everywhere, so that a script means the same on every system.
fn plain(path: &str) -> Result<&Path, Refusal> {
    let names = Path::new(path).components().all(|part| matches!(part, Component::Normal(_) | Component::CurDir));
    if path.is_empty() || !names || path.contains(['\\', '\0']) || path.contains(':') {
        return Err(Refusal::NotPlain(path.to_owned()));
    }
    Ok(Path::new(path))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plain_paths_pass_and_others_do_not() {
        for good in ["a.csv", "a/b/c.rhai", "./a.csv", "Ä b.csv", "..a"] {
            assert!(plain(good).is_ok(), "{good}");
        }
        for bad in ["", "..", "../a", "a/../b", "/etc/passwd", "a\\b", "C:/x", "a\0b", "a/.."] {
            assert!(matches!(plain(bad), Err(Refusal::NotPlain(_))), "{bad}");
        }
    }

    #[cfg(unix)]
    #[test]
    fn links_that_lead_outside_are_refused() {
        let outside = tempfile::tempdir().unwrap();
        std::fs::write(outside.path().join("secret"), "x").unwrap();
        let inside = tempfile::tempdir().unwrap();
        std::os::unix::fs::symlink(outside.path(), inside.path().join("door")).unwrap();
        std::os::unix::fs::symlink(outside.path().join("secret"), inside.path().join("key")).unwrap();
        std::fs::write(inside.path().join("own"), "y").unwrap();
        std::os::unix::fs::symlink("own", inside.path().join("alias")).unwrap();
        let confined = Confined::to(inside.path()).unwrap();
        for bad in ["door/secret", "key"] {
            assert!(matches!(confined.readable(bad), Err(Refusal::Outside(_))), "{bad}");
        }
        assert!(confined.readable("alias").is_ok(), "a link that stays inside is fine");
        assert!(matches!(confined.writable("door/new"), Err(Refusal::Outside(_))));
        assert!(matches!(confined.writable("key"), Err(Refusal::NotRegular(_))));
        assert!(confined.writable("sub/deep/new.csv").is_ok());
        assert!(!outside.path().join("new").exists());
    }
}
