//! How stiff the frame is, and which of its bays are soft.

use crate::figures::view::View;
use crate::figures::{Figure, bays as picture};
use crate::run::Run;
use crate::tables;

use super::table::TableView;

/// Bays that are shown; the rest stands in the file.
const SHOWN: usize = 24;
/// Rings that are told in words.
const RINGS: usize = 8;

/// The stiffness of the frame.
pub(super) struct StiffnessView {
    pub(super) bays: Option<TableView>,
    pub(super) pictures: Vec<Figure>,
    /// Rings of stiffened bays that one open bay breaks, in words.
    pub(super) broken: Vec<String>,
    pub(super) more_broken: usize,
}

impl StiffnessView {
    pub(super) fn of(run: &Run<'_>) -> Self {
        let table = tables::bays::table(run);
        let mut broken = broken(run);
        let more_broken = broken.len().saturating_sub(RINGS);
        broken.truncate(RINGS);
        Self {
            bays: (!table.rows.is_empty()).then(|| TableView::cut(&table, SHOWN, "bays.csv")),
            pictures: View::ALL.into_iter().filter_map(|view| picture::draw(run, view)).collect(),
            broken,
            more_broken,
        }
    }
}

fn broken(run: &Run<'_>) -> Vec<String> {
    let rings = run.bays.rings.iter().filter_map(|ring| Some((ring, picture::broken_by(run.bays, &ring.bays)?)));
    rings
        .map(|(ring, open)| {
            let others: Vec<String> =
                ring.bays.iter().filter(|place| **place != open).map(|place| (place + 1).to_string()).collect();
            let corners = run.bays.bays[open].name(run.model);
            format!(
                "Bay {} ({corners}) is open, while bays {} round the same box are stiffened: a box with one open side twists \
                 like a box with none.",
                open + 1,
                others.join(", ")
            )
        })
        .collect()
}
