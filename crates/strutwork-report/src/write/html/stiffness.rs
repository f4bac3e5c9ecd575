//! How stiff the frame is, and which of its bays are soft.

use crate::figures::shape::Swinging;
use crate::figures::view::View;
use crate::figures::{Figure, bays as picture};
use crate::run::Run;
use crate::tables;

use super::Edition;
use super::beside::{BucklingView, ModesView, UnderView};
use super::figures::{self, FigureView};
use super::table::TableView;
use super::worth::WorthView;

/// Bays and soft ends that are shown; the rest stands in the files.
const BAYS: usize = 24;
const ENDS: usize = 12;
/// Open bays that break rings, and rings of each, that are told in words.
const BROKEN: usize = 8;
const RINGS: usize = 3;

/// The stiffness of the frame.
pub(super) struct StiffnessView {
    pub(super) figures: Vec<FigureView>,
    pub(super) soft_ends: Option<TableView>,
    pub(super) worth: Option<WorthView>,
    pub(super) bays: Option<TableView>,
    pub(super) pictures: Vec<Figure>,
    /// Rings of stiffened bays that an open bay breaks, in words.
    pub(super) broken: Vec<String>,
    pub(super) more_broken: usize,
    pub(super) modes: Option<ModesView>,
    pub(super) under: Option<UnderView>,
    pub(super) buckling: Option<BucklingView>,
}

impl StiffnessView {
    pub(super) fn of(run: &Run<'_>, edition: Edition) -> Self {
        let views: &[View] = if edition == Edition::Paper { &View::ALL[..2] } else { &View::ALL };
        let table = tables::bays::table(run);
        let soft_ends = tables::soft_ends::table(run);
        let mut broken = broken(run);
        let more_broken = broken.len().saturating_sub(BROKEN);
        broken.truncate(BROKEN);
        Self {
            figures: run.figures.map_or_else(Vec::new, figures::of),
            soft_ends: (!soft_ends.rows.is_empty()).then(|| TableView::cut(&soft_ends, ENDS, "soft_ends.csv")),
            worth: WorthView::of(run),
            bays: (!table.rows.is_empty()).then(|| TableView::cut(&table, BAYS, "bays.csv")),
            pictures: views.iter().filter_map(|view| picture::draw(run, *view)).collect(),
            broken,
            more_broken,
            modes: ModesView::of(run),
            under: UnderView::of(run),
            buckling: BucklingView::of(run),
        }
    }
}

impl StiffnessView {
    /// Pictures that the page can let swing.
    pub(super) fn swinging(&self) -> impl Iterator<Item = &Swinging> {
        let modes = self.modes.iter().flat_map(|modes| &modes.pictures);
        modes.chain(self.buckling.iter().flat_map(|buckling| &buckling.pictures))
    }
}

fn broken(run: &Run<'_>) -> Vec<String> {
    let told = |place: &usize| {
        let open = if run.bays.bays[*place].is_open() { " (open too)" } else { "" };
        format!("{}{open}", place + 1)
    };
    picture::breaking(run.bays)
        .into_iter()
        .map(|(open, rings)| {
            let mut round: Vec<String> = rings
                .iter()
                .take(RINGS)
                .map(|ring| ring.bays.iter().filter(|place| **place != open).map(told).collect::<Vec<_>>().join(", "))
                .collect();
            if rings.len() > RINGS {
                round.push(format!("of {} more boxes", rings.len() - RINGS));
            }
            format!(
                "Bay {} ({}) is open. It closes a box with bays {}.",
                open + 1,
                run.bays.bays[open].name(run.model),
                round.join("; and with bays ")
            )
        })
        .collect()
}
