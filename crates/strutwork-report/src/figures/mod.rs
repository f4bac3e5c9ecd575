//! Pictures of the frame and charts, written as SVG by hand.
//!
//! - [`frame`]: the frame with its names, line weight by section, in four views;
//! - [`deformed`]: the deformed shape over the frame at rest;
//! - [`shape`]: natural modes and ways of buckling, which the page can let swing;
//! - [`utilisation`]: tubes coloured by utilisation;
//! - [`worth`]: tubes coloured by what stiffness costs on them;
//! - [`compared`]: two revisions over each other;
//! - [`bays`]: bays shaded by their shear stiffness;
//! - [`wheels`]: the force of the road on each wheel;
//! - [`twist`]: the twist along the frame;
//! - [`spread`]: tubes counted by utilisation, case by case;
//! - [`mass`]: what weighs how much;
//! - [`sketch`]: a small model as a textbook draws it;
//! - [`outline`]: outlines of sections with their sizes;
//! - [`study`]: what came of a study;
//! - [`graph`]: curves and points over an axis, linear or logarithmic;
//! - [`rig`]: readings of a twist rig over the model.
//!
//! They stand on [`svg`] (writing and escaping), [`view`] (projection), [`labels`] (names that do not overlap),
//! [`furniture`] (axes, scale bar, legend), [`colour`] and [`ink`].

pub mod bays;
pub mod colour;
pub mod compared;
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
pub mod study;
pub mod svg;
pub mod twist;
pub mod utilisation;
pub mod view;
pub mod wheels;
pub mod worth;

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

impl Figure {
    /// The drawing as a file of its own: with a size, a face of letters and the white edge of names, which the page else gives it.
    pub fn file(&self) -> String {
        let size = |name: &str, place: usize| {
            let (_, rest) = self.svg.split_once("viewBox=\"0 0 ")?;
            Some(format!("{name}=\"{}\" ", rest.split('"').next()?.split(' ').nth(place)?))
        };
        let head = format!(
            "<svg {}{}font-family=\"'Liberation Sans', Arial, Helvetica, sans-serif\" ",
            size("width", 0).unwrap_or_default(),
            size("height", 1).unwrap_or_default()
        );
        let style = "<style>svg{background:#fff}.names text{paint-order:stroke;stroke:#fff;stroke-width:2.6px;\
                     stroke-linejoin:round}</style>";
        let whole = self.svg.replacen("<svg ", &head, 1);
        whole.replacen('>', &format!(">{style}"), 1) + "\n"
    }
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
