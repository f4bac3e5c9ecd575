//! A joint: where tubes meet.

/// Where tubes meet.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint {
    /// Its name, unique.
    pub name: String,
    /// Its place, m, global axes.
    pub at: [f64; 3],
    /// The user's note; empty for none.
    pub note: String,
}
