//! D032: beside welds, where aluminium and cold-worked or heat-treated steel keep less than the parent's strength.

use strutwork_model::model::{BasisKind, Model, WeldProcess};
use strutwork_model::{Code, Severity, TubeId};
use strutwork_solve::results::SectionForces;

use super::beside_weld::{BesideWeld, Kept, beside_weld};
use super::margin;
use super::tube_walls::{acting, thickness, walls_of};
use super::welds::ends::joined;
use crate::calculation::{Pages, Silent, Sink, Unit};
use crate::code::Verdict;
use crate::code::haz::{self, Beside};
use crate::code::walls::Acting;
use crate::{Calculation, Finding, Judged, Subject};

/// The zone beside the welds at each end of a tube whose material is weaker there: the greatest stress from the end, where the
/// axes cross, to the weld and on as far as the zone reaches, against the strength that is left. Tubes that run through a joint
/// where others are welded on count too.
///
/// What it leaves out: brackets and other things welded on between joints; heat from two welds close together; what ageing
/// brings back. A material that does not say what it keeps is printed as outside scope.
///
/// # Source
/// See [`haz::check`] and [`haz::reach`].
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (tube, ends) in joined(judged.model).heated.iter_with_id() {
        for (at_to, heated) in [false, true].into_iter().zip(ends) {
            if let Some(to_weld) = *heated {
                in_all_cases(judged, tube, at_to, to_weld, &mut findings);
            }
        }
    }
    findings
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let Subject::End { tube, at_to } = finding.subject else { return None };
    let case = judged.results.cases.iter().position(|case| case.name == finding.case)?;
    let to_weld = joined(judged.model).heated[tube][usize::from(at_to)]?;
    let zone = Zone::of(judged.model, tube, at_to, to_weld)?;
    let mut pages = Pages::default();
    margin::write(judged, case, &mut pages);
    if let Kept::Less(factor) = zone.kept.kept
        && factor < 1.0
    {
        pages.remark(&format!(
            "Strengths beside the weld: those listed for MIG times {factor} for TIG, EN 1999-1-1 Table 3.2, note (from memory)."
        ));
    }
    let (at, acting) = zone.worst(judged, case);
    let length = judged.model.length(tube);
    let from_end = if at_to { (1.0 - at) * length } else { at * length };
    let put = [("x_w", zone.to_weld, Unit::MM), ("b_haz", zone.breadth, Unit::MM)];
    pages.given(
        "x_w",
        zone.to_weld,
        Unit::MM,
        "from the tube's end, where the axes cross, to the far side of the weld",
    );
    pages.given("b_haz", zone.breadth, Unit::MM, "reach of the zone from the weld");
    pages.step(
        "x_haz",
        "x_w + b_haz",
        &put,
        zone.reach(),
        Unit::MM,
        "so far from its end the tube is taken as weakened",
    );
    pages.given("x", from_end, Unit::MM, "where the stress is greatest within it, from the tube's end");
    let verdict = haz::check(&zone.beside, &acting, zone.gammas(judged, case), &mut pages);
    let title = format!("beside the weld of tube {}, case {}", finding.subject.name(judged.model), finding.case);
    Some(pages.finish(title, verdict.clause, haz::SOURCE, verdict.utilisation))
}

/// The zone at one end of a tube.
struct Zone {
    tube: TubeId,
    at_to: bool,
    beside: Beside,
    kept: BesideWeld,
    /// From the tube's end to the weld, and from there on as far as the zone reaches, m.
    to_weld: f64,
    breadth: f64,
}

impl Zone {
    /// `None` where nothing is weaker, or nothing is known.
    fn of(model: &Model, tube: TubeId, at_to: bool, to_weld: f64) -> Option<Self> {
        let kept = beside_weld(model, tube)?;
        let Kept::Less(_) = kept.kept else { return None };
        let section = &model.sections()[model.tubes()[tube].section];
        let beside = Beside {
            walls: walls_of(section)?,
            yield_stress: kept.strength.yield_stress,
            ultimate: kept.strength.ultimate,
            aluminium: !kept.steel,
        };
        let breadth = haz::reach(thickness(section)?, model.welds().process == WeldProcess::Tig);
        Some(Self { tube, at_to, beside, kept, to_weld, breadth })
    }

    fn reach(&self) -> f64 {
        self.to_weld + self.breadth
    }

    fn gammas(&self, judged: Judged<'_>, case: usize) -> [f64; 2] {
        let by_factors = judged.model.basis().kind == BasisKind::Eurocode;
        haz::gammas(self.beside.aluminium, by_factors, &judged.partial(case))
    }

    /// Where along the tube, 0 to 1, and what acts there, margin included, at the worst place within the zone: its two ends and
    /// every station between. At the zone's inner end forces are taken in a straight line between stations.
    fn worst(&self, judged: Judged<'_>, case: usize) -> (f64, Acting) {
        let stations = &judged.results.cases[case].tubes[self.tube].stations;
        let share = (self.reach() / judged.model.length(self.tube)).min(1.0);
        let edge = if self.at_to { 1.0 - share } else { share };
        let inside = |at: f64| if self.at_to { at >= edge } else { at <= edge };
        let margin = judged.margin(case);
        let own = stations.iter().filter(|station| inside(station.at)).map(|station| (station.at, station.forces));
        let between = stations.windows(2).filter(|pair| pair[0].at < edge && edge < pair[1].at).map(|pair| {
            let way = (edge - pair[0].at) / (pair[1].at - pair[0].at);
            (edge, mixed(&pair[0].forces, &pair[1].forces, way))
        });
        let gammas = self.gammas(judged, case);
        let used = |acting: &Acting| haz::check(&self.beside, acting, gammas, &mut Silent).utilisation;
        own.chain(between)
            .map(|(at, forces)| (at, acting(&forces, margin)))
            .reduce(|best, next| if used(&next.1) > used(&best.1) { next } else { best })
            .unwrap_or_default()
    }
}

/// Forces between two stations, in a straight line.
fn mixed(a: &SectionForces, b: &SectionForces, way: f64) -> SectionForces {
    let at = |a: f64, b: f64| a + way * (b - a);
    SectionForces {
        n: at(a.n, b.n),
        vy: at(a.vy, b.vy),
        vz: at(a.vz, b.vz),
        t: at(a.t, b.t),
        my: at(a.my, b.my),
        mz: at(a.mz, b.mz),
    }
}

fn in_all_cases(judged: Judged<'_>, tube: TubeId, at_to: bool, to_weld: f64, findings: &mut Vec<Finding>) {
    let model = judged.model;
    if beside_weld(model, tube).is_some_and(|kept| kept.kept == Kept::Unsaid) {
        findings.push(unsaid(model, tube, at_to));
    }
    let Some(zone) = Zone::of(model, tube, at_to, to_weld) else { return };
    let outcomes: Vec<(Acting, Verdict)> = (0..judged.results.cases.len())
        .map(|case| {
            let (_, acting) = zone.worst(judged, case);
            (acting, haz::check(&zone.beside, &acting, zone.gammas(judged, case), &mut Silent))
        })
        .collect();
    let used = |case: usize| outcomes[case].1.utilisation;
    let worst = (1..outcomes.len()).fold(0, |worst, case| if used(case) > used(worst) { case } else { worst });
    let subject = Subject::End { tube, at_to };
    for (case, (acting, verdict)) in outcomes.iter().enumerate() {
        let limit = zone.beside.limit(zone.gammas(judged, case));
        let stress = verdict.utilisation * limit;
        let over = verdict.utilisation > 1.0;
        let message = if over || case == worst {
            format!(
                "beside the weld, tube {} reaches {:.0} MPa, {} the {:.0} MPa that are allowed there",
                subject.name(model),
                Unit::MPA.of(stress),
                if over { "over" } else { "within" },
                Unit::MPA.of(limit)
            )
        } else {
            String::new()
        };
        findings.push(Finding {
            code: Code("D032"),
            severity: if over { Severity::Error } else { Severity::Note },
            case: judged.results.cases[case].name.clone(),
            subject,
            value: Unit::MPA.of(stress),
            limit: Some(Unit::MPA.of(limit)),
            unit: Unit::MPA.name,
            utilisation: Some(verdict.utilisation),
            clause: verdict.clause.to_owned(),
            entered: vec![
                ("N", acting.axial, Unit::N),
                ("V_y", acting.shear[0], Unit::N),
                ("V_z", acting.shear[1], Unit::N),
                ("T", acting.torque, Unit::NM),
                ("M_y", acting.moments[0], Unit::NM),
                ("M_z", acting.moments[1], Unit::NM),
                ("f_o,haz", zone.beside.yield_stress, Unit::MPA),
                ("f_u,haz", zone.beside.ultimate, Unit::MPA),
            ],
            message,
        });
    }
}

/// A material that does not say what it keeps: never a pass.
fn unsaid(model: &Model, tube: TubeId, at_to: bool) -> Finding {
    let subject = Subject::End { tube, at_to };
    let material = &model.materials()[model.tubes()[tube].material].name;
    Finding {
        code: Code("D032"),
        severity: Severity::Note,
        case: String::new(),
        subject,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: "outside scope: no strength beside the weld is known".to_owned(),
        entered: Vec::new(),
        message: format!(
            "beside the weld of tube {} no strength of the material {material} is known: cold-worked and heat-treated tube is \
             weaker there; give haz_yield_mpa and haz_ultimate_mpa, equal to yield_mpa and ultimate_mpa where nothing is lost",
            subject.name(model)
        ),
    }
}

#[cfg(test)]
mod tests;
