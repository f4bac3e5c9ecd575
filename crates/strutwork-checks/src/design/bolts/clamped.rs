//! D041: what tightening a bolt does to the tube or sleeve that it clamps, and whether friction holds.

use strutwork_model::model::{Clamps, normal_clearance};
use strutwork_model::{Code, Severity};

use super::{Bolted, acting};
use crate::calculation::{Pages, Put, Silent, Sink, Unit};
use crate::code::Partial;
use crate::code::bolt::{Acting, Pressed, SOURCE, Slip, Through, crushing, slip};
use crate::code::profile::MOST;
use crate::design::steel_tube::case_of;
use crate::{Calculation, Finding, Judged, Subject};

/// Walls under it are not clamped without a sleeve: common practice, no source.
const THIN_WALL: f64 = 3e-3;
/// F_p,C as a share of f_ub A_s: EN 1993-1-8 3.6.1(2) (read as quoted in Steel Buildings in Europe).
const FULL_PRELOAD: f64 = 0.7;

const CRUSHING: &str = "the tube's face under the head, EN 1993-1-8 Tables 7.3 and 7.10 (derived)";
const SLEEVE: &str = "the sleeve pressed together, EN 1993-1-1 6.2.4";
const SLIPPING: &str = "EN 1993-1-8 3.9, slip: noted, no limit of strength";
const THIN: &str = "a wall under 3 mm clamped without a sleeve (common practice, no source)";

/// One finding for each mount whose bolt has a size and a class, and where preload and slip factor are given one more for the
/// case in which its joint is nearest to slipping.
///
/// # Source
/// Crushing and slip: [`SOURCE`]. That thin walls want a sleeve: common practice, no source.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let bolts = judged.model.mounts().ids().filter_map(|id| Bolted::of(judged.model, id));
    bolts
        .flat_map(|bolted| [Some(clamping(judged, &bolted)), slipping(judged, &bolted)].into_iter().flatten())
        .collect()
}

/// The calculation behind a finding of [`check`]; `None` where no preload is given.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let bolted = Bolted::behind(judged.model, finding)?;
    let whose = finding.subject.name(judged.model);
    let mut pages = Pages::default();
    if finding.case.is_empty() {
        if is_thin(&bolted) {
            pages.outside(THIN);
        }
        let (_, used) = crushing(&mut pages, &pressed(&bolted)?, bolted.given.preload, partial(judged));
        let title = format!("What the bolt {} of {whose} clamps", bolted.label());
        return Some(pages.finish(title, finding.clause.clone(), SOURCE, used?));
    }
    let case = case_of(judged, finding)?;
    let [acting, resisted] = holding(&mut pages, judged, case, &bolted)?;
    let title = format!("Slip under the bolt {} of {whose}, case {}", bolted.label(), finding.case);
    let what = if acting > resisted { "it slips, and bears on its hole" } else { "it does not slip" };
    Some(pages.finish(title, SLIPPING, SOURCE, ratio(acting, resisted)).noting(what))
}

/// γ_M0 and γ_M5 are the same in every case.
fn partial(judged: Judged<'_>) -> Partial {
    if judged.cases.0.is_empty() { Partial::NONE } else { judged.partial(0) }
}

fn pressed(bolted: &Bolted<'_>) -> Option<Pressed> {
    match &bolted.through {
        Through::Walls(_, face) => Some(Pressed::Tube(*face, bolted.bolt.flats)),
        Through::Sleeve(sleeve, ..) => Some(Pressed::Sleeve(*sleeve)),
        Through::Plate(_) | Through::Unknown(_) => None,
    }
}

/// Whether a thin wall is clamped with nothing inside.
fn is_thin(bolted: &Bolted<'_>) -> bool {
    matches!(bolted.through, Through::Walls(ply, _) if ply.thickness < THIN_WALL * (1.0 - 1e-9))
}

fn clamping(judged: Judged<'_>, bolted: &Bolted<'_>) -> Finding {
    let given = bolted.given;
    let full = FULL_PRELOAD * bolted.bolt.ultimate * bolted.bolt.stress_area;
    let mut finding = Finding {
        code: Code("D041"),
        severity: Severity::Note,
        case: String::new(),
        subject: Subject::Mount(bolted.id),
        value: given.preload.unwrap_or(full),
        limit: None,
        unit: "N",
        utilisation: None,
        clause: String::new(),
        entered: vec![("F_p", given.preload.unwrap_or(full), Unit::N)],
        message: String::new(),
    };
    let whose = bolted.whose(judged.model);
    let lacking = match (given.preload, given.friction) {
        (Some(_), Some(_)) => "",
        (Some(_), None) => "slip factor",
        (None, Some(_)) => "preload",
        (None, None) => "preload and slip factor",
    };
    let slips = if lacking.is_empty() {
        String::new()
    } else {
        format!("; without {lacking} nothing says that it does not slip by the clearance of its hole")
    };
    let tightened = match given.preload {
        Some(preload) => format!("it is tightened to {preload:.0} N"),
        None => format!("fully tightened such a bolt pulls with {full:.0} N"),
    };
    if let Some(pressed) = pressed(bolted) {
        let (borne, used) = crushing(&mut Silent, &pressed, given.preload, partial(judged));
        finding.limit = Some(borne);
        finding.utilisation = used;
        let over = used.is_some_and(|used| used > 1.0);
        let tube = bolted.tube.map_or("", |tube| judged.model.tubes()[tube].name.as_str());
        match bolted.through {
            Through::Walls(ply, _) => {
                let thin = is_thin(bolted);
                finding.entered.push(("t", ply.thickness, Unit::MM));
                finding.severity = if thin { Severity::Warning } else { Severity::Note };
                finding.clause = if thin { format!("outside scope: {THIN}; {CRUSHING}") } else { CRUSHING.to_owned() };
                let sleeve = if thin || over { ": weld a sleeve into it" } else { "" };
                finding.message = format!(
                    "{whose} clamps tube {tube} with a wall of {} mm and nothing inside; its face gives way from {borne:.0} N on, \
                     {tightened}{sleeve}{slips}",
                    Unit::MM.of(ply.thickness)
                );
            }
            _ => {
                SLEEVE.clone_into(&mut finding.clause);
                finding.message =
                    format!("{whose} clamps a sleeve in tube {tube} that bears {borne:.0} N; {tightened}{slips}");
            }
        }
        if over {
            finding.severity = Severity::Error;
        }
        return finding;
    }
    (finding.severity, finding.clause, finding.message) = match (given.clamps, &bolted.through) {
        (None, _) => (
            Severity::Warning,
            "outside scope: what the bolt clamps is not given".to_owned(),
            format!(
                "it is not said what {whose} clamps: bearing and crushing are not checked; give `clamps` in [bolts.{}]",
                given.name
            ),
        ),
        (Some(Clamps::Plate { thickness, .. }), Through::Plate(_)) => (
            Severity::Note,
            "a plate, which preload does not crush".to_owned(),
            format!("{whose} clamps a plate of {} mm{slips}", Unit::MM.of(thickness)),
        ),
        (Some(_), through) => {
            let why = if let Through::Unknown(why) = through { why } else { "" };
            (
                Severity::Warning,
                format!("outside scope: {why}"),
                format!("what {whose} clamps cannot be checked; {why}"),
            )
        }
    };
    finding
}

/// The force across the bolt and the one up to which friction holds, N; `None` without preload and slip factor.
fn holding(sink: &mut impl Sink, judged: Judged<'_>, case: usize, bolted: &Bolted<'_>) -> Option<[f64; 2]> {
    let given = bolted.given;
    let (preload, friction) = (given.preload?, given.friction?);
    let acting = acting(sink, judged, case, bolted);
    let (across, along, symbol) = match acting {
        Acting::Split { tension, shear } => (shear, tension, "F_v,Ed"),
        Acting::Whole(force) => {
            // All of it across the bolt and all of it along the bolt: more than can be.
            sink.step(
                "F_t,Ed",
                "F_Ed",
                &[("F_Ed", force, Unit::N)],
                force,
                Unit::N,
                "taken across and along the bolt alike",
            );
            (force, force, "F_Ed")
        }
    };
    let diameter = bolted.bolt.diameter;
    let normal_hole = bolted.bolt.hole <= diameter + normal_clearance(diameter) + 1e-6;
    let held = Slip { preload, friction, planes: bolted.bolt.planes, normal_hole };
    let resisted = slip(sink, &held, along);
    if sink.writes() {
        let with: [Put<'_>; 2] = [(symbol, across, Unit::N), ("F_s,Rd", resisted, Unit::N)];
        let used = ratio(across, resisted);
        let formula = match (across > 0.0, used < MOST) {
            (false, _) => "0".to_owned(),
            (true, true) => format!("{symbol} / F_s,Rd"),
            (true, false) => "1000".to_owned(),
        };
        sink.step("U", &formula, &with, used, Unit::ONE, "above 1 it slips, and bears on its hole");
    }
    Some([across, resisted])
}

/// What acts over what friction holds, at most [`MOST`]; nothing acting is nothing.
fn ratio(acting: f64, resisted: f64) -> f64 {
    match (acting > 0.0, resisted > 0.0) {
        (false, _) => 0.0,
        (true, true) => (acting / resisted).min(MOST),
        (true, false) => MOST,
    }
}

/// Slip in the case that is nearest to it.
fn slipping(judged: Judged<'_>, bolted: &Bolted<'_>) -> Option<Finding> {
    let mut worst: Option<(usize, [f64; 2])> = None;
    for case in 0..judged.results.cases.len() {
        let [across, resisted] = holding(&mut Silent, judged, case, bolted)?;
        if worst.is_none_or(|(_, most)| ratio(across, resisted) > ratio(most[0], most[1])) {
            worst = Some((case, [across, resisted]));
        }
    }
    let (case, [across, resisted]) = worst?;
    let name = &judged.results.cases[case].name;
    let verdict = if across > resisted { "slips, and bears on its hole" } else { "holds by friction" };
    Some(Finding {
        code: Code("D041"),
        severity: Severity::Note,
        case: name.clone(),
        subject: Subject::Mount(bolted.id),
        value: across,
        limit: Some(resisted),
        unit: "N",
        utilisation: None,
        clause: SLIPPING.to_owned(),
        entered: vec![("F_v,Ed", across, Unit::N), ("F_s,Rd", resisted, Unit::N)],
        message: format!(
            "{} {verdict}: {across:.0} N across it, friction holds up to {resisted:.0} N",
            bolted.whose(judged.model)
        ),
    })
}
