//! The manifest inside `run.json` (and `script.json`): which files were written, with their SHA-256, under a seal.

use std::collections::BTreeMap;

use serde_json::Value;

use super::digest::sha256;

/// The file that holds the manifest of a run.
pub(crate) const RUN: &str = "run.json";
/// The file that holds the manifest of a comparison.
pub(crate) const COMPARE: &str = "compare.json";
/// The file that holds the manifest of a script's files.
pub(crate) const SCRIPT: &str = "script.json";

/// The key of the list of files.
const FILES: &str = "files_written";
/// The key of the seal: the SHA-256 of the whole text with [`BLANK`] in the seal's place.
const SEAL: &str = "seal_sha256";
const BLANK: &str = "0000000000000000000000000000000000000000000000000000000000000000";

/// What an earlier run wrote: name → SHA-256.
pub(crate) type Written = BTreeMap<String, String>;

/// The digests of files about to be written.
pub(crate) fn of<'a>(files: impl IntoIterator<Item = &'a (String, Vec<u8>)>) -> Written {
    files.into_iter().map(|(name, bytes)| (name.clone(), sha256(bytes))).collect()
}

/// Adds a manifest to the end of a JSON object, whose own fields keep their order, and seals it.
///
/// A text that is no JSON object is returned as it is: then it is not ours to seal.
pub(crate) fn sealed(json: &str, written: &Written) -> String {
    let Some(body) = json.trim().strip_prefix('{').and_then(|body| body.strip_suffix('}')) else {
        return json.to_owned();
    };
    let body = body.trim_end();
    let comma = if body.is_empty() { "" } else { "," };
    // Names and hashes: neither makes the serialiser fail.
    let list = serde_json::to_string_pretty(written).unwrap_or_default().replace('\n', "\n  ");
    let text = format!("{{{body}{comma}\n  \"{FILES}\": {list},\n  \"{SEAL}\": \"{BLANK}\"\n}}\n");
    let seal = sha256(text.as_bytes());
    replace_last(&text, BLANK, &seal)
}

/// The text with the last occurrence of `old` replaced: the seal stands at the end.
fn replace_last(text: &str, old: &str, new: &str) -> String {
    text.rfind(old).map_or_else(|| text.to_owned(), |at| format!("{}{new}{}", &text[..at], &text[at + old.len()..]))
}

/// Reads a manifest; `None` where the text holds none or was changed after it was sealed.
pub(crate) fn read(text: &str) -> Option<Written> {
    let value: Value = serde_json::from_str(text).ok()?;
    let seal = value.get(SEAL)?.as_str()?;
    if seal.len() != BLANK.len() || sha256(replace_last(text, seal, BLANK).as_bytes()) != seal {
        return None;
    }
    value.get(FILES)?.as_object()?.iter().map(|(name, hash)| Some((name.clone(), hash.as_str()?.to_owned()))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sealed_manifest_reads_back_and_a_changed_one_does_not() {
        let files = vec![("reactions.csv".to_owned(), b"case\n".to_vec())];
        let text = sealed("{\"version\": \"1\"}", &of(&files));
        assert!(serde_json::from_str::<Value>(&text).is_ok(), "{text}");
        let written = read(&text).expect("it was just sealed");
        assert_eq!(written["reactions.csv"], sha256(b"case\n"));
        assert_eq!(read(&text.replace("\"1\"", "\"2\"")), None);
        assert_eq!(read("{}"), None);
        assert_eq!(read("not json"), None);
    }
}
