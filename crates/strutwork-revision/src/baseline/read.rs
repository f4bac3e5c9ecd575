//! A baseline from text: every fault with its line.

use std::collections::BTreeMap;

use strutwork_model::nearest::nearest;
use strutwork_model::{Code, Diagnostic, Faults, Place, Severity};

use super::codes;
use super::file::{Baseline, Entry, FILE, FORMAT, Setting};
use super::keep::Pattern;
use super::quantity::{Kept, Key};
use super::tolerance::{Rule, SAME};
use super::write::{COLUMNS, TEXT};
use crate::results::{InputHash, Kind};
use crate::sheet::Sheet;

/// Reads a baseline. Comment lines and blank lines are left out; columns may stand in any order.
///
/// # Errors
/// Every fault with its line: no baseline at all or one of another format (B001), rows that cannot be read (B002), quantities
/// that stand there twice (B003).
pub fn read_baseline(bytes: &[u8]) -> Result<Baseline, Faults> {
    let mut met = Vec::new();
    let baseline = read(bytes, &mut met);
    match baseline {
        Some(baseline) if met.is_empty() => Ok(baseline),
        _ => Err(Faults(met)),
    }
}

/// The cells of a row, in the order of [`COLUMNS`].
type Cells<'a> = [&'a str; 8];

fn read(bytes: &[u8], met: &mut Vec<Diagnostic>) -> Option<Baseline> {
    let none = "record one with `strutwork baseline record FOLDER`";
    let Some(sheet) = Sheet::read(bytes) else {
        met.push(fault(codes::NO_BASELINE, 0, "the baseline is not UTF-8 text".into(), none));
        return None;
    };
    let header: Vec<&str> = sheet.header.iter().map(|name| name.trim()).collect();
    let lacking: Vec<&str> = COLUMNS.into_iter().filter(|column| !header.contains(column)).collect();
    if !lacking.is_empty() {
        let message = format!("the baseline has no column `{}`", lacking.join("`, `"));
        met.push(fault(codes::NO_BASELINE, sheet.header_line, message, none));
        return None;
    }
    let places = COLUMNS.map(|column| header.iter().position(|name| *name == column).unwrap_or_default());
    let mut rows = Rows { baseline: Baseline::default(), lines: BTreeMap::new(), format: None, met };
    for (line, record) in &sheet.rows {
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        rows.take(places.map(|place| record.get(place).unwrap_or_default()), *line);
    }
    let Rows { baseline, format, met, .. } = rows;
    if baseline.entries.is_empty() && met.is_empty() && format.is_some() {
        met.push(fault(codes::NO_BASELINE, 0, "the baseline holds no quantity: nothing would be checked".into(), none));
    }
    match format.as_deref() {
        Some(FORMAT) => Some(baseline),
        Some(other) => {
            let message = format!("the baseline has the format `{other}`; this version reads the format {FORMAT}");
            met.push(fault(
                codes::NO_BASELINE,
                0,
                message,
                "use the version of the program that recorded it, or record anew",
            ));
            None
        }
        None => {
            let message = format!("the baseline has no row `baseline,,,format,{FORMAT}`");
            met.push(fault(codes::NO_BASELINE, 0, message, none));
            None
        }
    }
}

/// A baseline as far as it was read.
struct Rows<'m> {
    baseline: Baseline,
    /// Where each quantity stands.
    lines: BTreeMap<Key, usize>,
    format: Option<String>,
    met: &'m mut Vec<Diagnostic>,
}

impl Rows<'_> {
    fn take(&mut self, cells: Cells<'_>, line: usize) {
        let [kind, _, subject, quantity, value, _, tolerance, why] = cells;
        match kind.trim() {
            "baseline" => match quantity.trim() {
                "format" => self.format = Some(value.trim().to_owned()),
                "recorded_by" => value.trim().clone_into(&mut self.baseline.recorded_by),
                other => {
                    self.wrong(line, format!("a baseline row has no `{other}`"), "it knows `format` and `recorded_by`")
                }
            },
            "option" => {
                let (name, value) = (quantity.trim().to_owned(), value.trim().to_owned());
                self.baseline.options.push(Setting { name, value, line });
            }
            "keep" => match Pattern::new(value) {
                Ok(pattern) => self.baseline.keep.push(pattern),
                Err(why) => self.wrong(line, why.to_string(), "write one pattern a row, in the column value"),
            },
            "input" => {
                self.baseline.inputs.push(InputHash { file: subject.to_owned(), sha256: value.trim().to_owned() })
            }
            "rule" => {
                if let Some(share) = self.share(tolerance, line) {
                    let (name, why) = (subject.trim().to_owned(), why.to_owned());
                    self.baseline.rules.push(Rule { name, share, why });
                }
            }
            word => match Kind::from_word(word) {
                Some(kind) => self.entry(kind, cells, line),
                None => {
                    let known = Kind::ALL.map(Kind::word);
                    let help = nearest(word, known.into_iter().chain(["baseline", "option", "keep", "input", "rule"]))
                        .map_or_else(
                            || "record the baseline anew".to_owned(),
                            |near| format!("did you mean `{near}`?"),
                        );
                    self.wrong(line, format!("there is no kind `{word}`"), &help);
                }
            },
        }
    }

    fn entry(&mut self, kind: Kind, [_, case, subject, quantity, value, unit, tolerance, why]: Cells<'_>, line: usize) {
        let key = Key::new(kind, case, subject, quantity);
        if let Some(first) = self.lines.get(&key) {
            let message = format!("`{key}` stands here and in line {first}");
            self.met.push(fault(codes::TWICE, line, message, "delete one of the two rows"));
            return;
        }
        self.lines.insert(key.clone(), line);
        if quantity.trim().is_empty() {
            self.wrong(line, "the column quantity is empty".into(), "name the quantity, or delete the row");
        }
        if unit == TEXT {
            let kept = Kept::text(key, value);
            let why = if why.trim().is_empty() { SAME } else { why.trim() };
            self.baseline.entries.push(Entry { kept, tolerance: 0.0, why: why.to_owned(), line });
            return;
        }
        let number = self.number("value", value, line);
        let tolerance = self.share(tolerance, line);
        if why.trim().is_empty() {
            self.wrong(line, "the tolerance has no reason".into(), "write into the column why where it comes from");
        }
        if let (Some(number), Some(tolerance)) = (number, tolerance) {
            let kept = Kept::number(key, number, unit);
            self.baseline.entries.push(Entry { kept, tolerance, why: why.trim().to_owned(), line });
        }
    }

    /// A finite number that is not negative.
    fn share(&mut self, text: &str, line: usize) -> Option<f64> {
        let number = self.number("tolerance", text, line)?;
        if number < 0.0 {
            self.wrong(line, format!("the tolerance {number} is negative"), "a tolerance is 0 or more");
            return None;
        }
        Some(number)
    }

    fn number(&mut self, column: &str, text: &str, line: usize) -> Option<f64> {
        let number = text.trim().parse::<f64>().ok().filter(|number| number.is_finite());
        if number.is_none() {
            let shown: String = text.chars().take(40).collect();
            let message = format!("`{shown}` in the column {column} is no number");
            self.wrong(line, message, "decimals are set apart by a point: 6685.3");
        }
        number
    }

    fn wrong(&mut self, line: usize, message: String, help: &str) {
        self.met.push(fault(codes::BAD_ROW, line, message, help));
    }
}

fn fault(code: Code, line: usize, message: String, help: &str) -> Diagnostic {
    let place = Some(Place::line(FILE, line));
    let (subject, help) = (String::new(), help.to_owned());
    Diagnostic { code, severity: Severity::Error, place, subject, message, help }
}
