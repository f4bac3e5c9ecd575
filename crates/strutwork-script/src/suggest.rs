//! What a script author probably meant: the functions there are, and the names in the script.

use rhai::Engine;
use strutwork_model::nearest::nearest;

use crate::api::OF_FINDINGS;
use crate::number::type_word;
use crate::reference::{Function, functions};

/// The words that a script can use.
pub(crate) struct Vocabulary {
    functions: Vec<Function>,
    /// Every function name there is, the language's own among them.
    names: Vec<String>,
    /// Names that the script defines.
    defined: Vec<String>,
    /// The script.
    text: String,
}

impl Vocabulary {
    /// The engine's functions, and what the text defines.
    pub(crate) fn of(engine: &Engine, text: &str) -> Self {
        let own = functions();
        let mut names: Vec<String> = own.iter().map(|function| function.name.clone()).collect();
        names.extend(crate::reference::all_names(engine));
        let defined = defined_in(text);
        names.extend(defined.iter().cloned());
        Self { functions: own, names, defined, text: text.to_owned() }
    }

    /// Help for a variable that does not exist.
    pub(crate) fn variable_like(&self, name: &str) -> Option<String> {
        nearest(name, self.defined.iter().map(String::as_str)).map(|found| format!("did you mean `{found}`?"))
    }

    /// How long the word at a place is, in characters; 1 for a sign, 0 for no place.
    pub(crate) fn width_at(&self, line: u32, column: u32) -> u32 {
        let (Some(line), Some(column)) = (line.checked_sub(1), column.checked_sub(1)) else { return 0 };
        let rest = self.text.lines().nth(line as usize).unwrap_or_default().chars().skip(column as usize);
        let word = rest.take_while(|sign| sign.is_alphanumeric() || *sign == '_').count();
        u32::try_from(word).unwrap_or(u32::MAX).max(1)
    }

    /// Message and help for what the engine says of a property that a type does not have.
    pub(crate) fn no_such_property(&self, said: &str) -> (String, String) {
        let quoted: Vec<&str> = said.split('\'').collect();
        let [_, property, _, kind, ..] = quoted.as_slice() else {
            return (said.to_owned(), "`strutwork reference` lists what there is".to_owned());
        };
        let of_findings = OF_FINDINGS.into_iter().filter(|_| *kind == "Finding");
        let help = if let Some(found) = nearest(property, of_findings) {
            format!("did you mean `{found}`?")
        } else if self.functions.iter().any(|function| function.name == *property) {
            format!("call it: `{property}()`")
        } else {
            nearest(property, self.names.iter().map(String::as_str)).map_or_else(
                || "`strutwork reference` lists what there is".to_owned(),
                |found| format!("did you mean `{found}()`?"),
            )
        };
        (format!("{} has no property `{property}`", type_word(kind)), help)
    }

    /// Message and help for a call such as `add_tub (Frame, &str, map)`.
    pub(crate) fn no_such_function(&self, call: &str) -> (String, String) {
        let (name, given) = call.split_once(" (").unwrap_or((call, ""));
        let name = name.rsplit("::").next().unwrap_or(name).trim();
        let given: Vec<String> =
            given.trim_end_matches(')').split(',').filter(|word| !word.trim().is_empty()).map(type_word).collect();
        let takes: Vec<&str> = self
            .functions
            .iter()
            .filter(|function| function.name == name)
            .map(|function| function.call.as_str())
            .collect();
        if let Some(known) = takes.first() {
            let given = if given.is_empty() { "nothing".to_owned() } else { given.join(", ") };
            return (format!("`{name}` cannot take {given}"), format!("it is called as {known}"));
        }
        let operator = name.chars().all(|sign| !sign.is_alphanumeric());
        let message = match given.as_slice() {
            [a, b] if operator => format!("`{name}` does not go with {a} and {b}"),
            _ => format!(
                "there is no function `{name}` that takes {}",
                if given.is_empty() { "nothing".to_owned() } else { given.join(", ") }
            ),
        };
        let help = match nearest(name, self.names.iter().map(String::as_str)) {
            Some(found) => format!("did you mean `{found}`?"),
            None if operator => {
                "`parse_float(text)` makes a number of a text, `to_string(value)` a text of a value".to_owned()
            }
            None => "`strutwork reference` lists all".to_owned(),
        };
        (message, help)
    }
}

/// The names after `let`, `const`, `for` and `fn`, in order. A guess for help texts: comments and texts are not told apart.
fn defined_in(text: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    let mut words = text.split(|sign: char| !(sign.is_alphanumeric() || sign == '_')).filter(|word| !word.is_empty());
    while let Some(word) = words.next() {
        if matches!(word, "let" | "const" | "for" | "fn")
            && let Some(name) = words.next()
            && !names.iter().any(|known| known == name)
        {
            names.push(name.to_owned());
        }
    }
    names
}
