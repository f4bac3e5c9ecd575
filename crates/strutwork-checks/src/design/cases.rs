//! Names of cases that the model gives, looked up among the cases that were derived.

use strutwork_model::nearest::nearest;
use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// The place of the case with this exact name.
pub(super) fn find(judged: Judged<'_>, name: &str) -> Option<usize> {
    judged.results.cases.iter().position(|case| case.name == name)
}

/// The finding for a name that no case has: nothing was judged, which is not a pass.
pub(super) fn unknown(judged: Judged<'_>, code: &'static str, who: &str, name: &str) -> Finding {
    let known = || judged.results.cases.iter().map(|case| case.name.as_str());
    let help = nearest(name, known()).map_or_else(
        || {
            let names: Vec<&str> = known().take(6).collect();
            let more = if known().count() > names.len() { ", …" } else { "" };
            format!("the cases are: {}{more}", names.join(", "))
        },
        |found| format!("did you mean `{found}`?"),
    );
    Finding {
        entered: Vec::new(),
        code: Code(code),
        severity: Severity::Error,
        case: String::new(),
        subject: Subject::Frame,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: format!("{who}: no such case"),
        message: format!("{who} names the case `{name}`, which is not among the cases: {help}"),
    }
}
