//! Natural modes and buckling, where they were asked for.

use strutwork_solve::{Buckling, Modes};

use crate::figures::shape::{self, Swinging};
use crate::number::significant;
use crate::run::Run;
use crate::table::Table;
use crate::tables;

use super::table::TableView;

/// Rows that are shown; the rest stands in the files.
const MODES: usize = 30;
const FACTORS: usize = 60;
const REVERSED: usize = 20;
const LENGTHS: usize = 40;

/// Natural modes.
pub(super) struct ModesView {
    pub(super) table: TableView,
    /// The count against what was found.
    pub(super) proof: String,
    /// Whether the count shows that none was missed.
    pub(super) complete: bool,
    /// How they were found.
    pub(super) basis: String,
    /// The lowest, drawn.
    pub(super) pictures: Vec<Swinging>,
    /// What the driver changes: the mass, and the table.
    pub(super) shift: Option<(String, TableView)>,
}

impl ModesView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let modes = run.asked.modes.as_ref()?;
        let shift = run.asked.shift.as_ref().map(|shift| {
            let table = TableView::cut(&tables::frequency_shift::table(run), MODES, "frequency_shift.csv");
            (significant(shift.mass, 4), table)
        });
        Some(Self {
            table: TableView::cut(&tables::modes::table(run), MODES, "modes.csv"),
            proof: modes.proof.words(),
            complete: modes.proof.complete(),
            basis: basis(run, modes, "small vibrations about the unloaded frame"),
            pictures: shape::modes(run),
            shift,
        })
    }
}

/// Natural modes under a case.
pub(super) struct UnderView {
    pub(super) case: String,
    pub(super) table: TableView,
    pub(super) proof: String,
    pub(super) complete: bool,
    pub(super) basis: String,
}

impl UnderView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let (case, modes) = run.asked.under.as_ref()?;
        Some(Self {
            case: case.clone(),
            table: TableView::cut(&tables::modes::under(run), MODES, "modes_under.csv"),
            proof: modes.proof.words(),
            complete: modes.proof.complete(),
            basis: basis(run, modes, "small vibrations about the frame as the case bears on it"),
        })
    }
}

/// How modes were found.
fn basis(run: &Run<'_>, modes: &Modes, about: &str) -> String {
    let held = match modes.rigid {
        0 => "The frame is held by its supports",
        6 => "Nothing holds the frame",
        _ => "The supports hold the frame in part",
    };
    format!("{held}. Every tube is divided into {}; {about}, without damping.", pieces(run.asked.pieces))
}

/// Buckling of the cases.
pub(super) struct BucklingView {
    pub(super) table: Option<TableView>,
    pub(super) lengths: Option<TableView>,
    /// The lowest, drawn.
    pub(super) pictures: Vec<Swinging>,
    /// For each case that was counted, the count against what was found.
    pub(super) proofs: Vec<String>,
    /// Cases without a count.
    pub(super) uncounted: usize,
    /// Into how many pieces tubes are divided, and what that leaves of error.
    pub(super) pieces: String,
    /// Load factors of the cases turned round.
    pub(super) reversed: Option<TableView>,
}

impl BucklingView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let all = run.asked.buckling.as_ref()?;
        let words = |of: &Buckling| Some(format!("{}: {}", of.case, of.proof_words()?));
        let found = all.iter().filter(|of| !of.positive.is_empty());
        Some(Self {
            table: cut(&tables::buckling::table(run), FACTORS, "buckling.csv"),
            lengths: cut(&tables::effective_lengths::table(run), LENGTHS, "effective_lengths.csv"),
            pictures: shape::buckling(run),
            proofs: found.clone().filter_map(words).collect(),
            uncounted: found.filter(|of| of.proof_words().is_none()).count(),
            pieces: divided(all),
            reversed: cut(&tables::buckling::reversed(run), REVERSED, "buckling_reversed.csv"),
        })
    }
}

/// A sentence on the division of tubes and one on the error.
fn divided(all: &[Buckling]) -> String {
    let ranges = || all.iter().map(Buckling::pieces_range);
    let least = ranges().map(|[least, _]| least).min().unwrap_or(1);
    let most = ranges().map(|[_, most]| most).max().unwrap_or(1);
    let tubes = if least == most {
        format!("Every tube is divided into {}.", pieces(most))
    } else {
        format!("Tubes are divided into {least} to {most} pieces, each as its own bowing needs.")
    };
    let found = || all.iter().filter(|of| !of.positive.is_empty());
    let bounds: Option<Vec<f64>> = found().map(Buckling::error_bound).collect();
    let error = match bounds.and_then(|bounds| bounds.into_iter().reduce(f64::max)) {
        Some(bound) => format!(
            "Pieces are never too soft, and a count of each case shows by how much they are too stiff at most: no load factor here \
             is above the exact one by more than {} % of itself.",
            significant(bound * 100.0, 2)
        ),
        None if found().next().is_none() => return tubes,
        None => "Pieces are never too soft; by how much they are too stiff is not known for all load factors here: where the \
                 column “too high by at most” is empty, the exact one may be far lower. More pieces tell."
            .to_owned(),
    };
    format!("{tubes} {error}")
}

fn cut(table: &Table<'_>, most: usize, place: &str) -> Option<TableView> {
    (!table.rows.is_empty()).then(|| TableView::cut(table, most, place))
}

fn pieces(pieces: usize) -> String {
    if pieces == 1 { "one piece".to_owned() } else { format!("{pieces} pieces") }
}
