//! Whether the frame is strong enough.

pub mod bays;
pub mod chassis_share;
pub mod class;
mod diagram;
pub mod member;
pub mod mounts;
pub mod panels;
pub mod scope;
pub mod section;
pub mod slenderness;
pub mod steel_tube;
mod sweep;
pub mod ultimate;
pub mod yielding;
