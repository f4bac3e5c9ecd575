//! Natural modes and buckling, where they were asked for.

use crate::run::Run;
use crate::table::Table;
use crate::tables;

use super::table::TableView;

/// Rows that are shown; the rest stands in the files.
const MODES: usize = 30;
const FACTORS: usize = 60;
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
}

impl ModesView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let modes = run.asked.modes.as_ref()?;
        let held = if modes.rigid > 0 { "Nothing holds the frame" } else { "The frame is held by its supports" };
        Some(Self {
            table: TableView::cut(&tables::modes::table(run), MODES, "modes.csv"),
            proof: modes.proof.words(),
            complete: modes.proof.complete(),
            basis: format!(
                "{held}. Every tube is divided into {}; small vibrations about the unloaded frame, without damping.",
                pieces(run.asked.pieces)
            ),
        })
    }
}

/// Buckling of the cases.
pub(super) struct BucklingView {
    pub(super) table: Option<TableView>,
    pub(super) lengths: Option<TableView>,
    /// For each case that was counted, the count against what was found.
    pub(super) proofs: Vec<String>,
    /// Cases without a count.
    pub(super) uncounted: usize,
    pub(super) pieces: String,
}

impl BucklingView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let all = run.asked.buckling.as_ref()?;
        let words = |of: &strutwork_solve::Buckling| Some(format!("{}: {}", of.case, of.proof_words()?));
        let found = all.iter().filter(|of| !of.positive.is_empty());
        Some(Self {
            table: cut(&tables::buckling::table(run), FACTORS, "buckling.csv"),
            lengths: cut(&tables::effective_lengths::table(run), LENGTHS, "effective_lengths.csv"),
            proofs: found.clone().filter_map(words).collect(),
            uncounted: found.filter(|of| of.proof_words().is_none()).count(),
            pieces: pieces(run.asked.pieces),
        })
    }
}

fn cut(table: &Table<'_>, most: usize, place: &str) -> Option<TableView> {
    (!table.rows.is_empty()).then(|| TableView::cut(table, most, place))
}

fn pieces(pieces: usize) -> String {
    if pieces == 1 { "one piece".to_owned() } else { format!("{pieces} pieces") }
}
