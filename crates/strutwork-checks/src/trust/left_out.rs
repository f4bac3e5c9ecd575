//! T004: freedoms that nothing stiffens and nothing loads.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// Each freedom left out of the equations (a pin-jointed truss has them by nature).
///
/// # Source
/// Statics: a freedom without stiffness and without load takes no part.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let systems = judged.results.systems.iter().enumerate();
    systems
        .flat_map(|(index, system)| {
            let first = judged.results.cases.iter().find(|case| case.system == index);
            let case = first.map(|case| case.name.clone()).unwrap_or_default();
            system.left_out.iter().map(move |left| Finding {
                entered: Vec::new(),
                code: Code("T004"),
                severity: Severity::Note,
                case: case.clone(),
                subject: Subject::Joint(left.joint),
                value: 0.0,
                limit: None,
                unit: "",
                utilisation: None,
                clause: "freedom without stiffness".to_owned(),
                message: format!(
                    "nothing stiffens and nothing loads {} of joint {}: left out, shown as 0",
                    left.dof.name(),
                    judged.model.joints()[left.joint].name
                ),
            })
        })
        .collect()
}
