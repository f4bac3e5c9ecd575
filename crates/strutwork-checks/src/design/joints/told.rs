//! The words of the rule: clauses, messages, and how a page begins.

use strutwork_model::Model;
use strutwork_model::model::BasisKind;

use super::balance;
use super::reading::{Branch, Reading};
use super::swept::Ways;
use crate::Judged;
use crate::aside;
use crate::calculation::{Sink, Unit};
use crate::code::joint::{self, Outcome};
use crate::code::profile::MOST;

/// From here on it is told how many times the strength is used, and not how many per cent.
const TIMES: f64 = 10.0;

/// The tables that a brace is judged by, those of every way that takes a part of its force.
pub(super) fn clause(branch: &Branch, ways: &Ways) -> &'static str {
    joint::clause(branch.chord.outline, branch.brace.outline, ways.ways.iter().map(|(_, kind)| *kind))
}

fn tube<'m>(model: &'m Model, branch: &Branch) -> &'m str {
    &model.tubes()[branch.end.tube].name
}

/// The chord's tubes by name.
fn chord(model: &Model, reading: &Reading) -> String {
    let names: Vec<&str> = reading.chord.iter().map(|end| &*model.tubes()[end.tube].name).collect();
    names.join(" and ")
}

/// A sentence for the finding that governs an end, and for each that exceeds its limit.
pub(super) fn message(
    judged: Judged<'_>,
    reading: &Reading,
    branch: &Branch,
    ways: &Ways,
    axial: f64,
    outcome: &Outcome,
    outside: Option<&str>,
) -> String {
    let model = judged.model;
    let (name, chord, joint) = (tube(model, branch), chord(model, reading), &model.joints()[reading.joint].name);
    let sense = if axial < 0.0 { "compression" } else { "tension" };
    let kinds: Vec<&str> = ways.ways.iter().map(|(_, kind)| kind.word(branch.brace.angle)).collect();
    let [force, in_plane, out_of_plane] = outcome.design;
    let moment = in_plane.hypot(out_of_plane);
    // What would read as 0.00 kN or 0 N·m is not worth a word.
    let what = match (force >= 5.0, moment >= 0.5) {
        (true, true) => format!("{:.2} kN {sense} and {moment:.0} N·m", force / 1e3),
        (true, false) => format!("{:.2} kN {sense}", force / 1e3),
        (false, true) => format!("{moment:.0} N·m"),
        (false, false) => "the slight forces".to_owned(),
    };
    let uses = if (TIMES..MOST).contains(&outcome.utilisation) {
        format!("are {:.0} times what the wall of {chord} bears there", outcome.utilisation)
    } else if outcome.utilisation < MOST {
        format!("use {:.0} % of what the wall of {chord} bears there", outcome.utilisation * 100.0)
    } else {
        format!("are over a thousand times what the wall of {chord} bears there, as the chord's own stress uses it up")
    };
    let scope = outside.map_or_else(String::new, |why| format!("{}, as screening: {why}", aside::OUTSIDE));
    format!(
        "{what} of tube {name} at joint {joint} {uses} ({} joint, {}); it lets {:.0} % of the \
         tube's own strength through{scope}",
        kinds.join(" and "),
        outcome.mode.word(),
        outcome.efficiency * 100.0,
    )
}

pub(super) fn title(judged: Judged<'_>, reading: &Reading, branch: &Branch, case: &str) -> String {
    let model = judged.model;
    let joint = &model.joints()[reading.joint].name;
    format!("joint {joint}: tube {} on {}, case {case}", tube(model, branch), chord(model, reading))
}

/// How the joint was read, why that is outside the code, and what balances what.
pub(super) fn opening(
    judged: Judged<'_>,
    case: usize,
    reading: &Reading,
    place: usize,
    ways: &Ways,
    pushes: &[f64],
    sink: &mut impl Sink,
) {
    let model = judged.model;
    let branch = &reading.braces[place];
    for why in &branch.reasons {
        sink.outside(why);
    }
    let through = if reading.chord.len() == 2 { "run through" } else { "ends here and is taken for the chord" };
    let face =
        if branch.face.is_empty() { String::new() } else { format!(" on its face towards local {}", branch.face) };
    let letters: Vec<String> = ways
        .ways
        .iter()
        .zip(&ways.neighbours)
        .map(|((_, kind), neighbour)| {
            let word = kind.word(branch.brace.angle);
            neighbour.map_or_else(
                || word.to_owned(),
                |other| format!("{word} with tube {}", tube(model, &reading.braces[other])),
            )
        })
        .collect();
    sink.remark(&format!(
        "{} {through}; tube {} stands{face}; read in this case as {}.",
        chord(model, reading),
        tube(model, branch),
        letters.join(", ")
    ));
    let basis = match (model.basis().kind, judged.is_ultimate(case)) {
        (BasisKind::Vehicle, true) => "vehicle practice, an ultimate case: no margin, γ_M5 = 1",
        (BasisKind::Vehicle, false) => "vehicle practice: m is yield_margin of [options], γ_M5 = 1",
        (BasisKind::Eurocode, true) => "partial factors, an ultimate case is accidental: m = 1; γ_M5 of [basis]",
        (BasisKind::Eurocode, false) => {
            "partial factors: m is γ_F of [basis], 1 in cases of loads.csv; γ_M5 of [basis]"
        }
    };
    sink.remark(&format!("Basis: {basis}."));
    let same = |other: &Branch| other.plane == branch.plane;
    if reading.braces.iter().filter(|other| same(other)).count() < 2 {
        return;
    }
    sink.remark(
        "What the braces of this plane push square into the chord, N sinθ, compression positive, without margin:",
    );
    for ((number, other), push) in reading.braces.iter().enumerate().zip(pushes).filter(|((_, other), _)| same(other)) {
        let side = if other.first_side == branch.first_side { "this side" } else { "the other side" };
        sink.given(&format!("P_{}", number + 1), *push, Unit::N, &format!("tube {}, {side}", tube(model, other)));
    }
    let told = "What pushes is balanced first by what pulls on the same side (K, N), the rest by what pushes on the other side (X), \
         the rest by shear in the chord (T, Y).";
    sink.remark(told);
    balance::write(reading, place, ways, pushes, sink);
}
