//! Diagnostics as people see them: what is wrong, the line it stands in, what to do.

use std::collections::BTreeMap;

use annotate_snippets::renderer::{AnsiColor, DecorStyle, Effects};
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet, normalize_untrusted_str};
use strutwork_model::{Diagnostic, Place, Severity};

use crate::terminal::Terminal;

/// How many diagnostics are shown with their source; the others take a line each.
const WITH_SOURCE: usize = 40;

/// The texts that diagnostics point into.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sources {
    /// What stands before a file's name when it is shown: the model's folder.
    folder: String,
    /// Name → what it is shown as, and its text.
    texts: BTreeMap<String, (String, String)>,
}

impl Sources {
    /// No texts yet; names are shown below `folder`, empty or `.` for as they are.
    pub(crate) fn below(folder: impl Into<String>) -> Self {
        Self { folder: folder.into(), texts: BTreeMap::new() }
    }

    /// Adds a text of the folder; its byte order mark is no part of it.
    pub(crate) fn add(&mut self, name: &str, text: &str) {
        self.add_shown(name, self.shown(name), text);
    }

    /// Adds a text from elsewhere, shown under a name of its own.
    pub(crate) fn add_shown(&mut self, name: &str, shown: impl Into<String>, text: &str) {
        let text = text.trim_start_matches('\u{feff}').to_owned();
        self.texts.insert(name.to_owned(), (shown.into(), text));
    }

    fn text(&self, file: &str) -> Option<&str> {
        self.texts.get(file).map(|(_, text)| text.as_str())
    }

    /// A file's name as it is shown, so that an editor can open it from where the user stands.
    fn shown(&self, file: &str) -> String {
        match self.texts.get(file) {
            Some((shown, _)) => shown.clone(),
            None if self.folder.is_empty() || self.folder == "." => file.to_owned(),
            None => format!("{}/{file}", self.folder),
        }
    }
}

/// Every diagnostic, errors first, each group in the order in which it was found.
pub(crate) fn diagnostics(all: &[Diagnostic], sources: &Sources, terminal: &Terminal) -> String {
    let renderer = renderer(terminal);
    let mut text = String::new();
    let mut shown = 0;
    for severity in [Severity::Error, Severity::Warning, Severity::Note] {
        for one in all.iter().filter(|one| one.severity == severity) {
            if shown < WITH_SOURCE {
                text.push_str(&renderer.render(&[group(one, sources)]));
                text.push_str("\n\n");
            } else {
                text.push_str(&line(one, sources));
                text.push('\n');
            }
            shown += 1;
        }
    }
    text
}

/// How many there are of each severity: `2 errors, 1 warning`.
pub(crate) fn tally(all: &[Diagnostic]) -> String {
    let count = |severity| all.iter().filter(|one| one.severity == severity).count();
    let parts: Vec<String> = [Severity::Error, Severity::Warning, Severity::Note]
        .into_iter()
        .filter(|&severity| count(severity) > 0)
        .map(|severity| counted(count(severity), severity.word()))
        .collect();
    parts.join(", ")
}

/// `1 tube`, `2 tubes`.
pub(crate) fn counted(number: usize, word: &str) -> String {
    if number == 1 { format!("1 {word}") } else { format!("{number} {word}s") }
}

/// A message that belongs to no file: `error: …`, and what to do.
pub(crate) fn plain(severity: Severity, message: &str, help: &str, terminal: &Terminal) -> String {
    let mut group = Group::with_title(level(severity).primary_title(message));
    if !help.is_empty() {
        group = group.element(remedy().message(normalize_untrusted_str(help)));
    }
    format!("{}\n", renderer(terminal).render(&[group]))
}

/// One line without the source: `error M012 frame/tubes.csv:7: …`.
fn line(one: &Diagnostic, sources: &Sources) -> String {
    let place = one.place.as_ref().map_or_else(String::new, |place| {
        let file = sources.shown(&place.file);
        if place.line > 0 { format!(" {file}:{}", place.line) } else { format!(" {file}") }
    });
    let text = format!("{} {}{place}: {} ({})", one.severity.word(), one.code, one.message, one.help);
    normalize_untrusted_str(&text)
}

fn renderer(terminal: &Terminal) -> Renderer {
    let decor = if terminal.drawing() { DecorStyle::Unicode } else { DecorStyle::Ascii };
    if !terminal.colour_err() {
        return Renderer::plain().decor_style(decor);
    }
    let steel = AnsiColor::Cyan.on_default();
    Renderer::styled()
        .decor_style(decor)
        .error(AnsiColor::Red.on_default().effects(Effects::BOLD))
        .warning(AnsiColor::Magenta.on_default().effects(Effects::BOLD))
        .note(AnsiColor::Blue.on_default().effects(Effects::BOLD))
        .help(AnsiColor::Green.on_default().effects(Effects::BOLD))
        .line_num(steel)
        .context(steel)
}

const fn level(severity: Severity) -> Level<'static> {
    match severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Note => Level::NOTE,
    }
}

fn remedy() -> Level<'static> {
    Level::HELP.with_name("what to do")
}

fn group<'a>(one: &'a Diagnostic, sources: &'a Sources) -> Group<'a> {
    let title = level(one.severity).primary_title(&one.message).id(one.code.0);
    let mut group = Group::with_title(title);
    if let Some(place) = &one.place {
        group = match sources.text(&place.file).and_then(|text| spans(text, place).map(|found| (text, found))) {
            Some((text, found)) => group.element(snippet(text, found, sources.shown(&place.file), place)),
            None => group.element(origin(place, sources)),
        };
    }
    if !one.help.is_empty() {
        group = group.element(remedy().message(normalize_untrusted_str(&one.help)));
    }
    group
}

/// Where a file is named but nothing of it can be shown.
fn origin(place: &Place, sources: &Sources) -> Origin<'static> {
    let origin = Origin::path(sources.shown(&place.file));
    if place.line > 0 { origin.line(place.line).char_column(place.column.max(1)) } else { origin }
}

/// Byte ranges of what is meant, and of the header row of a table.
struct Spans {
    meant: std::ops::Range<usize>,
    header: Option<std::ops::Range<usize>>,
}

/// Finds what a place means; `None` where it means no line of the text.
fn spans(text: &str, place: &Place) -> Option<Spans> {
    let mut start = 0;
    let mut header = None;
    for (number, whole) in text.split_inclusive('\n').enumerate() {
        let line = whole.trim_end_matches(['\n', '\r']);
        if place.file.ends_with(".csv") && header.is_none() && !line.trim().is_empty() && !line.starts_with('#') {
            header = Some(start..start + line.len());
        }
        if number + 1 == place.line {
            let meant = columns(line, place);
            let meant = start + meant.start..start + meant.end;
            return Some(Spans { header: header.filter(|header| header.end < meant.start), meant });
        }
        start += whole.len();
    }
    None
}

/// Byte range of the meant columns of a line; the whole of it where no column is named.
fn columns(line: &str, place: &Place) -> std::ops::Range<usize> {
    let at = |column: usize| line.char_indices().nth(column).map_or(line.len(), |(byte, _)| byte);
    if place.column == 0 || place.width == 0 {
        let blank = line.len() - line.trim_start().len();
        return blank..line.trim_end().len().max(blank);
    }
    at(place.column - 1)..at(place.column - 1 + place.width)
}

fn snippet<'a>(
    text: &'a str,
    found: Spans,
    shown: String,
    place: &Place,
) -> Snippet<'a, annotate_snippets::Annotation<'a>> {
    // Only the lines needed are handed over: a table may have a hundred thousand.
    let first = found.header.as_ref().map_or(found.meant.start, |header| header.start);
    let near = found.header.as_ref().is_some_and(|header| found.meant.start - header.start < 20_000);
    let start = text[..if near { first } else { found.meant.start }].rfind('\n').map_or(0, |byte| byte + 1);
    let end = text[found.meant.end..].find('\n').map_or(text.len(), |byte| found.meant.end + byte);
    let line_start = text[..start].matches('\n').count() + 1;
    let meant = found.meant.start - start..found.meant.end - start;
    debug_assert!(place.line >= line_start);
    let snippet = Snippet::source(&text[start..end])
        .path(shown)
        .line_start(line_start)
        .annotation(AnnotationKind::Primary.span(meant));
    match found.header {
        Some(header) if near => {
            snippet.annotation(AnnotationKind::Visible.span(header.start - start..header.end - start))
        }
        _ => snippet,
    }
}

#[cfg(test)]
mod tests {
    use strutwork_model::Code;

    use super::*;
    use crate::args::{Colour, LookArgs};

    fn shown(file: &str, text: &str, line: usize, column: usize, width: usize) -> String {
        let mut sources = Sources::below("frame");
        sources.add(file, text);
        let one = Diagnostic {
            code: Code("M999"),
            severity: Severity::Error,
            place: Some(Place { file: file.into(), line, column, width }),
            subject: String::new(),
            message: "`12o0` is not a number".into(),
            help: "write millimetres".into(),
        };
        let terminal = Terminal::new(LookArgs { color: Colour::Never });
        diagnostics(&[one], &sources, &terminal)
    }

    #[test]
    fn shows_the_header_row_and_the_meant_cell() {
        let text = "# a comment\njoint,x_mm\nA,0\nB,1\nC,2\nD,3\nE,12o0\n";
        let shown = shown("joints.csv", text, 7, 3, 4);
        for part in ["error[M999]", "frame/joints.csv:7:3", "joint,x_mm", "E,12o0", "^^^^", "what to do: write"] {
            assert!(shown.contains(part) || part == "^^^^" && shown.contains("━━━━"), "{part} is not in\n{shown}");
        }
        assert!(!shown.contains("B,1"), "a row nobody asked about:\n{shown}");
    }

    #[test]
    fn survives_places_that_are_not_there() {
        for (line, column, width) in [(0, 0, 0), (1, 500, 9), (99, 1, 1), (2, 1, 900), (1, 0, 0)] {
            assert!(shown("joints.csv", "joint\nÄ\u{1b}[31m", line, column, width).contains("M999"));
            assert!(shown("joints.csv", "", line, column, width).contains("M999"));
        }
    }

    #[test]
    fn escape_sequences_of_a_file_do_not_reach_the_terminal() {
        assert!(!shown("joints.csv", "joint\n\u{1b}[31mred\n", 2, 0, 0).contains('\u{1b}'));
    }
}
