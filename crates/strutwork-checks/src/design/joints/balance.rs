//! The shares of a brace's force, written out: what pushes, what pulls, and what of it goes which way.

use super::reading::{Branch, Reading};
use super::swept::Ways;
use crate::calculation::{Put, Sink, Unit};
use crate::code::joint::Kind;

/// A sum of pushes of one side and one sense: its symbol and value, N.
type Sum = (&'static str, f64);

/// Writes the shares of the brace at `place` as they follow from the pushes `P_1`, `P_2`, … that stand above: the same as
/// [`crate::code::joint::shares()`] does.
pub(super) fn write(reading: &Reading, place: usize, ways: &Ways, pushes: &[f64], sink: &mut impl Sink) {
    let own = &reading.braces[place];
    let symbols: Vec<String> = (1..=pushes.len()).map(|number| format!("P_{number}")).collect();
    let mut sum = |symbol: &'static str, near: bool, pushing: bool, note: &str| -> Sum {
        let counts = |other: &Branch, push: f64| {
            other.plane == own.plane && (other.first_side == own.first_side) == near && (push > 0.0) == pushing
        };
        let all: Vec<Put<'_>> = reading
            .braces
            .iter()
            .zip(pushes.iter().zip(&symbols))
            .filter(|(other, (push, _))| counts(other, **push))
            .map(|(_, (push, symbol))| (symbol.as_str(), *push, Unit::N))
            .collect();
        let value = all.iter().map(|(_, push, _)| push.abs()).sum();
        let terms: Vec<String> = all.iter().map(|(symbol, ..)| format!("|{symbol}|")).collect();
        let formula = if terms.is_empty() { "0".to_owned() } else { terms.join(" + ") };
        sink.step(symbol, &formula, &all, value, Unit::N, note);
        (symbol, value)
    };
    let near = [sum("C", true, true, "pushing on this side"), sum("Z", true, false, "pulling on this side")];
    let far = if own.across {
        vec![
            sum("C_o", false, true, "pushing on the other side"),
            sum("Z_o", false, false, "pulling on the other side"),
        ]
    } else {
        Vec::new()
    };
    let (whole, facing) = if pushes[place] > 0.0 { (near[0], near[1]) } else { (near[1], near[0]) };
    let known: Vec<Put<'_>> = near.into_iter().chain(far).map(|(symbol, value)| (symbol, value, Unit::N)).collect();
    let mut shown: Vec<(String, f64)> = Vec::new();
    for (number, ((share, kind), neighbour)) in ways.ways.iter().zip(&ways.neighbours).enumerate() {
        let symbol = format!("s_{}", kind.tag(own.brace.angle, number));
        let mut with = known.clone();
        with.extend(pushes.iter().zip(&symbols).map(|(push, symbol)| (symbol.as_str(), *push, Unit::N)));
        with.extend(shown.iter().map(|(symbol, share)| (symbol.as_str(), *share, Unit::ONE)));
        let (formula, note) = match (kind, neighbour) {
            (_, Some(other)) => (
                format!("min(C, Z) / {} · |{}| / {}", whole.0, symbols[*other], facing.0),
                "balanced by that brace on the same side",
            ),
            (Kind::X, None) => (format!("min(|C − Z|, |C_o − Z_o|) / {}", whole.0), "balanced across the chord"),
            (_, None) => {
                let others: String = shown.iter().map(|(symbol, _)| format!(" − {symbol}")).collect();
                (format!("1{others}"), "the rest, by shear in the chord")
            }
        };
        sink.step(&symbol, &formula, &with, *share, Unit::ONE, note);
        shown.push((symbol, *share));
    }
}
