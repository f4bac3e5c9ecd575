//! The calculation behind a finding, written out.

use crate::{Calculation, Finding, Judged};

/// How a check writes out one of its findings.
type Writer = fn(Judged<'_>, &Finding) -> Option<Calculation>;

/// The checks that can write out what they found, by code.
const WRITERS: &[(&str, Writer)] = &[("D030", crate::design::joints::write)];

/// The calculation behind a finding, with every number put in; `None` for a finding that is not one formula's result.
pub fn written(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let (_, write) = WRITERS.iter().find(|(code, _)| *code == finding.code.0)?;
    write(judged, finding)
}
