//! Findings on welds, in the fabricator's words.

use std::fmt::Write as _;

use strutwork_model::model::Model;
use strutwork_model::{Code, Severity};

use super::ends::WeldedEnd;
use super::inputs::{Inputs, Made, Outcome};
use crate::aside;
use crate::calculation::{Silent, Unit};
use crate::{Finding, Judged, Subject};

/// One finding for each case.
pub(super) fn in_all_cases(judged: Judged<'_>, end: &WeldedEnd, inputs: &Inputs, findings: &mut Vec<Finding>) {
    let outcomes: Vec<Outcome> =
        (0..judged.results.cases.len()).map(|case| inputs.outcome(judged, end, case, &mut Silent)).collect();
    let used = |case: usize| outcomes[case].verdict.utilisation;
    let worst = (1..outcomes.len()).fold(0, |worst, case| if used(case) > used(worst) { case } else { worst });
    let prefix = match inputs.outside.as_slice() {
        [] => String::new(),
        reasons => format!("outside scope: {}; ", reasons.join("; ")),
    };
    for (case, outcome) in outcomes.into_iter().enumerate() {
        let over = outcome.verdict.utilisation > 1.0;
        let message = if over || case == worst { message(judged.model, end, inputs, &outcome) } else { String::new() };
        findings.push(Finding {
            code: Code("D031"),
            severity: if over { Severity::Error } else { Severity::Note },
            case: judged.results.cases[case].name.clone(),
            subject: Subject::End { tube: end.tube, at_to: end.at_to },
            value: outcome.unit.of(outcome.value),
            limit: Some(outcome.unit.of(outcome.limit)),
            unit: outcome.unit.name,
            utilisation: Some(outcome.verdict.utilisation),
            clause: [&prefix, outcome.verdict.clause].concat(),
            entered: outcome.entered,
            message,
        });
    }
}

fn message(model: &Model, end: &WeldedEnd, inputs: &Inputs, outcome: &Outcome) -> String {
    let made = match inputs.made {
        Made::Fillet(fillet, _) => {
            let assumed = if inputs.assumed { ", assumed as the wall" } else { "" };
            format!("fillet, throat {:.1} mm{assumed}", Unit::MM.of(fillet.throat))
        }
        Made::Butt(_) => "butt weld".to_owned(),
    };
    let mut text = format!(
        "the weld of tube {} to {} ({made}, {:.0} mm long) carries {:.0} {unit}, {} the {:.0} {unit} allowed",
        subject(end).name(model),
        model.tubes()[end.host].name,
        Unit::MM.of(inputs.length),
        outcome.unit.of(outcome.value),
        if outcome.verdict.utilisation > 1.0 { "over" } else { "within" },
        outcome.unit.of(outcome.limit),
        unit = outcome.unit.name,
    );
    if !inputs.outside.is_empty() {
        let _ = write!(text, "{}, as it is outside the code's scope: {}", aside::NO_PASS, inputs.outside.join("; "));
    }
    text
}

/// A weld that nothing can be said of.
pub(super) fn not_judged(model: &Model, end: &WeldedEnd, why: &'static str) -> Finding {
    Finding {
        code: Code("D031"),
        severity: Severity::Note,
        case: String::new(),
        subject: subject(end),
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: format!("outside scope: {why}"),
        entered: Vec::new(),
        message: format!("the weld of tube {} is not judged: {why}", subject(end).name(model)),
    }
}

const fn subject(end: &WeldedEnd) -> Subject {
    Subject::End { tube: end.tube, at_to: end.at_to }
}
