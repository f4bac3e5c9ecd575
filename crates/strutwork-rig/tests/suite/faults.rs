//! Planted faults: each is named, at its place, and nothing else is.
