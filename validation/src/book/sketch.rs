//! Which pictures a case with a model has: outlines of sections that are asked for, sketches of its load cases.

use strutwork_model::model::{PlainCase, Section};
use strutwork_model::{JointId, Model, read_model};
use strutwork_report::figures::sketch::{Sketched, draw};
use strutwork_report::figures::{Figure, outline};

use crate::case::Case;
use crate::what::{CaseWhat, What};

/// With more load cases than this the first ones are drawn.
const MOST_CASES: usize = 3;

/// The pictures, none where there is no model or it cannot be read.
pub(super) fn figures(case: &Case) -> Vec<Figure> {
    let Ok(read) = read_model(&case.files) else { return Vec::new() };
    let model = &read.value;
    let mut figures: Vec<Figure> = sections(case, model).into_iter().collect();
    let asked_of_frame = case.quantities.iter().any(|quantity| !matches!(quantity.what, What::Section { .. }));
    if asked_of_frame || figures.is_empty() {
        figures.extend(frames(case, model));
    }
    figures
}

/// Outlines of the sections whose properties are asked for.
fn sections(case: &Case, model: &Model) -> Option<Figure> {
    let asked = |section: &&Section| {
        case.quantities.iter().any(|quantity| match &quantity.what {
            What::Section { section: name, .. } => *name == section.name,
            _ => false,
        })
    };
    let sections: Vec<&Section> = model.sections().iter().filter(asked).collect();
    outline::outlines(&sections, &format!("Sections: {}", case.title))
}

/// A sketch for each load case that is asked for.
fn frames(case: &Case, model: &Model) -> Vec<Figure> {
    let mut names: Vec<&str> = Vec::new();
    for (name, _) in case.quantities.iter().flat_map(|quantity| quantity.what.of_cases()) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let marked = marked(case, model);
    let plain = |name: &str| model.plain_cases().iter().find(|plain| plain.name == name);
    let sketch = |plain: Option<&PlainCase>, forces: &[([f64; 3], [f64; 3])]| {
        let label = format!("Sketch: {}", case.title);
        draw(&Sketched { model, case: plain, forces, marked: &marked, label: &label })
    };
    // Looks alike without loads: once is enough.
    let mut drawn: Vec<Figure> = Vec::new();
    for name in names.into_iter().take(MOST_CASES) {
        let figure = sketch(plain(name), &wheels(case, model, name));
        if !drawn.contains(&figure) {
            drawn.push(figure);
        }
    }
    // Modes, masses, sizes to choose: asked of no load case, or of all.
    if drawn.is_empty() {
        drawn.extend(model.plain_cases().iter().take(MOST_CASES).map(|plain| sketch(Some(plain), &[])));
    }
    if drawn.is_empty() {
        drawn.push(sketch(None, &[]));
    }
    drawn
}

/// Forces of a load case on wheels: where the ground touches them, or at their middle.
fn wheels(case: &Case, model: &Model, name: &str) -> Vec<([f64; 3], [f64; 3])> {
    let Some(vehicle) = model.vehicle() else { return Vec::new() };
    let of_case = case.wheel_forces.iter().filter(|force| force.case == name);
    of_case.map(|force| (vehicle.corner(force.wheel).contact, force.force)).collect()
}

/// Joints that the printed values name.
fn marked(case: &Case, model: &Model) -> Vec<JointId> {
    let mut marked: Vec<JointId> = Vec::new();
    for (_, result) in case.quantities.iter().flat_map(|quantity| quantity.what.of_cases()) {
        let names: Vec<&String> = match result {
            CaseWhat::Displacement { joint, minus_joint, .. } => Some(joint).into_iter().chain(minus_joint).collect(),
            CaseWhat::Reaction { joint, .. } | CaseWhat::Mount { joint, .. } => vec![joint],
            CaseWhat::TorsionalStiffness { front, rear, .. } => front.iter().chain(rear).collect(),
            _ => Vec::new(),
        };
        marked.extend(names.into_iter().filter_map(|name| model.joint_named(name)));
    }
    let from_steps = case.refinements.iter().flat_map(|refine| refine.steps.iter().take(1));
    for (_, result) in from_steps.flat_map(|step| step.what.of_cases()) {
        if let CaseWhat::Displacement { joint, .. } = result {
            marked.extend(model.joint_named(joint));
        }
    }
    marked.extend(model.supports().iter().map(|support| support.joint).filter(|_| model.supports().len() <= 4));
    marked.sort_unstable();
    marked.dedup();
    marked
}
