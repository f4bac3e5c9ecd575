//! Fillets all round a tube's end.

use std::f64::consts::FRAC_PI_2;

use strutwork_checks::Calculation;
use strutwork_checks::calculation::Pages;
use strutwork_checks::code::Partial;
use strutwork_checks::code::weld::{AtEnd, Fillet, Method, Outline, SOURCE, check};

use super::{MM, MPA};
use crate::fault::CaseFault;
use crate::read::Entry;

/// A weld: `h_mm`, `b_mm`, optional `r_mm`, or `d_mm`; `t_mm`, `theta_deg`, `a_mm`, `fy_mpa`, `fu_mpa`, `beta_w`, `gamma_m2`,
/// `method` (`directional simplified`); what acts: `n_n`, `v_ip_n`, `v_op_n`, `t_nm`, `m_ip_nm`, `m_op_nm`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct WeldAsked {
    weld: Fillet,
    acting: AtEnd,
    method: Method,
    partial: Partial,
}

impl WeldAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let outline = if let Some(diameter) = entry.maybe("d_mm")? {
            Outline::Round { diameter: diameter * MM }
        } else {
            Outline::Rectangular {
                depth: entry.number("h_mm")? * MM,
                width: entry.number("b_mm")? * MM,
                corner: entry.maybe("r_mm")?.unwrap_or(0.0) * MM,
            }
        };
        let degrees = entry.number("theta_deg")?;
        let weld = Fillet {
            outline,
            // A right angle has no cosine at all.
            angle: if degrees == 90.0 { FRAC_PI_2 } else { degrees.to_radians() },
            wall: entry.number("t_mm")? * MM,
            throat: entry.number("a_mm")? * MM,
            yield_stress: entry.number("fy_mpa")? * MPA,
            ultimate: entry.number("fu_mpa")? * MPA,
            correlation: entry.number("beta_w")?,
        };
        let mut force = |key| Ok::<_, CaseFault>(entry.maybe(key)?.unwrap_or(0.0));
        let acting = AtEnd {
            axial: force("n_n")?,
            shear: [force("v_ip_n")?, force("v_op_n")?],
            torque: force("t_nm")?,
            moments: [force("m_ip_nm")?, force("m_op_nm")?],
        };
        let methods = [(Method::Directional, "directional"), (Method::Simplified, "simplified")];
        let method = entry.one_of("method", &methods)?;
        Ok(Self { weld, acting, method, partial: Partial { m2: entry.number("gamma_m2")?, ..Partial::NONE } })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let (verdict, _) = check(&self.weld, &self.acting, self.method, &self.partial, &mut pages);
        pages.finish("Weld", verdict.clause, SOURCE, verdict.utilisation)
    }
}
