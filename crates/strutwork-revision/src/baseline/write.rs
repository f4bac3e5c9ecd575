//! A baseline as text: comma separated, a row a quantity, in a stable order.

use super::file::{Baseline, FORMAT, Setting};
use super::quantity::{Value, number};
use crate::results::InputHash;

/// The columns.
pub const COLUMNS: [&str; 8] = ["kind", "case", "subject", "quantity", "value", "unit", "tolerance", "why"];

/// In the column `unit`: the value is a word.
pub const TEXT: &str = "text";

/// What stands above the table. No commas and no quotes: a spreadsheet that opens and saves the file leaves it as it is.
const HEAD: &str = "\
# What this model came to when it was recorded. A new run is held against it by: strutwork baseline check FOLDER
# Recorded anew (the difference is shown first) by: strutwork baseline record FOLDER --update
# tolerance: how far a new value may lie off in the row's unit. why: the rule that it follows. Give a row a tolerance
# and a reason of your own and they stay when it is recorded anew. keep rows choose: KIND:CASE:SUBJECT:QUANTITY or usual.
";

/// The text of a baseline. Numbers are the shortest that read back as the same; the same baseline gives the same bytes.
pub fn write_baseline(baseline: &Baseline) -> String {
    let mut rows: Vec<[String; 8]> = Vec::new();
    let mut row = |cells: [&str; 8]| rows.push(cells.map(str::to_owned));
    row(["baseline", "", "", "format", FORMAT, "", "", ""]);
    row(["baseline", "", "", "recorded_by", &baseline.recorded_by, "", "", ""]);
    for Setting { name, value, .. } in &baseline.options {
        row(["option", "", "", name, value, "", "", ""]);
    }
    for pattern in &baseline.keep {
        row(["keep", "", "", "", &pattern.to_string(), "", "", ""]);
    }
    for InputHash { file, sha256 } in &baseline.inputs {
        row(["input", "", file, "sha256", sha256, "", "", ""]);
    }
    for rule in &baseline.rules {
        row(["rule", "", &rule.name, "", "", "", &number(rule.share), &rule.why]);
    }
    for entry in &baseline.entries {
        let [kind, case, subject, quantity] = entry.kept.key.parts();
        let unit = match entry.kept.value {
            Value::Text(_) => TEXT,
            Value::Number(_) => &entry.kept.unit,
        };
        let (value, tolerance) = (entry.kept.value.to_string(), number(entry.tolerance));
        row([kind, case, subject, quantity, &value, unit, &tolerance, &entry.why]);
    }
    // A field that opens with # is quoted, so that no reader takes its row for a comment.
    let mut writer = csv::WriterBuilder::new().comment(Some(b'#')).from_writer(Vec::new());
    // Writing to memory cannot fail, and every row is as long as the header.
    let mut sound = writer.write_record(COLUMNS).is_ok();
    for row in &rows {
        sound &= writer.write_record(row).is_ok();
    }
    debug_assert!(sound, "a row is not as long as the header");
    let bytes = writer.into_inner().unwrap_or_default();
    format!("{HEAD}{}", String::from_utf8(bytes).unwrap_or_default())
}
