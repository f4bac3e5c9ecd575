//! Whether the frame is strong enough.

pub mod bays;
pub mod chassis_share;
pub mod joints;
pub mod mounts;
pub mod panels;
pub mod scope;
pub mod ultimate;
pub mod yielding;
