//! The margin of a case, as the first line of a page.

use strutwork_model::model::BasisKind;

use crate::Judged;
use crate::calculation::{Sink, Unit};

/// Writes by what the forces of a page are multiplied, and why.
pub fn write(judged: Judged<'_>, case: usize, sink: &mut impl Sink) {
    sink.given("margin", judged.margin(case), Unit::ONE, why(judged, case));
}

/// What the margin of a case is, and its basis.
pub fn why(judged: Judged<'_>, case: usize) -> &'static str {
    match (judged.model.basis().kind, judged.is_ultimate(case)) {
        (BasisKind::Vehicle, true) => "on all forces; vehicle practice, an ultimate case: no margin",
        (BasisKind::Vehicle, false) => "on all forces; vehicle practice, yield_margin of [options]",
        (BasisKind::Eurocode, true) => "on all forces; partial factors, an ultimate case is accidental: γ_F = 1",
        (BasisKind::Eurocode, false) => "on all forces; partial factors, γ_F of [basis], 1 in cases of loads.csv",
    }
}
