//! From properties to the wall that they come from.

use strutwork_model::model::section::standard_outer_radius;
use strutwork_model::model::{Section, Shape};

/// How a section's properties change with one of its sizes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeRate {
    /// Of A, Iy, Iz, J: m and m³ a metre of size.
    pub properties: [f64; 4],
}

/// Step of the differences, as a share of the wall. The formulas are polynomials and quotients of low degree: what the
/// five-point rule leaves out is its fourth power.
const STEP: f64 = 1e-3;

/// Change of A, Iy, Iz and J with the wall of a tube whose outside stays: by a five-point difference of the section's own
/// formulas. The corner radius keeps its ratio to the wall where it is that of EN 10219-2, else its size. `None` for bars and for
/// sections given by properties: they have no wall.
///
/// # Units and shapes
/// m², m⁴ by m.
pub fn wall_rate(section: &Section) -> Option<SizeRate> {
    let (wall, with): (f64, Box<dyn Fn(f64) -> Shape>) = match section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => {
            let standard = (outer_radius - standard_outer_radius(wall)).abs() <= 1e-9 * wall;
            let ratio = outer_radius / wall;
            let radius = move |wall: f64| if standard { ratio * wall } else { outer_radius };
            (wall, Box::new(move |wall| Shape::Hollow { height, width, wall, outer_radius: radius(wall) }))
        }
        Shape::Round { diameter, wall } => (wall, Box::new(move |wall| Shape::Round { diameter, wall })),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => return None,
    };
    let step = STEP * wall;
    let properties = |wall: f64| {
        let section = Section::from_shape("", with(wall)).ok()?;
        Some([section.area, section.iy, section.iz, section.j])
    };
    let [far_low, low, high, far_high] = [-2.0, -1.0, 1.0, 2.0].map(|steps| properties(wall + steps * step));
    let (far_low, low, high, far_high) = (far_low?, low?, high?, far_high?);
    let rate = std::array::from_fn(|i| (far_low[i] - 8.0 * low[i] + 8.0 * high[i] - far_high[i]) / (12.0 * step));
    Some(SizeRate { properties: rate })
}
