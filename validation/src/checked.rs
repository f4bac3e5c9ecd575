//! What the checks find on a case's frame, and the calculations behind it.

use strutwork_checks::{Calculation, Finding, Judged, Subject, check_all, written};
use strutwork_loads::LoadCases;
use strutwork_model::Model;
use strutwork_solve::bays::Bays;
use strutwork_solve::{Results, find_bays};

use crate::run::Problem;

/// What the checks find on a frame.
pub(crate) struct Checked {
    bays: Bays,
    findings: Vec<Finding>,
}

impl Checked {
    /// Runs all checks.
    pub(crate) fn of(model: &Model, cases: &LoadCases, results: &Results) -> Self {
        let bays = find_bays(model);
        let findings = check_all(Judged { model, cases, results, bays: &bays, lengths: None });
        Self { bays, findings }
    }

    /// The calculation behind the worst finding of a case (empty for those that hold for all), a check and a subject.
    pub(crate) fn page(
        &self,
        model: &Model,
        cases: &LoadCases,
        results: &Results,
        (case, check, subject): (&str, &str, Subject),
    ) -> Result<Calculation, Problem> {
        let of_it = self.findings.iter().filter(|finding| {
            finding.case == case
                && finding.code.0 == check
                && finding.subject == subject
                && finding.utilisation.is_some()
        });
        let used = |finding: &Finding| finding.utilisation.unwrap_or_default();
        let worst = of_it.max_by(|a, b| used(a).total_cmp(&used(b))).ok_or("the check finds nothing there")?;
        let judged = Judged { model, cases, results, bays: &self.bays, lengths: None };
        written(judged, worst).ok_or_else(|| "the check writes no calculation".to_owned())
    }
}
