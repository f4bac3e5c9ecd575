//! What parameters do to a response, one by one and by twos.

use super::parts::Parts;
use super::sums::Sums;
use crate::design::Design;
use crate::outcome::Row;
use crate::response::Asked;
use crate::study::Study;
use crate::value::Value;

/// Responses that are looked at, at most.
const RESPONSES: usize = 3;
/// Parameters that are looked at by twos, at most.
const PAIRED: usize = 24;
/// Samples that each cell must hold before two parameters are told apart by samples.
const SAMPLES: u64 = 8;
/// So many standard errors must lie between a mean of samples and what parameters do one by one before anything is said of two:
/// of hundreds of cells hardly one is that far off by chance.
const BEYOND: f64 = 4.0;

/// How effects are taken from the variants of a design.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Estimate {
    /// Means over all variants: every combination is there, so that what others do cancels.
    Means,
    /// Differences from the variant that changes nothing: of those that change one parameter, and those that change two.
    FromStart,
    /// Means over samples: what others do is scatter in them.
    Samples,
}

/// Two parameters together.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The place of the one.
    pub one: usize,
    /// The place of the other.
    pub other: usize,
    /// For every part of the one, every part of the other.
    pub cells: Vec<Sums>,
}

/// What the parameters of a study do to a response.
#[derive(Debug, Clone, PartialEq)]
pub struct Effects {
    /// The place of the response.
    pub response: usize,
    /// How they are taken.
    pub estimate: Estimate,
    /// The parts of each parameter.
    pub parts: Vec<Parts>,
    /// The answers by the parts of each parameter.
    pub main: Vec<Vec<Sums>>,
    /// The first parameters by twos, as many as are looked at.
    pub pairs: Vec<Pair>,
    /// The answer of the variant that changes nothing.
    pub start: Option<f64>,
    /// All answers.
    pub whole: Sums,
    /// Variants without a finite answer: where there are any, means are not balanced any more.
    pub missing: u64,
    starts: Vec<(Value, Option<usize>)>,
}

/// The responses whose effects are looked at: not the mass, which everyone can add up, unless there is nothing else.
pub(super) fn looked_at(study: &Study) -> Vec<usize> {
    let dull = |asked: &Asked| matches!(asked, Asked::TubesMass | Asked::TotalMass | Asked::OutsideScope);
    let places = 0..study.responses.len();
    let telling: Vec<usize> = places.filter(|place| !dull(&study.responses[*place].asked)).take(RESPONSES).collect();
    if telling.is_empty() { (0..study.responses.len()).take(1).collect() } else { telling }
}

impl Effects {
    pub(super) fn new(study: &Study, response: usize) -> Self {
        let estimate = match study.design {
            Design::FullGrid => Estimate::Means,
            Design::OneAtATime | Design::Subsets { .. } | Design::List(_) => Estimate::FromStart,
            Design::LatinHypercube { .. } | Design::Sobol { .. } => Estimate::Samples,
        };
        let parts: Vec<Parts> =
            study.parameters.iter().map(|parameter| Parts::of(parameter, estimate == Estimate::FromStart)).collect();
        let paired = parts.len().min(PAIRED);
        let pair = |one: usize, other: usize| Pair {
            one,
            other,
            cells: vec![Sums::default(); parts[one].len() * parts[other].len()],
        };
        Self {
            response,
            estimate,
            main: parts.iter().map(|parts| vec![Sums::default(); parts.len()]).collect(),
            pairs: (0..paired)
                .flat_map(|one| (one + 1..paired).map(move |other| (one, other)))
                .map(|(a, b)| pair(a, b))
                .collect(),
            start: None,
            whole: Sums::default(),
            missing: 0,
            starts: study
                .parameters
                .iter()
                .zip(&parts)
                .map(|(parameter, parts)| (parameter.start.clone(), parts.place(&parameter.start)))
                .collect(),
            parts,
        }
    }

    pub(super) fn add(&mut self, row: &Row) {
        let value = row.outcome.responses.get(self.response).copied().flatten().filter(|value| value.is_finite());
        let Some(value) = value else {
            self.missing += 1;
            return;
        };
        self.whole.add(value);
        let places: Vec<Option<usize>> =
            row.values.iter().zip(&self.parts).map(|(value, parts)| parts.place(value)).collect();
        if self.estimate == Estimate::FromStart {
            let starts = row.values.iter().zip(&self.starts);
            let changed: Vec<usize> =
                starts.enumerate().filter(|(_, (value, (start, _)))| *value != start).map(|(place, _)| place).collect();
            match changed[..] {
                [] => self.start = self.start.or(Some(value)),
                [only] => self.add_main(only, &places, value),
                [one, other] => self.add_pairs(&places, value, |pair| (pair.one, pair.other) == (one, other)),
                _ => {}
            }
        } else {
            (0..self.parts.len()).for_each(|parameter| self.add_main(parameter, &places, value));
            self.add_pairs(&places, value, |_| true);
        }
    }

    fn add_main(&mut self, parameter: usize, places: &[Option<usize>], value: f64) {
        if let Some(place) = places[parameter] {
            self.main[parameter][place].add(value);
        }
    }

    fn add_pairs(&mut self, places: &[Option<usize>], value: f64, which: impl Fn(&Pair) -> bool) {
        let parts = &self.parts;
        for pair in self.pairs.iter_mut().filter(|pair| which(pair)) {
            if let (Some(one), Some(other)) = (places[pair.one], places[pair.other]) {
                pair.cells[one * parts[pair.other].len() + other].add(value);
            }
        }
    }

    /// The answer at a part of a parameter; that at its start value is the answer of the start.
    pub fn at(&self, parameter: usize, part: usize) -> Option<f64> {
        let own = self.main[parameter][part].known();
        if self.estimate == Estimate::FromStart && self.starts[parameter].1 == Some(part) {
            own.or(self.start)
        } else {
            own
        }
    }

    /// The place of a part within which a parameter starts, where effects are taken from the start.
    pub fn start_part(&self, parameter: usize) -> Option<usize> {
        self.starts[parameter].1.filter(|_| self.estimate == Estimate::FromStart)
    }

    /// From the least to the greatest answer that a parameter's parts give; `None` where fewer than two give one.
    pub fn swing(&self, parameter: usize) -> Option<f64> {
        let known: Vec<f64> = (0..self.parts[parameter].len()).filter_map(|part| self.at(parameter, part)).collect();
        let least = known.iter().copied().fold(f64::INFINITY, f64::min);
        let greatest = known.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (known.len() > 1).then_some(greatest - least)
    }

    /// The answer where both parameters of a pair lie in these parts.
    pub fn both(&self, pair: &Pair, one: usize, other: usize) -> Option<f64> {
        if let (Some(start), Some(of_start)) = (self.start_part(pair.one), self.start_part(pair.other)) {
            if one == start {
                return self.at(pair.other, other);
            }
            if other == of_start {
                return self.at(pair.one, one);
            }
        }
        pair.cells[one * self.parts[pair.other].len() + other].known()
    }

    /// What two parameters do together beyond what each does alone: the largest such part of an answer in any of their cells. `None`
    /// where the design does not tell it apart, and for samples where it does not stand out of their scatter.
    pub fn together(&self, pair: &Pair) -> Option<f64> {
        let base = if self.estimate == Estimate::FromStart { self.start? } else { self.whole.known()? };
        let columns = self.parts[pair.other].len();
        if !self.is_filled(pair) {
            return None;
        }
        let mut largest: Option<f64> = None;
        let mut stands_out = self.estimate != Estimate::Samples;
        for (place, cell) in pair.cells.iter().enumerate().filter(|(_, cell)| cell.count > 0) {
            let (one, other) = (place / columns, place % columns);
            let beyond = (cell.mean - self.at(pair.one, one)? - self.at(pair.other, other)? + base).abs();
            let sums = [Some(cell), self.main[pair.one].get(one), self.main[pair.other].get(other)];
            let square = |sums: Option<&Sums>| sums.and_then(Sums::error).map(|error| error * error);
            let error: Option<f64> = sums.into_iter().map(square).sum();
            stands_out |= error.is_some_and(|square| beyond > BEYOND * square.sqrt());
            largest = Some(largest.map_or(beyond, |known: f64| known.max(beyond)));
        }
        largest.filter(|_| stands_out)
    }

    /// Whether the variants are enough to tell the two of a pair apart.
    pub fn is_filled(&self, pair: &Pair) -> bool {
        let several = self.parts[pair.one].len() > 1 && self.parts[pair.other].len() > 1;
        several
            && match self.estimate {
                Estimate::Means => pair.cells.iter().all(|cell| cell.count > 0),
                Estimate::Samples => pair.cells.iter().all(|cell| cell.count >= SAMPLES),
                Estimate::FromStart => pair.cells.iter().any(|cell| cell.count > 0),
            }
    }

    /// Pairs that the design tells apart, with what they do together, the strongest first.
    pub fn strongest(&self) -> Vec<(f64, &Pair)> {
        let mut found: Vec<(f64, &Pair)> =
            self.pairs.iter().filter_map(|pair| Some((self.together(pair)?, pair))).collect();
        found.sort_by(|a, b| b.0.total_cmp(&a.0));
        found
    }

    /// Whether there are more parameters than are looked at by twos.
    pub fn is_cut(&self) -> bool {
        self.parts.len() > PAIRED
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outcome::{Outcome, Status};
    use crate::parameter::{Change, Levels, Parameter};
    use crate::response::Response;
    use strutwork_model::spec::ModelSpec;

    /// 10 + 3 a + 5 b + 2 a b, with a from 0 to 2 and b from 0 to 1.
    fn of(design: Design, levels: [Levels; 2]) -> Effects {
        let mut study = Study::new("s", ModelSpec::default());
        for (name, levels) in ["a", "b"].into_iter().zip(levels) {
            let parameter = Parameter::new(&study.base, Some(name), Change::Own, levels).unwrap();
            study.parameters.push(parameter.starting(0.0.into()));
        }
        study.responses.push(Response { name: "r".to_owned(), asked: Asked::Own });
        study.design = design;
        let mut effects = Effects::new(&study, 0);
        for variant in 0..study.count().unwrap() {
            let values = study.values(variant);
            let [a, b] = [0, 1].map(|place: usize| values[place].number().unwrap());
            let responses = vec![Some(10.0 + 3.0 * a + 5.0 * b + 2.0 * a * b)];
            let outcome = Outcome {
                status: Status::Solved,
                responses,
                feasible: None,
                note: String::new(),
                way: crate::outcome::Way::Lanes,
            };
            effects.add(&Row { variant, values, outcome });
        }
        effects
    }

    fn listed() -> [Levels; 2] {
        [vec![0.0, 1.0, 2.0], vec![0.0, 1.0]].map(|list| Levels::List(list.into_iter().map(Value::Number).collect()))
    }

    #[test]
    fn a_grid_gives_means_and_what_two_do_together() {
        let effects = of(Design::FullGrid, listed());
        // Over b = 0, 1 the mean of 10 + 3a + 5b + 2ab is 12.5 + 4a.
        let means: Vec<f64> = (0..3).map(|part| effects.at(0, part).unwrap()).collect();
        assert_eq!(means, [12.5, 16.5, 20.5]);
        assert!((effects.swing(1).unwrap() - 7.0).abs() < 1e-12);
        // 2 (a − 1)(b − ½) at a corner.
        assert!((effects.strongest()[0].0 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn one_at_a_time_does_not_tell_two_apart_and_a_list_may() {
        let alone = of(Design::OneAtATime, listed());
        assert_eq!((alone.at(0, 2), alone.at(1, 1), alone.at(1, 0)), (Some(16.0), Some(15.0), Some(10.0)));
        assert!(alone.strongest().is_empty());
        let rows = [[0.0, 0.0], [2.0, 0.0], [0.0, 1.0], [2.0, 1.0]];
        let list = rows.iter().map(|row| row.iter().copied().map(Value::Number).collect()).collect();
        let both = of(Design::List(list), listed());
        assert!((both.strongest()[0].0 - 4.0).abs() < 1e-12, "2 a b at a = 2, b = 1");
    }

    #[test]
    fn samples_need_enough_of_them() {
        let range = || [Levels::Range { from: 0.0, to: 2.0 }, Levels::Range { from: 0.0, to: 1.0 }];
        assert!(of(Design::LatinHypercube { count: 40, seed: 1 }, range()).strongest().is_empty());
        let many = of(Design::LatinHypercube { count: 4000, seed: 1 }, range());
        // 2 (a − 1)(b − ½) in the middle of the outermost cells: 2 · 0.8 · 0.4.
        // Means of 160 and 800 samples are known to about 0.1; the largest of 25 cells is further off.
        assert!((many.strongest()[0].0 - 0.64).abs() < 0.3, "{}", many.strongest()[0].0);
        // Without anything that two do together nothing is said of them.
        let mut alone = many.clone();
        alone.pairs.iter_mut().flat_map(|pair| &mut pair.cells).enumerate().for_each(|(place, cell)| {
            cell.mean = many.at(0, place / 5).unwrap() + many.at(1, place % 5).unwrap() - many.whole.mean + 0.01;
        });
        assert!(alone.is_filled(&alone.pairs[0]) && alone.strongest().is_empty());
        let middle = many.at(0, 2).unwrap();
        assert!((middle - 16.5).abs() < 4.0 * many.main[0][2].error().unwrap(), "{middle}");
    }
}
