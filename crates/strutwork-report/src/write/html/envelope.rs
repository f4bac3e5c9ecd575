//! The envelope by group of tubes: the worst tube of each, and its case.

use strutwork_model::TubeId;
use strutwork_model::units::to_mpa;
use strutwork_solve::quantity::Quantity;

use crate::envelope::{Envelope, InCase, Range};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::pick::case_words;
use super::table::TableView;

/// Tubes that share a group, in order of first use.
fn groups<'a>(run: &Run<'a>) -> Vec<(&'a str, Vec<TubeId>)> {
    let mut groups: Vec<(&str, Vec<TubeId>)> = Vec::new();
    for (id, tube) in run.model.tubes().iter_with_id() {
        match groups.iter_mut().find(|(name, _)| *name == tube.group) {
            Some((_, tubes)) => tubes.push(id),
            None => groups.push((&tube.group, vec![id])),
        }
    }
    groups
}

/// The worst of each group; `None` where no case was solved.
pub(super) fn by_group(run: &Run<'_>) -> Option<TableView> {
    let envelope = Envelope::of(run);
    let rows = groups(run).into_iter().map(|(name, tubes)| {
        let ranges = |quantity: Quantity| -> Vec<(TubeId, Range<'_>)> {
            tubes.iter().filter_map(|tube| Some((*tube, envelope.range(*tube, quantity)?))).collect()
        };
        let title = if name.is_empty() { "without a group" } else { name };
        let mut row = vec![Cell::text(title), Cell::Number(tubes.len() as f64)];
        row.extend(cells(run, greatest(ranges(Quantity::N)), |newtons| newtons));
        row.extend(cells(run, least(ranges(Quantity::N)), |newtons| newtons));
        row.extend(cells(run, greatest(ranges(Quantity::VonMises)), to_mpa));
        row
    });
    let table = Table {
        name: "envelope",
        caption:
            "Envelope by group: the greatest and the least axial force and the greatest von Mises stress over all \
                  cases, each with its tube and case. Every tube: envelope.csv"
                .into(),
        columns: vec![
            Column::text("group", "group"),
            Column::number("tubes", "tubes", "", Digits::Decimals(0)),
            Column::number("n_greatest", "N greatest", "N", Digits::Column(4)),
            Column::text("n_greatest_where", "tube, case"),
            Column::number("n_least", "N least", "N", Digits::Column(4)),
            Column::text("n_least_where", "tube, case"),
            Column::number("von_mises", "von Mises", "MPa", Digits::Decimals(1)),
            Column::text("von_mises_where", "tube, case"),
        ],
        rows: rows.collect(),
    };
    (!run.cases.0.is_empty()).then(|| TableView::of(&table, "envelope.csv"))
}

type Worst<'a> = Option<(TubeId, InCase<'a>)>;

fn greatest<'a>(ranges: Vec<(TubeId, Range<'a>)>) -> Worst<'a> {
    let all = ranges.into_iter().map(|(tube, range)| (tube, range.greatest));
    all.reduce(|best, next| if next.1.value > best.1.value { next } else { best })
}

fn least<'a>(ranges: Vec<(TubeId, Range<'a>)>) -> Worst<'a> {
    let all = ranges.into_iter().map(|(tube, range)| (tube, range.least));
    all.reduce(|best, next| if next.1.value < best.1.value { next } else { best })
}

fn cells<'a>(run: &Run<'a>, worst: Worst<'a>, door: fn(f64) -> f64) -> [Cell<'a>; 2] {
    match worst {
        Some((tube, at)) => {
            [Cell::Number(door(at.value)), Cell::from(format!("{}, {}", run.tube(tube), case_words(at.case)))]
        }
        None => [Cell::Empty, Cell::Empty],
    }
}
