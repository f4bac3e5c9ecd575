//! Utilisations as the design findings state them: maxima by tube and by case; nothing is computed.

use std::collections::BTreeMap;

use strutwork_checks::{Finding, Subject};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, TubeId};

use crate::run::Run;

/// The greatest utilisations of a run's design findings (codes `D…`). Trust findings have limits too, but say nothing of
/// strength.
#[derive(Debug, Clone, PartialEq)]
pub struct Utilisations<'a> {
    /// Of the whole run.
    pub worst: Option<&'a Finding>,
    /// Of each tube over all cases; `None` where none was judged.
    pub by_tube: IndexVec<TubeId, Option<&'a Finding>>,
    by_case: BTreeMap<&'a str, OfCase<'a>>,
}

#[derive(Debug, Clone, PartialEq, Default)]
struct OfCase<'a> {
    worst: Option<&'a Finding>,
    by_tube: BTreeMap<TubeId, &'a Finding>,
}

impl<'a> Utilisations<'a> {
    /// Picks the maxima out of a run's findings; of equals, the first.
    pub fn of(run: &Run<'a>) -> Self {
        let mut worst = None;
        let mut by_tube = vec![None; run.model.tubes().len()];
        let mut by_case: BTreeMap<&'a str, OfCase<'a>> = BTreeMap::new();
        let design = run.findings.iter().filter(|finding| finding.code.0.starts_with('D'));
        for finding in design.filter(|finding| finding.utilisation.is_some()) {
            let of_case = by_case.entry(&finding.case).or_default();
            worst = greater(worst, finding);
            of_case.worst = greater(of_case.worst, finding);
            if let Subject::Tube(tube) = finding.subject {
                if let Some(slot) = by_tube.get_mut(tube.index()) {
                    *slot = greater(*slot, finding);
                }
                let slot = of_case.by_tube.entry(tube).or_insert(finding);
                *slot = greater(Some(*slot), finding).unwrap_or(finding);
            }
        }
        Self { worst, by_tube: by_tube.into_iter().collect(), by_case }
    }

    /// Of one case, on any subject.
    pub fn in_case(&self, case: &str) -> Option<&'a Finding> {
        self.by_case.get(case)?.worst
    }

    /// Of one tube in one case.
    pub fn of_tube(&self, tube: TubeId, case: &str) -> Option<&'a Finding> {
        self.by_case.get(case)?.by_tube.get(&tube).copied()
    }

    /// How many tubes were not judged at all.
    pub fn unjudged(&self) -> usize {
        self.by_tube.iter().filter(|finding| finding.is_none()).count()
    }
}

fn greater<'a>(best: Option<&'a Finding>, next: &'a Finding) -> Option<&'a Finding> {
    match best {
        Some(best) if best.utilisation >= next.utilisation => Some(best),
        _ => Some(next),
    }
}
