//! What was printed and what we get, for readers.

mod markdown;
mod same;
mod text;

pub use markdown::markdown;
pub use same::same_report;
pub use text::text;

use crate::case::Source;
use crate::run::CaseReport;

/// Author, title, edition, place.
pub(crate) fn citation(source: &Source) -> String {
    let parts = [&source.author, &source.title, &source.place];
    let mut line = parts[..2].iter().map(|part| part.as_str()).collect::<Vec<_>>().join(", ");
    match source.edition.as_str() {
        "" => {}
        "not recalled" => line.push_str(", edition not recalled"),
        edition => line.push_str(&format!(", {edition}{}", if is_ordinal(edition) { " edition" } else { "" })),
    }
    format!("{line}: {}", parts[2])
}

/// Whether an edition is a bare ordinal such as `4th`.
fn is_ordinal(edition: &str) -> bool {
    edition.len() <= 4 && ["st", "nd", "rd", "th"].iter().any(|end| edition.ends_with(end))
}

/// A difference in units of the last printed digit, to two places and with its sign.
pub(crate) fn difference(value: f64) -> String {
    if value.is_nan() {
        "none".to_owned()
    } else if value.abs() < 0.005 {
        "0.00".to_owned()
    } else {
        format!("{value:+.2}")
    }
}

/// How many values there are, and how many of them agree.
pub(crate) fn tally<'r>(reports: impl IntoIterator<Item = &'r CaseReport>) -> [usize; 3] {
    let mut sums = [0; 3];
    for report in reports {
        sums[0] += 1;
        sums[1] += report.rows.len();
        sums[2] += report.rows.iter().filter(|row| row.agrees).count();
    }
    sums
}

/// Reports family by family, in order.
pub(crate) fn families(reports: &[CaseReport]) -> impl Iterator<Item = (&str, &[CaseReport])> {
    reports.chunk_by(|a, b| a.family == b.family).map(|group| (group[0].family.as_str(), group))
}
