//! The manifest inside `run.json`: which files a run wrote, with their SHA-256, under a seal of its own.

use std::collections::BTreeMap;

use serde_json::Value;

use super::digest::sha256;

/// The file that holds the manifest.
pub const NAME: &str = "run.json";

/// The key of the list of files.
const FILES: &str = "files_written";
/// The key of the seal: the SHA-256 of the whole text with [`BLANK`] in the seal's place.
const SEAL: &str = "seal_sha256";
const BLANK: &str = "0000000000000000000000000000000000000000000000000000000000000000";

/// What an earlier run wrote: name → SHA-256.
pub type Written = BTreeMap<String, String>;

/// Adds the manifest of `files` to a JSON object and seals it.
///
/// A text that is no JSON object is returned as it is: then it is not ours to seal.
pub fn sealed(run_json: &str, files: &[(String, Vec<u8>)]) -> String {
    let Ok(Value::Object(mut object)) = serde_json::from_str::<Value>(run_json) else {
        return run_json.to_owned();
    };
    let written: serde_json::Map<String, Value> =
        files.iter().map(|(name, bytes)| (name.clone(), Value::from(sha256(bytes)))).collect();
    object.insert(FILES.into(), Value::Object(written));
    object.insert(SEAL.into(), Value::from(BLANK));
    let mut text = serde_json::to_string_pretty(&Value::Object(object)).unwrap_or_default();
    text.push('\n');
    let seal = sha256(text.as_bytes());
    text.replacen(BLANK, &seal, 1)
}

/// Reads a manifest; `None` where the text holds none or was changed after it was sealed.
pub fn read(text: &str) -> Option<Written> {
    let value: Value = serde_json::from_str(text).ok()?;
    let seal = value.get(SEAL)?.as_str()?;
    if seal.len() != BLANK.len() || sha256(text.replacen(seal, BLANK, 1).as_bytes()) != seal {
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
        let text = sealed("{\"version\": \"1\"}", &files);
        let written = read(&text).expect("it was just sealed");
        assert_eq!(written["reactions.csv"], sha256(b"case\n"));
        assert_eq!(read(&text.replace("\"1\"", "\"2\"")), None);
        assert_eq!(read("{}"), None);
        assert_eq!(read("not json"), None);
    }
}
