//! D030: what the wall of a chord bears where other tubes are welded to it, EN 1993-1-8 section 7.

mod balance;
mod beside;
pub(in crate::design) mod chord;
pub(in crate::design) mod ends;
mod reading;
mod swept;
mod told;
pub(in crate::design) mod vectors;

use strutwork_model::{Code, IndexVec, JointId, Severity};

use crate::calculation::{Calculation, Pages, Silent, Sink, Unit};
use crate::code::joint::{Outcome, SOURCE};
use crate::design::steel_tube::case_of;
use crate::{Finding, Judged, Subject};
use ends::End;
use reading::{Branch, Reading};

/// Every end of a hollow tube on the wall of another, in every case: its forces against the resistance of the joint.
///
/// The chord of a joint is the tube that runs straight through, the largest of these; where none does, the largest that ends
/// there. Every other tube of the joint is a brace; an end with released freedoms is a connection like any other and is judged
/// by the forces that it has. Each brace is judged in the plane of its axis and the chord's; how braces of one plane balance
/// each other decides in each case on the parts of T, Y, X, K and N joint. Forces are those at the tube's end on the joint,
/// which is on the safe side of those at the chord's face.
///
/// Outside the code, and printed so: corners without a tube that runs through, braces in several planes, braces skew to the
/// faces of the chord, and every limit of Tables 7.1 and 7.8 that is passed. What it leaves out: shear and torsion of the
/// brace, plates and stiffeners, welds.
///
/// # Source
/// EN 1993-1-8:2005 section 7; see [`crate::code::joint`].
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let model = judged.model;
    let mut at_joint: IndexVec<JointId, Vec<End>> = model.joints().ids().map(|_| Vec::new()).collect();
    for (id, tube) in model.tubes().iter_with_id() {
        at_joint[tube.from].push(End::of(model, id, false));
        at_joint[tube.to].push(End::of(model, id, true));
    }
    let mut findings = Vec::new();
    for (joint, ends) in at_joint.iter_with_id() {
        let Some(reading) = reading::read(model, joint, ends) else { continue };
        findings.extend(reading.left.iter().map(|(end, why)| left_out(judged, end, why)));
        of_joint(judged, &reading, &mut findings);
    }
    findings
}

/// The page of one finding; `None` where the end is not judged.
pub fn write(judged: Judged<'_>, finding: &Finding) -> Option<Calculation> {
    let Subject::End { tube, at_to } = finding.subject else { return None };
    let case = case_of(judged, finding)?;
    let row = &judged.model.tubes()[tube];
    let joint = if at_to { row.to } else { row.from };
    let reading = reading::read(judged.model, joint, &End::at_joint(judged.model, joint))?;
    let own = |branch: &Branch| branch.end.tube == tube && branch.end.at_to == at_to;
    let place = reading.braces.iter().position(own)?;
    let branch = &reading.braces[place];
    let pushes = swept::pushes(judged, case, &reading);
    let ways = swept::ways(&reading, &pushes, place);
    let acting = swept::acting(judged, case, &reading, branch);
    let mut pages = Pages::default();
    let gamma = judged.partial(case).m5;
    told::opening(judged, case, &reading, place, &ways, &pushes, &mut pages);
    let outcome = swept::judge(branch, &ways, &acting, gamma, &mut pages);
    for why in swept::reasons(branch, &ways, &acting, &outcome) {
        pages.outside(&why);
    }
    let title = told::title(judged, &reading, branch, &finding.case);
    Some(pages.finish(title, told::clause(branch, &ways), SOURCE, outcome.utilisation))
}

/// The findings of one joint: brace by brace, each in every case.
fn of_joint(judged: Judged<'_>, reading: &Reading, findings: &mut Vec<Finding>) {
    let cases = judged.results.cases.len();
    let pushes: Vec<Vec<f64>> = (0..cases).map(|case| swept::pushes(judged, case, reading)).collect();
    for (place, branch) in reading.braces.iter().enumerate() {
        let judge = |case: usize| {
            let ways = swept::ways(reading, &pushes[case], place);
            let acting = swept::acting(judged, case, reading, branch);
            let outcome = swept::judge(branch, &ways, &acting, judged.partial(case).m5, &mut Silent);
            let first = match branch.reasons.first() {
                Some(why) => Some(why.clone()),
                None => swept::reasons(branch, &ways, &acting, &outcome).into_iter().next(),
            };
            (ways, acting.axial, outcome, first)
        };
        let start = findings.len();
        let mut worst: Option<(usize, f64)> = None;
        for case in 0..cases {
            let (ways, axial, outcome, outside) = judge(case);
            let used = outcome.utilisation;
            let mut found = finding(judged, case, branch, told::clause(branch, &ways), &outcome, outside.as_deref());
            if used > 1.0 {
                found.message = told::message(judged, reading, branch, &ways, axial, &outcome, outside.as_deref());
            }
            findings.push(found);
            if worst.is_none_or(|(_, most)| used > most) {
                worst = Some((case, used));
            }
        }
        let Some((case, _)) = worst else { continue };
        let (ways, axial, outcome, outside) = judge(case);
        findings[start + case].message =
            told::message(judged, reading, branch, &ways, axial, &outcome, outside.as_deref());
    }
}

fn finding(
    judged: Judged<'_>,
    case: usize,
    branch: &Branch,
    clause: &str,
    outcome: &Outcome,
    outside: Option<&str>,
) -> Finding {
    let [force, in_plane, out_of_plane] = outcome.design;
    let [bears_in_plane, bears_out_of_plane] = outcome.moment_resistances;
    Finding {
        code: Code("D030"),
        severity: if outcome.utilisation > 1.0 { Severity::Error } else { Severity::Note },
        case: judged.results.cases[case].name.clone(),
        subject: Subject::End { tube: branch.end.tube, at_to: branch.end.at_to },
        value: outcome.utilisation,
        limit: Some(1.0),
        unit: "",
        utilisation: Some(outcome.utilisation),
        clause: outside.map_or_else(|| clause.to_owned(), |why| format!("outside scope: {why}; {clause} as screening")),
        entered: vec![
            ("N_1,Ed", force, Unit::N),
            ("M_ip,Ed", in_plane, Unit::NM),
            ("M_op,Ed", out_of_plane, Unit::NM),
            ("n", outcome.stress_ratio, Unit::ONE),
            ("N_1,Rd", outcome.axial_resistance, Unit::N),
            ("M_ip,Rd", bears_in_plane, Unit::NM),
            ("M_op,Rd", bears_out_of_plane, Unit::NM),
            ("efficiency", outcome.efficiency, Unit::ONE),
        ],
        message: String::new(),
    }
}

/// An end that the tables say nothing of.
fn left_out(judged: Judged<'_>, end: &End, why: &str) -> Finding {
    let subject = Subject::End { tube: end.tube, at_to: end.at_to };
    Finding {
        code: Code("D030"),
        severity: Severity::Note,
        case: String::new(),
        subject,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: format!("outside scope: {why}"),
        entered: Vec::new(),
        message: format!("tube {} is not checked as a joint of hollow sections: {why}", subject.name(judged.model)),
    }
}

#[cfg(test)]
mod tests;
