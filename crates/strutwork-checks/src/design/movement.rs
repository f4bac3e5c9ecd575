//! D060: movements against the limits that the user sets.

use strutwork_model::model::{Along, Moved, MovementLimit};
use strutwork_model::{Code, JointId, Severity};

use super::cases;
use crate::calculation::{Calculation, Pages, Silent, Sink, Unit};
use crate::code::movement::{Movement, What, movement};
use crate::{Finding, Judged, Subject};

const CODE: &str = "D060";

/// Every limit of `[limits.NAME]` in every case that it holds in: a finding each, told in words for the case that governs and
/// for those that exceed.
///
/// Loads are those of the cases, without the margin of the basis. In a case that nothing holds a joint's own movement is
/// counted free of the frame's movement as a whole.
///
/// # Source
/// The user's own limits.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    judged.model.limits().iter().flat_map(|limit| one(judged, limit)).collect()
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let limit = judged.model.limits().iter().find(|limit| clause(limit) == finding.clause)?;
    let case = cases::find(judged, &finding.case)?;
    let mut pages = Pages::default();
    let (_, utilisation) = movement(&moved(judged, limit, case), limit.most, &mut pages);
    if judged.cases.0[case].free && matches!(limit.moved, Moved::Joint { from: None, .. }) {
        pages.remark("Nothing holds the frame in this case: the movement is free of that of the frame as a whole.");
    }
    if !limit.note.is_empty() {
        pages.remark(&format!("Note: {}", limit.note));
    }
    let title = format!("Limit {}: {}, case {}", limit.name, words(judged, limit), finding.case);
    let source = if limit.source.is_empty() { "the user's own limit" } else { &limit.source };
    Some(pages.finish(title, finding.clause.clone(), source, utilisation))
}

fn one(judged: Judged<'_>, limit: &MovementLimit) -> Vec<Finding> {
    let mut findings: Vec<Finding> = Vec::new();
    let who = || format!("limit {}", limit.name);
    let named = limit.cases.iter().filter_map(|name| {
        let found = cases::find(judged, name);
        if found.is_none() {
            findings.push(cases::unknown(judged, CODE, &who(), name));
        }
        found
    });
    let mut places: Vec<usize> = named.collect();
    if limit.cases.is_empty() {
        places.extend(0..judged.results.cases.len());
    }
    // A case that is named twice is judged once.
    places.sort_unstable();
    places.dedup();
    let first = findings.len();
    let clause = clause(limit);
    for &case in &places {
        let movement = moved(judged, limit, case);
        let (value, utilisation) = self::movement(&movement, limit.most, &mut Silent);
        findings.push(Finding {
            entered: vec![("u", value, Unit::MM), ("u_max", limit.most, Unit::MM)],
            code: Code(CODE),
            severity: if utilisation > 1.0 { Severity::Error } else { Severity::Note },
            case: judged.results.cases[case].name.clone(),
            subject: subject(limit),
            value: Unit::MM.of(value),
            limit: Some(Unit::MM.of(limit.most)),
            unit: Unit::MM.name,
            utilisation: Some(utilisation),
            clause: clause.clone(),
            message: String::new(),
        });
    }
    let governs = first + worst(&findings[first..]);
    let words = words(judged, limit);
    for (place, finding) in findings.iter_mut().enumerate().skip(first) {
        let over = finding.severity == Severity::Error;
        if over || place == governs {
            let verdict = if over { "more than" } else { "within" };
            let most = finding.limit.unwrap_or_default();
            finding.message =
                format!("{words} by {:.3} mm, {verdict} the {most} mm of limit {}", finding.value, limit.name);
        }
    }
    findings
}

/// The place of the greatest utilisation; the first of equals.
fn worst(findings: &[Finding]) -> usize {
    let mut worst = 0;
    for (place, finding) in findings.iter().enumerate() {
        if finding.utilisation > findings[worst].utilisation {
            worst = place;
        }
    }
    worst
}

fn moved(judged: Judged<'_>, limit: &MovementLimit, case: usize) -> Movement {
    let by = |joint: JointId| {
        let [x, y, z, ..] = judged.results.cases[case].displacements[joint];
        [x, y, z]
    };
    match limit.moved {
        Moved::Joint { joint, from, along } => Movement {
            of: by(joint),
            from: from.map(by),
            what: match along {
                Along::X => What::Axis(0),
                Along::Y => What::Axis(1),
                Along::Z => What::Axis(2),
                Along::Total => What::Total,
            },
        },
        Moved::Distance([a, b]) => {
            let [from, to] = [a, b].map(|joint| judged.model.joints()[joint].at);
            let apart = [0, 1, 2].map(|axis| to[axis] - from[axis]);
            Movement { of: by(b), from: Some(by(a)), what: What::Apart(apart) }
        }
    }
}

fn subject(limit: &MovementLimit) -> Subject {
    match limit.moved {
        Moved::Joint { joint, .. } => Subject::Joint(joint),
        Moved::Distance(_) => Subject::Frame,
    }
}

fn clause(limit: &MovementLimit) -> String {
    let source = if limit.source.is_empty() { "the user's own" } else { &limit.source };
    format!("limit {}: {source}", limit.name)
}

/// `joint J moves along z against joint B`.
fn words(judged: Judged<'_>, limit: &MovementLimit) -> String {
    let name = |joint: JointId| &judged.model.joints()[joint].name;
    match limit.moved {
        Moved::Distance([a, b]) => format!("the distance from joint {} to joint {} changes", name(a), name(b)),
        Moved::Joint { joint, from, along } => {
            let along = match along {
                Along::Total => "",
                Along::X => " along x",
                Along::Y => " along y",
                Along::Z => " along z",
            };
            let against = from.map(|from| format!(" against joint {}", name(from))).unwrap_or_default();
            format!("joint {} moves{along}{against}", name(joint))
        }
    }
}
