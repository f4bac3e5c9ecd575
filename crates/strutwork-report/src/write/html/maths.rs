//! Formulas as an engineer writes them: letters leaning, subscripts below, powers above. Everything is escaped here.

use strutwork_checks::formula::tokens;
use strutwork_model::Model;

use crate::figures::svg::escape;

/// The typographic minus.
const MINUS: &str = "\u{2212}";

/// A formula, a symbol, or a formula with numbers put in, as HTML.
pub(super) fn formula(text: &str) -> String {
    let mut out = String::with_capacity(text.len() * 2);
    let mut tokens = tokens(text);
    while let Some(token) = tokens.next() {
        if token == "^" {
            // The sign itself is kept for readers that see the text alone; nobody else sees it.
            out.push_str("<sup><span class=\"caret\">^</span>");
            raised(&mut out, &mut tokens);
            out.push_str("</sup>");
        } else {
            push(&mut out, token);
        }
    }
    out
}

/// What a power is raised to: a number or a symbol, or all that stands in the brackets that follow.
fn raised<'t>(out: &mut String, tokens: &mut impl Iterator<Item = &'t str>) {
    let mut depth = 0_usize;
    for token in tokens {
        match token {
            "(" => depth += 1,
            ")" => depth = depth.saturating_sub(1),
            _ => {}
        }
        push(out, token);
        if depth == 0 && token != " " {
            return;
        }
    }
}

fn push(out: &mut String, token: &str) {
    if let Some((base, below)) = below(token) {
        out.push_str("<i>");
        out.push_str(&escape(base));
        out.push_str("</i><sub>");
        out.push_str(&escape(&below.replace('_', " ")));
        out.push_str("</sub>");
    } else if is_symbol(token) {
        out.push_str("<i>");
        out.push_str(&escape(token));
        out.push_str("</i>");
    } else if token.starts_with('-') || token.contains("e-") {
        out.push_str(&escape(&token.replace('-', MINUS)));
    } else {
        out.push_str(&escape(token));
    }
}

/// What stands before and after the first `_`, where there is something before it.
fn below(token: &str) -> Option<(&str, &str)> {
    token.split_once('_').filter(|(base, below)| !base.is_empty() && !below.is_empty())
}

/// One letter, perhaps with a stroke or a number: `b`, `λ̄`, `t1`. Longer words (`min`, `max`) stand upright.
fn is_symbol(token: &str) -> bool {
    let mut letters = token.chars();
    let begins = letters.next().is_some_and(char::is_alphabetic);
    begins && letters.filter(|letter| !is_stroke(*letter)).count() <= 1
}

/// A stroke or a dot over the letter before it.
fn is_stroke(letter: char) -> bool {
    ('\u{300}'..='\u{36f}').contains(&letter)
}

/// A sentence with symbols in it, as HTML: a single letter with an underscore behind it carries a subscript. What the user has
/// called something, such as `rail_2` or `B_1`, stays as it is.
pub(super) fn prose(text: &str, model: &Model) -> String {
    let named = |token: &str| {
        model.tube_named(token).is_some() || model.joint_named(token).is_some() || model.body_named(token).is_some()
    };
    told(text, &named)
}

fn told(text: &str, named: &dyn Fn(&str) -> bool) -> String {
    let mut out = String::with_capacity(text.len() + 16);
    for (place, part) in text.split('`').enumerate() {
        // Between two backticks stand the words of a file, as they are typed there.
        if place % 2 == 1 {
            out.push_str("<code>");
            out.push_str(&escape(part));
            out.push_str("</code>");
        } else {
            sentence(&mut out, part, named);
        }
    }
    out
}

fn sentence(out: &mut String, text: &str, named: &dyn Fn(&str) -> bool) {
    for token in tokens(text) {
        let (token, stop) =
            token.strip_suffix([':', ';', '.', ',']).map_or((token, ""), |kept| (kept, &token[kept.len()..]));
        let letter = |base: &str| is_symbol(base) && !base.ends_with(|c: char| c.is_ascii_digit());
        if below(token).is_some_and(|(base, _)| letter(base)) && !named(token) {
            push(out, token);
        } else {
            out.push_str(&escape(token));
        }
        out.push_str(stop);
    }
}

/// A number of a calculation: the digits that it prints, with a real minus.
pub(super) fn number(value: f64) -> String {
    if value.is_nan() {
        return "not a number".to_owned();
    }
    if value.is_infinite() {
        return if value > 0.0 { "∞".to_owned() } else { format!("{MINUS}∞") };
    }
    strutwork_checks::calculation::digits(value).replace('-', MINUS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn symbols_lean_and_carry_their_subscripts() {
        assert_eq!(formula("A · f_y / γ_M0"), "<i>A</i> · <i>f</i><sub>y</sub> / <i>γ</i><sub>M0</sub>");
        assert_eq!(formula("min(M_pl,Rd, 2)"), "min(<i>M</i><sub>pl,Rd</sub>, 2)");
        assert_eq!(formula("λ̄² + t1"), "<i>λ̄</i>² + <i>t1</i>");
        assert_eq!(formula("(-4) − 1.5e-12"), "(−4) − 1.5e−12");
    }

    const CARET: &str = "<span class=\"caret\">^</span>";

    #[test]
    fn powers_stand_above() {
        assert_eq!(formula("n^1.5 · 2"), format!("<i>n</i><sup>{CARET}1.5</sup> · 2"));
        assert_eq!(formula("n^(1 + (a)) · 2"), format!("<i>n</i><sup>{CARET}(1 + (<i>a</i>))</sup> · 2"));
        assert_eq!(formula("n^"), format!("<i>n</i><sup>{CARET}</sup>"));
    }

    #[test]
    fn nothing_comes_through_unescaped() {
        for text in ["<b>_x", "a_<script>", "\"'&<", "^<i", "x^(<", "N_`<b`"] {
            for out in [formula(text), told(text, &|_| false)] {
                let bare = ["<i>", "</i>", "<sub>", "</sub>", "<sup>", "</sup>", "<code>", "</code>", CARET]
                    .iter()
                    .fold(out, |out, tag| out.replace(tag, ""));
                assert!(!bare.contains(['<', '>', '"', '\'']), "{text}: {bare}");
            }
        }
    }

    #[test]
    fn names_in_sentences_stay_as_they_are() {
        assert_eq!(
            told("tube rail_2: N_Ed includes γ_F.", &|_| false),
            "tube rail_2: <i>N</i><sub>Ed</sub> includes <i>γ</i><sub>F</sub>."
        );
        assert_eq!(told("b1_2", &|_| false), "b1_2");
        assert_eq!(told("tube B_1 on C_1", &|name| name == "B_1"), "tube B_1 on <i>C</i><sub>1</sub>");
        assert_eq!(told("the `N_from` end", &|_| false), "the <code>N_from</code> end");
    }

    #[test]
    fn numbers_are_those_of_the_page() {
        assert_eq!(number(-0.5), "−0.5");
        assert_eq!(number(31_765.2), "31765.2");
        assert_eq!((number(f64::INFINITY), number(f64::NAN)), ("∞".to_owned(), "not a number".to_owned()));
    }
}
