//! D002: what is not checked, and what was switched off.

use strutwork_model::model::{Shape, SoftWhen};
use strutwork_model::{Code, Model, Severity};

use crate::explain::PAGES;
use crate::{Finding, Judged, Subject};

/// What a reader might expect and does not get from any frame, each as a finding of its own, never as a pass.
const NEVER_CHECKED: &[(&str, &str)] = &[
    (
        "plastic redistribution",
        "forces are those of the linear frame: what happens once a tube or a weld has yielded is not computed, and a section \
         that is judged as plastic counts on no help from its neighbours",
    ),
    (
        "thin walls",
        "welds, hollow-section joints and fatigue details of thin tubes lie outside the clauses that they are judged by: their \
         numbers are printed as outside scope and are no passes. Full-strength welds, procedure tests and inspection have to \
         carry that burden",
    ),
    (
        "joints in space",
        "the rules for hollow-section joints hold for tubes in one plane: where tubes meet in space each plane is judged by \
         itself, as a screening. Gussets, stiffeners, offcentre laps and dented or drilled walls are not judged",
    ),
    ("fracture", "brittle fracture, cracks and flaws of welds, and the toughness of steel in the cold are not checked"),
    ("corrosion", "rust, wear and damage take away wall: every check takes tubes as new, at their nominal size"),
    (
        "crash",
        "crash is not computed: a case of a crash is a steady load, without the energy, the speed and the folding of tubes \
         that a crash is made of",
    ),
    (
        "fittings",
        "suspension links, their bolts and those of belts and seats, rod ends, brackets, inserts, threads in sheet and weld nuts are \
         not checked",
    ),
];

/// What is left out of buckling of the frame: all of it, or what its load factors do not say.
fn of_buckling(judged: Judged<'_>) -> (&'static str, &'static str) {
    let text = if judged.lengths.is_some() {
        "load factors of the frame are those of straight tubes that stay elastic, and are held against no limit: they give the \
         buckling lengths of the tubes that bow in the modes found, all others are judged with one by rule or as given"
    } else {
        "buckling of the frame as a whole is not computed: each tube is judged with a buckling length by rule or as given, and \
         a frame that sways may buckle below that"
    };
    ("frame buckling", text)
}

/// The list of what is outside this version's scope, checks that are switched off, and tubes without stresses or strength.
pub fn check(judged: Judged<'_>) -> Vec<Finding> {
    let model = judged.model;
    let mut findings: Vec<Finding> = model
        .switched_off()
        .iter()
        .map(|off| {
            let title = PAGES.iter().find(|page| page.code == off.check).map_or("", |page| page.title);
            let message = format!("check {} ({title}) is switched off: {}", off.check, off.reason);
            said(Severity::Warning, Subject::Frame, "switched off", message)
        })
        .collect();
    let general = whole_frame(judged).into_iter().chain(NEVER_CHECKED.iter().copied()).chain(of_model(model));
    findings.extend(general.map(|(what, text)| said(Severity::Note, Subject::Frame, what, text.to_owned())));
    findings.extend(model.tubes().iter_with_id().filter_map(|(id, tube)| {
        let section = &model.sections()[tube.section];
        let material = &model.materials()[tube.material];
        let why = if section.wel_y.is_none() {
            "its section is given by properties alone"
        } else if material.strength.is_none() {
            "its material has no yield strength"
        } else {
            return None;
        };
        let message = format!("tube {} is not checked against yield, as a section or as a member: {why}", tube.name);
        Some(said(Severity::Note, Subject::Tube(id), "stress", message))
    }));
    findings
}

/// Buckling of the frame as a whole, as far as the order of the analysis reaches.
fn whole_frame(judged: Judged<'_>) -> Vec<(&'static str, &'static str)> {
    if !judged.results.is_second_order() {
        return vec![of_buckling(judged)];
    }
    vec![
        (
            "imperfections",
            "second order starts from the frame as drawn: a lean of the frame and a bow of its tubes from welding (EN 1993-1-1 \
             5.3) are not added, and grow as the drawn shape does. Draw them into the joints, or add their side loads",
        ),
        (
            "what second order leaves out",
            "axial forces work on what moves across the tubes. That rigid bodies, end offsets and panels turn under their own \
             forces, that twist and bending act on each other, and large turns, are not in it",
        ),
    ]
}

/// What depends on what the model holds.
fn of_model(model: &Model) -> impl Iterator<Item = (&'static str, &'static str)> {
    let joints = match model.options().soft_joints.when {
        SoftWhen::Off => {
            "joints are taken as rigid: the softness of tube walls, which moves forces from tube to tube, is not in the forces \
             that are judged"
        }
        SoftWhen::Band => {
            "strength is judged with rigid joints: the run with soft joints gives the band of the torsional stiffness alone"
        }
        SoftWhen::Always => {
            "the softness of joints is an estimate without a test behind it, and the forces that are judged rest on it"
        }
    };
    let flat = |tube: &strutwork_model::model::Tube| match model.sections()[tube.section].shape {
        Shape::Flat { .. } | Shape::Properties => true,
        Shape::Hollow { .. } | Shape::Round { .. } | Shape::SolidRound { .. } => false,
    };
    let tilting = (
        "lateral-torsional buckling",
        "flat bars and sections given by properties may tilt sideways under bending: that is not checked, and flat \
         bars on edge are printed as outside scope",
    );
    let fatigue = if model.fatigue().pairs.is_empty() {
        "fatigue is not judged at all, as no pair of cases with its cycles is named: a weld can crack under repeated loads far \
         below yield"
    } else {
        "the ends of tubes are ranked for the pairs of cases that are named, and no more: fatigue is not proved, and bolts, \
         links, brackets and panels are not even ranked"
    };
    let bolts = (
        "bolts without data",
        "a bolt is judged only where the model gives its size and class; how bolts are tightened and how they work loose is not \
         checked",
    );
    [
        Some(("fatigue", fatigue)),
        Some(("softness of joints", joints)),
        model.tubes().iter().any(flat).then_some(tilting),
        (!model.mounts().is_empty()).then_some(bolts),
    ]
    .into_iter()
    .flatten()
}

fn said(severity: Severity, subject: Subject, clause: &str, message: String) -> Finding {
    Finding {
        entered: Vec::new(),
        code: Code("D002"),
        severity,
        case: String::new(),
        subject,
        value: 0.0,
        limit: None,
        unit: "",
        utilisation: None,
        clause: format!("outside scope: {clause}"),
        message,
    }
}
