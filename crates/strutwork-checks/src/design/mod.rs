//! Whether the frame is strong enough.

pub mod scope;
pub mod yielding;
