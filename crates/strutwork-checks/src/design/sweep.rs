//! All tubes in all cases, and which case governs each tube.

use strutwork_model::TubeId;

use crate::Judged;

/// What a rule found of one tube in one case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Row<T> {
    /// The case, by its place.
    pub(super) case: usize,
    /// The tube.
    pub(super) tube: TubeId,
    /// What it is ranked by; `None` where it is held against no limit.
    pub(super) utilisation: Option<f64>,
    /// The rest.
    pub(super) found: T,
    /// Whether no case uses the tube more (the first of equals): it is the one to tell of.
    pub(super) governs: bool,
}

impl<T> Row<T> {
    /// Whether a limit is exceeded.
    pub(super) fn exceeds(&self) -> bool {
        self.utilisation.is_some_and(|utilisation| utilisation > 1.0)
    }

    /// Whether a reader is told of it in words.
    pub(super) fn is_told(&self) -> bool {
        self.governs || self.exceeds()
    }
}

/// Asks `rule` of every tube in every case, case by case; a row where it answers.
pub(super) fn over_tubes<T>(
    judged: Judged<'_>,
    mut rule: impl FnMut(usize, TubeId) -> Option<(Option<f64>, T)>,
) -> Vec<Row<T>> {
    let tubes = judged.model.tubes();
    let mut worst: Vec<Option<usize>> = vec![None; tubes.len()];
    let mut rows: Vec<Row<T>> = Vec::new();
    for case in 0..judged.results.cases.len() {
        for (at, tube) in tubes.ids().enumerate() {
            let Some((utilisation, found)) = rule(case, tube) else { continue };
            if let Some(used) = utilisation {
                let known = worst[at].and_then(|row| rows[row].utilisation);
                if known.is_none_or(|known| used > known) {
                    worst[at] = Some(rows.len());
                }
            }
            rows.push(Row { case, tube, utilisation, found, governs: false });
        }
    }
    for row in worst.into_iter().flatten() {
        rows[row].governs = true;
    }
    rows
}
