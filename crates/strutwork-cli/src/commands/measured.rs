//! What `run` tells at its end of the twist rig and the scales.

use serde_json::{Value, json};
use strutwork_model::Severity;
use strutwork_model::units::to_nm_per_deg;
use strutwork_report::Run;

use super::summary::printable;

/// How many remarks are told on the terminal; the report has all.
const TOLD: usize = 12;

/// The rig against the model, and how much there is to look at; empty where nothing was measured.
pub(super) fn people(run: &Run<'_>) -> String {
    let Some(evidence) = run.asked.evidence.as_ref() else { return String::new() };
    let mut text = String::new();
    if let Some(rig) = &evidence.rig {
        let judgement = &rig.judgement;
        match &judgement.stiffness {
            None => text.push_str("Twist rig: no stiffness can be stated"),
            Some(measured) => {
                let [low, high] = measured.interval.map(|end| format!("{:.0}", to_nm_per_deg(end)));
                text.push_str(&format!(
                    "Twist rig: {:.0} N·m/deg ({low} to {high})",
                    to_nm_per_deg(measured.stiffness)
                ));
            }
        }
        if let Some(against) = &judgement.against {
            text.push_str(&format!(", {:.2} of the model's: {}", against.ratio, against.standing.word()));
        }
        if judgement.size_in_doubt || !judgement.assumed.is_empty() {
            text.push_str("; mend the sheet first");
        }
        text.push('\n');
    }
    let looks: Vec<_> = evidence.remarks().filter(|remark| remark.severity == Severity::Warning).collect();
    for remark in looks.iter().take(TOLD) {
        let place = if remark.place.1 > 0 { format!("{}:{}: ", remark.place.0, remark.place.1) } else { String::new() };
        text.push_str(&format!("  {}  {place}{}\n", remark.code, printable(&remark.message)));
    }
    let more = looks.len().saturating_sub(TOLD);
    if more > 0 {
        text.push_str(&format!("  and {more} more in findings.csv\n"));
    }
    if text.is_empty() { text } else { format!("{text}\n") }
}

/// What the rig measured, N·m/deg.
pub(super) fn rig_stiffness(run: &Run<'_>) -> Option<f64> {
    let rig = run.asked.evidence.as_ref()?.rig.as_ref()?;
    rig.judgement.stiffness.as_ref().map(|measured| to_nm_per_deg(measured.stiffness))
}

/// Everything that was found.
pub(super) fn machine(run: &Run<'_>) -> Vec<Value> {
    let told = |remark: &strutwork_rig::Remark| {
        json!({
            "code": remark.code.0,
            "severity": remark.severity.word(),
            "subject": remark.subject,
            "file": remark.place.0,
            "line": remark.place.1,
            "message": remark.message,
            "help": remark.remedy,
        })
    };
    run.asked.evidence.iter().flat_map(|evidence| evidence.remarks()).map(told).collect()
}
