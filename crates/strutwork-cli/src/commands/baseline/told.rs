//! A check in words: what departs, by how much, what matters most first.

use std::collections::BTreeSet;

use strutwork_model::{Code, Diagnostic, Severity};
use strutwork_revision::baseline::{Baseline, Held, InputChange, Kept, Key, Row, Standing, Value, codes, wording};

use super::check::Ended;
use crate::columns::{Align, Columns};
use crate::commands::summary::printable;
use crate::render::counted;

/// How many departures are told; `--all` tells every one.
const TOLD: usize = 20;
/// How many names of new quantities are told.
const NAMED: usize = 5;

/// What came of every model, and a line in the end where there are several.
pub(super) fn check(all: &[Ended<'_>], everything: bool) -> String {
    let mut text = String::new();
    for one in all {
        let Ok(held) = &one.held else { continue };
        text.push_str(&checked(one, held, if everything { usize::MAX } else { TOLD }));
    }
    if all.len() > 1 {
        let with = |code: fn(u8) -> bool| all.iter().filter(|one| code(one.code())).count();
        text.push_str(&format!(
            "{}: {} hold, {} depart, {} could not be checked.\n",
            counted(all.len(), "model"),
            with(|code| code == 0),
            with(|code| code == 1),
            with(|code| code > 1)
        ));
    }
    text
}

fn checked(one: &Ended<'_>, held: &Held<'_>, most: usize) -> String {
    let number = held.rows.len();
    let failed = held.by_importance();
    let mut text = if failed.is_empty() {
        format!("{}: {} with the baseline.\n", printable(one.folder), agree(number))
    } else {
        let depart = if failed.len() == 1 { "departs" } else { "depart" };
        let values = counted(number, "value");
        format!(
            "{}: {} of {values} {depart} from {}\n\n{}",
            printable(one.folder),
            failed.len(),
            one.file,
            table(&failed, most)
        )
    };
    if failed.len() > most {
        text.push_str(&format!("  and {} more: --all tells them\n", failed.len() - most));
    }
    if !failed.is_empty() {
        text.push('\n');
    }
    if !held.new.is_empty() {
        text.push_str(&format!(
            "  {}  {} not in the baseline: {}\n",
            codes::NEW,
            are(held.new.len()),
            named(&held.new)
        ));
        text.push_str(&format!(
            "        strutwork baseline record {} --update takes {} in\n",
            one.folder,
            if held.new.len() == 1 { "it" } else { "them" }
        ));
    }
    text
}

fn agree(number: usize) -> String {
    if number == 1 { "its 1 value agrees".to_owned() } else { format!("all {number} values agree") }
}

fn are(number: usize) -> String {
    if number == 1 { "1 value is".to_owned() } else { format!("{number} values are") }
}

fn named(new: &[Kept]) -> String {
    let mut names: Vec<String> = new.iter().take(NAMED).map(|kept| printable(&kept.key.to_string())).collect();
    if new.len() > NAMED {
        names.push("…".to_owned());
    }
    names.join("; ")
}

/// A row for each value that departs.
fn table(rows: &[&Row<'_>], most: usize) -> String {
    let mut columns = Columns::new(&[
        ("  code", Align::Left),
        ("value", Align::Left),
        ("recorded", Align::Right),
        ("now", Align::Right),
        ("change", Align::Right),
        ("tolerances", Align::Right),
        ("line", Align::Right),
    ]);
    for row in rows.iter().take(most) {
        let (code, now, change, tolerances) = match &row.standing {
            Standing::Departs(departure) => (
                codes::DEPARTS,
                wording::now(row, departure),
                departure.per_cent.map_or_else(none, wording::per_cent),
                wording::times(departure.tolerances),
            ),
            _ => (codes::MISSING, "missing".to_owned(), none(), none()),
        };
        columns.push(vec![
            format!("  {code}"),
            row.entry.kept.key.to_string(),
            wording::was(row),
            now,
            change,
            tolerances,
            row.entry.line.to_string(),
        ]);
    }
    columns.render()
}

fn none() -> String {
    "-".to_owned()
}

/// What differs between a baseline and the one that takes its place.
pub(super) fn update(held: &Held<'_>, fresh: &Baseline) -> String {
    let failed = held.by_importance();
    let mut text = String::new();
    if failed.is_empty() {
        text.push_str("No value departs.\n");
    } else {
        text.push_str(&format!("What departs, and is now recorded as it is:\n\n{}\n", table(&failed, usize::MAX)));
    }
    let gone = failed.iter().filter(|row| row.standing == Standing::Missing).count();
    if gone > 0 {
        text.push_str(&format!("{} no longer there and left out.\n", are(gone)));
    }
    let known: BTreeSet<&Key> = held.rows.iter().map(|row| &row.entry.kept.key).collect();
    let taken: Vec<&Kept> =
        fresh.entries.iter().map(|entry| &entry.kept).filter(|kept| !known.contains(&kept.key)).collect();
    if !taken.is_empty() {
        text.push_str(&format!("{} taken in:\n", are(taken.len())));
        text.extend(taken.iter().map(|kept| format!("  {}", listed(kept))));
    }
    for change in changes(held) {
        text.push_str(&format!("{}: {}\n", change.severity.word(), change.message));
    }
    text
}

/// A quantity by the name that `--keep` takes, and its value.
pub(super) fn listed(kept: &Kept) -> String {
    let [kind, case, subject, quantity] = kept.key.parts();
    let value = match &kept.value {
        Value::Number(_) => format!("{} {}", kept.value, kept.unit),
        Value::Text(text) => text.clone(),
    };
    format!("{}  {}\n", printable(&format!("{kind}:{case}:{subject}:{quantity}")), printable(value.trim_end()))
}

/// That the model or the program is another than when the baseline was recorded.
pub(super) fn changes(held: &Held<'_>) -> Vec<Diagnostic> {
    let mut all = Vec::new();
    let mut tell = |code: Code, severity: Severity, message: String, help: &str| {
        let (subject, help) = (String::new(), help.to_owned());
        all.push(Diagnostic { code, severity, place: None, subject, message, help });
    };
    if !held.inputs.is_empty() {
        let list: Vec<String> = held
            .inputs
            .iter()
            .map(|change| match change {
                InputChange::Differs(file) => format!("{file} differs"),
                InputChange::Gone(file) => format!("{file} is gone"),
                InputChange::Added(file) => format!("{file} is new"),
            })
            .collect();
        tell(
            codes::MODEL_CHANGED,
            Severity::Warning,
            format!("the model has changed since the baseline was recorded: {}", list.join(", ")),
            "what departs may come from that, and not from the program; where the change is meant, record anew with --update",
        );
    }
    let (recorded, now) = (held.recorded_by, held.version);
    if recorded != now {
        tell(
            codes::OTHER_VERSION,
            Severity::Note,
            format!("the baseline was recorded by version {recorded}, this is {now}"),
            "numbers that moved between versions stand in CHANGELOG.md under Numbers",
        );
    }
    all
}
