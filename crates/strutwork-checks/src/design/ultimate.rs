//! D010: what an ultimate case is judged by.

use strutwork_loads::case::Nature;
use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// A note for each ultimate case: stresses are held against yield itself, and what that leaves out.
///
/// # Source
/// UN R14 lets anchorages deform as long as they hold the force (from memory). Elastic stress against yield is on the safe
/// side of a plastic collapse load, and says nothing of rupture at welds, of stability, or of how far the frame gives.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    judged
        .cases
        .0
        .iter()
        .filter(|case| case.nature == Nature::Ultimate)
        .map(|case| Finding {
 entered: Vec::new(),
            code: Code("D010"),
            severity: Severity::Note,
            case: case.name.clone(),
            subject: Subject::Frame,
            value: 1.0,
            limit: None,
            unit: "",
            utilisation: None,
            clause: "ultimate case: margin 1.0 on yield".to_owned(),
            message: "an ultimate case: it must hold once, permanently bent if need be, so stresses are held against yield \
                      itself. A tube over yield may still hold; whether it does, and whether welds, bolts and stability do, \
                      is not shown by a linear analysis"
                .to_owned(),
        })
        .collect()
}
