//! `strutwork explain`: what a code means, the smallest example, what to do.

use serde_json::json;
use strutwork_model::explain::Page;

use crate::args::ExplainArgs;
use crate::exit::{Failure, Outcome};
use crate::pages;
use crate::terminal::Terminal;

/// Prints one page, the list of all, or of those that begin as asked.
///
/// # Errors
/// [`Failure::Request`] for a code that does not exist.
pub(crate) fn run(args: &ExplainArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let Some(code) = &args.code else {
        terminal.result(&if args.json {
            lines(&json!(pages::all().map(as_json).collect::<Vec<_>>()))
        } else {
            list(terminal.colour_out())
        })?;
        return Ok(Outcome::Passed);
    };
    let Some(page) = pages::find(code) else {
        let several = pages::beginning(code);
        if !several.is_empty() {
            terminal.result(&if args.json {
                lines(&json!(several.into_iter().map(as_json).collect::<Vec<_>>()))
            } else {
                titles(&several)
            })?;
            return Ok(Outcome::Passed);
        }
        let near = pages::near(code);
        let help = if near.is_empty() {
            "`strutwork explain` without a code lists them all".to_owned()
        } else {
            format!("near it: {}; `strutwork explain` without a code lists them all", near.join(", "))
        };
        return Err(Failure::Request { what: format!("there is no code `{code}`"), help });
    };
    terminal.result(&if args.json { lines(&as_json(page)) } else { text(page, terminal.colour_out()) })?;
    Ok(Outcome::Passed)
}

fn list(colour: bool) -> String {
    let groups: Vec<String> =
        pages::by_subject().map(|(subject, pages)| format!("{}\n{}", bold(subject, colour), titles(&pages))).collect();
    groups.join("\n")
}

fn titles(pages: &[&Page]) -> String {
    pages.iter().map(|page| format!("{}  {}\n", page.code, page.title)).collect()
}

fn bold(text: &str, colour: bool) -> String {
    if colour { format!("\u{1b}[1m{text}\u{1b}[0m") } else { text.to_owned() }
}

fn text(page: &Page, colour: bool) -> String {
    let bold = |text: &str| bold(text, colour);
    let mut out = format!("{}\n\n{}\n", bold(&format!("{}  {}", page.code, page.title)), wrapped(page.meaning.trim()));
    if !page.example.trim().is_empty() {
        out.push_str(&format!("\n{}\n", bold("Example")));
        for line in page.example.trim_matches('\n').lines() {
            out.push_str(format!("    {line}").trim_end());
            out.push('\n');
        }
    }
    out.push_str(&format!("\n{}\n{}\n", bold("What to do"), wrapped(page.remedy.trim())));
    out
}

/// Broken into lines that are easy to read.
fn wrapped(text: &str) -> String {
    const WIDTH: usize = 88;
    let mut lines: Vec<String> = Vec::new();
    for paragraph in text.lines() {
        let mut line = String::new();
        for word in paragraph.split_whitespace() {
            if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > WIDTH {
                lines.push(std::mem::take(&mut line));
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
        lines.push(line);
    }
    lines.join("\n")
}

fn as_json(page: &Page) -> serde_json::Value {
    json!({
        "code": page.code,
        "subject": pages::subject_of(page.code),
        "title": page.title,
        "meaning": page.meaning,
        "example": page.example,
        "remedy": page.remedy,
    })
}

fn lines(value: &serde_json::Value) -> String {
    format!("{value:#}\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_broken_between_words() {
        let text = wrapped(&"word ".repeat(40));
        assert!(text.lines().all(|line| line.chars().count() <= 88 && !line.ends_with(' ')));
        assert_eq!(text.split_whitespace().count(), 40);
        assert_eq!(wrapped("one\ntwo"), "one\ntwo");
    }
}
