//! The generated pages: written anew, or compared with what stands in the tree.

use std::fs;
use std::path::Path;
use std::process::Command;

use crate::build;
use crate::command::{self, cargo};
use crate::failure::Failure;
use crate::workspace::Workspace;
use crate::{heading, say};

/// A page and the arguments of `strutwork` that print it.
struct Page {
    path: &'static str,
    printed_by: &'static [&'static str],
}

const PAGES: [Page; 3] = [
    Page { path: "scripts/REFERENCE.md", printed_by: &["reference"] },
    Page { path: "demo-models/FORMAT.md", printed_by: &["reference", "--files"] },
    Page { path: "scripts/strutwork.d.rhai", printed_by: &["reference", "--definitions"] },
];

/// The report of the published cases is written and compared by a test of theirs, which forgives another processor's
/// rounding of a last digit.
const REPORT: &str = "validation/REPORT.md";

/// Writes every page.
pub(crate) fn write(workspace: &Workspace) -> Result<(), Failure> {
    let programs = build::programs(workspace)?;
    for page in &PAGES {
        let text = printed(page, &programs)?;
        let path = workspace.root.join(page.path);
        fs::write(&path, text).map_err(|cause| Failure::write(&path, cause))?;
        say(&format!("wrote {}", page.path));
    }
    let mut test = report_test(workspace);
    test.env("UPDATE", "1");
    command::loudly(test)?;
    say(&format!("wrote {REPORT}"));
    Ok(())
}

/// Fails where a page is not what would be written.
pub(crate) fn check(workspace: &Workspace) -> Result<(), Failure> {
    let programs = build::programs(workspace)?;
    let mut stale = Vec::new();
    for page in &PAGES {
        let fresh = printed(page, &programs)?;
        let stands = workspace.text(page.path).unwrap_or_default();
        match first_difference(&stands, &fresh) {
            None => say(&format!("ok    {}", page.path)),
            Some(line) => stale.push(format!("{}:{line}: stale; run `cargo xtask docs` and commit", page.path)),
        }
    }
    Failure::unless_empty(stale)?;
    let mut test = report_test(workspace);
    test.env_remove("UPDATE");
    command::loudly(test)?;
    say(&format!("ok    {REPORT}"));
    Ok(())
}

fn report_test(workspace: &Workspace) -> Command {
    let test = "package(strutwork-validation) & test(the_report_is_up_to_date)";
    cargo(&workspace.root, &["nextest", "run", "--workspace", "--cargo-quiet", "-E", test])
}

fn printed(page: &Page, programs: &Path) -> Result<String, Failure> {
    let mut command = Command::new(programs.join("strutwork"));
    command.args(page.printed_by);
    let text = command::output(command)?;
    if text.trim().is_empty() {
        let command = format!("strutwork {}", page.printed_by.join(" "));
        return Err(Failure::Output { command, why: "printed nothing".to_owned() });
    }
    Ok(text)
}

/// The number of the first line in which two texts differ.
fn first_difference(one: &str, other: &str) -> Option<usize> {
    if one == other {
        return None;
    }
    let same = one.split('\n').zip(other.split('\n')).take_while(|(a, b)| a == b).count();
    Some(same + 1)
}

/// The step of CI.
pub(crate) fn step(workspace: &Workspace) -> Result<(), Failure> {
    heading("generated pages are fresh");
    check(workspace)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_differing_line_is_found() {
        assert_eq!(first_difference("a\nb\n", "a\nb\n"), None);
        assert_eq!(first_difference("a\nb\n", "a\nc\n"), Some(2));
        assert_eq!(first_difference("a\n", "a\nb\n"), Some(2));
        assert_eq!(first_difference("", "a\n"), Some(1));
    }
}
