//! Every path that the map names stands in the tree.

use std::path::Path;

use super::MAP;

/// The paths that are named but not there.
pub(super) fn broken(map: &str, root: &Path) -> Vec<String> {
    let missing = |(_, path): &(usize, &str)| !root.join(path).exists();
    named(map)
        .into_iter()
        .filter(missing)
        .map(|(line, path)| format!("{MAP}:{line}: `{path}` does not exist"))
        .collect()
}

/// What stands in backticks, outside fenced blocks, has a `/` and looks like a path: it is one, from the root. Of a path with a
/// placeholder, such as `validation/suite/<family>/<case>`, the part before the first placeholder.
fn named(map: &str) -> Vec<(usize, &str)> {
    let mut fenced = false;
    let mut found = Vec::new();
    for (number, line) in map.lines().enumerate() {
        if line.trim_start().starts_with("```") {
            fenced = !fenced;
        } else if !fenced {
            let quoted = line.split('`').skip(1).step_by(2);
            let paths = quoted.filter(|text| is_path(text));
            found.extend(paths.map(|path| (number + 1, path.split('<').next().unwrap_or(path))));
        }
    }
    found
}

fn is_path(text: &str) -> bool {
    let names = |letter: char| letter.is_ascii_alphanumeric() || "._-/<>".contains(letter);
    text.contains('/') && text.chars().all(names) && !text.starts_with('/')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_told_from_code_and_commands() {
        let map = "See `crates/a/b.rs` and `Model`, or `cargo xtask docs/x`, or `//!`.\n```\n`not/this`\n```\n| `scripts/` | y |\n";
        assert_eq!(named(map), [(1, "crates/a/b.rs"), (5, "scripts/")]);
    }

    #[test]
    fn a_placeholder_ends_a_path() {
        assert_eq!(named("`validation/suite/<family>/<case>/case.toml`"), [(1, "validation/suite/")]);
    }

    #[test]
    fn only_what_is_missing_is_told() {
        let here = Path::new(env!("CARGO_MANIFEST_DIR"));
        let broken = broken("`src/main.rs`, `src/nowhere.rs`", here);
        assert_eq!(broken, ["DEVELOPERS.md:1: `src/nowhere.rs` does not exist"]);
    }
}
