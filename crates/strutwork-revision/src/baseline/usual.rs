//! The choice that a frame is judged by: stiffness, mass, what governs, how far each case moves, the greatest load of every
//! mount, link, support and skin, frequencies and load factors.

use std::collections::{BTreeMap, BTreeSet};

use super::quantity::{Kept, Key};
use super::tolerance::{COUNT, ROUNDING};
use crate::results::{ItemRow, Kind, Quantity, ResultSet};

/// Quantities of a case as a whole that are kept.
const OF_CASE: [&str; 8] = [
    "worst_utilisation",
    "torsional_stiffness",
    "largest_von_mises",
    "energy",
    "wheel_front_left_fz",
    "wheel_front_right_fz",
    "wheel_rear_left_fz",
    "wheel_rear_right_fz",
];

/// Items as near to the worst as this share govern with it: on a symmetric frame, rounding decides between two.
const TIED: f64 = 1e-6;

/// The usual choice, what matters most first.
pub fn usual(set: &ResultSet) -> Vec<Kept> {
    let mut all = Vec::new();
    // The figure that a frame is ordered by stands first.
    let (first, others): (Vec<Kept>, Vec<Kept>) =
        of_kind(set, Kind::Frame).partition(|kept| kept.key.quantity == "torsional_stiffness");
    all.extend(first.into_iter().chain(others));
    governing(set, &mut all);
    let of_cases = set.quantities.iter().filter(|one| one.kind == Kind::Case && OF_CASE.contains(&&*one.quantity));
    all.extend(of_cases.map(Kept::from));
    moved(set, &mut all);
    for kind in [Kind::Mode, Kind::ModeUnder, Kind::Buckling, Kind::BucklingReversed] {
        all.extend(of_kind(set, kind));
    }
    let grown = set.quantities.iter().filter(|one| one.kind == Kind::SecondOrder && one.subject.is_empty());
    all.extend(grown.map(Kept::from));
    all.extend(of_kind(set, Kind::Movement));
    for (kind, columns, quantity, unit) in GREATEST {
        greatest(set, *kind, columns, quantity, unit, &mut all);
    }
    all
}

/// Every quantity of the result tables but those of trust and loads of next to nothing, which are rounding itself: whether a
/// load of 1e-17 N is in its table is for the processor to say.
pub fn all(set: &ResultSet) -> impl Iterator<Item = Kept> {
    let mut loads: BTreeMap<&str, f64> = BTreeMap::new();
    for one in set.quantities.iter().filter(|one| one.kind == Kind::Load) {
        let largest = loads.entry(&one.case).or_insert(0.0);
        *largest = largest.max(one.value.abs());
    }
    let real = move |one: &&Quantity| match one.kind {
        Kind::Trust => false,
        Kind::Load => one.value.abs() > ROUNDING * loads.get(one.case.as_str()).copied().unwrap_or(0.0),
        _ => true,
    };
    set.quantities.iter().filter(real).map(Kept::from)
}

fn of_kind(set: &ResultSet, kind: Kind) -> impl Iterator<Item = Kept> {
    set.quantities.iter().filter(move |one| one.kind == kind).map(Kept::from)
}

/// How much is judged, and of every kind of item which is nearest to its limit, in which check and which case.
fn governing(set: &ResultSet, all: &mut Vec<Kept>) {
    let count =
        |quantity: &str, number: usize| Kept::number(Key::new(Kind::Frame, "", "", quantity), number as f64, COUNT);
    if set.items.is_empty() {
        return;
    }
    all.push(count("items_judged", set.items.len()));
    all.push(count("items_over_limit", set.items.iter().filter(|item| item.severity == "error").count()));
    all.push(count("items_outside_scope", set.items.iter().filter(|item| item.scope == "outside").count()));
    let kinds: BTreeSet<&str> = set.items.iter().map(|item| item.kind.as_str()).collect();
    for kind in kinds {
        let of_kind = || set.items.iter().filter(|item| item.kind == kind);
        let Some(worst) = of_kind().filter_map(|item| item.utilisation).max_by(f64::total_cmp) else { continue };
        let key = |quantity: &str| Key::new(Kind::Utilisation, "", kind, quantity);
        all.push(Kept::number(key("worst"), worst, ""));
        let tied: Vec<&ItemRow> =
            of_kind().filter(|item| item.utilisation.is_some_and(|used| worst - used <= TIED * worst.abs())).collect();
        let words = |read: fn(&ItemRow) -> &str| {
            let mut words: Vec<&str> = tied.iter().map(|item| read(item)).collect();
            words.sort_unstable();
            words.dedup();
            words.join("; ")
        };
        all.push(Kept::text(key("governing_check"), words(|item| &item.code)));
        all.push(Kept::text(key("governing_item"), words(|item| &item.item)));
    }
}

/// How far the joint that moves furthest goes in each case, and how far the one that turns furthest turns.
fn moved(set: &ResultSet, all: &mut Vec<Kept>) {
    for (columns, quantity, unit) in [
        (["ux_mm", "uy_mm", "uz_mm"], "greatest_movement", "mm"),
        (["rx_deg", "ry_deg", "rz_deg"], "greatest_turn", "deg"),
    ] {
        let mut of_case: BTreeMap<&str, f64> = BTreeMap::new();
        for ((case, _), length) in lengths(set, Kind::Joint, &columns) {
            let greatest = of_case.entry(case).or_insert(0.0);
            *greatest = greatest.max(length);
        }
        let found = set.cases.iter().filter_map(|case| Some((case, of_case.get(case.as_str())?)));
        all.extend(found.map(|(case, value)| Kept::number(Key::new(Kind::Case, case, "", quantity), *value, unit)));
    }
}

/// Of which kind, from which columns, under which name and in which unit the greatest over all cases is kept.
const GREATEST: &[(Kind, &[&str], &str, &str)] = &[
    (Kind::Mount, &["fx_n", "fy_n", "fz_n"], "greatest_force", "N"),
    (Kind::Mount, &["moment_nm"], "greatest_moment", "N·m"),
    (Kind::Link, &["fx_n", "fy_n", "fz_n"], "greatest_force", "N"),
    (Kind::Reaction, &["fx_n", "fy_n", "fz_n"], "greatest_force", "N"),
    (Kind::Reaction, &["mx_nm", "my_nm", "mz_nm"], "greatest_moment", "N·m"),
    (Kind::Panel, &["flow_n_per_mm"], "greatest_flow", "N/mm"),
];

/// The greatest over all cases of every subject of a kind, in the order of its table.
fn greatest(set: &ResultSet, kind: Kind, columns: &[&str], quantity: &str, unit: &str, all: &mut Vec<Kept>) {
    let mut order: Vec<&str> = Vec::new();
    let mut of_subject: BTreeMap<&str, f64> = BTreeMap::new();
    for ((_, subject), length) in lengths(set, kind, columns) {
        let greatest = of_subject.entry(subject).or_insert_with(|| {
            order.push(subject);
            0.0
        });
        *greatest = greatest.max(length);
    }
    let found = order.into_iter().filter_map(|subject| Some((subject, of_subject.get(subject)?)));
    all.extend(found.map(|(subject, value)| Kept::number(Key::new(kind, "", subject, quantity), *value, unit)));
}

/// The lengths of the vectors that these columns are the components of, by case and subject, in the order of the table.
fn lengths<'a>(set: &'a ResultSet, kind: Kind, columns: &[&str]) -> Vec<((&'a str, &'a str), f64)> {
    let mut found: Vec<((&str, &str), f64)> = Vec::new();
    for one in set.quantities.iter().filter(|one| one.kind == kind && columns.contains(&&*one.quantity)) {
        let of = (one.case.as_str(), one.subject.as_str());
        match found.last_mut() {
            // The components of a row stand together.
            Some((last, sum)) if *last == of => *sum += one.value * one.value,
            _ => found.push((of, one.value * one.value)),
        }
    }
    found.into_iter().map(|(of, sum)| (of, sum.sqrt())).collect()
}
