//! D011: whether the frame is stiff enough beside the roll stiffness of its axles.

use strutwork_loads::wheels::roll_model;
use strutwork_model::{Code, Severity};
use strutwork_solve::results::MeasureResult;

use crate::{Finding, Judged, Subject};

/// Share of a shift of roll couple that should reach the tyres.
const WANTED: f64 = 0.8;

/// The share K_c/(K_c + K_s) of a shift of roll couple between the axles that reaches the tyres, for each measured torsional
/// stiffness K_c; below 0.8 it is a warning: springs and bars then tune the car less than they seem to.
///
/// # Source
/// Two-mass roll model (derived). 80 % needs K_c = 4 K_s; the limit is our own, at the low end of common practice (no source).
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let Some(vehicle) = judged.model.vehicle() else { return Vec::new() };
    let measured = judged.results.cases.iter().flat_map(|case| {
        case.measures.iter().filter_map(move |measure| match measure {
            MeasureResult::Twist { stiffness, .. } => Some((case, *stiffness)),
            MeasureResult::Movement { .. } => None,
        })
    });
    measured
        .filter_map(|(case, stiffness)| {
            let roll = roll_model(vehicle, Some(stiffness)).ok()?;
            let share = roll.reaching();
            let enough = share >= WANTED;
            let verdict = if enough { "" } else { ": the frame twists where the springs should work" };
            Some(Finding {
                entered: Vec::new(),
                code: Code("D011"),
                severity: if enough { Severity::Note } else { Severity::Warning },
                case: case.name.clone(),
                subject: Subject::Frame,
                value: share,
                limit: None,
                unit: "",
                utilisation: None,
                clause: "K_c/(K_c + K_s), two-mass roll model (derived)".to_owned(),
                message: format!(
                    "{:.0} % of a shift of roll couple between the axles reaches the tyres{verdict}",
                    share * 100.0
                ),
            })
        })
        .collect()
}
