//! What the chores look at: the packages, from `cargo metadata`, and the files, from the tree.

use std::fs;
use std::path::{Path, PathBuf};

use serde::Deserialize;

use crate::command;
use crate::failure::Failure;

/// The project: where it stands and which packages it is made of.
#[derive(Debug)]
pub(crate) struct Workspace {
    /// The folder of the project.
    pub(crate) root: PathBuf,
    /// Where cargo builds.
    pub(crate) target: PathBuf,
    /// Every package that is built on this machine, ours and others', by name.
    pub(crate) packages: Vec<Package>,
}

/// A package, as `cargo metadata` tells it.
#[derive(Debug, Clone, Deserialize)]
pub(crate) struct Package {
    /// Its name.
    pub(crate) name: String,
    /// Its version.
    pub(crate) version: String,
    /// Its licence, as an SPDX expression.
    pub(crate) license: Option<String>,
    /// Where it comes from; none for our own.
    pub(crate) source: Option<String>,
    /// What it depends on.
    pub(crate) dependencies: Vec<Dependency>,
}

/// One dependency of a package.
#[derive(Debug, Clone, Deserialize)]
pub(crate) struct Dependency {
    /// The package.
    pub(crate) name: String,
    /// `dev`, `build`, or none for a normal one.
    pub(crate) kind: Option<String>,
}

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
    target_directory: PathBuf,
    workspace_root: PathBuf,
}

/// A file of the project.
#[derive(Debug, Clone)]
pub(crate) struct File {
    /// Its path from the root, with `/` between folders.
    pub(crate) path: String,
    /// Its content; what is no UTF-8 is replaced.
    pub(crate) text: String,
}

impl Workspace {
    /// Reads the packages. Those that only other platforms build are left out: they need not be on this machine.
    pub(crate) fn open() -> Result<Self, Failure> {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let version = command::output(command::cargo(here, &["-vV"]))?;
        let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap_or_default();
        let args = ["metadata", "--format-version", "1", "--filter-platform", host];
        let text = command::output(command::cargo(here, &args))?;
        let mut metadata: Metadata = serde_json::from_str(&text)
            .map_err(|cause| Failure::Output { command: "cargo metadata".to_owned(), why: cause.to_string() })?;
        metadata.packages.sort_by(|a, b| (&a.name, &a.version).cmp(&(&b.name, &b.version)));
        Ok(Self { root: metadata.workspace_root, target: metadata.target_directory, packages: metadata.packages })
    }

    /// The packages of our own.
    pub(crate) fn ours(&self) -> impl Iterator<Item = &Package> {
        self.packages.iter().filter(|package| package.source.is_none())
    }

    /// The text of one file, by its path from the root.
    pub(crate) fn text(&self, path: &str) -> Result<String, Failure> {
        let path = self.root.join(path);
        fs::read_to_string(&path).map_err(|cause| Failure::read(&path, cause))
    }

    /// Every file of the project, in the order of paths: not what cargo, git or a run of the program made.
    pub(crate) fn files(&self) -> Result<Vec<File>, Failure> {
        let mut files = Vec::new();
        gather(&self.root, "", &mut files)?;
        Ok(files)
    }
}

fn gather(folder: &Path, below: &str, files: &mut Vec<File>) -> Result<(), Failure> {
    // What is git's is a folder, or in a second tree of the same repository a file.
    for (name, path) in entries(folder)?.into_iter().filter(|(name, _)| name != ".git") {
        let from_root = format!("{below}{name}");
        if path.is_dir() {
            // A module may be called `results`; elsewhere a folder of that name is what a run left.
            let of_a_run = name == "results" && !below.contains("/src/");
            if name != "target" && !of_a_run {
                gather(&path, &format!("{from_root}/"), files)?;
            }
        } else {
            let bytes = fs::read(&path).map_err(|cause| Failure::read(&path, cause))?;
            files.push(File { path: from_root, text: String::from_utf8_lossy(&bytes).into_owned() });
        }
    }
    Ok(())
}

fn entries(folder: &Path) -> Result<Vec<(String, PathBuf)>, Failure> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder).map_err(|cause| Failure::read(folder, cause))? {
        let entry = entry.map_err(|cause| Failure::read(folder, cause))?;
        all.push((entry.file_name().to_string_lossy().into_owned(), entry.path()));
    }
    all.sort();
    Ok(all)
}
