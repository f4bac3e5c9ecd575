//! What the formulas need of one weld, from the model and the results.

use strutwork_model::model::{BasisKind, Model, Section, WeldKind, WeldMethod};
use strutwork_solve::results::SectionForces;

use super::ends::{WeldedEnd, outline_of};
use crate::Judged;
use crate::calculation::{Sink, Unit};
use crate::code::elastic::{self, Allowed};
use crate::code::profile::Profile;
use crate::code::weld::{self, AtEnd, Fillet, Method, Sizes};
use crate::code::{Partial, Verdict, haz};
use crate::design::beside_weld::{BesideWeld, Kept, UNSAID, beside_weld};
use crate::design::margin;
use crate::design::steel_tube::{forces as forces_at, margin_source, profile_of};

const NOT_STEEL: &str = "EN 1993-1-8 is for steel; the strength of the filler that EN 1999-1-1 8.6.3 asks for is not part of the model, \
                         and the strength of the aluminium beside the weld stands for it";
const NO_WALL: &str = "the section that it is welded to is given by properties alone";
const THINNER: &str =
    "a butt weld is as strong as the weaker part, and the wall that it is welded to is thinner than the tube's";

/// A weld as the formulas take it.
#[derive(Debug, Clone, PartialEq)]
pub struct Inputs {
    /// The weld.
    pub made: Made,
    /// Whether the throat is an assumption.
    pub assumed: bool,
    /// Length all round, m.
    pub length: f64,
    /// Whether it is aluminium, which has its own partial factors.
    pub aluminium: bool,
    /// Throat as strong as the tube's wall, m; `None` for a butt weld, round a bar, and for aluminium.
    pub full_strength_throat: Option<f64>,
    /// Why the code does not cover it.
    pub outside: Vec<String>,
}

/// Its kind, with its numbers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Made {
    /// A fillet.
    Fillet(Fillet, Method),
    /// A butt weld of full penetration: the tube's section, with the yield strength of the weaker part.
    Butt(Profile),
}

/// What a check of a weld says in one case.
pub(super) struct Outcome {
    pub(super) verdict: Verdict,
    /// What governs and its limit, SI.
    pub(super) value: f64,
    pub(super) limit: f64,
    pub(super) unit: Unit,
    pub(super) entered: Vec<(&'static str, f64, Unit)>,
}

impl Inputs {
    /// Of one end.
    ///
    /// # Errors
    /// Why there is nothing to judge by.
    pub fn of(model: &Model, end: &WeldedEnd) -> Result<Self, &'static str> {
        let section_of = |tube| &model.sections()[model.tubes()[tube].section];
        let section = section_of(end.tube);
        let host_section = section_of(end.host);
        let outline = outline_of(section, end).ok_or("its section is given by properties alone")?;
        let parts = [end.tube, end.host].map(|tube| beside_weld(model, tube));
        let [Some(own), Some(host)] = parts else { return Err("a material that it joins has no strength") };
        let aluminium = !own.steel || !host.steel;
        let weld = model.weld(end.tube);
        let length = outline.line(end.angle).length;
        let made = match weld.kind {
            WeldKind::Butt => {
                let yield_stress = own.strength.yield_stress.min(host.strength.yield_stress);
                let youngs = model.materials()[model.tubes()[end.tube].material].youngs;
                let profile = profile_of(section, yield_stress, youngs);
                Made::Butt(profile.ok_or("its section is given by properties alone")?)
            }
            WeldKind::Fillet => {
                let throat = weld.throat.ok_or(
                    "no throat is given for a weld round a bar: write throat_mm under [welds] or [welds.groups.NAME]",
                )?;
                let (ultimate, correlation) = weaker(&own, &host, aluminium);
                let fillet = Fillet {
                    outline,
                    angle: end.angle,
                    wall: section.wall().unwrap_or(0.0),
                    throat,
                    yield_stress: own.strength.yield_stress,
                    ultimate,
                    correlation,
                };
                let method = match model.welds().method {
                    WeldMethod::Directional => Method::Directional,
                    WeldMethod::Simplified => Method::Simplified,
                };
                Made::Fillet(fillet, method)
            }
        };
        let full_strength = match made {
            Made::Fillet(f, _) if f.wall > 0.0 && !aluminium => {
                let partial = factors(model);
                Some(weld::full_strength_throat(f.wall, f.yield_stress, f.ultimate, f.correlation, &partial))
            }
            Made::Fillet(..) | Made::Butt(_) => None,
        };
        let walls = [section, host_section].map(Section::thickness);
        let mut outside = weld::outside(&Sizes {
            wall: walls.into_iter().flatten().fold(f64::INFINITY, f64::min),
            hollow: section.wall().is_some() && host_section.wall().is_some(),
            throat: weld.throat.filter(|_| weld.kind == WeldKind::Fillet),
            length,
            angle: end.angle,
            full_strength: full_strength.filter(|_| end.on_wall && host_section.wall().is_some()),
        });
        let unsaid = own.kept == Kept::Unsaid || host.kept == Kept::Unsaid;
        let thinner = weld.kind == WeldKind::Butt && walls[1] < walls[0];
        let reasons = [
            (walls[1].is_none(), NO_WALL),
            (thinner && walls[1].is_some(), THINNER),
            (aluminium, NOT_STEEL),
            (unsaid, UNSAID),
        ];
        for (holds, why) in reasons {
            if holds {
                outside.push(why.to_owned());
            }
        }
        let assumed = weld.kind == WeldKind::Fillet && !weld.given;
        Ok(Self { made, assumed, length, aluminium, full_strength_throat: full_strength, outside })
    }

    pub(super) fn outcome(&self, judged: Judged<'_>, end: &WeldedEnd, case: usize, sink: &mut impl Sink) -> Outcome {
        let stations = &judged.results.cases[case].tubes[end.tube].stations;
        let station = &stations[if end.at_to { stations.len() - 1 } else { 0 }];
        let margin = judged.margin(case);
        let partial = self.partial(judged, case);
        match &self.made {
            Made::Fillet(fillet, method) => {
                if sink.writes() {
                    margin::write(judged, case, sink);
                }
                let at_end = turned(&station.forces, margin, end);
                let (verdict, found) = weld::check(fillet, &at_end, *method, &partial, sink);
                let (limit, unit) = match method {
                    Method::Directional => (found.governing_limit(), Unit::MPA),
                    Method::Simplified => (found.strength, Unit::N_PER_MM),
                };
                let entered = vec![
                    ("N", at_end.axial, Unit::N),
                    ("V_ip", at_end.shear[0], Unit::N),
                    ("V_op", at_end.shear[1], Unit::N),
                    ("T", at_end.torque, Unit::NM),
                    ("M_ip", at_end.moments[0], Unit::NM),
                    ("M_op", at_end.moments[1], Unit::NM),
                    ("θ", fillet.angle, Unit::DEG),
                    ("a", fillet.throat, Unit::MM),
                    ("L", self.length, Unit::MM),
                    ("f_u", fillet.ultimate, Unit::MPA),
                ];
                Outcome { verdict, value: verdict.utilisation * limit, limit, unit, entered }
            }
            Made::Butt(profile) => {
                let acting = forces_at(station);
                let why = if sink.writes() { margin_source(judged, case) } else { String::new() };
                let allowed = Allowed {
                    yield_stress: profile.yield_stress,
                    what: "yield strength of the weaker part, beside the weld",
                    gamma: partial.m0,
                    margin,
                    why: &why,
                };
                let found = elastic::check(profile, &acting, &allowed, sink);
                let entered = vec![
                    ("N", acting.n, Unit::N),
                    ("V_y", acting.shear[0], Unit::N),
                    ("V_z", acting.shear[1], Unit::N),
                    ("T", acting.torque, Unit::NM),
                    ("M_y", acting.moment[0], Unit::NM),
                    ("M_z", acting.moment[1], Unit::NM),
                    ("f_y", profile.yield_stress, Unit::MPA),
                    ("margin", margin, Unit::ONE),
                ];
                let verdict = Verdict::of(found.utilisation, weld::BUTT_CLAUSE);
                Outcome { verdict, value: found.von_mises, limit: allowed.stress(), unit: Unit::MPA, entered }
            }
        }
    }

    /// Partial factors of the case, those of aluminium where it is aluminium.
    fn partial(&self, judged: Judged<'_>, case: usize) -> Partial {
        let partial = judged.partial(case);
        let by_factors = judged.model.basis().kind == BasisKind::Eurocode;
        let [m0, m2] = haz::gammas(self.aluminium, by_factors, &partial);
        Partial { m0, m2, ..partial }
    }
}

/// The factors that full strength is told with: those of `[basis]`, the recommended ones where a margin stands for them.
fn factors(model: &Model) -> Partial {
    let basis = model.basis();
    match basis.kind {
        BasisKind::Vehicle => Partial::RECOMMENDED,
        BasisKind::Eurocode => Partial { m0: basis.gamma_m0.value, m2: basis.gamma_m2.value, ..Partial::RECOMMENDED },
    }
}

/// f_u and β_w of the weaker part: the one of lower f_u, of equals the one of higher β_w. Table 4.1 goes by the grade, so by
/// the parent's yield strength. Aluminium has no β_w.
fn weaker(own: &BesideWeld, host: &BesideWeld, aluminium: bool) -> (f64, f64) {
    let [a, b] = [own, host].map(|part| {
        let correlation = if aluminium { 1.0 } else { weld::correlation(part.parent.yield_stress) };
        (part.strength.ultimate, correlation)
    });
    if a.0 < b.0 || (a.0 == b.0 && a.1 >= b.1) { a } else { b }
}

/// Section forces at the end, turned into the plane of tube and face normal, times the margin.
fn turned(forces: &SectionForces, margin: f64, end: &WeldedEnd) -> AtEnd {
    let along = |[y, z]: [f64; 2], [a, b]: [f64; 2]| margin * (y * a + z * b);
    let shear = [forces.vy, forces.vz];
    let moments = [forces.my, forces.mz];
    AtEnd {
        axial: margin * forces.n,
        shear: [along(shear, end.in_plane), along(shear, end.across)],
        torque: margin * forces.t,
        moments: [along(moments, end.across), along(moments, end.in_plane)],
    }
}
