//! A table of text: its header and its rows as cells, each with the line that it stands in.

use csv::StringRecord;

/// A table as it was read.
pub(crate) struct Sheet {
    /// The names of the columns, as written.
    pub header: Vec<String>,
    /// The line of the header, counted from 1.
    pub header_line: usize,
    /// Line and cells of each row, in order, however many there are.
    pub rows: Vec<(usize, StringRecord)>,
}

impl Sheet {
    /// Reads a table; lines that begin with `#` and blank lines are left out. `None` where it is not UTF-8 text.
    pub(crate) fn read(bytes: &[u8]) -> Option<Self> {
        let text = std::str::from_utf8(bytes).ok()?.trim_start_matches('\u{feff}');
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).flexible(true).from_reader(text.as_bytes());
        // Text that is UTF-8 makes no record fail; a table in memory reads to its end.
        let header = reader.headers().cloned().unwrap_or_default();
        let rows = reader.records().map_while(Result::ok).map(|record| (line_of(text, &record), record)).collect();
        Some(Self { header_line: line_of(text, &header), header: header.iter().map(str::to_owned).collect(), rows })
    }
}

/// The line of a record: where the reader began to look for it, and the blank lines and comments that it passed over.
fn line_of(text: &str, record: &StringRecord) -> usize {
    let Some(place) = record.position() else { return 0 };
    let number = |value: u64| usize::try_from(value).unwrap_or(0);
    let rest = text.get(number(place.byte())..).unwrap_or_default();
    let passed = |line: &&str| line.trim_end_matches(['\r', '\n']).is_empty() || line.starts_with('#');
    number(place.line()) + rest.split_inclusive('\n').take_while(passed).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_record_has_the_line_that_it_stands_in() {
        let text =
            "\u{feff}# of an invented frame\r\n\r\na,b\r\n# one\r\n1,\"two\r\nlines\"\r\n\r\n# two\r\n3\r\n4,5,6\r\n";
        let sheet = Sheet::read(text.as_bytes()).unwrap();
        assert_eq!((sheet.header_line, sheet.header), (3, vec!["a".to_owned(), "b".to_owned()]));
        let rows: Vec<(usize, usize)> = sheet.rows.iter().map(|(line, cells)| (*line, cells.len())).collect();
        assert_eq!(rows, [(5, 2), (9, 1), (10, 3)]);
    }

    #[test]
    fn no_text_is_no_table_and_an_empty_one_has_no_rows() {
        assert!(Sheet::read(&[0xff, 0xfe, 0, 1]).is_none());
        let empty = Sheet::read(b"").unwrap();
        assert_eq!((empty.header_line, empty.header.len(), empty.rows.len()), (1, 0, 0));
    }
}
