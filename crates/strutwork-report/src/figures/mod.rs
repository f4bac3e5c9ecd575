//! Pictures of the frame and charts, written as SVG by hand.
//!
//! - [`frame`]: the frame with its names, line weight by section, in four views;
//! - [`deformed`]: the deformed shape over the frame at rest;
//! - [`shape`]: natural modes and ways of buckling, which the page can let swing;
//! - [`utilisation`]: tubes coloured by utilisation;
//! - [`bays`]: bays shaded by their shear stiffness;
//! - [`wheels`]: the force of the road on each wheel;
//! - [`twist`]: the twist along the frame;
//! - [`spread`]: tubes counted by utilisation, case by case;
//! - [`mass`]: what weighs how much;
//! - [`sketch`]: a small model as a textbook draws it;
//! - [`outline`]: outlines of sections with their sizes;
//! - [`graph`]: curves and points over an axis, linear or logarithmic;
//! - [`rig`]: readings of a twist rig over the model.
//!
//! They stand on [`svg`] (writing and escaping), [`view`] (projection), [`labels`] (names that do not overlap),
//! [`furniture`] (axes, scale bar, legend), [`colour`] and [`ink`].

pub mod bays;
pub mod colour;
pub mod deformed;
pub mod frame;
pub mod furniture;
pub mod graph;
pub mod ink;
pub mod labels;
pub mod mass;
pub mod outline;
pub mod rig;
pub mod shape;
pub mod sketch;
pub mod spread;
pub mod svg;
pub mod twist;
pub mod utilisation;
pub mod view;
pub mod wheels;

mod attached;
mod marks;
mod weights;

/// A finished picture.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// The drawing, a whole `svg` element.
    pub svg: String,
    /// What it shows and how to read it.
    pub caption: String,
    /// Whether it wants the width of a page turned on its side.
    pub wide: bool,
}

/// Width of a drawing across the page, px.
pub const WIDTH: f64 = 720.0;
/// Width of a drawing that wants a page turned on its side, px.
pub const WIDE: f64 = 1000.0;
/// A frame with more tubes than this has its named pictures on pages turned on their side.
pub const WIDE_TUBES: usize = 40;
/// A frame with more tubes than this is drawn plainly: no gaps where tubes cross, fewer points along each.
pub const MANY_TUBES: usize = 800;
/// A frame with more joints than this shows the names of its marked joints alone.
pub const MANY_JOINTS: usize = 150;
