//! D032: beside welds, where aluminium and cold-worked or heat-treated steel keep less than the parent's strength.

use strutwork_model::model::{BasisKind, Model, WeldProcess};
use strutwork_model::{Code, Severity, TubeId};

use super::beside_weld::{BesideWeld, Kept, beside_weld};
use super::steel_tube::{case_of, forces, margin_source, profile_of};
use super::welds::ends::joined;
use crate::calculation::{Pages, Silent, Sink, Unit};
use crate::code::Verdict;
use crate::code::haz::{self, Beside, Held};
use crate::code::profile::Forces;
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
    let case = case_of(judged, finding)?;
    let to_weld = joined(judged.model).heated[tube][usize::from(at_to)]?;
    let zone = Zone::of(judged.model, tube, at_to, to_weld)?;
    let mut pages = Pages::default();
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
    let why = margin_source(judged, case);
    let (verdict, _) = haz::check(&zone.beside, &acting, &zone.held(judged, case, &why), &mut pages);
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
        let row = &model.tubes()[tube];
        let (section, material) = (&model.sections()[row.section], &model.materials()[row.material]);
        let beside = Beside {
            profile: profile_of(section, kept.strength.yield_stress, material.youngs)?,
            yield_stress: kept.strength.yield_stress,
            ultimate: kept.strength.ultimate,
            aluminium: !kept.steel,
        };
        let breadth = haz::reach(section.thickness()?, model.welds().process == WeldProcess::Tig);
        Some(Self { tube, at_to, beside, kept, to_weld, breadth })
    }

    fn reach(&self) -> f64 {
        self.to_weld + self.breadth
    }

    fn held<'a>(&self, judged: Judged<'_>, case: usize, why: &'a str) -> Held<'a> {
        let by_factors = judged.model.basis().kind == BasisKind::Eurocode;
        let gammas = haz::gammas(self.beside.aluminium, by_factors, &judged.partial(case));
        Held { gammas, margin: judged.margin(case), why }
    }

    /// Where along the tube, 0 to 1, and what acts there, at the worst place within the zone: its two ends and
    /// every station between. At the zone's inner end forces are taken in a straight line between stations.
    fn worst(&self, judged: Judged<'_>, case: usize) -> (f64, Forces) {
        let stations = &judged.results.cases[case].tubes[self.tube].stations;
        let share = (self.reach() / judged.model.length(self.tube)).min(1.0);
        let edge = if self.at_to { 1.0 - share } else { share };
        let inside = |at: f64| if self.at_to { at >= edge } else { at <= edge };
        let own = stations.iter().filter(|station| inside(station.at)).map(|station| (station.at, forces(station)));
        let between = stations.windows(2).filter(|pair| pair[0].at < edge && edge < pair[1].at).map(|pair| {
            let way = (edge - pair[0].at) / (pair[1].at - pair[0].at);
            (edge, mixed(&forces(&pair[0]), &forces(&pair[1]), way))
        });
        let held = self.held(judged, case, "");
        let used = |acting: &Forces| haz::check(&self.beside, acting, &held, &mut Silent).1;
        own.chain(between)
            .reduce(|best, next| if used(&next.1) > used(&best.1) { next } else { best })
            .unwrap_or_default()
    }
}

/// Forces between two stations, in a straight line.
fn mixed(a: &Forces, b: &Forces, way: f64) -> Forces {
    let at = |a: f64, b: f64| a + way * (b - a);
    let pair = |a: [f64; 2], b: [f64; 2]| [0, 1].map(|axis| at(a[axis], b[axis]));
    Forces {
        n: at(a.n, b.n),
        moment: pair(a.moment, b.moment),
        shear: pair(a.shear, b.shear),
        torque: at(a.torque, b.torque),
    }
}

fn in_all_cases(judged: Judged<'_>, tube: TubeId, at_to: bool, to_weld: f64, findings: &mut Vec<Finding>) {
    let model = judged.model;
    if beside_weld(model, tube).is_some_and(|kept| kept.kept == Kept::Unsaid) {
        findings.push(unsaid(model, tube, at_to));
    }
    let Some(zone) = Zone::of(model, tube, at_to, to_weld) else { return };
    let outcomes: Vec<(Forces, (Verdict, f64))> = (0..judged.results.cases.len())
        .map(|case| {
            let (_, acting) = zone.worst(judged, case);
            (acting, haz::check(&zone.beside, &acting, &zone.held(judged, case, ""), &mut Silent))
        })
        .collect();
    let used = |case: usize| outcomes[case].1.0.utilisation;
    let worst = (1..outcomes.len()).fold(0, |worst, case| if used(case) > used(worst) { case } else { worst });
    let subject = Subject::End { tube, at_to };
    for (case, (acting, (verdict, stress))) in outcomes.iter().enumerate() {
        let [yields, breaks] = zone.beside.limits(&zone.held(judged, case, ""));
        let limit = yields.min(breaks);
        let over = verdict.utilisation > 1.0;
        let message = if over || case == worst {
            format!(
                "beside the weld, tube {} reaches {:.0} MPa, {} the {:.0} MPa that are allowed there",
                subject.name(model),
                Unit::MPA.of(*stress),
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
            value: Unit::MPA.of(*stress),
            limit: Some(Unit::MPA.of(limit)),
            unit: Unit::MPA.name,
            utilisation: Some(verdict.utilisation),
            clause: verdict.clause.to_owned(),
            entered: vec![
                ("N", acting.n, Unit::N),
                ("V_y", acting.shear[0], Unit::N),
                ("V_z", acting.shear[1], Unit::N),
                ("T", acting.torque, Unit::NM),
                ("M_y", acting.moment[0], Unit::NM),
                ("M_z", acting.moment[1], Unit::NM),
                ("f_o,haz", zone.beside.yield_stress, Unit::MPA),
                ("f_u,haz", zone.beside.ultimate, Unit::MPA),
                ("margin", judged.margin(case), Unit::ONE),
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
