//! A cross-section and a member of steel by themselves.

use super::{GIVEN, Missing, Part};
use crate::calculation::{Calculation, Pages, Sink, Unit};
use crate::code::class::Class;
use crate::code::member::{self, Along, Axis, Member};
use crate::code::profile::Forces;
use crate::code::section;
use crate::design::member::curve_of;
use crate::design::steel_tube::SteelTube;

/// The resistance of a cross-section to forces that act together, with its class under them.
///
/// # Units and shapes
/// SI; design values, tension positive, of the rest the magnitude counts; `gamma` is γ_M0.
///
/// # Errors
/// [`Missing`].
///
/// # Source
/// [`section::check`].
pub fn section(part: &Part<'_>, acting: &Forces, gamma: f64) -> Result<(Calculation, Class), Missing> {
    let steel = steel(part)?;
    let mut pages = Pages::default();
    if let Some(why) = steel.outside {
        pages.outside(why);
    }
    let acting = acting.with_margin(1.0, "none: the forces are design values", &mut pages);
    let verdict = section::check(&steel.section, &acting, gamma, &mut pages);
    let class = section::class_of(&steel.section.profile, &acting);
    let title = format!("{}: section", part.label());
    Ok((pages.finish(title, verdict.clause, section::SOURCE, verdict.utilisation), class))
}

/// A member in compression and bending between ends that do not shift.
///
/// # Units and shapes
/// SI; design values; `lengths` are L_cr for bending about y and z; `gamma` is γ_M1.
///
/// # Errors
/// [`Missing`].
///
/// # Source
/// [`member::check`].
pub fn member(part: &Part<'_>, along: &Along, lengths: [f64; 2], gamma: f64) -> Result<Calculation, Missing> {
    let steel = steel(part)?;
    let profile = &steel.section.profile;
    let mut pages = Pages::default();
    if let Some(why) = steel.outside {
        pages.outside(why);
    }
    pages.given("N_Ed", along.compression, Unit::N, "compression, given as design value");
    pages.given("M_y,Ed", along.moment[0], Unit::NM, GIVEN);
    pages.given("M_z,Ed", along.moment[1], Unit::NM, GIVEN);
    let axes = [0, 1].map(|axis| Axis::of_length(profile.youngs, profile.second[axis], lengths[axis], "given"));
    let curve = curve_of(part.section, profile.yield_stress);
    let member = Member { section: steel.section, axes, curve, is_sway: false };
    let verdict = member::check(&member, along, gamma, &mut pages);
    let title = format!("{}: buckling", part.label());
    Ok(pages.finish(title, verdict.clause, member::SOURCE, verdict.utilisation))
}

fn steel(part: &Part<'_>) -> Result<SteelTube, Missing> {
    part.material.strength.ok_or(Missing::Strength)?;
    SteelTube::made(part.section, part.material).ok_or(Missing::Shape)
}
