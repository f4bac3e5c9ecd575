//! Whether the frame is strong enough.

pub mod bays;
mod cases;
pub mod chassis_share;
pub mod fatigue;
pub mod mounts;
pub mod movement;
pub mod panels;
pub mod scope;
pub mod ultimate;
pub mod yielding;
