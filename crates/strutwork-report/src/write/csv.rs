//! Tables as comma separated text.

use crate::number;
use crate::run::Run;
use crate::table::{Cell, Table, push_entered};
use crate::tables;

/// Every result file: its name and its text, in a fixed order.
///
/// # Units and shapes
/// The unit is in every column's name. Numbers are the shortest text that reads back as the same `f64`; −0 is 0.
pub fn csv_files(run: &Run<'_>) -> Vec<(String, String)> {
    tables::ALL
        .iter()
        .filter_map(|(make, only_with_rows)| {
            let table = make(run);
            let wanted = !only_with_rows || !table.rows.is_empty();
            wanted.then(|| (format!("{}.csv", table.name), to_csv(&table)))
        })
        .collect()
}

/// One table: a header row of keys, then the rows; text with commas, quotes or line breaks is quoted.
pub fn to_csv(table: &Table<'_>) -> String {
    // A field that opens with # is quoted, so that no reader takes its row for a comment.
    let mut writer = ::csv::WriterBuilder::new().comment(Some(b'#')).from_writer(Vec::new());
    let header = table.columns.iter().map(|column| column.key);
    // Writing to memory cannot fail, and every row is as long as the header.
    let mut sound = writer.write_record(header).is_ok();
    let mut number = String::new();
    for row in &table.rows {
        for cell in row {
            sound &= match cell {
                Cell::Text(text) => writer.write_field(text.as_bytes()),
                Cell::Number(value) => {
                    number.clear();
                    number::push_exact(&mut number, *value);
                    writer.write_field(&number)
                }
                Cell::Entered(entered) => {
                    number.clear();
                    push_entered(&mut number, entered);
                    writer.write_field(&number)
                }
                Cell::Empty => writer.write_field(""),
            }
            .is_ok();
        }
        sound &= writer.write_record(None::<&[u8]>).is_ok();
    }
    debug_assert!(sound, "a row of {} is not as long as its header", table.name);
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::{Column, Digits};

    #[test]
    fn awkward_names_are_quoted_and_numbers_are_whole() {
        let table = Table {
            name: "t",
            caption: String::new(),
            columns: vec![Column::text("joint", "joint"), Column::number("ux_mm", "ux", "mm", Digits::Column(3))],
            rows: vec![
                vec![Cell::text("a,b"), Cell::Number(-0.0)],
                vec![Cell::text("say \"so\""), Cell::Number(1.0 / 3.0)],
                vec![Cell::text("# not a comment"), Cell::Empty],
            ],
        };
        assert_eq!(
            to_csv(&table),
            "joint,ux_mm\n\"a,b\",0\n\"say \"\"so\"\"\",0.3333333333333333\n\"# not a comment\",\n"
        );
    }
}
