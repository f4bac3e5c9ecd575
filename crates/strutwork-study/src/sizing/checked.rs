//! What is read of a solved frame: stiffness, frequency, the use of its checks.

use strutwork_checks::{Judged, Subject, check_all, design};
use strutwork_loads::{LoadCases, carried_inertia};
use strutwork_model::{Model, Severity};
use strutwork_solve::bays::{Bays, find_bays};
use strutwork_solve::{ModesWanted, Results, natural_modes};

use super::frame::{Limited, Use};
use super::limits::Strength;

/// Frequency of the first elastic mode, Hz.
pub(super) fn frequency(model: &Model) -> Result<f64, String> {
    let carried = carried_inertia(model).map_err(|error| error.to_string())?;
    let wanted = ModesWanted { count: 1, ..ModesWanted::default() };
    let modes = natural_modes(model, model.supports(), &carried, wanted).map_err(|error| error.to_string())?;
    modes.modes.first().map(|mode| mode.frequency).ok_or_else(|| "the frame has no elastic mode".to_owned())
}

/// The greatest utilisation of the checks that are looked at.
pub(crate) fn worst_utilisation(wanted: Strength, model: &Model, cases: &LoadCases, results: &Results) -> f64 {
    let mut uses = Vec::new();
    strength(wanted, model, cases, results, &mut uses);
    uses.iter().map(|one| one.ratio).fold(0.0, f64::max)
}

/// Design checks; returns how many of them do not cover their item.
pub(super) fn strength(
    wanted: Strength,
    model: &Model,
    cases: &LoadCases,
    results: &Results,
    uses: &mut Vec<Use>,
) -> usize {
    let findings = match wanted {
        Strength::None => return 0,
        Strength::Yield => {
            let bays = Bays::default();
            design::yielding::check(Judged { model, cases, results, bays: &bays, lengths: None })
        }
        Strength::Checks => {
            let bays = find_bays(model);
            check_all(Judged { model, cases, results, bays: &bays, lengths: None })
        }
    };
    let mut outside = 0;
    for finding in findings {
        outside += usize::from(finding.is_outside());
        let broken = finding.severity == Severity::Error;
        let Some(ratio) = finding.utilisation.or(broken.then_some(f64::INFINITY)) else { continue };
        // An ultimate case may go past yield, which is then only warned of. What no clause covers is never a pass.
        if !broken && !finding.is_outside() && ratio > 1.0 {
            continue;
        }
        let case = cases.0.iter().position(|case| case.name == finding.case);
        let tube = match finding.subject {
            Subject::Tube(tube) | Subject::End { tube, .. } => Some(tube),
            Subject::Frame | Subject::Joint(_) | Subject::Panel(_) | Subject::Mount(_) => None,
        };
        let (value, limit) = (finding.value, finding.limit.unwrap_or(f64::NAN));
        uses.push(Use { of: Limited::Check { finding: Box::new(finding), case, tube }, value, limit, ratio });
    }
    outside
}
