//! The calculation behind a finding, written out.

use crate::{Calculation, Finding, Judged, design};
use crate::design::bolts;
use crate::{Calculation, Finding, Judged};

/// How a check writes out one of its findings.
type Writer = fn(Judged<'_>, &Finding) -> Option<Calculation>;

/// The checks that can write out what they found, by code.
const WRITERS: &[(&str, Writer)] =
    &[("D031", crate::design::welds::write), ("D032", crate::design::heat_affected::write)];
    &[("D001", design::yielding::write), ("D021", design::section::write), ("D022", design::member::write)];
const WRITERS: &[(&str, Writer)] = &[
    ("D003", design::panels::write),
    ("D004", design::panels::write),
    ("D005", design::panels::write),
    ("D006", design::panels::write),
    ("D050", design::fatigue::write),
    ("D060", design::movement::write),
];
const WRITERS: &[(&str, Writer)] = &[("D040", bolts::strength::write), ("D041", bolts::clamped::write)];
const WRITERS: &[(&str, Writer)] = &[("D030", crate::design::joints::write)];

/// The calculation behind a finding, with every number put in; `None` for a finding that is not one formula's result.
pub fn written(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (_, write) = WRITERS.iter().find(|(code, _)| *code == finding.code.0)?;
    write(judged, finding)
}
