//! Which variants there are: each made from its number alone, so that no list of them is kept.

mod hypercube;
mod sobol;
mod subsets;

use serde::Serialize;

use crate::fault::StudyFault;
use crate::parameter::{Change, Levels, OFF, ON, Parameter};
use crate::value::Value;

/// Which variants a study has, and in which order.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub enum Design {
    /// Every combination of the levels; the last parameter turns fastest.
    FullGrid,
    /// The start values, then every other level of each parameter by itself.
    OneAtATime,
    /// `count` samples, of which each parameter takes every `count`-th part of its range, or each level, equally often.
    LatinHypercube {
        /// How many.
        count: u64,
        /// The same seed gives the same samples.
        seed: u64,
    },
    /// The first `count` points of a scrambled Sobol sequence, which fill the space evenly.
    Sobol {
        /// How many, at most 65 536; powers of two fill the space best.
        count: u64,
        /// The same seed gives the same samples.
        seed: u32,
    },
    /// These variants: a value for each parameter.
    List(Vec<Vec<Value>>),
    /// Sets of up to `most` diagonals that are switched from how they start, the smaller sets first; for each set the full
    /// grid of the other parameters.
    Subsets {
        /// The largest set.
        most: usize,
    },
}

impl Design {
    /// Whether its variants are samples: drawn from ranges, so that their answers are spread, and not chosen one by one.
    pub const fn is_sampled(&self) -> bool {
        matches!(self, Self::LatinHypercube { .. } | Self::Sobol { .. })
    }

    /// How many variants it has with these parameters.
    ///
    /// # Errors
    /// [`StudyFault::Design`] where it does not go with them; [`StudyFault::Levels`] where it needs values and has a range.
    pub fn count(&self, parameters: &[Parameter]) -> Result<u64, StudyFault> {
        let count = match self {
            Self::FullGrid => grid_count(parameters.iter())?,
            Self::OneAtATime => {
                let mut count = 1_u64;
                for parameter in parameters {
                    count += others(parameter)?.len() as u64;
                }
                count
            }
            Self::LatinHypercube { count, .. } => *count,
            Self::Sobol { count, .. } => {
                sobol::check(*count, parameters.len())?;
                *count
            }
            Self::List(rows) => {
                if let Some(row) = rows.iter().find(|row| row.len() != parameters.len()) {
                    return Err(StudyFault::Design(format!(
                        "a variant of the list has {} values for {} parameters",
                        row.len(),
                        parameters.len()
                    )));
                }
                rows.len() as u64
            }
            Self::Subsets { most } => {
                let (switches, rest) = switches(parameters);
                if switches.is_empty() {
                    return Err(StudyFault::Design("subsets need diagonals that can be switched on or off".to_owned()));
                }
                let sets = subsets::count(switches.len(), *most);
                let grid = grid_count(rest.iter().map(|&place| &parameters[place]))?;
                sets.and_then(|sets| sets.checked_mul(grid)).ok_or_else(too_many)?
            }
        };
        if count == 0 {
            return Err(StudyFault::Design("the design has no variant".to_owned()));
        }
        Ok(count)
    }

    /// The values of a variant.
    ///
    /// # Assumes
    /// `variant` is less than [`Self::count`], which found nothing wrong.
    pub fn values(&self, parameters: &[Parameter], variant: u64) -> Vec<Value> {
        match self {
            Self::FullGrid => {
                let mut values: Vec<Value> = parameters.iter().map(|parameter| parameter.start.clone()).collect();
                let all: Vec<usize> = (0..parameters.len()).collect();
                put_grid(parameters, &all, variant, &mut values);
                values
            }
            Self::OneAtATime => one_at_a_time(parameters, variant),
            Self::LatinHypercube { count, seed } => {
                let sample = |(place, parameter): (usize, &Parameter)| {
                    let (stratum, within) = hypercube::sample(*count, *seed, place as u64, variant);
                    at(&parameter.levels, (stratum as f64 + within) / *count as f64)
                };
                parameters.iter().enumerate().map(sample).collect()
            }
            Self::Sobol { seed, .. } => {
                let sample = |(place, parameter): (usize, &Parameter)| {
                    at(&parameter.levels, sobol::sample(variant, place, *seed))
                };
                parameters.iter().enumerate().map(sample).collect()
            }
            Self::List(rows) => {
                usize::try_from(variant).ok().and_then(|place| rows.get(place)).cloned().unwrap_or_default()
            }
            Self::Subsets { .. } => {
                let mut values: Vec<Value> = parameters.iter().map(|parameter| parameter.start.clone()).collect();
                let (switches, rest) = switches(parameters);
                let grid = rest.iter().map(|&place| level_count(&parameters[place])).product::<u64>().max(1);
                for place in subsets::members(switches.len(), variant / grid) {
                    let value = &mut values[switches[place]];
                    *value = if value.word() == Some(OFF) { ON.into() } else { OFF.into() };
                }
                put_grid(parameters, &rest, variant % grid, &mut values);
                values
            }
        }
    }
}

fn too_many() -> StudyFault {
    StudyFault::Design(
        "the design has more variants than can be counted: take fewer levels, or a sampled design".to_owned(),
    )
}

/// The listed levels.
fn listed(parameter: &Parameter) -> Result<&[Value], StudyFault> {
    match &parameter.levels {
        Levels::List(values) => Ok(values),
        Levels::Range { .. } => Err(StudyFault::Levels {
            parameter: parameter.name.clone(),
            why: "are a range: this design needs a list of them; latin_hypercube and sobol take a range".to_owned(),
        }),
    }
}

fn level_count(parameter: &Parameter) -> u64 {
    listed(parameter).map_or(1, |values| values.len() as u64)
}

fn grid_count<'p>(mut parameters: impl Iterator<Item = &'p Parameter>) -> Result<u64, StudyFault> {
    parameters
        .try_fold(1_u64, |count, parameter| count.checked_mul(listed(parameter)?.len() as u64).ok_or_else(too_many))
}

/// Puts the levels of a point of the grid of these parameters, the last turning fastest.
fn put_grid(parameters: &[Parameter], places: &[usize], mut point: u64, values: &mut [Value]) {
    for &place in places.iter().rev() {
        if let Levels::List(levels) = &parameters[place].levels {
            let count = levels.len() as u64;
            values[place] = levels[(point % count) as usize].clone();
            point /= count;
        }
    }
}

/// The levels that are not the start value.
fn others(parameter: &Parameter) -> Result<Vec<&Value>, StudyFault> {
    Ok(listed(parameter)?.iter().filter(|value| **value != parameter.start).collect())
}

fn one_at_a_time(parameters: &[Parameter], variant: u64) -> Vec<Value> {
    let mut values: Vec<Value> = parameters.iter().map(|parameter| parameter.start.clone()).collect();
    let Some(mut left) = variant.checked_sub(1) else { return values };
    for (place, parameter) in parameters.iter().enumerate() {
        let levels = others(parameter).unwrap_or_default();
        if let Some(level) = usize::try_from(left).ok().and_then(|left| levels.get(left)) {
            values[place] = (*level).clone();
            break;
        }
        left -= levels.len() as u64;
    }
    values
}

/// The places of the diagonals that can be switched, and of the other parameters.
fn switches(parameters: &[Parameter]) -> (Vec<usize>, Vec<usize>) {
    (0..parameters.len()).partition(|&place| matches!(parameters[place].change, Change::Presence(_)))
}

/// The level at a share of the whole range, 0 ≤ `share` < 1.
fn at(levels: &Levels, share: f64) -> Value {
    match levels {
        Levels::Range { from, to } => Value::Number(from + (to - from) * share),
        Levels::List(values) => values[((share * values.len() as f64) as usize).min(values.len() - 1)].clone(),
    }
}

#[cfg(test)]
mod tests;
