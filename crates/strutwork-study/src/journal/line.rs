//! One line of a journal: JSON with a checksum as its last field.

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use crate::identity::hexadecimal;
use crate::outcome::{Outcome, Row, Status, Way};
use crate::value::Value;

/// What stands before the checksum, and after it.
const BEFORE: &str = ",\"check\":\"";
const AFTER: &str = "\"}";
/// Hexadecimal digits of a checksum.
const DIGITS: usize = 16;

/// A response as JSON can tell it: infinity is a word.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Number {
    Finite(f64),
    Word(Infinity),
}

#[derive(Serialize, Deserialize)]
enum Infinity {
    #[serde(rename = "inf")]
    Positive,
    #[serde(rename = "-inf")]
    Negative,
}

#[derive(Serialize, Deserialize)]
struct Line {
    variant: u64,
    values: Vec<Value>,
    status: Status,
    responses: Vec<Option<Number>>,
    feasible: Option<bool>,
    note: String,
    way: Way,
}

/// The line of a finished variant of a study, with the line end.
pub(super) fn of_row(row: &Row, study: &str) -> String {
    let number = |value: f64| match value {
        f64::INFINITY => Number::Word(Infinity::Positive),
        f64::NEG_INFINITY => Number::Word(Infinity::Negative),
        // So that the same number has one text.
        finite => Number::Finite(finite + 0.0),
    };
    let line = Line {
        variant: row.variant,
        values: row.values.clone(),
        status: row.outcome.status,
        responses: row.outcome.responses.iter().map(|response| response.map(number)).collect(),
        feasible: row.outcome.feasible,
        note: row.outcome.note.clone(),
        way: row.outcome.way,
    };
    sealed(&serde_json::to_string(&line).unwrap_or_default(), study)
}

/// The variant of a line without its line end; `None` where checksum or content is wrong.
pub(super) fn row(line: &str, study: &str) -> Option<Row> {
    let Line { variant, values, status, responses, feasible, note, way } =
        serde_json::from_str(&opened(line, study)?).ok()?;
    let number = |value: Number| match value {
        Number::Finite(finite) => finite,
        Number::Word(Infinity::Positive) => f64::INFINITY,
        Number::Word(Infinity::Negative) => f64::NEG_INFINITY,
    };
    let responses = responses.into_iter().map(|response| response.map(number)).collect();
    Some(Row { variant, values, outcome: Outcome { status, responses, feasible, note, way } })
}

/// A JSON object with its checksum and a line end.
pub(super) fn sealed(json: &str, study: &str) -> String {
    let body = json.strip_suffix('}').unwrap_or(json);
    format!("{body}{BEFORE}{}{AFTER}\n", check(body, study))
}

/// The JSON object of a sealed line; `None` where the checksum is wrong.
pub(super) fn opened(line: &str, study: &str) -> Option<String> {
    let rest = line.strip_suffix(AFTER)?;
    let split = rest.len().checked_sub(DIGITS)?;
    let body = rest.get(..split)?.strip_suffix(BEFORE)?;
    (rest.get(split..)? == check(body, study)).then(|| format!("{body}}}"))
}

/// A checksum that also holds the study: a line of another is wrong here.
fn check(body: &str, study: &str) -> String {
    let mut digest = Sha256::new();
    digest.update(study.as_bytes());
    digest.update(body.as_bytes());
    hexadecimal(&digest.finalize(), DIGITS / 2)
}
