//! D031: the weld at the end of each tube.

pub mod ends;
mod inputs;
mod told;

pub use inputs::{Inputs, Made};

use self::ends::joined;
use super::steel_tube::case_of;
use crate::calculation::{Pages, Sink};
use crate::code::weld;
use crate::{Calculation, Finding, Judged, Subject};

/// Every weld in every case: a fillet by the method of `[welds]`, a butt weld of full penetration as its weaker part.
///
/// What it leaves out: the wall that the weld stands on (D030), fatigue, distortion, faults of the weld itself.
///
/// # Source
/// EN 1993-1-8:2005 section 4; see [`weld::check`] and [`weld::BUTT_CLAUSE`].
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for end in joined(judged.model).welds {
        match Inputs::of(judged.model, &end) {
            Ok(inputs) => told::in_all_cases(judged, &end, &inputs, &mut findings),
            Err(why) => findings.push(told::not_judged(judged.model, &end, why)),
        }
    }
    findings
}

/// The calculation behind a finding.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let Subject::End { tube, at_to } = finding.subject else { return None };
    let case = case_of(judged, finding)?;
    let end = joined(judged.model).welds.into_iter().find(|end| end.tube == tube && end.at_to == at_to)?;
    let inputs = Inputs::of(judged.model, &end).ok()?;
    let mut pages = Pages::default();
    if inputs.assumed {
        pages.remark("No throat is given in [welds]: the wall of the tube is assumed.");
    }
    let outcome = inputs.outcome(judged, &end, case, &mut pages);
    for why in &inputs.outside {
        pages.outside(why);
    }
    let host = &judged.model.tubes()[end.host].name;
    let title = format!("weld of tube {} to {host}, case {}", finding.subject.name(judged.model), finding.case);
    let source = match inputs.made {
        Made::Fillet(..) => weld::SOURCE,
        Made::Butt(_) => weld::BUTT_SOURCE,
    };
    Some(pages.finish(title, outcome.verdict.clause, source, outcome.verdict.utilisation))
}

#[cfg(test)]
mod tests;
