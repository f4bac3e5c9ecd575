//! D040: the bolts of bodies, and what they bear on.

use strutwork_model::bolts::{CLASSES_SOURCE, SIZES_SOURCE};
use strutwork_model::{Code, Severity};

use super::{Bolted, acting, partial_words};
use crate::aside;
use crate::calculation::{Pages, Silent, Sink, Unit, digits};
use crate::code::bolt::{self, Acting, BoltVerdict, Mode, SOURCE};
use crate::design::steel_tube::case_of;
use crate::{Calculation, Finding, Judged, Subject};

/// What one bolt does not carry by itself.
const MOMENT: &str = "the moment at the mount: one bolt does not carry it alone";
/// Below it a moment is rounding, N·m.
const ROUNDING: f64 = 1e-3;

/// Every mount whose bolt has a size and a class, in every case: shear, tension, both together, bearing and pull-through.
///
/// What it leaves out: moments at the mount, prying, bending and welds of plates and sleeves, fatigue of the bolt, the
/// thread's engagement.
///
/// # Source
/// [`SOURCE`].
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let model = judged.model;
    let mut findings = Vec::new();
    for id in model.mounts().ids() {
        let Some(bolted) = Bolted::of(model, id) else { continue };
        let first = findings.len();
        let mut worst: Option<(usize, f64)> = None;
        for case in 0..judged.results.cases.len() {
            let found = in_case(judged, case, &bolted);
            let used = found.utilisation.unwrap_or(0.0);
            if worst.is_none_or(|(_, most)| used > most) {
                worst = Some((case, used));
            }
            findings.push(found);
        }
        let worst = worst.map(|(case, _)| case);
        for (case, finding) in findings[first..].iter_mut().enumerate() {
            if finding.severity == Severity::Error || Some(case) == worst {
                finding.message = message(judged, case, &bolted);
            }
        }
    }
    findings
}

/// The calculation behind a finding of [`check`].
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let bolted = Bolted::behind(judged.model, finding)?;
    let case = case_of(judged, finding)?;
    let mut pages = Pages::default();
    let (verdict, _) = run(&mut pages, judged, case, &bolted);
    let title = format!("Bolt {} of {}, case {}", bolted.label(), finding.subject.name(judged.model), finding.case);
    let source = format!("{SOURCE}; {SIZES_SOURCE}; classes: {CLASSES_SOURCE}");
    Some(pages.finish(title, verdict.mode.clause(), source, verdict.utilisation))
}

fn run(sink: &mut impl Sink, judged: Judged<'_>, case: usize, bolted: &Bolted<'_>) -> (BoltVerdict, Acting) {
    let load = &judged.results.cases[case].mounts[bolted.id];
    let acting = acting(sink, judged, case, bolted);
    if sink.writes() {
        sink.remark(partial_words(judged, case));
        if let Some(tube) = bolted.tube {
            let name = &judged.model.tubes()[tube].name;
            sink.remark(&format!("The tube of the thinnest wall at the joint is {name}: it stands for all."));
        }
    }
    let mut verdict = bolt::check(sink, &bolted.bolt, &bolted.through, acting, judged.partial(case));
    if load.moment > ROUNDING {
        sink.outside(MOMENT);
        if sink.writes() {
            let moment = digits(load.moment);
            sink.remark(&format!("The moment of {moment} N·m at the mount is not judged."));
        }
        verdict.outside = verdict.outside.or(Some(MOMENT));
    }
    (verdict, acting)
}

fn in_case(judged: Judged<'_>, case: usize, bolted: &Bolted<'_>) -> Finding {
    let (verdict, acting) = run(&mut Silent, judged, case, bolted);
    let clause = verdict.mode.clause();
    let mut entered = Vec::with_capacity(6);
    match acting {
        Acting::Split { tension, shear } => {
            entered.extend([("F_v,Ed", shear, Unit::N), ("F_t,Ed", tension, Unit::N)]);
        }
        Acting::Whole(force) => entered.push(("F_Ed", force, Unit::N)),
    }
    let [shear_rd, tension_rd] = verdict.resistances;
    entered.extend([("F_v,Rd", shear_rd, Unit::N), ("F_t,Rd", tension_rd, Unit::N)]);
    entered.extend([("margin", judged.margin(case), Unit::ONE), ("γ_M2", judged.partial(case).m2, Unit::ONE)]);
    let [value, limit] = verdict.against;
    Finding {
        code: Code("D040"),
        severity: if verdict.utilisation > 1.0 { Severity::Error } else { Severity::Note },
        case: judged.results.cases[case].name.clone(),
        subject: Subject::Mount(bolted.id),
        value,
        limit: Some(limit),
        unit: if verdict.mode == Mode::Combined { "" } else { "N" },
        utilisation: Some(verdict.utilisation),
        clause: match verdict.outside {
            Some(why) => format!("outside scope: {why}; {clause}"),
            None => clause.to_owned(),
        },
        entered,
        message: String::new(),
    }
}

fn message(judged: Judged<'_>, case: usize, bolted: &Bolted<'_>) -> String {
    let (verdict, _) = run(&mut Silent, judged, case, bolted);
    let whose = bolted.whose(judged.model);
    let words = verdict.mode.words();
    let [value, limit] = verdict.against;
    let how = if verdict.mode == Mode::Combined {
        format!("reaches {value:.2} of 1 {words}")
    } else {
        format!("carries {value:.0} N of {limit:.0} N {words}")
    };
    let over = if verdict.utilisation > 1.0 { ": too much" } else { "" };
    let not = verdict.outside.map_or_else(String::new, |why| format!("{} {why}", aside::NOT_COVERED));
    format!("{whose} {how}{over}{not}")
}
