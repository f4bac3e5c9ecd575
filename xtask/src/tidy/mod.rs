//! What the compiler does not check and the house still relies on. One rule a file.

mod arrows;
mod boundaries;
mod licences;
mod openings;
mod outside;
mod paths;
mod source;

use crate::failure::Failure;
use crate::say;
use crate::workspace::Workspace;

/// The page that holds the arrows and the map.
const MAP: &str = "DEVELOPERS.md";

/// Runs every rule and reports all that is broken, not only the first.
pub(crate) fn run(workspace: &Workspace) -> Result<(), Failure> {
    let files = workspace.files()?;
    let map = workspace.text(MAP)?;
    let mut broken = Vec::new();
    for (rule, found) in [
        ("arrows agree with Cargo", arrows::broken(&map, workspace)),
        ("paths of the map exist", paths::broken(&map, &workspace.root)),
        ("each .rs file says what it holds", openings::broken(&files)),
        ("each library is named where it belongs", boundaries::broken(&files, workspace)),
        ("nothing names a place outside the project", outside::broken(&files)),
        ("licences are known ones", licences::broken(&workspace.packages)),
    ] {
        say(&format!("{}  {rule}", if found.is_empty() { "ok  " } else { "FAIL" }));
        broken.extend(found);
    }
    Failure::unless_empty(broken)
}
