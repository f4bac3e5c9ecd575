//! The calculation behind a finding, written out.

use crate::{Calculation, Finding, Judged, design};

/// How a check writes out one of its findings.
type Writer = fn(Judged<'_>, &Finding) -> Option<Calculation>;

/// The checks that can write out what they found, by code.
const WRITERS: &[(&str, Writer)] = &[
    ("D001", design::yielding::write),
    ("D003", design::panels::write),
    ("D004", design::panels::write),
    ("D005", design::panels::write),
    ("D006", design::panels::write),
    ("D021", design::section::write),
    ("D022", design::member::write),
    ("D030", design::joints::write),
    ("D031", design::welds::write),
    ("D032", design::heat_affected::write),
    ("D040", design::bolts::strength::write),
    ("D041", design::bolts::clamped::write),
    ("D050", design::fatigue::write),
    ("D060", design::movement::write),
];

/// The calculation behind a finding, with every number put in; `None` for a finding that is not one formula's result.
pub fn written(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (_, write) = WRITERS.iter().find(|(code, _)| *code == finding.code.0)?;
    write(judged, finding)
}
