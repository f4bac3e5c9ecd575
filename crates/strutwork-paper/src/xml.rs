//! A reader of plain XML: elements, quoted attributes, text, the five named entities and numbered ones.

/// What is met from left to right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Event<'a> {
    /// An element opens.
    Open { name: &'a str, attributes: Vec<(&'a str, String)> },
    /// The innermost open element closes.
    Close,
    /// Letters between elements.
    Text(String),
    /// An element that is handed on unread, its tags included.
    Whole(&'a str),
}

/// Why a text is no XML of the plain kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Broken {
    /// Where, counted from 0.
    pub at: usize,
    /// What is wrong.
    pub what: &'static str,
}

/// The events of a text. Elements close in the order in which they were opened. Elements called `whole` are handed on unread.
pub(crate) fn events<'a>(text: &'a str, whole: &str) -> Result<Vec<Event<'a>>, Broken> {
    let mut events = Vec::new();
    let mut open: Vec<&str> = Vec::new();
    let mut at = 0;
    while at < text.len() {
        let rest = &text[at..];
        if let Some(inside) = rest.strip_prefix("</") {
            let end = inside.find('>').ok_or(wrong(at, "a tag without an end"))?;
            if open.pop() != Some(inside[..end].trim_end()) {
                return Err(wrong(at, "an end tag without its start"));
            }
            events.push(Event::Close);
            at += 2 + end + 1;
        } else if rest.starts_with('<') {
            let (event, shut, length) = start_tag(rest, at)?;
            if let (Event::Open { name, .. }, false) = (&event, shut) {
                if *name == whole {
                    let close = format!("</{whole}>");
                    let end = rest.find(&close).ok_or(wrong(at, "an element that does not end"))? + close.len();
                    events.push(Event::Whole(&rest[..end]));
                    at += end;
                    continue;
                }
                open.push(name);
            }
            events.push(event);
            if shut {
                events.push(Event::Close);
            }
            at += length;
        } else {
            let end = rest.find('<').unwrap_or(rest.len());
            events.push(Event::Text(letters(&rest[..end], at)?));
            at += end;
        }
    }
    if open.is_empty() { Ok(events) } else { Err(wrong(at, "an element that does not end")) }
}

/// A start tag, whether it shuts itself, and how many bytes it takes.
fn start_tag(text: &str, at: usize) -> Result<(Event<'_>, bool, usize), Broken> {
    let name_ends = text[1..].find(|c: char| !is_name(c)).ok_or(wrong(at, "a tag without an end"))? + 1;
    let name = &text[1..name_ends];
    if name.is_empty() {
        return Err(wrong(at, "a tag without a name"));
    }
    let mut attributes = Vec::new();
    let mut place = name_ends;
    loop {
        let rest = &text[place..];
        let trimmed = rest.trim_start();
        place += rest.len() - trimmed.len();
        if trimmed.starts_with("/>") {
            return Ok((Event::Open { name, attributes }, true, place + 2));
        }
        if trimmed.starts_with('>') {
            return Ok((Event::Open { name, attributes }, false, place + 1));
        }
        let (key, after) = trimmed.split_once('=').ok_or(wrong(at + place, "an attribute without a value"))?;
        if key.is_empty() || !key.chars().all(is_name) {
            return Err(wrong(at + place, "an attribute without a name"));
        }
        let inside = after.strip_prefix('"').ok_or(wrong(at + place, "a value that is not quoted"))?;
        let end = inside.find('"').ok_or(wrong(at + place, "a value without an end"))?;
        attributes.push((key, letters(&inside[..end], at + place)?));
        place += key.len() + 3 + end;
    }
}

fn is_name(letter: char) -> bool {
    letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_' | ':')
}

/// Letters with their entities resolved.
fn letters(text: &str, at: usize) -> Result<String, Broken> {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(start) = rest.find('&') {
        out.push_str(&rest[..start]);
        let end = rest[start..].find(';').ok_or(wrong(at, "an & without its ;"))? + start;
        out.push(entity(&rest[start + 1..end]).ok_or(wrong(at, "an entity that is not known"))?);
        rest = &rest[end + 1..];
    }
    out.push_str(rest);
    Ok(out)
}

fn entity(name: &str) -> Option<char> {
    match name {
        "amp" => Some('&'),
        "lt" => Some('<'),
        "gt" => Some('>'),
        "quot" => Some('"'),
        "apos" => Some('\''),
        _ => {
            let number = name.strip_prefix('#')?;
            let code = match number.strip_prefix('x') {
                Some(hexadecimal) => u32::from_str_radix(hexadecimal, 16).ok()?,
                None => number.parse().ok()?,
            };
            char::from_u32(code)
        }
    }
}

const fn wrong(at: usize, what: &'static str) -> Broken {
    Broken { at, what }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_attributes_and_text_are_told_apart() {
        let read = events("<g a=\"1 &amp; 2\"><c/>x &lt; &#39;y&#x27;</g>", "").expect("plain");
        let wanted = [
            Event::Open { name: "g", attributes: vec![("a", "1 & 2".to_owned())] },
            Event::Open { name: "c", attributes: Vec::new() },
            Event::Close,
            Event::Text("x < 'y'".to_owned()),
            Event::Close,
        ];
        assert_eq!(read, wanted);
    }

    #[test]
    fn an_element_is_handed_on_whole() {
        let read = events("<g><svg a=\"1\"><c></svg>x</g>", "svg").expect("plain outside of it");
        assert_eq!(read[1], Event::Whole("<svg a=\"1\"><c></svg>"));
        assert_eq!(read[2], Event::Text("x".to_owned()));
        assert_eq!(events("<svg>", "svg"), Err(Broken { at: 0, what: "an element that does not end" }));
    }

    #[test]
    fn what_is_broken_is_told_and_never_panics() {
        for broken in
            ["<", "<g", "<g a", "<g a=1>", "<g a=\"1>", "</g>", "<g></c>", "<g>", "<g a=\"&x;\"/>", "<é/>", "< g/>"]
        {
            assert!(events(broken, "").is_err(), "{broken}");
        }
    }
}
