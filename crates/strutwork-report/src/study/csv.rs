//! Variants as comma separated text.

use strutwork_study::journal::Header;
use strutwork_study::{Row, Status, Value};

use crate::number;

/// The header row, with its line end.
pub fn csv_header(header: &Header) -> String {
    let mut cells = vec!["variant".to_owned()];
    cells.extend(header.parameters.iter().map(|column| column.name.clone()));
    cells.extend(header.responses.iter().cloned());
    if header.constrained {
        cells.push("feasible".to_owned());
    }
    cells.extend(["status", "note"].map(str::to_owned));
    line(&cells)
}

/// A variant, with its line end. Numbers are the shortest text that reads back as the same `f64`; an infinite utilisation is
/// `inf`; what the variant does not have is empty.
pub fn csv_row(header: &Header, row: &Row) -> String {
    let exact = |value: f64| {
        let mut text = String::new();
        number::push_exact(&mut text, value);
        text
    };
    let outcome = &row.outcome;
    let mut cells = vec![row.variant.to_string()];
    cells.extend(row.values.iter().map(|value| match value {
        Value::Number(number) => exact(*number),
        Value::Word(word) => word.clone(),
    }));
    for place in 0..header.responses.len() {
        cells.push(outcome.responses.get(place).copied().flatten().map_or_else(String::new, exact));
    }
    if header.constrained {
        cells.push(outcome.feasible.map_or("", yes_or_no).to_owned());
    }
    cells.push(outcome.status.word().to_owned());
    cells.push(if outcome.status == Status::Solved { String::new() } else { outcome.note.clone() });
    line(&cells)
}

const fn yes_or_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

fn line(cells: &[String]) -> String {
    // As in the other tables: a field that opens with # is quoted, so that no reader takes its row for a comment.
    let mut writer = ::csv::WriterBuilder::new().comment(Some(b'#')).from_writer(Vec::new());
    let sound = writer.write_record(cells).is_ok();
    debug_assert!(sound, "writing to memory cannot fail");
    String::from_utf8(writer.into_inner().unwrap_or_default()).unwrap_or_default()
}
