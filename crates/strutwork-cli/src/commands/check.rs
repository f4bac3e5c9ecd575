//! `strutwork check`: every fault of a model, and what the model holds when there is none.

use serde_json::{Value, json};
use strutwork_loads::MassModel;
use strutwork_model::model::Suspension;
use strutwork_model::{Diagnostic, Model, Warned};

use crate::args::CheckArgs;
use crate::exit::{Failure, Outcome};
use crate::pipeline;
use crate::render::{self, counted};
use crate::terminal::Terminal;

/// Reads and validates a model.
///
/// # Errors
/// [`Failure::Input`] with every fault; [`Failure::File`] when a file cannot be read.
pub(crate) fn run(args: &CheckArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let read = pipeline::read(&args.folder)?;
    if args.json {
        return as_json(read.model(), terminal);
    }
    let Warned { value: model, warnings } = read.model()?;
    terminal.note(&render::diagnostics(&warnings, &read.sources, terminal));
    terminal.result(&summary(&model, &warnings))?;
    Ok(Outcome::Passed)
}

fn as_json(model: Result<Warned<Model>, Failure>, terminal: &Terminal) -> Result<Outcome, Failure> {
    let (value, failure) = match model {
        Ok(Warned { value: model, warnings }) => {
            (json!({ "valid": true, "diagnostics": list(&warnings), "model": holds(&model) }), None)
        }
        Err(Failure::Input { faults, .. }) => {
            (json!({ "valid": false, "diagnostics": list(&faults), "model": null }), Some(Failure::Told(2)))
        }
        Err(other) => return Err(other),
    };
    terminal.result(&format!("{value:#}\n"))?;
    failure.map_or(Ok(Outcome::Passed), Err)
}

/// Diagnostics as JSON.
pub(crate) fn list(all: &[Diagnostic]) -> Vec<Value> {
    all.iter()
        .map(|one| {
            json!({
                "code": one.code.0,
                "severity": one.severity.word(),
                "file": one.place.as_ref().map(|place| place.file.as_str()),
                "line": one.place.as_ref().map(|place| place.line).filter(|&line| line > 0),
                "column": one.place.as_ref().map(|place| place.column).filter(|&column| column > 0),
                "subject": one.subject,
                "message": one.message,
                "help": one.help,
            })
        })
        .collect()
}

fn holds(model: &Model) -> Value {
    let mass = MassModel::of(model);
    json!({
        "title": model.title().title,
        "joints": model.joints().len(),
        "tubes": model.tubes().len(),
        "sections": model.sections().len(),
        "materials": model.materials().len(),
        "supports": model.supports().len(),
        "bodies": model.bodies().len(),
        "mounts": model.mounts().len(),
        "panels": model.panels().len(),
        "links": links(model),
        "masses": model.masses().len(),
        "cases": model.plain_cases().len(),
        "vehicle": model.vehicle().is_some(),
        "frame_mass_kg": frame_mass(model),
        "total_mass_kg": mass.total,
        "centre_of_gravity_mm": mass.centre.map(strutwork_model::units::to_mm),
    })
}

/// Links of all linked corners.
fn links(model: &Model) -> usize {
    let corners = model.vehicle().map(|vehicle| &vehicle.corners).into_iter().flatten();
    corners
        .map(|corner| match &corner.suspension {
            Suspension::Linked(links) => links.len(),
            Suspension::Rigid(_) => 0,
        })
        .sum()
}

fn frame_mass(model: &Model) -> f64 {
    model.tubes().ids().map(|tube| model.tube_mass(tube)).sum()
}

fn summary(model: &Model, warnings: &[Diagnostic]) -> String {
    let mass = MassModel::of(model);
    let centre = mass.centre.map(strutwork_model::units::to_mm);
    let mut text = format!("{}: the model is right.\n", model.title().title);
    text.push_str(&format!(
        "  frame   {}, {}, {}, {}\n",
        counted(model.joints().len(), "joint"),
        counted(model.tubes().len(), "tube"),
        counted(model.sections().len(), "section"),
        counted(model.materials().len(), "material"),
    ));
    let bolted = (!model.bodies().is_empty()).then(|| {
        let bodies =
            if model.bodies().len() == 1 { "1 body".to_owned() } else { format!("{} bodies", model.bodies().len()) };
        format!("{bodies} at {}", counted(model.mounts().len(), "bolted joint"))
    });
    let more = [(model.panels().len(), "panel"), (links(model), "link")];
    let more = more.into_iter().filter(|&(number, _)| number > 0).map(|(number, name)| counted(number, name));
    let more: Vec<String> = bolted.into_iter().chain(more).collect();
    if !more.is_empty() {
        text.push_str(&format!("  with    {}\n", more.join(", ")));
    }
    text.push_str(&format!(
        "  held    {}\n  acting  {}{}\n",
        counted(model.supports().len(), "supported joint"),
        counted(model.plain_cases().len(), "load case") + " in the load files",
        if model.vehicle().is_some() { ", and a vehicle" } else { "" },
    ));
    text.push_str(&format!(
        "  mass    tubes {:.2} kg, with {} {:.2} kg, centre at ({:.1}, {:.1}, {:.1}) mm\n",
        frame_mass(model),
        if model.masses().len() == 1 {
            "1 carried mass".to_owned()
        } else {
            format!("{} carried masses", model.masses().len())
        },
        mass.total,
        centre[0],
        centre[1],
        centre[2],
    ));
    if !warnings.is_empty() {
        text.push_str(&format!("  listed  {}\n", render::tally(warnings)));
    }
    text
}
