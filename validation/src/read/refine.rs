//! One `[[refine]]` of a case.

use strutwork_model::files::{InputFile, InputFiles};
use toml::{Table, Value};

use super::{Entry, what};
use crate::fault::CaseFault;
use crate::printed::Printed;
use crate::refine::{Division, Refine};
use crate::unit::Unit;

/// Takes the files of folders within the case's folder out of `files`: each folder is a model of a study, and holds what
/// differs from the case's own.
pub(super) fn take_models(files: &mut InputFiles) -> Vec<(String, InputFile)> {
    let mut models = Vec::new();
    files.0.retain(|file| {
        let Some((folder, name)) = file.name.split_once('/') else { return true };
        models.push((folder.to_owned(), InputFile { name: name.to_owned(), ..file.clone() }));
        false
    });
    models
}

/// Reads refinement `number` (counted from 1).
pub(super) fn read(number: usize, table: Table, models: &[(String, InputFile)]) -> Result<Refine, CaseFault> {
    read_in(number, table, models).map_err(|fault| CaseFault::Refine { number, fault: fault.to_string() })
}

fn read_in(number: usize, table: Table, models: &[(String, InputFile)]) -> Result<Refine, CaseFault> {
    let mut entry = Entry::new(number, table);
    let of = entry.table("of")?;
    let (pieces, folders) = (entry.counts("pieces")?, entry.counts("models")?);
    let mut steps = Vec::new();
    for &parts in pieces.iter().chain(&folders) {
        let mut of = of.clone();
        if !pieces.is_empty() {
            of.insert("pieces".to_owned(), Value::Integer(parts as i64));
        }
        let folder = if folders.is_empty() { String::new() } else { parts.to_string() };
        let files: Vec<InputFile> =
            models.iter().filter(|(name, _)| *name == folder).map(|(_, file)| file.clone()).collect();
        if files.is_empty() && !folders.is_empty() {
            return Err(entry.missing("models"));
        }
        let mut of = Entry::new(number, of);
        let what = what::read(&mut of)?;
        of.nothing_left()?;
        steps.push(Division { parts, what, files: InputFiles(files) });
    }
    let finer = steps.windows(2).all(|pair| pair[0].parts < pair[1].parts);
    if steps.len() < 2 || !finer || pieces.is_empty() == folders.is_empty() {
        return Err(entry.missing(if folders.is_empty() { "pieces" } else { "models" }));
    }
    let refine = Refine {
        divided: entry.text("divided")?,
        unit: Unit::named(&entry.text("unit")?)?,
        limit: Printed::read(&entry.text("limit")?)?,
        formula: entry.optional("formula")?.unwrap_or_default(),
        order: entry.number("order")?,
        because: entry.text("because")?,
        steps,
    };
    entry.nothing_left()?;
    match refine.steps[0].what.dimension() {
        Some(dimension) if dimension != refine.unit.dimension => {
            Err(CaseFault::Unit { quantity: number, unit: refine.unit.name, dimension })
        }
        _ => Ok(refine),
    }
}
