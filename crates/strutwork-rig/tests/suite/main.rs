//! The rig's sheet, as its users meet it.

mod faults;
mod known;
mod line;
