//! What a script may consume.

/// What a script may consume. Every limit can be raised by the user; none is a matter of right or wrong results.
///
/// # Units and shapes
/// | field | default | meaning |
/// |---|---|---|
/// | `operations` | 20 000 000 | steps of the script, over all its closures, imports and case scripts together |
/// | `seconds` | 60 | time, as [`Host::elapsed_seconds`](crate::Host::elapsed_seconds) tells it |
/// | `depth` | 64 | calls within calls; at most [`Limits::DEEPEST`] |
/// | `text_bytes` | 1 000 000 | longest text |
/// | `list_items` | 100 000 | most items of an array, those of arrays within it counted |
/// | `map_entries` | 10 000 | most entries of a map, those of maps within it counted |
///
/// # Assumes
/// Operations are the limit that falls at the same place on every machine; time is the one that a waiting person means.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Steps of the script.
    pub operations: u64,
    /// Seconds.
    pub seconds: f64,
    /// Calls within calls.
    pub depth: usize,
    /// Longest text, bytes.
    pub text_bytes: usize,
    /// Most items of an array.
    pub list_items: usize,
    /// Most entries of a map.
    pub map_entries: usize,
}

impl Limits {
    /// Calls within calls that the interpreter's stack holds for certain; a greater `depth` counts as this.
    pub const DEEPEST: usize = 1000;
}

impl Default for Limits {
    fn default() -> Self {
        Self {
            operations: 20_000_000,
            seconds: 60.0,
            depth: 64,
            text_bytes: 1_000_000,
            list_items: 100_000,
            map_entries: 10_000,
        }
    }
}
