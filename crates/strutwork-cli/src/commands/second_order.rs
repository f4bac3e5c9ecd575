//! What `run` tells of second order at its end.

use strutwork_report::Run;
use strutwork_solve::second_order::Grown;

use super::summary::printable;
use crate::columns::{Align, Columns};

/// Cases that are told; all stand in the file.
const TOLD: usize = 12;

/// The cases that grow most; empty in first order.
pub(super) fn people(run: &Run<'_>) -> String {
    let mut all: Vec<_> =
        run.results.cases.iter().filter_map(|case| Some((&case.name, case.second_order.as_ref()?))).collect();
    if all.is_empty() {
        return String::new();
    }
    let most = |grown: Grown| grown.factor().unwrap_or(1.0);
    all.sort_by(|a, b| most(b.1.growth.moment.1).total_cmp(&most(a.1.growth.moment.1)));
    let headings = [
        ("second order", Align::Left),
        ("moments", Align::Right),
        ("movements", Align::Right),
        ("passes", Align::Right),
    ];
    let mut columns = Columns::new(&headings);
    let times = |grown: Grown| grown.factor().map_or_else(|| "-".to_owned(), |factor| format!("× {factor:.3}"));
    for (name, second) in all.iter().take(TOLD) {
        columns.push(vec![
            printable(name),
            times(second.growth.moment.1),
            times(second.growth.displacement.1),
            second.passes.len().to_string(),
        ]);
    }
    let mut text = columns.render();
    if all.len() > TOLD {
        text.push_str(&format!("and {} more cases in second_order.csv\n", all.len() - TOLD));
    }
    text.push('\n');
    text
}
