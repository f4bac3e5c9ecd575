//! What bodies, links and panels carry over all cases.

use crate::run::Run;

use super::table::TableView;
use super::{bodies, equivalents, links, panels, pick};

/// The greatest loads of everything that is attached to the frame.
pub(super) struct Parts {
    pub(super) bolts: Vec<TableView>,
    pub(super) links: Vec<TableView>,
    pub(super) panels: Vec<TableView>,
    /// Skins beside the tubes that would do the same.
    pub(super) equivalents: Option<TableView>,
    /// Cases in which a panel buckles, in words; empty for none.
    pub(super) buckling_cases: String,
}

impl Parts {
    pub(super) fn of(run: &Run<'_>) -> Self {
        Self {
            bolts: [bodies::greatest_loads(run), bodies::greatest_components(run)].into_iter().flatten().collect(),
            links: [links::greatest_forces(run), links::greatest_components(run)].into_iter().flatten().collect(),
            panels: panels::worst(run).into_iter().collect(),
            equivalents: equivalents::table(run),
            buckling_cases: panels::cases_with_buckling(run)
                .into_iter()
                .map(pick::case_words)
                .collect::<Vec<_>>()
                .join(", "),
        }
    }
}
