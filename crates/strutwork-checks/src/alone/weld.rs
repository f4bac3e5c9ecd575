//! A fillet all round the end of a tube by itself.

use strutwork_model::model::{Shape, Strength};

use super::{Missing, Part};
use crate::calculation::{Calculation, Pages, Sink};
use crate::code::Partial;
use crate::code::weld::{self, AtEnd, Fillet, Method, Outline, SOURCE, Sizes};
use crate::design::beside_weld::{Kept, UNSAID};

/// A fillet all round the end of a tube that stands on the wall of another one of the same material and at least the same
/// wall. The tube's height (along z) lies in the plane of the tube and the face's normal.
///
/// # Units and shapes
/// SI; `angle` between tube and face, rad, 0 < θ ≤ π/2; `throat` `None`: as thick as the wall; `acting` in design values.
///
/// # Errors
/// [`Missing`].
///
/// # Source
/// [`weld::check`], [`weld::outside`].
pub fn fillet(
    part: &Part<'_>,
    angle: f64,
    throat: Option<f64>,
    acting: &AtEnd,
    method: Method,
    partial: &Partial,
) -> Result<Calculation, Missing> {
    let kept = part.beside_weld()?;
    let Strength { yield_stress, ultimate } = kept.strength;
    let (outline, wall) = match part.section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => {
            (Outline::Rectangular { depth: height, width, corner: outer_radius }, wall)
        }
        Shape::Round { diameter, wall } => (Outline::Round { diameter }, wall),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => return Err(Missing::Shape),
    };
    let correlation = weld::correlation(yield_stress);
    let throat = throat.unwrap_or(wall);
    let made = Fillet { outline, angle, wall, throat, yield_stress, ultimate, correlation };
    let mut pages = Pages::default();
    let (verdict, found) = weld::check(&made, acting, method, partial, &mut pages);
    let full = weld::full_strength_throat(wall, yield_stress, ultimate, correlation, partial);
    let sizes =
        Sizes { wall, hollow: true, throat: Some(throat), length: found.line.length, angle, full_strength: Some(full) };
    for why in weld::outside(&sizes) {
        pages.outside(&why);
    }
    if !kept.steel {
        pages.outside("EN 1993-1-8 is for steel");
    }
    if kept.kept == Kept::Unsaid {
        pages.outside(UNSAID);
    }
    let title = format!("{}: fillet weld all round", part.label());
    Ok(pages.finish(title, verdict.clause, SOURCE, verdict.utilisation))
}
