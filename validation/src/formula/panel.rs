//! Panels that buckle in shear.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::panel::{Skin, buckling};

use super::{MM, MPA};
use crate::fault::CaseFault;
use crate::read::Entry;

/// A panel: `a_mm` (the longer side), `b_mm`, `t_mm`, `e_mpa`, `g_mpa`, and the shear flow, `q_n_per_mm`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct PanelAsked {
    skin: Skin,
    flow: f64,
}

impl PanelAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let skin = Skin {
            thickness: entry.number("t_mm")? * MM,
            sides: [entry.number("a_mm")? * MM, entry.number("b_mm")? * MM],
            youngs: entry.number("e_mpa")? * MPA,
            shear: entry.number("g_mpa")? * MPA,
        };
        Ok(Self { skin, flow: entry.number("q_n_per_mm")? / MM })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let held = buckling(self.flow, &self.skin, &mut pages);
        pages.finish("Panel", "shear buckling", "Timoshenko & Gere (1961), §9.7", held.utilisation)
    }
}
