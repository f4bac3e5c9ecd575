//! A case's data in short.

use strutwork_model::model::Shape;
use strutwork_model::{Model, read_model, units};
use strutwork_report::number::{as_given, significant};

use super::{Block, Table};
use crate::case::Case;
use crate::formula::Formula;
use crate::sizing::{Sizes, Sizing};
use crate::what::{CaseWhat, What};

/// With more sections than this they are counted, not listed: the table of values lists them.
const FEW_SECTIONS: usize = 6;

/// Model and inputs of formulas.
pub(super) fn blocks(case: &Case) -> Vec<Block> {
    let mut blocks = Vec::new();
    // A model that cannot be read is told as the case's failure.
    if let (false, Ok(read)) = (case.files.0.is_empty(), read_model(&case.files)) {
        blocks.push(Block::Facts(facts(case, &read.value)));
    }
    if !case.formulas.is_empty() {
        blocks.extend(inputs(&case.formulas));
    }
    blocks
}

fn facts(case: &Case, model: &Model) -> Vec<(String, String)> {
    let mut facts = vec![("Model".to_owned(), counts(model))];
    for material in model.materials() {
        let mpa = |value: f64| significant(units::to_mpa(value), 6);
        let density = if material.density > 0.0 {
            format!(", ρ = {} kg/m³", as_given(material.density))
        } else {
            String::new()
        };
        let words = format!("E = {} MPa, G = {} MPa{density}", mpa(material.youngs), mpa(material.shear));
        facts.push((format!("Material {}", material.name), words));
    }
    let sections = model.sections();
    if sections.len() > FEW_SECTIONS {
        facts.push(("Sections".to_owned(), format!("{}, in the table of values", sections.len())));
    } else {
        for section in sections {
            let size = |value: f64, unit: i32| significant(value * 10.0_f64.powi(3 * unit), 6);
            // The label of such a section has its area already, with more digits than a reader wants.
            let shape = if section.shape == Shape::Properties { "given by its properties" } else { &section.label };
            let words = format!(
                "{shape}: A = {} mm², Iy = {} mm⁴, Iz = {} mm⁴, J = {} mm⁴",
                size(section.area, 2),
                size(section.iy, 4),
                size(section.iz, 4),
                size(section.j, 4)
            );
            facts.push((format!("Section {}", section.name), words));
        }
    }
    let mut pieces: Vec<usize> = case.quantities.iter().filter_map(|quantity| pieces(&quantity.what)).collect();
    pieces.sort_unstable();
    pieces.dedup();
    if !pieces.is_empty() {
        let list: Vec<String> = pieces.iter().map(usize::to_string).collect();
        facts.push(("Pieces of each tube".to_owned(), list.join(", ")));
    }
    facts.extend(case.sizing.as_ref().map(|sizing| ("Sizes to choose".to_owned(), sizes(sizing))));
    facts
}

/// What sizes may be chosen, and within what limits.
fn sizes(sizing: &Sizing) -> String {
    let mm2 = |area: &f64| significant(area * 1e6, 6);
    let choice = match &sizing.sizes {
        Sizes::Between(bounds) => format!("areas from {} to {} mm²", mm2(&bounds[0]), mm2(&bounds[1])),
        Sizes::Areas(list) => format!(
            "{} areas from {} to {} mm²",
            list.len(),
            list.first().map_or_else(String::new, mm2),
            list.last().map_or_else(String::new, mm2)
        ),
        Sizes::Stock(list) => list.join(", "),
    };
    let mut limits = vec![choice];
    if sizing.within_yield {
        limits.push("every tube within yield".to_owned());
    }
    if let [(name, limit), ..] = sizing.axial.as_slice() {
        let [tension, compression] = limit.map(|stress| significant(units::to_mpa(stress), 6));
        let others = if sizing.axial.len() > 1 {
            format!(" ({} more groups have limits of their own)", sizing.axial.len() - 1)
        } else {
            String::new()
        };
        limits.push(format!(
            "axial stress of {name} to {tension} MPa in tension, {compression} MPa in compression{others}"
        ));
    }
    if let Some((joint, dof, limit)) = sizing.movements.first() {
        limits.push(format!(
            "{} movements limited, {} of {joint} to {} mm",
            sizing.movements.len(),
            dof.name(),
            significant(units::to_mm(*limit), 6)
        ));
    }
    if let Some(least) = &sizing.stiffness {
        limits.push(format!("torsional stiffness at least {} N·m/rad", significant(least.at_least, 6)));
    }
    limits.join("; ")
}

/// In how many pieces each tube is divided for a quantity.
fn pieces(what: &What) -> Option<usize> {
    match what {
        What::Frequency { pieces, .. } => Some(*pieces),
        What::OfCase { result: CaseWhat::LoadFactor { pieces, .. }, .. } => *pieces,
        _ => None,
    }
}

fn counts(model: &Model) -> String {
    let counted = [
        (model.joints().len(), "joint", "joints"),
        (model.tubes().len(), "tube", "tubes"),
        (model.supports().len(), "supported joint", "supported joints"),
        (model.panels().len(), "panel", "panels"),
        (model.bodies().len(), "body", "bodies"),
        (model.masses().len(), "mass", "masses"),
        (model.plain_cases().len(), "load case of the files", "load cases of the files"),
    ];
    let words: Vec<String> = counted
        .into_iter()
        .filter(|(count, ..)| *count > 0)
        .map(|(count, one, many)| format!("{count} {}", if count == 1 { one } else { many }))
        .collect();
    words.join(", ")
}

/// Inputs of formulas: formulas of one kind in one table, a row each; or a row an input where there is one formula.
fn inputs(formulas: &[Formula]) -> Vec<Block> {
    let mut blocks = Vec::new();
    for group in formulas.chunk_by(|a, b| a.of == b.of) {
        let caption = format!("Inputs of the formula `{}`", group[0].of);
        let mut keys: Vec<&str> = Vec::new();
        for (key, _) in group.iter().flat_map(|formula| &formula.inputs) {
            if !keys.contains(&key.as_str()) {
                keys.push(key);
            }
        }
        let value = |formula: &Formula, key: &str| {
            formula.inputs.iter().find(|(known, _)| known == key).map_or_else(String::new, |(_, value)| {
                let number = value.as_float().map(as_given);
                number.or_else(|| value.as_str().map(str::to_owned)).unwrap_or_else(|| value.to_string())
            })
        };
        let mut heads = vec!["Input".to_owned()];
        heads.extend(group.iter().map(|formula| format!("#{}", formula.name)));
        // On its side where there are many formulas.
        if group.len() > 4 {
            heads = vec!["Formula".to_owned()];
            heads.extend(keys.iter().map(|key| format!("#{key}")));
        }
        let mut table = Table::new(&caption, &heads.iter().map(String::as_str).collect::<Vec<_>>());
        if group.len() > 4 {
            for formula in group {
                let mut cells = vec![formula.name.clone().into()];
                cells.extend(keys.iter().map(|key| value(formula, key).into()));
                table.push(cells, false);
            }
        } else {
            for key in keys {
                let mut cells = vec![key.into()];
                cells.extend(group.iter().map(|formula| value(formula, key).into()));
                table.push(cells, false);
            }
        }
        blocks.push(Block::Table(table));
    }
    blocks
}
