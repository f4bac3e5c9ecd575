//! The table of variants, which the page sorts and filters.

use strutwork_study::{Row, Status, Value};

use crate::study::StudyRun;

use super::super::Edition;
use super::super::table::TableView;
use super::words;

/// Letters of a note or a word that are shown; the file holds them all.
const LETTERS: usize = 120;

/// The table with what can be chosen of it.
pub(super) struct Variants {
    /// `None` on paper, which holds no room for it.
    pub(super) table: Option<TableView>,
    /// What is shown of how many, in words.
    pub(super) words: String,
    /// Whether there are requirements, a front, variants that were not solved.
    pub(super) constrained: bool,
    pub(super) front: bool,
    pub(super) unsolved: bool,
    /// The places of the columns that say so.
    pub(super) keeps_column: usize,
    pub(super) front_column: usize,
}

impl Variants {
    pub(super) fn of(run: &StudyRun<'_>, edition: Edition) -> Self {
        let study = run.study;
        let shown = run.overview.shown();
        let constrained = !study.constraints.is_empty();
        let front = !run.overview.front.members.is_empty();
        let unsolved = shown.iter().any(|row| row.outcome.status != Status::Solved);
        let all = run.overview.chosen.complete;
        let told = if all {
            format!("All {}.", words::counted(run.overview.tally.variants, "variant", "variants"))
        } else {
            format!(
                "Of {} variants the front, the ten best by each answer and the first: {} in all. Every variant stands in {}.csv.",
                crate::number::fixed(run.overview.tally.variants as f64, 0),
                shown.len(),
                run.stem
            )
        };
        Self {
            table: (edition == Edition::Screen).then(|| table(run, &shown, constrained, front)),
            words: told,
            constrained,
            front,
            unsolved,
            keeps_column: 1 + study.responses.len(),
            front_column: 1 + study.responses.len() + usize::from(constrained),
        }
    }
}

/// A row a variant; whether there are columns for what is required and for the front.
fn table(run: &StudyRun<'_>, shown: &[&Row], constrained: bool, front: bool) -> TableView {
    let study = run.study;
    let mut columns = vec![("variant".to_owned(), "", true)];
    // The answers first: there may be parameters by the dozen.
    columns.extend(study.responses.iter().map(|response| (response.name.clone(), "", true)));
    if constrained {
        columns.push(("keeps all".to_owned(), "", false));
    }
    if front {
        columns.push(("front".to_owned(), "", false));
    }
    columns.extend(study.parameters.iter().map(|parameter| (parameter.name.clone(), "", parameter.is_number())));
    columns.push(("status".to_owned(), "", false));
    let mut on_front: Vec<u64> = run.overview.front.members.iter().map(|member| member.row.variant).collect();
    on_front.sort_unstable();
    let decimals: Vec<usize> = (0..study.responses.len()).map(|place| words::decimals(run, place)).collect();
    let cells = |row: &&Row| {
        let mut cells = vec![row.variant.to_string()];
        cells.extend(decimals.iter().enumerate().map(|(place, decimals)| words::answer(row, place, *decimals)));
        if constrained {
            cells.push(if row.outcome.feasible == Some(true) { "yes" } else { "no" }.to_owned());
        }
        if front {
            cells.push(if on_front.binary_search(&row.variant).is_ok() { "front" } else { "" }.to_owned());
        }
        cells.extend(row.values.iter().map(|value| match value {
            Value::Number(number) => crate::number::as_given(*number),
            Value::Word(_) => cut(words::value(value)),
        }));
        let status = row.outcome.status.word();
        let note = &row.outcome.note;
        cells.push(if note.is_empty() { status.to_owned() } else { cut(format!("{status}: {note}")) });
        cells
    };
    TableView::written("variants", "Variants".into(), columns, shown.iter().map(cells).collect())
}

fn cut(text: String) -> String {
    crate::figures::furniture::cut(&text, LETTERS)
}
