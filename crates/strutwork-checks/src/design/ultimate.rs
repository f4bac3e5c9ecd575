//! D010: what an ultimate case is judged by.

use strutwork_loads::case::Nature;
use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// A note for each ultimate case: tubes of steel are held against their plastic strength (D021), and what that leaves out.
///
/// # Source
/// UN R14 lets anchorages deform as long as they hold the force (from memory). The plastic resistance of the cross-sections under
/// the forces of an elastic analysis is a lower bound of the plastic collapse load (static theorem of plasticity, from memory),
/// as long as members are stable and joints hold; it does not say how far the frame gives.
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
            clause: "ultimate case: margin 1.0, plastic resistance".to_owned(),
            message: "an ultimate case: it must hold once, permanently bent if need be. Tubes of steel are held against their \
                      plastic strength without a margin (D021, D022); first yield (D001) is only warned of. Other tubes, and \
                      those that D021 is switched off for, are held against yield itself. How far the frame gives is not shown \
                      by a linear analysis"
                .to_owned(),
        })
        .collect()
}
