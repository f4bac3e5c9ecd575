//! How a message goes on where a clause does not cover what was found: why a number within its limit is no pass.
//!
//! The finding's own clause and standing say so too, so that a sentence may be told in short without it.

/// What lies outside the scope of a clause.
pub const OUTSIDE: &str = "; outside scope";
/// Why a number proves nothing.
pub const NO_PROOF: &str = "; no proof, as";
/// What a clause does not cover.
pub const NOT_COVERED: &str = "; not covered:";
/// Why a number within its limit is no pass.
pub const NO_PASS: &str = "; not a pass";

/// A message up to where it goes on so; all of it where it does not.
pub fn without(message: &str) -> &str {
    let end = [OUTSIDE, NO_PROOF, NOT_COVERED, NO_PASS].iter().filter_map(|aside| message.find(aside)).min();
    &message[..end.unwrap_or(message.len())]
}

#[cfg(test)]
mod tests {
    use super::without;

    #[test]
    fn a_message_ends_at_its_first_aside() {
        assert_eq!(without("it holds; outside scope: thin wall; no proof, as it is thin"), "it holds");
        assert_eq!(without("a bolt carries 10 N; not covered: no lock washer"), "a bolt carries 10 N");
        assert_eq!(without("tube A reaches 10 MPa; it is round"), "tube A reaches 10 MPa; it is round");
    }
}
