//! What `run` tells of natural modes and buckling at its end.

use serde_json::{Value, json};
use strutwork_report::Run;
use strutwork_solve::{Buckling, Modes};

use super::summary::printable;
use crate::columns::{Align, Columns};

/// Modes and cases that are told; all stand in the files.
const TOLD: usize = 12;
/// Modes that are told without and with the driver.
const SHIFTS: usize = 5;

/// Tables and proofs; empty where nothing was asked for.
pub(super) fn people(run: &Run<'_>) -> String {
    format!("{}{}{}{}", modes(run), shift(run), under(run), buckling(run))
}

fn modes(run: &Run<'_>) -> String {
    run.asked.modes.as_ref().map_or_else(String::new, |modes| told(run, modes))
}

fn under(run: &Run<'_>) -> String {
    let of_case = |(case, modes): &(String, Modes)| {
        format!("Under the forces of case {}:\n{}", printable(case), told(run, modes))
    };
    run.asked.under.as_ref().map_or_else(String::new, of_case)
}

fn told(run: &Run<'_>, modes: &Modes) -> String {
    let mut columns = Columns::new(&[("mode", Align::Right), ("Hz", Align::Right), ("shape", Align::Left)]);
    for (place, mode) in modes.modes.iter().enumerate().take(TOLD) {
        columns.push(vec![
            (modes.rigid + place + 1).to_string(),
            format!("{:.2}", mode.frequency),
            printable(&mode.name.words(run.model)),
        ]);
    }
    let mut text = columns.render();
    if modes.modes.len() > TOLD {
        text.push_str(&format!("and {} more in the result files\n", modes.modes.len() - TOLD));
    }
    if modes.rigid > 0 {
        let (word, come) = if modes.rigid == 1 { ("mode", "comes") } else { ("modes", "come") };
        let why = if modes.rigid == 6 { "nothing holds the frame" } else { "the supports let the frame move" };
        text.push_str(&format!("{} rigid {word} of 0 Hz {come} before them: {why}\n", modes.rigid));
    }
    let caution = if modes.proof.complete() { "" } else { ": do not rely on them" };
    text.push_str(&format!("{}{caution}\n\n", modes.proof.words()));
    text
}

/// What the driver changes: the first few pairs.
fn shift(run: &Run<'_>) -> String {
    let (Some(shift), Some(driven)) = (&run.asked.shift, &run.asked.modes) else { return String::new() };
    let headings =
        [("empty Hz", Align::Right), ("driven Hz", Align::Right), ("shift", Align::Right), ("shape", Align::Left)];
    let mut columns = Columns::new(&headings);
    let found = shift.pairs.iter().filter_map(|pair| Some((pair.driven?, shift.shift(pair, driven)?)));
    for (mode, [empty, with, change]) in found.take(SHIFTS) {
        columns.push(vec![
            format!("{empty:.2}"),
            format!("{with:.2}"),
            format!("{:+.1} %", change * 100.0),
            printable(&driven.modes[mode].name.words(run.model)),
        ]);
    }
    let place = "all in frequency_shift.csv";
    format!("The {:.1} kg that are there only while driven shift them ({place}):\n{}\n", shift.mass, columns.render())
}

fn buckling(run: &Run<'_>) -> String {
    let Some(all) = &run.asked.buckling else { return String::new() };
    let mut lowest: Vec<(&Buckling, f64)> =
        all.iter().filter_map(|of| Some((of, of.positive.first()?.factor))).collect();
    lowest.sort_by(|a, b| a.1.total_cmp(&b.1));
    if lowest.is_empty() {
        return "No case buckles the frame: nothing is pressed, or there are no cases\n\n".to_owned();
    }
    let headings =
        [("case", Align::Left), ("load factor", Align::Right), ("bows most", Align::Left), ("count", Align::Left)];
    let mut columns = Columns::new(&headings);
    for (of, factor) in lowest.iter().take(TOLD) {
        let most = of.positive.first().and_then(|mode| mode.bowing().first().copied());
        columns.push(vec![
            of.case.clone(),
            format!("{factor:.3}"),
            most.map_or_else(|| "-".to_owned(), |(tube, share)| format!("{} ({:.0} %)", run.tube(tube), share * 100.0)),
            of.proof_words().unwrap_or_else(|| "not counted: nothing resists a rigid motion".to_owned()),
        ]);
    }
    let mut text = columns.render();
    if lowest.len() > TOLD {
        text.push_str(&format!("and {} more cases in buckling.csv\n", lowest.len() - TOLD));
    }
    let bounds: Option<Vec<f64>> = lowest.iter().map(|(of, _)| of.error_bound()).collect();
    text.push_str(&match bounds.and_then(|bounds| bounds.into_iter().reduce(f64::max)) {
        Some(bound) => format!("no load factor is above the exact one by more than {:.2} %\n", bound * 100.0),
        None => {
            "some load factors may be far above the exact ones: buckling.csv has no bound for them; use more pieces\n"
                .to_owned()
        }
    });
    text.push('\n');
    text
}

/// The elastic ones; null where they were not asked for.
pub(super) fn frequencies(run: &Run<'_>) -> Option<Vec<f64>> {
    run.asked.modes.as_ref().map(|modes| modes.modes.iter().map(|mode| mode.frequency).collect())
}

/// The load factors of each case; null where they were not asked for.
pub(super) fn factors(run: &Run<'_>) -> Option<Vec<Value>> {
    let of_case = |of: &Buckling| {
        let factors: Vec<f64> = of.positive.iter().map(|mode| mode.factor).collect();
        let bounds: Vec<Option<f64>> = of.positive.iter().map(|mode| mode.error_bound).collect();
        json!({ "case": of.case, "load_factors": factors, "error_bounds": bounds })
    };
    run.asked.buckling.as_ref().map(|all| all.iter().map(of_case).collect())
}
