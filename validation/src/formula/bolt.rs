//! Bolts through a plate.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::Partial;
use strutwork_checks::code::bolt::{Acting, Bolt, Ply, SOURCE, Through, check};

use super::{MM, MM2, MPA};
use crate::fault::CaseFault;
use crate::read::Entry;

/// A bolt: `d_mm`, `d0_mm`, `area_mm2` (A_s), `fyb_mpa`, `fub_mpa`, `alpha_v`, optional `planes` and `countersunk`; the plate:
/// `t_mm`, `fu_mpa`, `e1_mm`, `e2_mm`; `gamma_m2`; what acts: optional `shear_n`, `tension_n`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct BoltAsked {
    bolt: Bolt,
    ply: Ply,
    acting: Acting,
    partial: Partial,
}

impl BoltAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let diameter = entry.number("d_mm")? * MM;
        let flats = 1.5 * diameter;
        let planes = entry.maybe("planes")?.unwrap_or(1.0);
        if planes != 1.0 && planes != 2.0 {
            return Err(entry.missing("planes"));
        }
        let bolt = Bolt {
            diameter,
            hole: entry.number("d0_mm")? * MM,
            stress_area: entry.number("area_mm2")? * MM2,
            // Of a usual head: no printed value here rests on it.
            flats,
            points: flats * 2.0 / 3.0_f64.sqrt(),
            yield_stress: entry.number("fyb_mpa")? * MPA,
            ultimate: entry.number("fub_mpa")? * MPA,
            thread_in_shear: entry.number("alpha_v")?,
            shank_in_shear: false,
            planes: if planes == 1.0 { 1 } else { 2 },
            countersunk: entry.has("countersunk") && entry.truth("countersunk")?,
            inch: false,
            class_in_code: true,
        };
        let ply = Ply {
            thickness: entry.number("t_mm")? * MM,
            ultimate: entry.number("fu_mpa")? * MPA,
            edges: Some([entry.number("e1_mm")? * MM, entry.number("e2_mm")? * MM]),
            steel: true,
        };
        let mut force = |key| Ok::<_, CaseFault>(entry.maybe(key)?.unwrap_or(0.0));
        let acting = Acting::Split { tension: force("tension_n")?, shear: force("shear_n")? };
        Ok(Self { bolt, ply, acting, partial: Partial { m2: entry.number("gamma_m2")?, ..Partial::NONE } })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let found = check(&mut pages, &self.bolt, &Through::Plate(self.ply), self.acting, self.partial);
        pages.finish("Bolt", found.mode.clause(), SOURCE, found.utilisation)
    }
}
