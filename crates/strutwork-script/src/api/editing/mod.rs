//! Changing a model: rows of the spec found by name, and the three subjects of change.

mod carried;
mod frame;
mod sections;

use rhai::Engine;
use strutwork_model::spec::Written;

use crate::fault::Fault;
use crate::number::Named;

pub(super) fn register(engine: &mut Engine) {
    frame::register(engine);
    sections::register(engine);
    carried::register(engine);
}

/// The keys of a place.
const PLACE: [&str; 3] = ["x_mm", "y_mm", "z_mm"];

/// The row with this name, to be changed.
fn find<'s, T>(
    kind: &'static str,
    rows: &'s mut [T],
    name: &str,
    name_of: fn(&T) -> &Written<String>,
) -> Result<&'s mut T, Fault> {
    match rows.iter().position(|row| name_of(row).value == name) {
        Some(place) => Ok(&mut rows[place]),
        None => Err(Fault::unknown(kind, name, rows.iter().map(|row| name_of(row).value.as_str()))),
    }
}

/// Refuses a name that a row has already.
fn free<T>(kind: &'static str, rows: &[T], name: &str, name_of: fn(&T) -> &Written<String>) -> Result<(), Fault> {
    if rows.iter().any(|row| name_of(row).value == name) {
        return Err(Fault::NameTaken { kind, name: name.to_owned() });
    }
    Ok(())
}

/// Puts the numbers that the map names into a place; the rest stays.
fn put_place(change: &Named<'_>, cells: [&mut Written<f64>; 3]) -> Result<(), Fault> {
    for (key, cell) in PLACE.into_iter().zip(cells) {
        if let Some(number) = change.number(key)? {
            *cell = number.into();
        }
    }
    Ok(())
}
