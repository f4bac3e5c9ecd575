//! The model that README.md tells a newcomer to type, typed: what the page promises must work.

use crate::failure::Failure;

/// The line that announces the block to run.
const MARK: &str = "<!-- typed by `cargo xtask ci` -->";

/// The shell block after the mark.
pub(crate) fn typed_model(readme: &str) -> Result<String, Failure> {
    let missing = |why: &str| Failure::Broken(vec![format!("README.md: {why}")]);
    let (_, after) = readme.split_once(MARK).ok_or_else(|| missing(&format!("has no line `{MARK}`")))?;
    let (before, block) = after.split_once("```sh\n").ok_or_else(|| missing("the mark has no ```sh block"))?;
    if !before.trim().is_empty() {
        return Err(missing("something stands between the mark and its ```sh block"));
    }
    let (block, _) = block.split_once("\n```").ok_or_else(|| missing("the marked block does not end"))?;
    Ok(block.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_marked_block_is_read() {
        let readme = format!("```sh\nnot this\n```\n{MARK}\n```sh\nmkdir a\nls a\n```\nrest\n");
        assert_eq!(typed_model(&readme).expect("a block"), "mkdir a\nls a");
    }

    #[test]
    fn what_is_missing_is_told() {
        let told = |readme: &str| typed_model(readme).expect_err("no block").to_string();
        assert!(told("nothing").contains("has no line"));
        assert!(told(&format!("{MARK}\ntext\n```sh\nls\n```\n")).contains("stands between"));
        assert!(told(&format!("{MARK}\n```sh\nls\n")).contains("does not end"));
    }
}
