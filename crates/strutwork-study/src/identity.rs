//! What tells one study from another: a digest of everything that decides on its results.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use crate::study::Study;

/// SHA-256 of a study and of the texts that go with it (scripts of load cases, the script that describes it): name and text
/// of each, in lower-case hexadecimal.
///
/// # Source
/// FIPS PUB 180-4 (2015), Secure Hash Standard, section 6.2, through the crate `sha2`.
pub fn identity(study: &Study, texts: &[(String, String)]) -> String {
    let mut digest = Sha256::new();
    // Names, words and finite numbers: nothing that JSON refuses.
    digest.update(serde_json::to_vec(study).unwrap_or_default());
    for (name, text) in texts {
        for part in [name, text] {
            digest.update((part.len() as u64).to_le_bytes());
            digest.update(part.as_bytes());
        }
    }
    hexadecimal(&digest.finalize(), 32)
}

/// The first so many bytes in lower-case hexadecimal.
pub(crate) fn hexadecimal(bytes: &[u8], count: usize) -> String {
    let mut text = String::with_capacity(2 * count);
    for byte in bytes.iter().take(count) {
        // Writing to a String cannot fail.
        let _ = write!(text, "{byte:02x}");
    }
    text
}
