//! Natural modes of two revisions: which is which.
//!
//! Modes are paired by their plain names, which come from their shapes; what is left of both by the order of frequencies.

use std::borrow::Cow;

use super::Numbers;
use super::naming::Naming;
use crate::results::{Kind, Quantity, ResultSet};

/// A mode: its number, its name by the second revision's names, its frequency, and its own name.
struct Mode<'r> {
    number: &'r str,
    name: String,
    quantity: &'r Quantity,
}

pub(super) fn compare(a: &ResultSet, b: &ResultSet, naming: &Naming, numbers: &mut Numbers) {
    let (before, after) = (modes(a, Some(naming)), modes(b, None));
    let mut pairs: Vec<Option<usize>> = vec![None; after.len()];
    let mut taken = vec![false; before.len()];
    for by_name in [true, false] {
        for (mode, pair) in after.iter().zip(&mut pairs).filter(|(_, pair)| pair.is_none()) {
            let fits = |place: &usize| !taken[*place] && (!by_name || before[*place].name == mode.name);
            *pair = (0..before.len()).find(fits);
            if let Some(place) = *pair {
                taken[place] = true;
            }
        }
    }
    for (mode, pair) in after.iter().zip(&pairs) {
        let told = |mode: &Mode<'_>| match mode.name.as_str() {
            "" => mode.number.to_owned(),
            name => format!("{} {name}", mode.number),
        };
        match pair.map(|place| &before[place]) {
            Some(was) => {
                let is =
                    Quantity { subject: told(mode), quantity: Cow::Borrowed("frequency_hz"), ..mode.quantity.clone() };
                numbers.hold(was.quantity, &told(was), &is);
            }
            None => numbers.alone[1] += 1,
        }
    }
    numbers.alone[0] += taken.iter().filter(|taken| !**taken).count();
}

fn modes<'r>(set: &'r ResultSet, naming: Option<&Naming>) -> Vec<Mode<'r>> {
    set.quantities
        .iter()
        .filter(|one| one.kind == Kind::Mode)
        .map(|quantity| {
            let named = set.mode_names.iter().find(|(number, _)| number.to_string() == quantity.subject);
            let name = named.map_or("", |(_, name)| name.as_str());
            Mode {
                number: &quantity.subject,
                name: naming.map_or(name.to_owned(), |naming| naming.mode(name)),
                quantity,
            }
        })
        .collect()
}
