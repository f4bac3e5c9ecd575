//! Whether the frame is strong enough.

pub mod bays;
pub mod bolts;
pub mod chassis_share;
pub mod panels;
pub mod scope;
pub mod ultimate;
pub mod yielding;
