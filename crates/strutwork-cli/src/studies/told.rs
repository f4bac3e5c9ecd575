//! What came out of a study, on the terminal and as JSON.

use std::fmt::Write as _;

use serde_json::{Value, json};
use strutwork_study::journal::Header;
use strutwork_study::tally::Extremes;
use strutwork_study::{Status, Tally};

use super::results::Names;
use crate::exit::Failure;
use crate::render::counted;
use crate::terminal::Terminal;

/// Prints what came out.
///
/// # Errors
/// As [`Terminal::result`].
pub(crate) fn tell(
    terminal: &Terminal,
    names: &Names,
    header: &Header,
    tally: &Tally,
    as_json: bool,
) -> Result<(), Failure> {
    if as_json {
        return terminal.result(&(json(header, tally) + "\n"));
    }
    terminal.note(&words(header, tally));
    terminal.note(&format!("Wrote {} and {}\n", names.path("csv").display(), names.path("parquet").display()));
    Ok(())
}

/// What came out, in words.
fn words(header: &Header, tally: &Tally) -> String {
    let solved = tally.count(Status::Solved);
    let mut text = format!("{}: {} variants, {solved} solved", header.name, tally.variants);
    if header.constrained {
        let _ = write!(text, ", {} keep what is required", tally.feasible);
    }
    text.push('\n');
    for (status, variant, note) in &tally.notes {
        let _ = writeln!(text, "  {} {}: variant {variant}: {note}", tally.count(*status), status.word());
    }
    let over = if header.constrained && tally.feasible > 0 { &tally.of_feasible } else { &tally.extremes };
    if header.constrained && tally.feasible > 0 {
        text.push_str("Of those that keep what is required:\n");
    }
    for (name, extremes) in header.responses.iter().zip(over) {
        if let Some(Extremes { least, greatest }) = extremes {
            let _ = writeln!(
                text,
                "  {name}: {} (variant {}) to {} (variant {})",
                short(least.0),
                least.1,
                short(greatest.0),
                greatest.1
            );
        }
    }
    let outside = header.responses.iter().position(|name| name == "items_outside_scope");
    let greatest = outside.and_then(|place| tally.extremes[place]).map_or(0.0, |extremes| extremes.greatest.0);
    if greatest > 0.0 {
        let _ = writeln!(
            text,
            "Up to {} of a variant are within their limits but outside the scope of a clause: no pass.",
            counted(greatest as usize, "item")
        );
    }
    text
}

/// A number with five digits.
fn short(value: f64) -> String {
    if !value.is_finite() {
        return "beyond all bounds".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let decimals = (4 - value.abs().log10().floor() as i32).clamp(0, 9) as usize;
    format!("{value:.decimals$}")
}

/// What came out, for a machine.
pub(crate) fn json(header: &Header, tally: &Tally) -> String {
    let number = |value: f64| if value.is_finite() { json!(value) } else { json!("inf") };
    let extremes = |extremes: &Option<Extremes>| match extremes {
        None => Value::Null,
        Some(Extremes { least, greatest }) => json!({
            "least": number(least.0), "least_variant": least.1,
            "greatest": number(greatest.0), "greatest_variant": greatest.1,
        }),
    };
    let of = |all: &[Option<Extremes>]| {
        let named = header.responses.iter().zip(all).map(|(name, one)| (name.clone(), extremes(one)));
        Value::Object(named.collect())
    };
    let ended: serde_json::Map<String, Value> =
        Status::ALL.iter().map(|status| (status.word().replace(' ', "_"), json!(tally.count(*status)))).collect();
    let mut told = json!({
        "study": header.name,
        "version": header.version,
        "identity": header.study,
        "variants": tally.variants,
        "ended": ended,
        "responses": of(&tally.extremes),
    });
    if header.constrained {
        told["feasible"] = json!(tally.feasible);
        told["responses_of_feasible"] = of(&tally.of_feasible);
    }
    // A map with names for keys: nothing that JSON refuses.
    serde_json::to_string_pretty(&told).unwrap_or_default()
}
