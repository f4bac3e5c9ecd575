//! Everything that must pass before a change is taken. Each step tells its name; the first that fails ends the run.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::build;
use crate::command::{self, cargo, loudly};
use crate::failure::Failure;
use crate::workspace::{File, Workspace};
use crate::{docs, heading, readme, say, second, tidy};

/// Runs every step.
pub(crate) fn run(workspace: &Workspace) -> Result<(), Failure> {
    let root = &workspace.root;
    heading("format");
    loudly(cargo(root, &["fmt", "--all", "--check"]))?;
    heading("tidy");
    tidy::run(workspace)?;
    heading("lint");
    loudly(cargo(root, &["clippy", "--workspace", "--all-targets", "--quiet", "--", "-D", "warnings"]))?;
    heading("pages of the Rust interface");
    let mut rustdoc = cargo(root, &["doc", "--workspace", "--no-deps", "--quiet"]);
    rustdoc.env("RUSTDOCFLAGS", "-D warnings");
    loudly(rustdoc)?;
    heading("build");
    let programs = build::programs(workspace)?;
    heading("examples in comments");
    loudly(cargo(root, &["test", "--doc", "--workspace", "--quiet"]))?;
    docs::step(workspace)?;
    heading("second calculation by general-purpose solvers");
    second::run(workspace, "check")?;
    heading("demo models");
    demos(workspace, &programs)?;
    heading("baselines");
    baselines(workspace, &programs)?;
    // Last, so that the log ends with what was tested.
    heading("tests");
    loudly(cargo(root, &["nextest", "run", "--workspace"]))
}

/// Runs the program on each demo model, and on the model of README.md.
fn demos(workspace: &Workspace, programs: &Path) -> Result<(), Failure> {
    let scratch = Scratch::new()?;
    for model in models(&workspace.files()?) {
        let name = model.replace('/', "-");
        let out = scratch.0.join(&name);
        let mut command = Command::new(programs.join("strutwork"));
        command.arg("run").arg(model).arg("--out").arg(&out).current_dir(&workspace.root);
        ran(&name, command, &out)?;
    }
    let folder = scratch.0.join("readme");
    fs::create_dir(&folder).map_err(|cause| Failure::write(&folder, cause))?;
    let mut command = Command::new("bash");
    command.args(["-euo", "pipefail", "-c"]).arg(readme::typed_model(&workspace.text("README.md")?)?);
    command.current_dir(&folder).env("PATH", with_first(programs));
    ran("the model of README.md", command, &folder.join("first-frame/results"))
}

/// Holds every model that has a baseline against it: the demo models, and the frames that the solver's regression is.
fn baselines(workspace: &Workspace, programs: &Path) -> Result<(), Failure> {
    let files = workspace.files()?;
    let recorded = recorded(&files);
    let without: Vec<String> = models(&files)
        .into_iter()
        .filter(|model| !recorded.contains(model))
        .map(|model| format!("{model}: has no baseline.csv; `strutwork baseline record {model}` makes one"))
        .collect();
    Failure::unless_empty(without)?;
    let mut command = Command::new(programs.join("strutwork"));
    command.args(["baseline", "check"]).args(recorded).current_dir(&workspace.root);
    loudly(command)
}

/// The folders of models that have a baseline, in order.
pub(crate) fn recorded(files: &[File]) -> Vec<&str> {
    let has_model = |folder: &&str| files.iter().any(|file| file.path.strip_suffix("/model.toml") == Some(folder));
    files.iter().filter_map(|file| file.path.strip_suffix("/baseline.csv")).filter(has_model).collect()
}

/// The folders of the demo models, in order: those with a `model.toml`.
fn models(files: &[File]) -> Vec<&str> {
    let of_demos = files.iter().filter(|file| file.path.starts_with("demo-models/"));
    of_demos.filter_map(|file| file.path.strip_suffix("/model.toml")).collect()
}

/// Runs a command that solves a model: findings may exceed their limits (1), anything worse fails.
fn ran(name: &str, mut command: Command, out: &Path) -> Result<(), Failure> {
    let status = command::status(&mut command)?;
    if !matches!(status.code(), Some(0 | 1)) {
        return Err(command::ended(&command, status));
    }
    let missing: Vec<String> = ["report.html", "findings.csv", "member_forces.csv", "run.json"]
        .iter()
        .filter(|file| !out.join(file).is_file())
        .map(|file| format!("{name}: the run wrote no {file}"))
        .collect();
    Failure::unless_empty(missing)?;
    say(&format!("ok    {name}"));
    Ok(())
}

/// The search path with one folder put first.
fn with_first(folder: &Path) -> OsString {
    let mut path = OsString::from(folder);
    if let Some(rest) = std::env::var_os("PATH") {
        path.push(":");
        path.push(rest);
    }
    path
}

/// A folder for results that is gone afterwards.
struct Scratch(PathBuf);

impl Scratch {
    fn new() -> Result<Self, Failure> {
        let path = std::env::temp_dir().join(format!("strutwork-ci-{}", std::process::id()));
        fs::create_dir_all(&path).map_err(|cause| Failure::write(&path, cause))?;
        Ok(Self(path))
    }
}

impl Drop for Scratch {
    fn drop(&mut self) {
        // Left behind, it does no harm: the system clears its temporary folder.
        let _ = fs::remove_dir_all(&self.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_demo_model_is_a_folder_with_settings_at_any_depth() {
        let files = [
            "demo-models/a/b/model.toml",
            "demo-models/c/README.md",
            "demo-models/d/model.toml",
            "x/model.toml",
            "x/baseline.csv",
            "y/baseline.csv",
        ]
        .map(|path| File { path: path.to_owned(), text: String::new() });
        assert_eq!(models(&files), ["demo-models/a/b", "demo-models/d"]);
        assert_eq!(recorded(&files), ["x"], "y is no model");
    }
}
