//! Cross-sections, members, buckling curves.

use strutwork_checks::Calculation;
use strutwork_checks::calculation::{Pages, Sink, Unit};
use strutwork_checks::code::member::{self, Along, Axis, Curve, Diagram, Member, reduction};
use strutwork_checks::code::profile::Forces;
use strutwork_checks::code::section::{self, CrossSection};

use super::{MM, profile};
use crate::fault::CaseFault;
use crate::read::Entry;

const CURVES: [(Curve, &str); 3] = [(Curve::A0, "a0"), (Curve::A, "a"), (Curve::C, "c")];

/// χ of a slenderness: `curve`, `slenderness`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct CurveAsked {
    curve: Curve,
    slenderness: f64,
}

impl CurveAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        Ok(Self { curve: entry.one_of("curve", &CURVES)?, slenderness: entry.number("slenderness")? })
    }

    pub(super) fn page(&self) -> Calculation {
        let [phi, chi] = reduction(self.curve, self.slenderness);
        let mut pages = Pages::default();
        pages.given("λ̄", self.slenderness, Unit::ONE, "");
        pages.given("Φ", phi, Unit::ONE, "");
        pages.given("χ", chi, Unit::ONE, "");
        pages.finish("Buckling curve", "EN 1993-1-1 6.3.1.2", member::SOURCE, chi)
    }
}

/// A cross-section: its tube, `gamma_m0`, and what acts: `n_n` (tension positive), `my_nm`, `mz_nm`, `vy_n`, `vz_n`, `t_nm`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SectionAsked {
    section: CrossSection,
    acting: Forces,
    gamma: f64,
}

impl SectionAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let section = CrossSection::new(profile::read(entry)?);
        let mut force = |key| Ok::<_, CaseFault>(entry.maybe(key)?.unwrap_or(0.0));
        let acting = Forces {
            n: force("n_n")?,
            moment: [force("my_nm")?, force("mz_nm")?],
            shear: [force("vy_n")?, force("vz_n")?],
            torque: force("t_nm")?,
        };
        Ok(Self { section, acting, gamma: entry.number("gamma_m0")? })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let verdict = section::check(&self.section, &self.acting, self.gamma, &mut pages);
        pages.finish("Cross-section", verdict.clause, section::SOURCE, verdict.utilisation)
    }
}

/// A member: its tube, `curve`, `gamma_m1`, `lcr_y_mm`, `lcr_z_mm`, `n_n` (compression positive), and the moments of both
/// ends about each axis, `my_nm` and `mz_nm`, with that of the span where it is loaded, `my_span_nm`, `mz_span_nm`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct MemberAsked {
    member: Member,
    along: Along,
    gamma: f64,
}

impl MemberAsked {
    pub(super) fn read(entry: &mut Entry) -> Result<Self, CaseFault> {
        let profile = profile::read(entry)?;
        let lengths = [entry.number("lcr_y_mm")? * MM, entry.number("lcr_z_mm")? * MM];
        let member = Member {
            section: CrossSection::new(profile),
            axes: [0, 1]
                .map(|axis| Axis::of_length(profile.youngs, profile.second[axis], lengths[axis], "buckling length")),
            curve: entry.one_of("curve", &CURVES)?,
            is_sway: false,
        };
        let mut diagram = |ends: &'static str, span: &'static str| -> Result<Diagram, CaseFault> {
            let ends = if entry.has(ends) { entry.numbers(ends)? } else { [0.0; 2] };
            Ok(Diagram { ends, span: entry.maybe(span)?, is_concentrated: false })
        };
        let diagrams = [diagram("my_nm", "my_span_nm")?, diagram("mz_nm", "mz_span_nm")?];
        let moment = diagrams.map(|diagram| {
            diagram.ends.into_iter().chain(diagram.span).fold(0.0, |most: f64, moment| most.max(moment.abs()))
        });
        let along = Along { compression: entry.number("n_n")?, moment, diagrams };
        Ok(Self { member, along, gamma: entry.number("gamma_m1")? })
    }

    pub(super) fn page(&self) -> Calculation {
        let mut pages = Pages::default();
        let verdict = member::check(&self.member, &self.along, self.gamma, &mut pages);
        pages.finish("Member", verdict.clause, member::SOURCE, verdict.utilisation)
    }
}
