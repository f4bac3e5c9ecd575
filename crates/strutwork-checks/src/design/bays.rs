//! D007, D008: open bays in rings of stiff ones, and the softest bays.

use strutwork_model::{Code, Severity};
use strutwork_solve::bays::{Bay, Bays};

use crate::{Finding, Judged, Subject};

/// How many of the softest bays are named.
const NAMED: usize = 3;

/// D007: a ring of braced or panelled bays round the frame that one or more open bays break, and D008: the softest bays.
///
/// A closed ring of stiff faces carries torsion as a box does; one open face leaves it to bending of the corners (an open
/// cockpit). Notes and warnings only: an opening may be meant.
///
/// # Source
/// Closed box against box with a missing face: simple structural surfaces, D. C. Barton & J. D. Fieldhouse (2018),
/// Automotive Chassis Engineering, p. 228: without the top the structure carries torsion by warping and is very much less
/// stiff.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let found = judged.bays;
    let mut findings = broken_rings(judged, found);
    findings.extend(found.bays.iter().take(NAMED).map(|bay| softest(judged, bay)));
    findings
}

fn broken_rings(judged: Judged<'_>, found: &Bays) -> Vec<Finding> {
    // One finding for each open bay, however many rings it breaks.
    let mut told: Vec<usize> = Vec::new();
    let mut findings = Vec::new();
    for ring in &found.rings {
        let open: Vec<usize> = ring.open(found).collect();
        if open.is_empty() || 2 * open.len() >= ring.bays.len() {
            continue;
        }
        for place in open {
            if told.contains(&place) {
                continue;
            }
            told.push(place);
            let bay = &found.bays[place];
            let others = ring.bays.len() - 1;
            findings.push(Finding {
 entered: Vec::new(),
                code: Code("D007"),
                severity: Severity::Warning,
                case: String::new(),
                subject: Subject::Frame,
                value: bay.stiffness / 1e3,
                limit: None,
                unit: "N/mm",
                utilisation: None,
                clause: "a closed ring of stiff bays carries torsion as a box; an open bay breaks it".to_owned(),
                message: format!(
                    "the open bay {} breaks a ring of {} bays round the frame: a brace, a skin or a stiffer corner there is \
                     worth more than elsewhere",
                    bay.name(judged.model),
                    others + 1
                ),
            });
        }
    }
    findings
}

fn softest(judged: Judged<'_>, bay: &Bay) -> Finding {
    Finding {
        entered: Vec::new(),
        code: Code("D008"),
        severity: Severity::Note,
        case: String::new(),
        subject: Subject::Frame,
        value: bay.stiffness / 1e3,
        limit: None,
        unit: "N/mm",
        utilisation: None,
        clause: "shear stiffness of plane bays, softest first".to_owned(),
        message: format!(
            "one of the softest bays is {} ({}): as stiff in shear as a skin of G·t = {:.0} N/mm",
            bay.name(judged.model),
            bay.kind.words(),
            bay.stiffness / 1e3
        ),
    }
}
