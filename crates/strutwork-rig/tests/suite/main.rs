//! The rig's sheet and the scales, as their users meet them.

mod faults;
mod fixtures;
mod known;
mod line;
mod modelled;
mod scales;
