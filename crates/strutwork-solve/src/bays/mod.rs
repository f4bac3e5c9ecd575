//! The plane bays of a frame, how stiff each is in shear, and the rings that they form.
//!
//! ```text
//! tubes ──sides──▶ straight chains ──quads──▶ closed, plane, convex ──choose──▶ bays that do not overlap ──rings──▶ rings
//! ```
//!
//! A bay is the cell that a diagonal or a skin would stiffen. Everything here is geometry and small plane frames: no case
//! is solved and nothing is judged.

mod bay;
mod candidate;
mod choose;
mod outline;
mod plane_frame;
mod quads;
mod rings;
mod shear_state;
mod sides;

pub use bay::{Bay, BayKind, Bracing, Side};
pub use rings::Ring;

use rayon::prelude::*;
use strutwork_model::Model;

use crate::elements::Elements;

/// The bays of a frame and the rings that they form.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bays {
    /// Softest first; a bay's number, for readers, is its place counted from 1.
    pub bays: Vec<Bay>,
    /// Closed loops of bays joined through opposite sides, the shortest through each bay.
    pub rings: Vec<Ring>,
}

/// Finds the plane bays of a frame: closed quadrilaterals of tubes.
///
/// # Units and shapes
/// | rule | limit |
/// |---|---|
/// | a side is one tube or a chain of up to 8 tubes, whose joints leave the line between its ends by at most | 1/15 of its length |
/// | turn from one tube of a side to the next | 20° |
/// | the two diagonals pass each other at most at | 1/20 of the shorter one |
/// | angles at the corners | 25° to 155° |
/// | tubes and panels lie in the bay if their joints leave its plane by at most | 1/25 of the shorter diagonal |
///
/// # Signs and order
/// Softest first; bays of the same stiffness in the order of their joints. The same model gives the same bays.
///
/// # Assumes
/// Of quadrilaterals that overlap in one plane the ones with a skin come first, then braced ones, then open ones; among
/// these the more rectangular, then the smaller. A quadrilateral that a straight chain divides into two is no bay, unless a
/// panel spans it. An open quadrilateral that has the brace of a bay as a side is none either: it cuts through the frame.
/// Triangles of tubes are left out: they are stiff in shear by their form. So are openings with five corners or more.
///
/// # Source
/// Our own rules.
///
/// # Example
/// ```
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// use strutwork_model::files::{InputFile, InputFiles};
/// let file = |name: &str, text: &str| InputFile { name: name.into(), bytes: text.into() };
/// let files = InputFiles(vec![
///     file("model.toml", "title = 'one bay'\n[materials.mild]\ngrade = 'S235JRH'\n[sections.rail]\nshape = 'square'\nwidth_mm = 25\nwall_mm = 2\n"),
///     file("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\nC,500,0,400\nD,0,0,400\n"),
///     file("tubes.csv", "tube,from,to,section,material\nT1,A,B,rail,mild\nT2,B,C,rail,mild\nT3,C,D,rail,mild\nT4,D,A,rail,mild\n"),
/// ]);
/// let model = strutwork_model::read_model(&files)?.value;
/// let bays = strutwork_solve::find_bays(&model).bays;
/// assert_eq!(bays.len(), 1);
/// assert!(bays[0].is_open());
/// // 518 N/mm by 24E/[b²(b/I + a/I)], in which the sides do not stretch.
/// assert!((bays[0].along.unwrap() / 518e3 - 1.0).abs() < 0.01);
/// # Ok(())
/// # }
/// ```
pub fn find_bays(model: &Model) -> Bays {
    let elements = Elements::of(model);
    let sides = sides::Sides::of(model);
    let candidates = quads::candidates(model, &elements, &sides);
    let mut bays: Vec<Bay> = choose::without_overlap(candidates)
        .into_par_iter()
        .with_min_len(16)
        .map(|one| one.into_bay(model, &elements))
        .collect();
    bays.sort_by(|a, b| a.stiffness.total_cmp(&b.stiffness).then_with(|| a.corners.cmp(&b.corners)));
    let rings = rings::rings(model, &bays);
    Bays { bays, rings }
}
