//! What stands within a line: words with their looks, blanks drawn together.

use super::MarkupError;
use super::tree::{Element, Node};
use crate::text::{Ink, Rise, Span, Style, Text};

/// The words of an element, in a style.
pub(super) fn words(element: &Element<'_>, style: Style) -> Result<Text, MarkupError> {
    words_but(element, style, "")
}

/// As [`words`], without what has a class.
pub(super) fn words_but(element: &Element<'_>, style: Style, left_out: &str) -> Result<Text, MarkupError> {
    let mut writer = Writer::default();
    writer.all(element, style, left_out)?;
    Ok(writer.text)
}

/// The style of soft words.
pub(super) const SOFT: Style = Style { bold: false, italic: false, mono: false, rise: Rise::Line, ink: Ink::Soft };

/// Writes words one after the other.
#[derive(Default)]
struct Writer {
    text: Text,
    /// The blank that is owed before the next letter, in the style in which it stood, and where it leads.
    blank: Option<(Style, String)>,
    /// Whether the line has letters.
    begun: bool,
    /// Where the letters lead.
    to: String,
}

impl Writer {
    fn all(&mut self, around: &Element<'_>, style: Style, left_out: &str) -> Result<(), MarkupError> {
        for node in &around.inside {
            match node {
                Node::Letters(letters) => self.letters(letters, style),
                Node::Element(element) if !left_out.is_empty() && element.is(left_out) => {}
                Node::Element(element) => self.element(element, around, style)?,
                Node::Svg(_) => return Err(around.stray("svg")),
            }
        }
        Ok(())
    }

    fn element(&mut self, element: &Element<'_>, around: &Element<'_>, style: Style) -> Result<(), MarkupError> {
        let style = match element.name {
            "b" | "strong" => Style { bold: true, ..style },
            "i" | "em" => Style { italic: true, ..style },
            "code" => Style { mono: true, ..style },
            "sub" => Style { rise: Rise::Sub, ..style },
            "sup" => Style { rise: Rise::Super, ..style },
            "a" => {
                let outside = std::mem::replace(&mut self.to, element.to.clone());
                let style = if element.to.is_empty() { style } else { Style { ink: Ink::Blue, ..style } };
                self.all(element, style, "")?;
                self.to = outside;
                return Ok(());
            }
            "span" => {
                if element.is("box") {
                    self.letters("\u{2610}\u{a0}", style);
                }
                if element.is("note") {
                    self.line();
                }
                span(element, style)
            }
            "p" => {
                self.line();
                if element.is("helps") { Style { ink: Ink::Soft, ..style } } else { style }
            }
            other => return Err(around.stray(other)),
        };
        // A power stands above the line, which is no part of the text that is copied or read aloud.
        let style = if element.is("caret") { Style { rise: Rise::Unseen, ..style } } else { style };
        self.all(element, style, "")
    }

    /// Starts a line, unless the last is empty.
    fn line(&mut self) {
        if self.begun {
            self.push('\n', Style::default(), "");
        }
        (self.blank, self.begun) = (None, false);
    }

    fn letters(&mut self, letters: &str, style: Style) {
        for letter in letters.chars() {
            if letter.is_ascii_whitespace() {
                self.blank.get_or_insert_with(|| (style, self.to.clone()));
                continue;
            }
            if let (Some((style, to)), true) = (self.blank.take(), self.begun) {
                self.push(' ', style, &to);
            }
            self.begun = true;
            let to = std::mem::take(&mut self.to);
            self.push(letter, style, &to);
            self.to = to;
        }
    }

    fn push(&mut self, letter: char, style: Style, to: &str) {
        match self.text.spans.last_mut() {
            Some(last) if last.style == style && last.to == to => last.text.push(letter),
            _ => self.text.spans.push(Span { text: letter.to_string(), style, to: to.to_owned() }),
        }
    }
}

/// The style of what stands in a `span`, by its class.
fn span(element: &Element<'_>, style: Style) -> Style {
    if ["unit", "note", "why", "more"].iter().any(|class| element.is(class)) {
        Style { ink: Ink::Soft, bold: false, ..style }
    } else if element.is("value") || element.is("result") {
        Style { bold: true, ..style }
    } else if element.is("tag") {
        let ink = if element.is("error") { Ink::Red } else { style.ink };
        Style { bold: true, ink, ..style }
    } else {
        style
    }
}
