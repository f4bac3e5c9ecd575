//! The script reference and the editor definitions, from the registered functions themselves.

use std::fmt::Write as _;

use rhai::Engine;
use serde_json::Value;

use crate::api::{SUBJECTS, register_types};
use crate::limits::Limits;
use crate::standard::STANDARD_CASES;

/// A function that scripts can call, as it is registered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Function {
    /// The heading that it stands under.
    pub subject: &'static str,
    /// Its name.
    pub name: String,
    /// Names and types of its parameters; the first is what it is called on where that is a frame, case, results or finding.
    pub parameters: Vec<(String, String)>,
    /// The type of what it returns; `nothing` for none.
    pub returns: String,
    /// How it is called: `case.gravity(times: number)`.
    pub call: String,
    /// Its documentation, Markdown.
    pub docs: String,
}

impl Function {
    /// The example in its documentation; empty for none.
    pub fn example(&self) -> &str {
        let Some((_, after)) = self.docs.split_once("```rhai\n") else { return "" };
        after.split_once("```").map_or("", |(example, _)| example)
    }
}

/// Every function that scripts can call besides the language's own, subject by subject.
pub fn functions() -> Vec<Function> {
    SUBJECTS
        .iter()
        .flat_map(|subject| {
            let mut engine = Engine::new_raw();
            register_types(&mut engine);
            (subject.register)(&mut engine);
            metadata(&engine, false).into_iter().map(|entry| function(subject.title, &entry)).collect::<Vec<_>>()
        })
        .collect()
}

/// The names of all functions of an engine, the language's own among them.
pub(crate) fn all_names(engine: &Engine) -> Vec<String> {
    metadata(engine, true)
        .iter()
        .filter_map(|entry| entry["name"].as_str())
        .filter(|name| name.chars().all(|sign| sign.is_alphanumeric() || sign == '_'))
        .map(str::to_owned)
        .collect()
}

fn metadata(engine: &Engine, standard: bool) -> Vec<Value> {
    let text = engine.gen_fn_metadata_to_json(standard).unwrap_or_default();
    let mut whole: Value = serde_json::from_str(&text).unwrap_or_default();
    match whole["functions"].take() {
        Value::Array(entries) => entries,
        _ => Vec::new(),
    }
}

fn function(subject: &'static str, entry: &Value) -> Function {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let name = text(&entry["name"]);
    let parameters: Vec<(String, String)> = entry["params"]
        .as_array()
        .map(|all| all.iter().map(|one| (text(&one["name"]), word(one["type"].as_str().unwrap_or_default()))).collect())
        .unwrap_or_default();
    let docs: Vec<String> = entry["docComments"]
        .as_array()
        .map(|lines| lines.iter().flat_map(|line| text(line).lines().map(undecorated).collect::<Vec<_>>()).collect())
        .unwrap_or_default();
    Function {
        subject,
        call: call(&name, &parameters),
        name,
        parameters,
        returns: word(entry["returnType"].as_str().unwrap_or_default()),
        docs: docs.join("\n").trim().to_owned(),
    }
}

/// A line of a doc comment without its slashes.
fn undecorated(line: &str) -> String {
    let line = line.trim_start().trim_start_matches("///");
    line.strip_prefix(' ').unwrap_or(line).to_owned()
}

/// A Rust type in a script author's words. Errors are left out: every function may stop the script.
fn word(rust: &str) -> String {
    let inner = rust.trim();
    let inner = inner.strip_prefix("Result<").map_or(inner, |rest| {
        let rest = rest.trim_end_matches('>');
        rest.split_once(',').map_or(rest, |(ok, _)| ok).trim()
    });
    match inner {
        "" | "()" => "nothing",
        "bool" => "true or false",
        "f64" | "Dynamic" | "?" | "float" => "number",
        "Array" | "array" => "array",
        "Map" | "map" => "map",
        "String" | "&str" | "ImmutableString" | "string" => "text",
        "Solved" | "Results" => "Results",
        "Judgement" | "Finding" => "Finding",
        "StudyHandle" | "Study" => "Study",
        "Ran" | "Variants" => "Variants",
        "SizingHandle" | "Sizing" => "Sizing",
        "TolerancesHandle" | "Tolerances" => "Tolerances",
        "FnPtr" | "Fn" => "function",
        "i64" | "INT" | "int" => "whole number",
        "Values" => "array or range",
        "AnyValue" => "number or text",
        "SomeTubes" => "text or array",
        "PerhapsFinding" => "Finding or ()",
        "PerhapsMap" => "map or ()",
        "PerhapsNumber" => "number or ()",
        other => other,
    }
    .to_owned()
}

/// A type that functions are called on.
fn is_handle(kind: &str) -> bool {
    matches!(kind, "Frame" | "Case" | "Results" | "Finding" | "Study" | "Variants" | "Sizing" | "Tolerances")
}

fn call(name: &str, parameters: &[(String, String)]) -> String {
    let list = |some: &[(String, String)]| {
        some.iter().map(|(name, kind)| format!("{name}: {kind}")).collect::<Vec<_>>().join(", ")
    };
    match parameters {
        [(_, kind), rest @ ..] if is_handle(kind) => format!("{}.{name}({})", kind.to_lowercase(), list(rest)),
        all => format!("{name}({})", list(all)),
    }
}

/// The reference of everything that scripts can call, Markdown, made from the functions themselves.
pub fn reference_markdown() -> String {
    let mut page = introduction();
    let all = functions();
    for subject in SUBJECTS {
        let _ = write!(page, "\n## {}\n\n{}\n", subject.title, subject.intro);
        for function in all.iter().filter(|function| function.subject == subject.title) {
            let returns =
                if function.returns == "nothing" { String::new() } else { format!(" → {}", function.returns) };
            let docs = function.docs.replace("# Units\n", "**Units.** ");
            let _ = write!(page, "\n### `{}`{returns}\n\n{docs}\n", function.call);
        }
    }
    page
}

fn introduction() -> String {
    let limits = Limits::default();
    let mut page = String::from(
        "# Script reference\n\n\
         This page is generated from the functions themselves (`strutwork reference`). Do not edit it.\n\n\
         Scripts are written in Rhai. There are two kinds. A **case script** builds load cases on the model of a run: the \
         standard ones, and a model's own `cases.rhai`. A **free-standing script** (`strutwork script FILE`) opens models, \
         changes them, solves and writes. A script can do nothing that a Rust program cannot do with the same library.\n\n\
         - Wherever a number is asked for, `5` and `5.0` are the same. Infinite numbers are refused.\n\
         - `5 / 2` is 2.5. Comparisons of numbers that differ by less than about 2e-16 find them equal: keep to mm, N and \
         MPa.\n\
         - Units are in the names: `z_mm`, `fz_n`, `az_g` (g is 9.80665 m/s²). A name that a map does not know is an \
         error.\n\
         - Axes: x forward, y left, z up.\n\
         - A function sees its own parameters, and constants as `global::NAME`.\n\
         - An error that is caught has `code`, `message` and `help`: `try { … } catch (e) { print(e.code); }`. What a \
         script threw itself is caught as it was thrown.\n\
         - In the examples a small model is open already: `model()` gives it.\n",
    );
    let names: Vec<String> = STANDARD_CASES.iter().map(|(name, _)| format!("`cases/{name}`")).collect();
    let _ = write!(
        page,
        "- The standard case scripts can be imported into a model's own: {}. An imported script is run once, and the \
         cases that it builds belong to the run.\n\
         - Limits, which the command line can raise: {} operations, {} s, {} calls within calls, texts of {} bytes, \
         arrays of {} items, maps of {} entries.\n",
        names.join(", "),
        limits.operations,
        limits.seconds,
        limits.depth,
        limits.text_bytes,
        limits.list_items,
        limits.map_entries,
    );
    page
}

/// The definitions that editors read (`.d.rhai`), made from the functions themselves.
pub fn definitions() -> String {
    let mut page =
        String::from("// Generated by `strutwork reference --definitions`. Do not edit it.\nmodule static;\n");
    for function in functions() {
        page.push('\n');
        for line in function.docs.lines() {
            page.push_str(format!("/// {line}").trim_end());
            page.push('\n');
        }
        let parameters: Vec<String> =
            function.parameters.iter().map(|(name, kind)| format!("{name}: {}", script_type(kind))).collect();
        let _ =
            writeln!(page, "fn {}({}) -> {};", function.name, parameters.join(", "), script_type(&function.returns));
    }
    page
}

/// A type as the definitions name it.
fn script_type(word: &str) -> &str {
    match word {
        "nothing" => "()",
        "true or false" => "bool",
        "number" => "float",
        "text" => "String",
        "array" => "Array",
        "map" => "Map",
        "function" => "Fn",
        "whole number" => "int",
        "Finding or ()" | "map or ()" | "number or ()" | "array or range" | "number or text" | "text or array" => "?",
        other => other,
    }
}
