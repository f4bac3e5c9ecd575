//! Whether the frame is strong enough.

pub mod bays;
pub mod beside_weld;
pub mod bolts;
mod cases;
pub mod chassis_share;
pub mod class;
mod diagram;
pub mod fatigue;
#[cfg(test)]
mod frames;
pub mod heat_affected;
pub mod joints;
pub mod margin;
pub mod member;
pub mod movement;
pub mod panels;
pub mod rounding;
pub mod scope;
pub mod second_order;
pub mod section;
pub mod slenderness;
pub mod steel_tube;
mod sweep;
pub mod ultimate;
pub mod weld_list;
pub mod welds;
pub mod yielding;
