//! Whether the frame is strong enough.

pub mod bays;
pub mod beside_weld;
pub mod chassis_share;
#[cfg(test)]
mod frames;
pub mod heat_affected;
pub mod margin;
pub mod class;
mod diagram;
pub mod member;
mod cases;
pub mod chassis_share;
pub mod fatigue;
pub mod joints;
pub mod mounts;
pub mod movement;
pub mod bolts;
pub mod chassis_share;
pub mod panels;
pub mod scope;
pub mod section;
pub mod slenderness;
pub mod steel_tube;
pub mod tube_walls;
mod sweep;
pub mod ultimate;
pub mod weld_list;
pub mod welds;
pub mod yielding;
