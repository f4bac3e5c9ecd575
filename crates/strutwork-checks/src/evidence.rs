//! What was measured, as findings: what the rig and the scales say stands beside what the checks say.

use strutwork_rig::{Evidence, Remark};

use crate::finding::{Finding, Subject};

/// The remarks of the evidence as findings, the rig's first. Nothing is held against a limit: a measurement judges the model,
/// not the frame.
pub fn of_evidence(evidence: &Evidence) -> Vec<Finding> {
    let rig = evidence.rig.iter().flat_map(|rig| &rig.judgement.remarks).map(|remark| finding("rig", remark));
    let scales = evidence.scales.remarks.iter().map(|remark| finding("scales", remark));
    rig.chain(scales).collect()
}

fn finding(case: &str, remark: &Remark) -> Finding {
    let (file, line) = remark.place;
    Finding {
        code: remark.code,
        severity: remark.severity,
        case: case.to_owned(),
        subject: Subject::Frame,
        value: remark.value.unwrap_or(0.0),
        limit: None,
        unit: remark.unit,
        utilisation: None,
        clause: if line > 0 { format!("{file}, line {line}") } else { file.to_owned() },
        entered: Vec::new(),
        message: format!(
            "{}. What to do: {}.",
            remark.message.trim_end_matches('.'),
            remark.remedy.trim_end_matches('.')
        ),
    }
}
