//! A brace on a chord by itself.

use strutwork_model::model::{Route, Section, Shape};

use super::{Missing, Part};
use crate::calculation::{Calculation, Pages, Sink};
use crate::code::joint::{
    self, Acting, Balance, Brace, Chord, ChordForces, Kind, Outcome, Outline, SOURCE, moments_outside,
};
use crate::design::beside_weld::{Kept, UNSAID};

/// How a brace stands on its chord. Heights (along z) lie in the plane of both.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Met {
    /// θ between brace and chord, rad, 0 < θ ≤ π/2.
    pub angle: f64,
    /// What balances its force.
    pub way: Way,
}

/// What balances a brace's force: for K and N joints a second brace of the same section and material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Way {
    /// The chord's shear: T or Y joint.
    Chord,
    /// A brace on the chord's other side: X joint.
    Across,
    /// A brace beside it, at this angle (rad), with this gap between the toes, m.
    Gap {
        /// θ of the other brace.
        angle: f64,
        /// g.
        gap: f64,
    },
    /// A brace beside it, at this angle (rad), on which it stands with this share of its footprint.
    Overlap {
        /// θ of the other brace.
        angle: f64,
        /// λ_ov/100.
        share: f64,
    },
}

/// A brace on a chord under its force and moments.
///
/// # Units and shapes
/// SI; `acting` in design values, its margin is left out of account; `gamma` is γ_M5.
///
/// # Errors
/// [`Missing`].
///
/// # Source
/// [`joint::check`]; the place where the axes cross: geometry.
pub fn joint(
    chord: &Part<'_>,
    brace: &Part<'_>,
    met: &Met,
    acting: &Acting,
    gamma: f64,
) -> Result<(Calculation, Outcome), Missing> {
    let kept = [chord.beside_weld()?, brace.beside_weld()?];
    let [chord_yield, brace_yield] = kept.map(|kept| kept.strength.yield_stress);
    let (outline, wall) = outline(chord.section)?;
    let hot = chord.section.route == Some(Route::HotFinished);
    let carrier = Chord {
        outline,
        wall,
        yield_stress: chord_yield,
        youngs: chord.material.youngs,
        area: chord.section.area,
        imperfection: if hot { 0.21 } else { 0.49 },
        stress_ratio: 0.0,
    };
    let branch = branch(brace.section, brace_yield, met.angle)?;
    let kind = kind(&carrier, &branch, met.way);
    let acting = Acting { margin: 1.0, ..*acting };
    let mut pages = Pages::default();
    pages.remark(&format!("Chord {}, brace {}: {}.", chord.label(), brace.label(), kind.word(met.angle)));
    let balance = Balance { ways: &[(1.0, kind)], across: kind == Kind::X };
    let outcome = joint::check(&carrier, &branch, balance, &acting, gamma, &mut pages);
    let carrier = Chord { stress_ratio: outcome.stress_ratio, ..carrier };
    let branch = Brace { compressed: acting.axial < 0.0, ..branch };
    let [_, in_plane, out_of_plane] = outcome.parts;
    let reasons = joint::outside(&carrier, &branch, kind);
    for why in reasons.into_iter().chain(moments_outside(&carrier, &branch, [in_plane, out_of_plane])) {
        pages.outside(&why);
    }
    if kept.iter().any(|kept| kept.kept == Kept::Unsaid) {
        pages.outside(UNSAID);
    }
    if !(190e9..=220e9).contains(&brace.material.youngs) {
        pages.outside("the brace is not of steel");
    }
    let title = format!("{} on {}: joint", brace.section.label, chord.section.label);
    let clause = kind.clause(carrier.outline, branch.outline);
    Ok((pages.finish(title, clause, SOURCE, outcome.utilisation), outcome))
}

/// Forces of a chord of this section at the joint, for [`Acting`]: N (tension positive), M_y and M_z.
///
/// # Errors
/// [`Missing::Shape`].
pub fn chord_forces(section: &Section, axial: f64, moments: [f64; 2]) -> Result<ChordForces, Missing> {
    let elastic = [section.wel_y.ok_or(Missing::Shape)?, section.wel_z.ok_or(Missing::Shape)?];
    Ok(ChordForces { axial, moments, elastic, round: matches!(section.shape, Shape::Round { .. }) })
}

fn outline(section: &Section) -> Result<(Outline, f64), Missing> {
    match section.shape {
        Shape::Hollow { height, width, wall, .. } => Ok((Outline::Rectangular { depth: height, width }, wall)),
        Shape::Round { diameter, wall } => Ok((Outline::Round { diameter }, wall)),
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => Err(Missing::Shape),
    }
}

fn branch(section: &Section, yield_stress: f64, angle: f64) -> Result<Brace, Missing> {
    let (outline, wall) = outline(section)?;
    let both = |y: Option<f64>, z: Option<f64>| y.zip(z).map(|(y, z)| [y, z]).ok_or(Missing::Shape);
    Ok(Brace {
        outline,
        wall,
        yield_stress,
        area: section.area,
        plastic: both(section.wpl_y, section.wpl_z)?,
        elastic: both(section.wel_y, section.wel_z)?,
        angle,
        compressed: false,
    })
}

/// The joint that both make; e counts down from the chord's axis to where the axes of both braces cross.
fn kind(chord: &Chord, brace: &Brace, way: Way) -> Kind {
    let (gap, angle) = match way {
        Way::Chord => return Kind::Y,
        Way::Across => return Kind::X,
        Way::Gap { angle, gap } => (gap, angle),
        Way::Overlap { angle, share } => (-share * brace.outline.depth() / brace.angle.sin(), angle),
    };
    let partner = Brace { angle, ..*brace }.as_partner();
    let half = |angle: f64| brace.outline.depth() / (2.0 * angle.sin());
    let apart = half(brace.angle) + half(angle) + gap;
    let leans = 1.0 / brace.angle.tan() + 1.0 / angle.tan();
    let eccentricity = apart / leans - chord.outline.depth() / 2.0;
    match way {
        Way::Overlap { share, .. } => Kind::Overlap { partner, share, on_top: true, eccentricity },
        _ => Kind::Gap { partner, gap, eccentricity },
    }
}
