//! D024: how much second order adds to each case, and cases that do not stand.

use strutwork_model::{Code, Severity};
use strutwork_solve::SolveError;
use strutwork_solve::explain::explain;
use strutwork_solve::results::Refused;
use strutwork_solve::second_order::SecondOrder;

use crate::{Finding, Judged, Subject};

/// Growth of the greatest moment or movement from which on a case is worth a second look: the frame is then about half way to
/// its buckling load, and a lean or a bow that nobody drew grows as much. The limit is our own.
const CLOSE: f64 = 2.0;

/// Each case that was solved in second order, and each that has no result because the frame buckles under it.
///
/// Nothing in first order.
///
/// # Source
/// EN 1993-1-1:2005 5.2.1 (effects of the deformed shape), from memory.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let refused = judged.results.refused.iter().map(|one| fallen(judged, one));
    let cases = judged.results.cases.iter();
    let grown = cases.filter_map(|case| Some(grown(&case.name, case.second_order.as_ref()?)));
    refused.chain(grown).collect()
}

fn finding(case: &str, severity: Severity, message: String) -> Finding {
    Finding {
        entered: Vec::new(),
        code: Code("D024"),
        severity,
        case: case.to_owned(),
        subject: Subject::Frame,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: "balance on the bent frame, EN 1993-1-1 5.2.1 (from memory)".to_owned(),
        message,
    }
}

fn fallen(judged: Judged<'_>, refused: &Refused) -> Finding {
    let told: Vec<String> = explain(judged.model, &refused.error).into_iter().map(|one| one.message).collect();
    let message = told.join("; ");
    let message = message.strip_prefix(&format!("case {}: ", refused.case)).unwrap_or(&message);
    let mut found =
        finding(&refused.case, Severity::Error, format!("{message}. The case has no forces and is not judged"));
    if let SolveError::Buckles { factor, .. } = refused.error
        && factor > 0.0
    {
        (found.value, found.limit, found.utilisation) = (1.0 / factor, Some(1.0), Some(1.0 / factor));
    }
    found
}

fn grown(case: &str, second: &SecondOrder) -> Finding {
    let growth = &second.growth;
    let factors = [growth.moment.1, growth.displacement.1].map(|grown| grown.factor());
    let most = factors.into_iter().flatten().fold(0.0, f64::max);
    let severity = if most > CLOSE { Severity::Warning } else { Severity::Note };
    let [moment, movement] = factors.map(|factor| factor.map_or("nothing".to_owned(), |factor| format!("{factor:.3}")));
    let close = if most > CLOSE {
        ": half way to buckling or more, where a lean or a bow that is not in the model grows as much. Brace the frame"
    } else {
        ""
    };
    let message = format!(
        "second order takes the greatest moment times {moment} and the greatest movement times {movement}, steady after {} \
         passes{close}",
        second.passes.len()
    );
    Finding { value: most, ..finding(case, severity, message) }
}
