//! Every Rust file opens by saying what it holds.

use crate::workspace::File;

/// The Rust files that do not open with `//!`.
pub(super) fn broken(files: &[File]) -> Vec<String> {
    let rust = files.iter().filter(|file| file.path.ends_with(".rs"));
    rust.filter(|file| !opens(&file.text)).map(|file| format!("{}: does not open with `//!`", file.path)).collect()
}

fn opens(text: &str) -> bool {
    let first = text.lines().next().unwrap_or_default();
    first.strip_prefix("//!").is_some_and(|said| !said.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_first_line_that_says_something_counts() {
        assert!(opens("//! Beams.\nuse std;\n"));
        assert!(!opens("use std;\n//! Beams.\n"));
        assert!(!opens("//!\nuse std;\n"));
        assert!(!opens(""));
    }
}
