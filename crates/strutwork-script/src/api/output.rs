//! What a script says and writes.

use rhai::Array;
use rhai::plugin::*;

use super::Raised;
use crate::fault::Fault;
use crate::host::below;
use crate::number::{names, number, whole};
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// A cell of a CSV row: numbers as short as they read back the same, texts quoted where they must be.
fn cell(value: &Dynamic) -> Result<String, Fault> {
    if value.is_float() {
        return Ok(number("a cell of the row", value)?.to_string());
    }
    let text = value.to_string();
    if text.contains([',', '"', '\n', '\r']) || text.trim() != text || text.starts_with('#') {
        Ok(format!("\"{}\"", text.replace('"', "\"\"")))
    } else {
        Ok(text)
    }
}

#[export_module]
mod functions {
    use super::*;

    /// The arguments that follow the script's name on the command line, as texts.
    ///
    /// * None in a case script.
    ///
    /// ```rhai
    /// let folder = if arguments().len() > 0 { arguments()[0] } else { "my-frame" };
    /// ```
    pub fn arguments(context: NativeCallContext) -> Array {
        names(Session::of(&context).args().iter().map(String::as_str))
    }

    /// A number as text with a fixed number of decimals.
    ///
    /// * `decimals` is from 0 to 15.
    ///
    /// # Units
    /// Those of the number: write them beside it.
    ///
    /// ```rhai
    /// print(fixed(12.3456, 1) + " kg");
    /// ```
    #[rhai_fn(return_raw)]
    pub fn fixed(value: Dynamic, decimals: Dynamic) -> Result<String, Raised> {
        let value = number("the number", &value)?;
        let decimals = whole("the number of decimals", &decimals, 0, 15, "a whole number from 0 to 15")?;
        Ok(format!("{value:.*}", decimals as usize))
    }

    /// A text pushed to the right of a column: for tables of numbers that are printed.
    ///
    /// * A text that is wider than the column stays as it is. `width` is from 0 to 200 characters.
    ///
    /// # Units
    /// `width` in characters.
    ///
    /// ```rhai
    /// print(to_right("mass kg", 12) + to_right(fixed(45.678, 2), 12));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn to_right(text: &str, width: Dynamic) -> Result<String, Raised> {
        let width = whole("the width of the column", &width, 0, 200, "a whole number from 0 to 200")?;
        Ok(format!("{text:>0$}", width as usize))
    }

    /// A row of a CSV table, with its line end: numbers in full, texts quoted where they must be.
    ///
    /// ```rhai
    /// let table = csv_row(["wall_mm", "mass_kg"]);
    /// table += csv_row([1.5, 42.25]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn csv_row(cells: Array) -> Result<String, Raised> {
        let cells: Vec<String> = cells.iter().map(cell).collect::<Result<_, _>>()?;
        Ok(cells.join(",") + "\n")
    }

    /// Writes a text into a file below the output folder, whole or not at all.
    ///
    /// * `path` is relative; folders are separated by `/`; `..` is refused.
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// write_text("sweep.csv", csv_row(["wall_mm", "mass_kg"]) + csv_row([2, 45.5]));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn write_text(context: NativeCallContext, path: &str, text: &str) -> Result<(), Raised> {
        let session = Session::of(&context);
        session.only_free("write_text")?;
        session.host().write_below(below(path)?, text.as_bytes()).map_err(Fault::from)?;
        session.note_written(path);
        Ok(())
    }
}
