//! `cases.rhai`: whether two scripts do the same. A comment, a blank or a line end is no change.

use super::change::{Change, How, Part};

/// What happened to the model's own case script.
pub(super) fn changed(before: Option<&str>, after: Option<&str>) -> Option<Change> {
    let name = strutwork_model::files::CASES;
    match (before, after) {
        (None, None) => None,
        (None, Some(text)) => Some(Change::added(Part::Script, name, lines(lines_of(text).len()))),
        (Some(text), None) => Some(Change::gone(Part::Script, name, lines(lines_of(text).len()))),
        (Some(before), Some(after)) => {
            let (was, is) = (lines_of(before), lines_of(after));
            let joined = |lines: &[String]| lines.concat();
            if joined(&was) == joined(&is) {
                return None;
            }
            let (new, gone) = (count_missing(&is, &was), count_missing(&was, &is));
            let mut change = Change::new(Part::Script, How::Changed, name, name);
            change.about = format!("{} new or changed, {} gone or as before the change", lines(new), lines(gone));
            Some(change)
        }
    }
}

fn lines(number: usize) -> String {
    format!("{number} line{} of code", if number == 1 { "" } else { "s" })
}

/// How many lines of the one list are not in the other, each counted as often as it stands there.
fn count_missing(of: &[String], from: &[String]) -> usize {
    let mut left: Vec<&String> = from.iter().collect();
    let mut missing = 0;
    for line in of {
        match left.iter().position(|known| *known == line) {
            Some(place) => {
                left.remove(place);
            }
            None => missing += 1,
        }
    }
    missing
}

/// The lines of code without comments and without the blanks outside texts; lines without code are left out.
fn lines_of(script: &str) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut letters = script.trim_start_matches('\u{feff}').chars().peekable();
    let mut in_word = false;
    let mut blank = false;
    while let Some(letter) = letters.next() {
        match letter {
            '/' if letters.peek() == Some(&'/') => while letters.next_if(|next| *next != '\n').is_some() {},
            '/' if letters.peek() == Some(&'*') => {
                skip_block(&mut letters);
                blank = true;
            }
            '"' | '\'' | '`' => {
                line.push(letter);
                push_text(letter, &mut letters, &mut line);
                (in_word, blank) = (false, false);
            }
            '\n' => {
                if !line.is_empty() {
                    lines.push(std::mem::take(&mut line));
                }
                (in_word, blank) = (false, false);
            }
            _ if letter.is_whitespace() => blank = true,
            _ => {
                let word = letter.is_alphanumeric() || letter == '_';
                // The blank between two words parts them.
                if word && in_word && blank {
                    line.push(' ');
                }
                line.push(letter);
                (in_word, blank) = (word, false);
            }
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// What is left of a block of comment; blocks may stand in one another.
fn skip_block(letters: &mut std::iter::Peekable<std::str::Chars<'_>>) {
    letters.next();
    let mut depth = 1;
    while depth > 0 {
        match letters.next() {
            Some('*') if letters.next_if_eq(&'/').is_some() => depth -= 1,
            Some('/') if letters.next_if_eq(&'*').is_some() => depth += 1,
            Some(_) => {}
            None => return,
        }
    }
}

/// What is left of a text in quotes, as it is.
fn push_text(quote: char, letters: &mut std::iter::Peekable<std::str::Chars<'_>>, line: &mut String) {
    while let Some(letter) = letters.next() {
        line.push(letter);
        if letter == '\\' && quote != '`' {
            line.extend(letters.next());
        } else if letter == quote {
            return;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_blanks_and_line_ends_are_no_change() {
        let script = "let c = model().new_case(\"a // b\", \"\", \"physical\"); // why\n/* long /* inner */ story */\nc.gravity(1);";
        let other =
            "// a new word\nlet c   = model() . new_case(\"a // b\",\"\",\"physical\");\r\n\r\n  c.gravity( 1 );\n";
        assert_eq!(changed(Some(script), Some(other)), None);
        assert!(changed(Some(script), Some(&other.replace("a // b", "a //  b"))).is_some());
        assert!(changed(Some("let ab = 1"), Some("leta b = 1")).is_some());
        let change = changed(Some("a();\nb();\nc();"), Some("a();\nd();\nc();")).unwrap();
        assert_eq!(change.about, "1 line of code new or changed, 1 line of code gone or as before the change");
    }
}
