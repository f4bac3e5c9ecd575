//! A small aligned table for the terminal.

/// How a column is aligned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Align {
    /// Text.
    Left,
    /// Numbers.
    Right,
}

/// Rows under a heading, two spaces apart, no trailing blanks.
#[derive(Debug, Clone)]
pub(crate) struct Columns {
    align: Vec<Align>,
    rows: Vec<Vec<String>>,
}

impl Columns {
    /// A table with these headings.
    pub(crate) fn new(headings: &[(&str, Align)]) -> Self {
        Self {
            align: headings.iter().map(|&(_, align)| align).collect(),
            rows: vec![headings.iter().map(|&(title, _)| title.to_owned()).collect()],
        }
    }

    /// Adds a row, one cell a heading. Control characters in names are shown as a replacement mark.
    pub(crate) fn push(&mut self, row: Vec<String>) {
        debug_assert_eq!(row.len(), self.align.len());
        self.rows.push(
            row.into_iter()
                .map(|cell| cell.chars().map(|c| if c.is_control() { '\u{fffd}' } else { c }).collect())
                .collect(),
        );
    }

    /// The table as lines.
    pub(crate) fn render(&self) -> String {
        let widths: Vec<usize> = (0..self.align.len())
            .map(|place| self.rows.iter().map(|row| row[place].chars().count()).max().unwrap_or(0))
            .collect();
        let mut text = String::new();
        for row in &self.rows {
            let mut line = String::new();
            for ((cell, &width), align) in row.iter().zip(&widths).zip(&self.align) {
                if !line.is_empty() {
                    line.push_str("  ");
                }
                match align {
                    Align::Left => line.push_str(&format!("{cell:<width$}")),
                    Align::Right => line.push_str(&format!("{cell:>width$}")),
                }
            }
            text.push_str(line.trim_end());
            text.push('\n');
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_stands_left_and_numbers_right() {
        let mut table = Columns::new(&[("case", Align::Left), ("N", Align::Right)]);
        table.push(vec!["brake".into(), "1.5".into()]);
        table.push(vec!["é\u{7}".into(), "10.25".into()]);
        assert_eq!(table.render(), "case       N\nbrake    1.5\né\u{fffd}     10.25\n");
    }
}
