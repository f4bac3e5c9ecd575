//! Programs and tests, built once for every chore.

use std::path::PathBuf;

use crate::command::{cargo, loudly};
use crate::failure::Failure;
use crate::workspace::Workspace;

/// Builds the programs and all tests; the folder of the programs. One command for all that runs them: a package built by itself
/// would have its libraries compiled once more, with other features.
pub(crate) fn programs(workspace: &Workspace) -> Result<PathBuf, Failure> {
    loudly(cargo(&workspace.root, &["nextest", "run", "--workspace", "--no-run", "--cargo-quiet"]))?;
    Ok(workspace.target.join("debug"))
}
