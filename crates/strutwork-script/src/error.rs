//! Why a script ended: with its file, line and column, a stable code, and what to do.

use rhai::{EvalAltResult, ParseError, ParseErrorType, Position};
use strutwork_model::{Code, Diagnostic, Place, Severity};

use crate::fault::Fault;
use crate::number::type_word;
use crate::session::{OPERATIONS, TIME};
use crate::suggest::Vocabulary;

/// Why a script ended before its end.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{message}")]
pub struct ScriptError {
    /// `R…`, or the code of what went wrong in a function that was called (`L…`, `S…`).
    pub code: Code,
    /// The script, or the script that it imported.
    pub file: String,
    /// Line, counted from 1; 0 where unknown.
    pub line: u32,
    /// Column, counted from 1; 0 where unknown.
    pub column: u32,
    /// How many characters are meant: the word at the place; 0 where unknown.
    pub width: u32,
    /// What is wrong.
    pub message: String,
    /// What to do about it; may be empty.
    pub help: String,
    /// What it is, for a caller that acts on it.
    pub kind: ScriptErrorKind,
}

/// What ended a script.
#[derive(Debug, Clone, PartialEq)]
pub enum ScriptErrorKind {
    /// The text is no script. R001.
    Syntax,
    /// A function that does not exist, or does not take these arguments. R002.
    UnknownFunction,
    /// A variable that does not exist. R003.
    UnknownVariable,
    /// A property that does not exist. R004.
    UnknownProperty,
    /// A value of the wrong type. R005.
    WrongType,
    /// A limit was passed. R006 to R009.
    Limit,
    /// The script threw a value of its own. R011.
    Thrown,
    /// Anything else that went wrong while running. R012.
    Runtime,
    /// A function that the script called failed.
    Fault(Box<Fault>),
}

impl ScriptError {
    /// The error of a run, in the script with this name.
    pub(crate) fn of(error: &EvalAltResult, script: &str, vocabulary: &Vocabulary) -> Self {
        let (inner, file, position) = innermost(error, script);
        if let EvalAltResult::ErrorRuntime(value, _) = inner
            && let Some(Fault::Script(own)) = value.clone().try_cast::<Fault>()
        {
            return *own;
        }
        let told = tell(inner, vocabulary);
        let [line, column] =
            [position.line(), position.position()].map(|at| at.and_then(|at| at.try_into().ok()).unwrap_or(0));
        // Only the text of the script itself is at hand, not that of an imported one.
        let width = if file == script { vocabulary.width_at(line, column) } else { u32::from(column > 0) };
        Self { code: told.code, file, line, column, width, message: told.message, help: told.help, kind: told.kind }
    }

    /// The error of a text that is no script.
    pub(crate) fn of_parsing(error: &ParseError, script: &str, vocabulary: &Vocabulary) -> Self {
        Self::of(&EvalAltResult::from(error.clone()), script, vocabulary)
    }

    /// An error of a function outside any line, such as finishing the cases.
    pub(crate) fn of_fault(fault: Fault, script: &str) -> Self {
        Self {
            code: fault.code(),
            file: script.to_owned(),
            line: 0,
            column: 0,
            width: 0,
            message: fault.to_string(),
            help: fault.help(),
            kind: ScriptErrorKind::Fault(Box::new(fault)),
        }
    }

    /// The fault of the function that was called, where that is what ended the script: a
    /// [`SolveError`](strutwork_solve::SolveError) is in it as it left the solver.
    pub fn fault(&self) -> Option<&Fault> {
        match &self.kind {
            ScriptErrorKind::Fault(fault) => Some(fault),
            _ => None,
        }
    }

    /// Everything that there is to show: where the script ended, then every fault of the model, or every way in which the
    /// frame moves, behind it.
    pub fn diagnostics(&self) -> Vec<Diagnostic> {
        let mut all = vec![Diagnostic::from(self)];
        match self.fault() {
            Some(Fault::Model(faults) | Fault::Results { faults, .. }) => all.extend(faults.0.iter().cloned()),
            Some(Fault::Solve { explained, .. }) => all.extend(explained.iter().cloned()),
            _ => {}
        }
        all
    }
}

impl From<&ScriptError> for Diagnostic {
    fn from(error: &ScriptError) -> Self {
        Self {
            code: error.code,
            severity: Severity::Error,
            place: Some(Place {
                file: error.file.clone(),
                line: error.line as usize,
                column: error.column as usize,
                width: error.width as usize,
            }),
            subject: String::new(),
            message: error.message.clone(),
            help: error.help.clone(),
        }
    }
}

/// The error at the bottom, the script that it is in, and its place there.
fn innermost<'e>(error: &'e EvalAltResult, script: &str) -> (&'e EvalAltResult, String, Position) {
    let (mut inner, mut file, mut position) = (error, script.to_owned(), error.position());
    loop {
        let next = match inner {
            EvalAltResult::ErrorInFunctionCall(_, source, next, _) => {
                if !source.is_empty() && !next.position().is_none() {
                    source.clone_into(&mut file);
                }
                next
            }
            EvalAltResult::ErrorInModule(source, next, _) => {
                if !source.is_empty() && !next.position().is_none() {
                    source.clone_into(&mut file);
                }
                next
            }
            _ => return (inner, file, position),
        };
        inner = next;
        if !inner.position().is_none() {
            position = inner.position();
        }
    }
}

/// An error in the script author's words.
struct Told {
    code: Code,
    message: String,
    help: String,
    kind: ScriptErrorKind,
}

fn told(code: &'static str, kind: ScriptErrorKind, message: String, help: impl Into<String>) -> Told {
    Told { code: Code(code), message, help: help.into(), kind }
}

fn tell(error: &EvalAltResult, vocabulary: &Vocabulary) -> Told {
    use ScriptErrorKind as Kind;
    match error {
        EvalAltResult::ErrorParsing(ParseErrorType::VariableUndefined(name), _)
        | EvalAltResult::ErrorVariableNotFound(name, _) => told(
            "R003",
            Kind::UnknownVariable,
            format!("there is no variable `{name}`"),
            vocabulary.variable_like(name).unwrap_or_else(|| {
                "define it with `let`; a function sees its own parameters and constants as `global::NAME` only"
                    .to_owned()
            }),
        ),
        EvalAltResult::ErrorParsing(kind, _) => {
            told("R001", Kind::Syntax, format!("this cannot be read: {kind}"), syntax_help(kind))
        }
        EvalAltResult::ErrorFunctionNotFound(call, _) => {
            let (message, help) = vocabulary.no_such_function(call);
            told("R002", Kind::UnknownFunction, message, help)
        }
        EvalAltResult::ErrorPropertyNotFound(name, _) => told(
            "R004",
            Kind::UnknownProperty,
            format!("there is no property `{name}`"),
            "look at its spelling; `m.keys()` lists what a map holds",
        ),
        EvalAltResult::ErrorDotExpr(what, _) => {
            let (message, help) = vocabulary.no_such_property(what);
            told("R004", Kind::UnknownProperty, message, help)
        }
        EvalAltResult::ErrorArrayBounds(count, index, _) => told(
            "R012",
            Kind::Runtime,
            format!("there is no item {index}: the array has {count}"),
            "the first item is number 0, the last one number -1",
        ),
        EvalAltResult::ErrorMismatchDataType(wanted, got, _)
        | EvalAltResult::ErrorMismatchOutputType(wanted, got, _) => {
            told("R005", Kind::WrongType, format!("this is {}, and must be {}", type_word(got), type_word(wanted)), "")
        }
        EvalAltResult::ErrorTerminated(token, _) => limit_of(token),
        EvalAltResult::ErrorTooManyOperations(_) => limit_of(&OPERATIONS.into()),
        EvalAltResult::ErrorStackOverflow(_) => told(
            "R008",
            Kind::Limit,
            "functions call each other too deeply".to_owned(),
            "look for a function that calls itself without end; otherwise raise the limit with --max-depth",
        ),
        EvalAltResult::ErrorDataTooLarge(what, _) => told(
            "R009",
            Kind::Limit,
            format!("{} grows beyond its limit", in_words(what).to_lowercase()),
            "write results out as they come instead of keeping them; otherwise raise the limit with --max-size",
        ),
        EvalAltResult::ErrorTooManyModules(_) | EvalAltResult::ErrorTooManyVariables(_) => {
            told("R009", Kind::Limit, in_words(&error.to_string()), "")
        }
        EvalAltResult::ErrorRuntime(value, _) => match value.clone().try_cast::<Fault>() {
            Some(fault) => Told {
                code: fault.code(),
                message: fault.to_string(),
                help: fault.help(),
                kind: Kind::Fault(Box::new(fault)),
            },
            None => told("R011", Kind::Thrown, thrown(value), ""),
        },
        other => told("R012", Kind::Runtime, in_words(&without_place(other)), ""),
    }
}

fn limit_of(token: &rhai::Dynamic) -> Told {
    let (code, message, help) = if token.clone().into_immutable_string().is_ok_and(|token| token == TIME) {
        (
            "R007",
            "the script takes more time than it may",
            "look for a loop without end; otherwise raise the limit with --max-seconds",
        )
    } else {
        (
            "R006",
            "the script takes more steps than it may",
            "look for a loop without end; otherwise raise the limit with --max-operations",
        )
    };
    told(code, ScriptErrorKind::Limit, message.to_owned(), help)
}

fn syntax_help(kind: &ParseErrorType) -> &'static str {
    match kind {
        ParseErrorType::MissingToken(token, _) if token == ";" => "a statement ends with `;`",
        ParseErrorType::UnknownOperator(_) => "see `strutwork reference` for the language",
        _ => "",
    }
}

/// What a script threw, as it would print it; long values are cut.
fn thrown(value: &rhai::Dynamic) -> String {
    const LONGEST: usize = 500;
    let text = if value.is_unit() { "nothing".to_owned() } else { value.to_string() };
    let mut shown: String = text.chars().take(LONGEST).collect();
    if shown.len() < text.len() {
        shown.push('…');
    }
    format!("the script stopped itself: {shown}")
}

fn without_place(error: &EvalAltResult) -> String {
    let mut text = error.to_string();
    if let Some(at) = text.rfind(" (line ") {
        text.truncate(at);
    }
    text
}

/// Without the engine's names for types.
fn in_words(text: &str) -> String {
    text.replace("i64", "whole number").replace("f64", "number").replace("ImmutableString", "text")
}
