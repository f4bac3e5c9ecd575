//! How far a new value may lie from a kept one, and why.
//!
//! Two processors do not round alike: a solver picks its loops by what the processor can do. The last of sixteen digits
//! differs then, and solving magnifies that by the frame's condition. A fault of the program or a change of the frame moves
//! results by parts in a thousand. Tolerances stand between: a part in 10⁹ of what the value is to be compared with.

use std::collections::BTreeMap;

use super::quantity::{Kept, Value};
use crate::results::{Kind, Quantity};

/// Why a tolerance is what it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Rule {
    /// What the rows call it.
    pub name: String,
    /// The tolerance as a share of the scale that the rule takes.
    pub share: f64,
    /// The scale, and the reason, in a sentence.
    pub why: String,
}

/// The share that rounding stays below on every processor.
pub const ROUNDING: f64 = 1e-9;

/// Of the largest value of its unit in the same case.
pub const CASE: &str = "case";
/// Of the value itself.
pub const OWN: &str = "own";
/// Of the frame's size.
pub const SIZE: &str = "size";
/// Words and counts.
pub const SAME: &str = "same";

/// The rules; `steady`: the share at which passes of second order end, where results are of second order.
pub fn rules(steady: Option<f64>) -> Vec<Rule> {
    let share = steady.map_or(ROUNDING, |steady| (100.0 * steady).max(ROUNDING));
    let because = if steady.is_some() {
        "passes of second order end when one changes little enough; what they leave is a hundredth of this"
    } else {
        "processors round the last of 16 digits differently and solving magnifies that; faults move results by far more"
    };
    let rule =
        |name: &str, share: f64, why: String| Rule { name: name.to_owned(), share, why: format!("{why}; {because}") };
    vec![
        rule(
            CASE,
            share,
            "of the largest value of its unit in the case, and at least of 1: what is zero by symmetry is rounding of that \
             size. Moments count as forces and turns as movements over the frame's size"
                .to_owned(),
        ),
        rule(OWN, share, "of the value itself, and at least of 1: no other value of the case has its unit".to_owned()),
        rule(SIZE, ROUNDING, "of the frame's size: it is a place".to_owned()),
        Rule { name: SAME.to_owned(), share: 0.0, why: "a word or a count: the same or not".to_owned() },
    ]
}

/// What values of a run are to be compared with.
#[derive(Debug, Clone, PartialEq)]
pub struct Scales {
    /// The diagonal of the box round all joints, m.
    size: f64,
    /// Case and unit → the largest magnitude; the case `""` is that of all cases together.
    largest: BTreeMap<(String, String), f64>,
}

/// Units that are shared by many values of a case.
const SHARED: [&str; 6] = ["N", "N·m", "mm", "deg", "MPa", "N/mm"];

impl Scales {
    /// Those of a run; `size_m`: the diagonal of the box round all joints, m.
    pub fn of(quantities: &[Quantity], size_m: f64) -> Self {
        let mut largest: BTreeMap<(String, String), f64> = BTreeMap::new();
        for one in quantities.iter().filter(|one| SHARED.contains(&&*one.unit) && acts(one.kind)) {
            for case in [one.case.as_str(), ""] {
                let entry = largest.entry((case.to_owned(), one.unit.clone().into_owned())).or_insert(0.0);
                *entry = entry.max(one.value.abs());
            }
        }
        Self { size: size_m, largest }
    }

    /// The rule for a value, and the scale that it takes.
    pub fn scale(&self, kept: &Kept) -> (&'static str, f64) {
        let Value::Number(value) = kept.value else { return (SAME, 0.0) };
        let (kind, unit) = (kept.key.kind, kept.unit.as_str());
        if unit == COUNT {
            return (SAME, 0.0);
        }
        if matches!(kind, Kind::Frame | Kind::Mass) && unit == "mm" {
            return (SIZE, (self.size * 1e3).max(1.0));
        }
        if !SHARED.contains(&unit) || !acts(kind) {
            return (OWN, value.abs().max(1.0));
        }
        let largest = |unit: &str| {
            let key = (kept.key.case.clone(), unit.to_owned());
            self.largest.get(&key).copied().unwrap_or(0.0)
        };
        let over_size = |value: f64| if self.size > 0.0 { value / self.size } else { 0.0 };
        let of_case = match unit {
            "N" => largest("N").max(over_size(largest("N·m"))),
            "N·m" => largest("N·m").max(largest("N") * self.size),
            "mm" => largest("mm").max(largest("deg").to_radians() * self.size * 1e3),
            "deg" => largest("deg").max(over_size(largest("mm") / 1e3).to_degrees()),
            _ => largest(unit),
        };
        (CASE, of_case.max(value.abs()).max(1.0))
    }
}

/// The unit of counts.
pub const COUNT: &str = "count";

/// Whether values of this kind are actions or answers of a case, and may be compared with each other.
const fn acts(kind: Kind) -> bool {
    !matches!(
        kind,
        Kind::Trust | Kind::Mass | Kind::Weld | Kind::Bay | Kind::SoftEnd | Kind::EffectiveLength | Kind::Frame
    )
}

/// A tolerance to one significant digit, rounded up, so that it stays the same when the value hardly moves.
pub fn rounded_up(tolerance: f64) -> f64 {
    if tolerance <= 0.0 || !tolerance.is_finite() {
        return 0.0;
    }
    let text = format!("{tolerance:.0e}");
    let near: f64 = text.parse().unwrap_or(tolerance);
    // Itself, but for the rounding of the product that it is.
    if near >= tolerance * (1.0 - 1e-12) {
        return near;
    }
    // Rounded down: one more in the last digit. `9e-9` becomes `1e-8` as a number does.
    let exponent = text.split_once('e').map_or("0", |(_, exponent)| exponent);
    let digit = text.split_once('e').and_then(|(digit, _)| digit.parse::<u32>().ok()).unwrap_or(1) + 1;
    format!("{digit}e{exponent}").parse().unwrap_or(tolerance)
}

#[cfg(test)]
mod tests {
    use super::super::quantity::Key;
    use super::*;

    fn quantity(kind: Kind, case: &str, unit: &'static str, value: f64) -> Quantity {
        let (case, subject) = (case.to_owned(), String::new());
        Quantity { kind, case, subject, quantity: "some".into(), unit: unit.into(), value }
    }

    fn kept(kind: Kind, case: &str, unit: &str, value: f64) -> Kept {
        Kept::number(Key::new(kind, case, "x", "some"), value, unit)
    }

    #[test]
    fn what_is_zero_by_symmetry_is_compared_with_its_neighbours() {
        let scales = Scales::of(
            &[
                quantity(Kind::Joint, "a", "mm", -4.0),
                quantity(Kind::Tube, "a", "N", 5000.0),
                quantity(Kind::Trust, "a", "N", 1e9),
            ],
            2.0,
        );
        assert_eq!(scales.scale(&kept(Kind::Joint, "a", "mm", 1e-13)), (CASE, 4.0));
        assert_eq!(scales.scale(&kept(Kind::Reaction, "a", "N", 0.0)), (CASE, 5000.0));
        assert_eq!(scales.scale(&kept(Kind::Reaction, "a", "N·m", 0.0)), (CASE, 10_000.0), "forces over 2 m");
        let (rule, turn) = scales.scale(&kept(Kind::Joint, "a", "deg", 0.0));
        assert!(rule == CASE && (turn - 1.0).abs() < 1e-15, "4 mm over 2 m is less than 1°: {turn}");
        assert_eq!(scales.scale(&kept(Kind::Joint, "b", "mm", 0.0)), (CASE, 1.0), "another case");
        assert_eq!(scales.scale(&kept(Kind::Mount, "", "N", 1.0)), (CASE, 5000.0), "of all cases");
    }

    #[test]
    fn lone_values_are_compared_with_themselves_and_places_with_the_frame() {
        let scales = Scales::of(&[], 3.0);
        assert_eq!(scales.scale(&kept(Kind::Frame, "", "N·m/deg", 6000.0)), (OWN, 6000.0));
        assert_eq!(scales.scale(&kept(Kind::Frame, "", "", 0.25)), (OWN, 1.0));
        assert_eq!(scales.scale(&kept(Kind::Frame, "", "mm", 0.0)), (SIZE, 3000.0));
        assert_eq!(scales.scale(&kept(Kind::Frame, "", COUNT, 7.0)), (SAME, 0.0));
        assert_eq!(scales.scale(&Kept::text(Key::new(Kind::Frame, "", "", "some"), "D022")), (SAME, 0.0));
    }

    #[test]
    fn tolerances_have_one_digit_and_are_never_rounded_down() {
        for (exact, shown) in [(6.685e-6, 7e-6), (6.2e-6, 7e-6), (9.4e-9, 1e-8), (1e-9, 1e-9), (0.0, 0.0), (0.31, 0.4)]
        {
            assert_eq!(rounded_up(exact), shown, "{exact}");
        }
    }
}
