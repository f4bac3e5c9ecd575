//! A section and its steel by their sizes; a printed property takes the place of the calculated one.

use strutwork_checks::code::profile::Profile;
use strutwork_checks::design::steel_tube::profile_of;
use strutwork_model::model::Section;

use super::{MM, MM2, MM3, MM4, MPA};
use crate::fault::CaseFault;
use crate::read::Entry;

/// Young's modulus of steel, Pa: EN 1993-1-1 3.2.6 (from memory).
pub(super) const STEEL: f64 = 210e9;

/// Reads a tube: `h_mm`, `b_mm`, `t_mm`, optional `r_mm` (outer corner radius), or `d_mm`, `t_mm`; `fy_mpa`; printed
/// properties.
pub(super) fn read(entry: &mut Entry) -> Result<Profile, CaseFault> {
    let section = section(entry, "")?;
    let yield_stress = entry.number("fy_mpa")? * MPA;
    let mut profile = profile_of(&section, yield_stress, STEEL).ok_or_else(|| entry.missing("t_mm"))?;
    let mut put = |key: &'static str, size: f64, place: &mut f64| -> Result<(), CaseFault> {
        if let Some(value) = entry.maybe(key)? {
            *place = value * size;
        }
        Ok(())
    };
    put("area_mm2", MM2, &mut profile.area)?;
    for (axis, [second, elastic, plastic]) in
        [["iy_mm4", "wel_y_mm3", "wpl_y_mm3"], ["iz_mm4", "wel_z_mm3", "wpl_z_mm3"]].into_iter().enumerate()
    {
        put(second, MM4, &mut profile.second[axis])?;
        put(elastic, MM3, &mut profile.elastic[axis])?;
        put(plastic, MM3, &mut profile.plastic[axis])?;
    }
    Ok(profile)
}

/// Reads a tube's sizes; `tail` is what stands behind each letter: `h0_mm` for `0`.
pub(super) fn section(entry: &mut Entry, tail: &'static str) -> Result<Section, CaseFault> {
    let keys = match tail {
        "0" => ["d0_mm", "t0_mm", "h0_mm", "b0_mm", "r0_mm"],
        "1" => ["d1_mm", "t1_mm", "h1_mm", "b1_mm", "r1_mm"],
        "2" => ["d2_mm", "t2_mm", "h2_mm", "b2_mm", "r2_mm"],
        _ => ["d_mm", "t_mm", "h_mm", "b_mm", "r_mm"],
    };
    let [d, t, h, b, r] = keys;
    let wall = entry.number(t)? * MM;
    let made = if let Some(diameter) = entry.maybe(d)? {
        Section::round("tube", diameter * MM, wall)
    } else {
        let (height, width) = (entry.number(h)? * MM, entry.number(b)? * MM);
        Section::hollow("tube", height, width, wall, entry.maybe(r)?.map(|radius| radius * MM))
    };
    made.map_err(|_| entry.missing(t))
}
