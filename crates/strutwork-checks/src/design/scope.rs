//! D002: what is not checked.

use strutwork_model::{Code, Severity};

use crate::{Finding, Judged, Subject};

/// What a reader might expect and does not get, each as a finding of its own, never as a pass.
const NOT_CHECKED: &[(&str, &str)] = &[
    (
        "welds",
        "welds and the zone beside them are not checked; walls under 2.5 mm are outside EN 1993-1-8 (from memory) in any case",
    ),
    ("buckling", "buckling of tubes and of the frame is not checked: a slender brace may bow out below its yield load"),
    ("joints", "local strength and softness of tube walls at joints are not checked; joints are taken as rigid"),
    ("fatigue", "fatigue is not checked: a weld can crack under repeated loads far below yield"),
    (
        "bolts",
        "bolts are checked where a body's mount names one with size and class; other bolts, those of belts and suspension links \
         among them, brackets, links and uprights are not checked",
    ),
];

/// The list of what is outside this version's scope; and tubes without stresses or strength.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let frame = |subject: Subject, clause: &str, message: String| Finding {
        entered: Vec::new(),
        code: Code("D002"),
        severity: Severity::Note,
        case: String::new(),
        subject,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: format!("outside scope: {clause}"),
        message,
    };
    let general = NOT_CHECKED.iter().map(|(what, text)| frame(Subject::Frame, what, (*text).to_owned()));
    let tubes = judged.model.tubes().iter_with_id().filter_map(|(id, tube)| {
        let section = &judged.model.sections()[tube.section];
        let material = &judged.model.materials()[tube.material];
        let why = if section.wel_y.is_none() {
            "its section is given by properties alone"
        } else if material.strength.is_none() {
            "its material has no yield strength"
        } else {
            return None;
        };
        Some(frame(Subject::Tube(id), "stress", format!("tube {} is not checked against yield: {why}", tube.name)))
    });
    general.chain(tubes).collect()
}
