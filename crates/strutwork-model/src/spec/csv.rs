//! Records of a CSV text, every cell with its place.
//!
//! Written here because the place of a cell on its line and the line of a quote that is never closed must be known, to
//! show a fabricator the spot.

use std::borrow::Cow;

use super::Spot;

/// A cell of a record: its text without the quotes and without the blanks around it.
#[derive(Debug, Clone)]
pub(super) struct Cell<'t> {
    pub(super) text: Cow<'t, str>,
    /// Whole line where the cell runs over several lines.
    pub(super) spot: Spot,
}

/// What is wrong with the quotes of a record.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum QuoteFault {
    /// Nothing closes the quote.
    NotClosed(Spot),
    /// Something other than a comma follows the closing quote.
    TextAfter(Spot),
}

/// A row of the file that is no comment and not blank.
#[derive(Debug, Clone)]
pub(super) struct Record<'t> {
    /// Where it starts.
    pub(super) line: u32,
    pub(super) cells: Vec<Cell<'t>>,
    pub(super) fault: Option<QuoteFault>,
}

/// The records of a text.
pub(super) struct Records<'t> {
    file: &'static str,
    text: &'t str,
    at: usize,
    line: u32,
}

impl<'t> Records<'t> {
    pub(super) const fn new(file: &'static str, text: &'t str) -> Self {
        Self { file, text, at: 0, line: 1 }
    }

    /// The rest of the line from `from`, and where the next line starts.
    fn line_from(&self, from: usize) -> (&'t str, usize) {
        match self.text[from..].find('\n') {
            Some(end) => (&self.text[from..from + end], from + end + 1),
            None => (&self.text[from..], self.text.len()),
        }
    }

    fn spot(&self, line: u32, line_start: usize, from: usize, to: usize) -> Spot {
        // A blank cell is shown by one sign, and at the end of a line by the comma before it.
        let column = count(&self.text[line_start..from]) + 1;
        let at_end = matches!(self.text.as_bytes().get(from), None | Some(b'\n' | b'\r'));
        let column = if from == to && at_end && column > 1 { column - 1 } else { column };
        Spot { file: self.file, line, column, width: count(&self.text[from..to]).max(1) }
    }

    /// A record on one line without quotes.
    fn plain(&self, raw: &'t str) -> Record<'t> {
        let mut start = self.at;
        let mut cells = Vec::new();
        let mut column = 1;
        for part in raw.split(',') {
            let text = part.trim();
            let blanks = part.len() - part.trim_start().len();
            let spot = if text.is_empty() {
                self.spot(self.line, self.at, start, start)
            } else {
                let column = column + count(&part[..blanks]);
                Spot { file: self.file, line: self.line, column, width: count(text) }
            };
            cells.push(Cell { text: Cow::Borrowed(text), spot });
            start += part.len() + 1;
            column += count(part) + 1;
        }
        Record { line: self.line, cells, fault: None }
    }

    /// A record with quotes, which may run over several lines. Moves on to the next record.
    fn quoted(&mut self) -> Record<'t> {
        let text = self.text;
        let bytes = text.as_bytes();
        let first_line = self.line;
        let mut record = Record { line: first_line, cells: Vec::new(), fault: None };
        let mut at = self.at;
        let mut line_start = self.at;
        loop {
            while matches!(bytes.get(at), Some(b' ' | b'\t')) {
                at += 1;
            }
            let end;
            if bytes.get(at) == Some(&b'"') {
                let open_spot = self.spot(self.line, line_start, at, at + 1);
                let closed = unquote(text, at + 1);
                let rest_end = |from: usize| text[from..].find([',', '\n']).map_or(text.len(), |found| from + found);
                let fault = match &closed {
                    None => Some(QuoteFault::NotClosed(open_spot)),
                    Some((_, after)) if !text[*after..rest_end(*after)].trim().is_empty() => {
                        Some(QuoteFault::TextAfter(open_spot))
                    }
                    Some(_) => None,
                };
                if let Some(fault) = fault {
                    // Go on with the next line, so that one quote does not hide the faults below.
                    record.fault = Some(fault);
                    self.at = self.line_from(at).1;
                    self.line += 1;
                    return record;
                }
                let (inner, after) = closed.unwrap_or_default();
                let breaks = text[at..after].matches('\n').count();
                let spot = if breaks == 0 {
                    self.spot(self.line, line_start, at, after)
                } else {
                    Spot::line(self.file, self.line)
                };
                record.cells.push(Cell { text: inner, spot });
                if breaks > 0 {
                    self.line += u32::try_from(breaks).unwrap_or(u32::MAX);
                    line_start = text[..after].rfind('\n').map_or(0, |newline| newline + 1);
                }
                end = rest_end(after);
            } else {
                end = text[at..].find([',', '\n']).map_or(text.len(), |found| at + found);
                let cell = text[at..end].trim();
                let from = at + (text[at..end].len() - text[at..end].trim_start().len());
                let from = if cell.is_empty() { at } else { from };
                let spot = self.spot(self.line, line_start, from, from + cell.len());
                record.cells.push(Cell { text: Cow::Borrowed(cell), spot });
            }
            match bytes.get(end) {
                Some(b',') => at = end + 1,
                Some(_) => {
                    self.at = end + 1;
                    self.line += 1;
                    return record;
                }
                None => {
                    self.at = text.len();
                    return record;
                }
            }
        }
    }
}

impl<'t> Iterator for Records<'t> {
    type Item = Record<'t>;

    fn next(&mut self) -> Option<Record<'t>> {
        while self.at < self.text.len() {
            let (raw, next) = self.line_from(self.at);
            if raw.starts_with('#') || raw.trim().is_empty() {
                self.at = next;
                self.line += 1;
            } else if raw.contains('"') {
                return Some(self.quoted());
            } else {
                let record = self.plain(raw);
                self.at = next;
                self.line += 1;
                return Some(record);
            }
        }
        None
    }
}

/// The text of a quoted cell whose first sign is at `from`, and where the closing quote ends.
fn unquote(text: &str, from: usize) -> Option<(Cow<'_, str>, usize)> {
    let mut inner = Cow::Borrowed("");
    let mut at = from;
    loop {
        let quote = at + text[at..].find('"')?;
        if inner.is_empty() {
            inner = Cow::Borrowed(&text[from..quote]);
        } else {
            inner.to_mut().push_str(&text[at..quote]);
        }
        if text.as_bytes().get(quote + 1) != Some(&b'"') {
            return Some((inner, quote + 1));
        }
        inner.to_mut().push('"');
        at = quote + 2;
    }
}

fn count(text: &str) -> u32 {
    u32::try_from(text.chars().count()).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn records(text: &str) -> Vec<Record<'_>> {
        Records::new("joints.csv", text).collect()
    }

    fn texts<'r>(record: &'r Record<'_>) -> Vec<&'r str> {
        record.cells.iter().map(|cell| cell.text.as_ref()).collect()
    }

    #[test]
    fn comments_blank_lines_and_both_line_ends() {
        let all = records("# head\r\na, b ,c\r\n\r\n  \nd,,f\n#x\ng");
        assert_eq!(all.iter().map(|r| r.line).collect::<Vec<_>>(), [2, 5, 7]);
        assert_eq!(texts(&all[0]), ["a", "b", "c"]);
        assert_eq!(texts(&all[1]), ["d", "", "f"]);
        assert_eq!(texts(&all[2]), ["g"]);
    }

    #[test]
    fn a_cell_knows_its_place_in_characters() {
        let all = records("ä , bcd,\n\"q,\"\"é\" ,x");
        let spots: Vec<_> = all[0].cells.iter().map(|c| (c.spot.column, c.spot.width)).collect();
        assert_eq!(spots, [(1, 1), (5, 3), (8, 1)]);
        assert_eq!(texts(&all[1]), ["q,\"é", "x"]);
        let spots: Vec<_> = all[1].cells.iter().map(|c| (c.spot.column, c.spot.width)).collect();
        assert_eq!(spots, [(1, 7), (10, 1)]);
    }

    #[test]
    fn quotes_hold_commas_quotes_and_line_ends() {
        let all = records("\"\"\"a\",\"two\nlines\",c\nd,\"\",\"\"\"\"\n");
        assert_eq!(texts(&all[0]), ["\"a", "two\nlines", "c"]);
        assert_eq!((all[0].cells[1].spot.line, all[0].cells[1].spot.column), (1, 0));
        assert_eq!((all[0].cells[2].spot.line, all[0].cells[2].spot.column), (2, 8));
        assert_eq!(texts(&all[1]), ["d", "", "\""]);
        assert_eq!(all[1].line, 3);
    }

    #[test]
    fn an_open_quote_hides_no_other_row() {
        let all = records("a,\"b\nc,d\n");
        assert!(matches!(all[0].fault, Some(QuoteFault::NotClosed(spot)) if spot.line == 1 && spot.column == 3));
        assert_eq!(texts(&all[1]), ["c", "d"]);
        let all = records("a,\"b\"x,c\nd,e");
        assert!(matches!(all[0].fault, Some(QuoteFault::TextAfter(spot)) if spot.line == 1));
        assert_eq!(all[1].line, 2);
    }
}
