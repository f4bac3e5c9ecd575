//! SHA-256 of bytes, in hexadecimal.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

/// SHA-256 in lower-case hexadecimal.
///
/// # Source
/// FIPS PUB 180-4 (2015), Secure Hash Standard, section 6.2, through the crate `sha2`.
pub(crate) fn sha256(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        // Writing to a String cannot fail.
        let _ = write!(text, "{byte:02x}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-2 (2002), appendix B.1: the digest of "abc".
    #[test]
    fn digests_the_published_example() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }
}
