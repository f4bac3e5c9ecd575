//! A bolt by itself.

use strutwork_model::bolts::{BoltClass, BoltSize};
use strutwork_model::model::normal_clearance;
use strutwork_model::units::{MM, MM2, MPA};

use crate::calculation::{Calculation, Pages, Sink, Unit};
use crate::code::Partial;
use crate::code::bolt::{self, Acting, Bolt, BoltVerdict, Ply, SOURCE, Through};

/// A plate that a bolt goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// m.
    pub thickness: f64,
    /// f_u, Pa.
    pub ultimate: f64,
    /// From the middle of the hole to the nearest edge, m; `None` where not given.
    pub edge: Option<f64>,
}

/// A bolt in a normal round hole under tension and shear, in one shear plane through its thread; without a plate nothing is
/// said of bearing and pulling through, and the page says so.
///
/// # Units and shapes
/// SI; `acting` in design values.
///
/// # Assumes
/// A plate of steel.
///
/// # Source
/// [`bolt::check`].
pub fn bolt(
    size: &BoltSize,
    class: &BoltClass,
    plate: Option<Plate>,
    acting: Acting,
    partial: Partial,
) -> (Calculation, BoltVerdict) {
    let diameter = size.diameter_mm * MM;
    let made = Bolt {
        diameter,
        hole: diameter + normal_clearance(diameter),
        stress_area: size.stress_area_mm2 * MM2,
        flats: size.flats_mm * MM,
        points: size.points_mm * MM,
        yield_stress: class.yield_mpa * MPA,
        ultimate: class.ultimate_mpa * MPA,
        thread_in_shear: class.thread_in_shear,
        shank_in_shear: false,
        planes: 1,
        countersunk: false,
        inch: size.inch,
        class_in_code: class.in_code,
    };
    let through = match plate {
        None => Through::Unknown("bearing and pull-through: what the bolt clamps is not given"),
        Some(Plate { thickness, ultimate, edge }) => {
            Through::Plate(Ply { thickness, ultimate, edges: edge.map(|edge| [edge; 2]), steel: true })
        }
    };
    let mut pages = Pages::default();
    match acting {
        Acting::Split { tension, shear } => {
            pages.given("F_v,Ed", shear, Unit::N, "across the bolt, given as design value");
            pages.given("F_t,Ed", tension, Unit::N, "along the bolt, given as design value");
        }
        Acting::Whole(force) => pages.given("F_Ed", force, Unit::N, "in its worst direction, given as design value"),
    }
    let verdict = bolt::check(&mut pages, &made, &through, acting, partial);
    let title = format!("Bolt {} {}", size.name, class.name);
    (pages.finish(title, verdict.mode.clause(), SOURCE, verdict.utilisation), verdict)
}
