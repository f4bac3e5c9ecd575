//! The part of a Rust file that goes into the product: no comments, no tests.

use std::collections::BTreeSet;

use crate::workspace::File;

/// The paths of files that are compiled for tests alone, because the module is declared under `#[cfg(test)]`.
pub(super) fn test_files(files: &[File]) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for file in files.iter().filter(|file| file.path.ends_with(".rs")) {
        let lines: Vec<&str> = file.text.lines().map(str::trim).collect();
        for pair in lines.windows(2).filter(|pair| pair[0] == "#[cfg(test)]") {
            let declared = pair[1].trim_start_matches("pub(crate) ").strip_prefix("mod ");
            if let Some(name) = declared.and_then(|rest| rest.strip_suffix(';')) {
                let folder = module_folder(&file.path);
                found.insert(format!("{folder}/{name}.rs"));
                found.insert(format!("{folder}/{name}/mod.rs"));
            }
        }
    }
    found
}

/// The folder that holds the modules that a file declares.
fn module_folder(path: &str) -> &str {
    let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
    if matches!(name, "mod.rs" | "lib.rs" | "main.rs") { folder } else { path.trim_end_matches(".rs") }
}

/// The lines of a file that are code of the product, numbered from 1: up to its test module, without comments.
pub(super) fn product_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let lines: Vec<&str> = text.lines().collect();
    let is_tests =
        |pair: &[&str]| pair[0].trim() == "#[cfg(test)]" && pair[1].starts_with("mod ") && pair[1].ends_with('{');
    let end = lines.windows(2).position(is_tests).unwrap_or(lines.len());
    lines
        .into_iter()
        .take(end)
        .enumerate()
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
        .map(|(number, line)| (number + 1, line))
}

/// Whether a word stands in a line, not as a part of a longer one.
pub(super) fn has_word(line: &str, word: &str) -> bool {
    let part_of_a_word = |letter: char| letter.is_alphanumeric() || letter == '_';
    line.match_indices(word).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + word.len()..].chars().next();
        !before.is_some_and(part_of_a_word) && !after.is_some_and(part_of_a_word)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_test_module_and_comments_are_no_product() {
        let text =
            "//! Says println!\nfn a() {}\n    // println!\nfn b() {}\n#[cfg(test)]\nmod tests {\n    println!()\n}\n";
        let lines: Vec<_> = product_lines(text).collect();
        assert_eq!(lines, [(2, "fn a() {}"), (4, "fn b() {}")]);
    }

    #[test]
    fn modules_for_tests_are_found_beside_their_declaration() {
        let file =
            |path: &str| File { path: path.to_owned(), text: "#[cfg(test)]\nmod laws;\nmod other;\n".to_owned() };
        let found = test_files(&[file("a/src/lib.rs"), file("a/src/beam.rs"), file("a/src/rod/mod.rs")]);
        let wanted = ["a/src/laws.rs", "a/src/beam/laws.rs", "a/src/rod/laws.rs"];
        assert!(wanted.iter().all(|path| found.contains(*path)), "{found:?}");
        assert!(!found.iter().any(|path| path.contains("other")));
    }

    #[test]
    fn a_word_is_not_a_part_of_a_word() {
        assert!(has_word("use wood::Plank;", "wood"));
        assert!(has_word("wood", "wood"));
        assert!(!has_word("plywood::x", "wood"));
        assert!(!has_word("wooden", "wood"));
    }
}
