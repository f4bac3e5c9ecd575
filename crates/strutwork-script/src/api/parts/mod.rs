//! One part by itself under forces that the script gives.

mod joined;
mod steel;

use rhai::Engine;
use strutwork_checks::alone::{Missing, Part};
use strutwork_model::model::Model;

use crate::fault::Fault;
use crate::number::Named;

pub(super) fn register(engine: &mut Engine) {
    steel::register(engine);
    joined::register(engine);
}

/// The section and the material with these names.
fn part<'m>(model: &'m Model, section: &str, material: &str) -> Result<Part<'m>, Fault> {
    let found = model.sections().iter().find(|known| known.name == section);
    let names = || model.sections().iter().map(|known| known.name.as_str());
    let section = found.ok_or_else(|| Fault::unknown("section", section, names()))?;
    let found = model.materials().iter().find(|known| known.name == material);
    let names = || model.materials().iter().map(|known| known.name.as_str());
    let material = found.ok_or_else(|| Fault::unknown("material", material, names()))?;
    Ok(Part { section, material, process: model.welds().process })
}

fn cannot(function: &'static str) -> impl Fn(Missing) -> Fault {
    move |missing| Fault::NoCheck { function, needs: missing.words() }
}

/// A number above zero.
fn above_zero(what: &str, value: f64) -> Result<f64, Fault> {
    if value > 0.0 {
        Ok(value)
    } else {
        Err(Fault::OutOfRange { what: what.to_owned(), value, range: "greater than 0" })
    }
}

/// A named number above zero, where given.
fn positive(acting: &Named<'_>, key: &'static str) -> Result<Option<f64>, Fault> {
    acting.number(key)?.map(|value| above_zero(&format!("`{key}`"), value)).transpose()
}

/// A partial factor; the recommended one where not given.
fn gamma(acting: &Named<'_>, key: &'static str, recommended: f64) -> Result<f64, Fault> {
    Ok(positive(acting, key)?.unwrap_or(recommended))
}
