//! The values of a parameter in a few parts, so that answers can be told by them.

use crate::parameter::{Levels, Parameter};
use crate::value::Value;

/// A parameter with more values than this has them taken together.
const MOST: usize = 8;
/// Parts of a range.
const OF_RANGE: usize = 5;

/// The values of a parameter in a few parts.
#[derive(Debug, Clone, PartialEq)]
pub struct Parts {
    /// What each part is called: its value, or the first and the last.
    pub labels: Vec<String>,
    /// Where each part lies along an axis, where the values are numbers.
    pub middles: Option<Vec<f64>>,
    values: Values,
}

#[derive(Debug, Clone, PartialEq)]
enum Values {
    Listed(Vec<Value>),
    Range(f64, f64),
}

impl Parts {
    /// The parts of a parameter; the value that it starts from is among them.
    pub fn of(parameter: &Parameter, with_start: bool) -> Self {
        match &parameter.levels {
            Levels::List(values) => {
                let mut values = values.clone();
                if with_start && !values.contains(&parameter.start) {
                    values.insert(0, parameter.start.clone());
                }
                let numbers: Option<Vec<f64>> = values.iter().map(Value::number).collect();
                if let Some(numbers) = numbers {
                    // In the order of the axis that they are drawn over.
                    let mut sorted = numbers;
                    sorted.sort_by(f64::total_cmp);
                    values = sorted.into_iter().map(Value::Number).collect();
                }
                Self::listed(values)
            }
            Levels::Range { from, to } => {
                let end = |place: usize| from + (to - from) * place as f64 / OF_RANGE as f64;
                let label = |place: usize| format!("{} to {}", short(end(place)), short(end(place + 1)));
                let middle = |place: usize| (end(place) + end(place + 1)) / 2.0;
                Self {
                    labels: (0..OF_RANGE).map(label).collect(),
                    middles: Some((0..OF_RANGE).map(middle).collect()),
                    values: Values::Range(*from, *to),
                }
            }
        }
    }

    fn listed(values: Vec<Value>) -> Self {
        let parts = values.len().min(MOST);
        let ends = |part: usize| {
            let bound = |part: usize| (part * values.len()).div_ceil(parts);
            (&values[bound(part)], &values[bound(part + 1) - 1])
        };
        let label = |part: usize| match ends(part) {
            (one, other) if one == other => told(one),
            (one, other) => format!("{} to {}", told(one), told(other)),
        };
        let middle = |part: usize| {
            let (one, other) = ends(part);
            Some((one.number()? + other.number()?) / 2.0)
        };
        let labels = (0..parts).map(label).collect();
        let middles = (0..parts).map(middle).collect();
        Self { labels, middles, values: Values::Listed(values) }
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.labels.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.labels.is_empty()
    }

    /// The part of a value; `None` for one that the parameter does not take.
    pub fn place(&self, value: &Value) -> Option<usize> {
        match &self.values {
            Values::Listed(values) => {
                let place = values.iter().position(|known| known == value)?;
                Some(place * self.len() / values.len())
            }
            Values::Range(from, to) => {
                let share = (value.number()? - from) / (to - from);
                let parts = self.len() as f64;
                (-1e-9..=1.0 + 1e-9).contains(&share).then(|| (share * parts).clamp(0.0, parts - 1.0) as usize)
            }
        }
    }
}

fn told(value: &Value) -> String {
    match value {
        Value::Number(number) => short(*number),
        Value::Word(word) if word.is_empty() => "none".to_owned(),
        Value::Word(word) => word.clone(),
    }
}

/// At most five digits, without needless zeros.
fn short(value: f64) -> String {
    let decimals = if value == 0.0 { 0 } else { (4 - value.abs().log10().floor() as i32).clamp(0, 9) as usize };
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parameter::Change;
    use strutwork_model::spec::ModelSpec;

    fn parts(levels: Levels) -> Parts {
        Parts::of(&Parameter::new(&ModelSpec::default(), Some("x"), Change::Own, levels).unwrap(), false)
    }

    #[test]
    fn every_value_has_its_part_and_parts_are_in_order() {
        for count in [1, 2, 8, 9, 20, 100] {
            let values: Vec<Value> = (0..count).rev().map(|i| Value::Number(f64::from(i))).collect();
            let parts = parts(Levels::List(values.clone()));
            assert_eq!(parts.len(), (count as usize).min(MOST));
            let mut last = 0;
            for value in values.iter().rev() {
                let place = parts.place(value).unwrap();
                assert!(place == last || place == last + 1, "{count}");
                last = place;
                let label = &parts.labels[place];
                let ends: Vec<f64> = label.split(" to ").map(|end| end.parse().unwrap()).collect();
                let number = value.number().unwrap();
                assert!(ends[0] <= number && number <= *ends.last().unwrap(), "{label} {number}");
            }
            assert_eq!(last + 1, parts.len());
        }
    }

    #[test]
    fn a_range_has_equal_parts() {
        let parts = parts(Levels::Range { from: 1.0, to: 2.0 });
        assert_eq!(parts.labels, ["1 to 1.2", "1.2 to 1.4", "1.4 to 1.6", "1.6 to 1.8", "1.8 to 2"]);
        assert_eq!([1.0, 1.3, 1.99, 2.0].map(|x| parts.place(&Value::Number(x))), [Some(0), Some(1), Some(4), Some(4)]);
        assert_eq!(parts.place(&Value::Number(2.5)), None);
    }
}
