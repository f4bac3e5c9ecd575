//! What came out of a study, on the terminal and as JSON.

use std::fmt::Write as _;

use serde_json::{Value, json};
use strutwork_study::journal::Header;
use strutwork_study::tally::Extremes;
use strutwork_study::{Status, Tally, Way};

use super::results::Names;
use crate::exit::Failure;
use crate::render::counted;
use crate::terminal::Terminal;

/// Prints what came out, and how it was found: which way the variants went, and what else there is to say.
///
/// # Errors
/// As [`Terminal::result`].
pub(crate) fn tell(
    terminal: &Terminal,
    names: &Names,
    header: &Header,
    tally: &Tally,
    how: &[String],
    as_json: bool,
) -> Result<(), Failure> {
    if as_json {
        return terminal.result(&(json(header, tally) + "\n"));
    }
    terminal.note(&words(header, tally));
    terminal.note(&ways(tally));
    how.iter().for_each(|line| terminal.note(&format!("{line}\n")));
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

/// Which way the variants went, in words.
fn ways(tally: &Tally) -> String {
    let of = |way| tally.ways.get(&way).copied().unwrap_or(0);
    let quick = [
        (of(Way::Lanes), "side by side"),
        (of(Way::Update), "by correcting kept solutions"),
        (of(Way::Alone), "by themselves"),
        (of(Way::Weighed), "weighed alone"),
    ];
    let mut parts: Vec<String> =
        quick.iter().filter(|(count, _)| *count > 0).map(|(count, word)| format!("{count} {word}")).collect();
    parts.extend(tally.ways.iter().filter_map(|(way, count)| match way {
        Way::Whole(why) => Some(format!("{count} the whole way ({})", why.words())),
        _ => None,
    }));
    format!("Found: {}.\n", parts.join(", "))
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
    let mut found = serde_json::Map::new();
    let mut whole = serde_json::Map::new();
    for (way, count) in &tally.ways {
        match way {
            Way::Whole(why) => whole.insert(why.word().replace(' ', "_"), json!(count)),
            _ => found.insert(way.word().replace(' ', "_"), json!(count)),
        };
    }
    found.insert("the_whole_way".to_owned(), Value::Object(whole));
    let mut told = json!({
        "study": header.name,
        "version": header.version,
        "identity": header.study,
        "variants": tally.variants,
        "ended": ended,
        "found": found,
        "responses": of(&tally.extremes),
    });
    if header.constrained {
        told["feasible"] = json!(tally.feasible);
        told["responses_of_feasible"] = of(&tally.of_feasible);
    }
    // A map with names for keys: nothing that JSON refuses.
    serde_json::to_string_pretty(&told).unwrap_or_default()
}
