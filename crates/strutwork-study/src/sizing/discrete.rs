//! Sizes from lists: round up what lies between, repair, exchange, shake, and prove where there are few enough.

use std::collections::BTreeMap;

use super::choice::Choice;
use super::continuous::{design, nearest};
use super::frame::{Evaluated, Frame};
use super::hunt::{Hunt, Tried};
use super::limits::KEPT;
use super::moves::{Lists, Options};
use super::outcome::{Chosen, Effort, Proof, SizedDesign, SizingOutcome};
use super::task::Aim;
use super::{SizingFault, Task, proof};
use crate::random::Random;

/// How many runners-up are told.
const RUNNERS_UP: usize = 5;

/// Works on a task whose sizes come from lists.
pub(super) fn size(task: &Task<'_>) -> Result<SizingOutcome, SizingFault> {
    let frame = Frame::of(task)?;
    let mut hunt = Hunt {
        frame: &frame,
        lists: lists(task, &frame),
        tried: BTreeMap::new(),
        effort: Effort::default(),
        most_solutions: task.search.most_solutions,
        no_frame: String::new(),
    };
    let mut how = Vec::new();
    let relaxed = hunt.relaxed(task, &mut how)?;
    let largest: Vec<usize> = hunt.largest();
    let mut starts: Vec<(&str, Vec<usize>)> = vec![("the largest sizes", largest)];
    if let Some((_, rounded)) = &relaxed {
        starts.insert(0, ("the sizes between the lists' own, rounded up", rounded.clone()));
    }
    let mut best: Option<Vec<usize>> = None;
    for (from, start) in starts {
        let Some(kept) = hunt.repair(start)? else {
            how.push(format!("from {from}: no way to keep the limits was found"));
            continue;
        };
        let found = hunt.improve(kept)?;
        how.push(format!("from {from}, by exchanges: {}", hunt.told(task, &found)));
        best = hunt.better(best, found);
    }
    if let Some(mut found) = best.take() {
        let mut random = Random::new(task.search.seed);
        for round in 0..task.search.rounds {
            let shaken = hunt.shake(&found, &mut random);
            let Some(kept) = hunt.repair(shaken)? else { continue };
            let again = hunt.improve(kept)?;
            if hunt.lists.cost(&again) < hunt.lists.cost(&found) {
                how.push(format!("shaken and improved, round {}: {}", round + 1, hunt.told(task, &again)));
                found = again;
            }
        }
        let proven = proof::cheaper_choices(&hunt.lists, &found, task.search.prove_up_to);
        let (found, proof) = match proven {
            Some(list) => {
                let count = list.len();
                let found = hunt.try_all(list, found);
                how.push(format!("all {count} cheaper choices tried"));
                (found, Proof::Proven { cheaper: count })
            }
            None => (found, Proof::BestFound { relaxed: relaxed.map(|(relaxed, _)| relaxed) }),
        };
        return Ok(hunt.outcome(task, &found, proof, how));
    }
    let nearest = hunt.nearest();
    Ok(SizingOutcome {
        best: None,
        runners_up: Vec::new(),
        proof: Proof::NothingKept { nearest },
        how,
        effort: hunt.effort.counted(&frame),
    })
}

/// The lists, cheapest first, and what each entry costs.
fn lists(task: &Task<'_>, frame: &Frame<'_>) -> Lists {
    let mut all = Lists { options: Vec::new(), costs: Vec::new(), most_sizes: task.most_sizes };
    for (place, variable) in task.variables.iter().enumerate() {
        let Choice::List(sizes) = &variable.choice else { continue };
        let mut options: Options = sizes.iter().cloned().map(Some).collect();
        if variable.optional {
            options.push(None);
        }
        let cost = |option: &Option<super::Size>| {
            option.as_ref().map_or(0.0, |size| match task.aim {
                Aim::Mass => frame.heft[place] * size.section.area,
                Aim::Price => frame.lengths[place] * size.price_per_m.unwrap_or(f64::INFINITY),
            })
        };
        options.sort_by(|a, b| cost(a).total_cmp(&cost(b)));
        all.costs.push(options.iter().map(cost).collect());
        all.options.push(options);
    }
    all
}

impl Hunt<'_> {
    fn told(&self, task: &Task<'_>, picks: &[usize]) -> String {
        match task.aim {
            Aim::Mass => format!("{:.4} kg", self.lists.cost(picks) + self.frame.fixed_mass),
            Aim::Price => format!("a price of {:.2}", self.lists.cost(picks)),
        }
    }

    /// What stands in the way at the choice that came nearest.
    fn nearest(&self) -> String {
        let near = self.tried.iter().min_by(|a, b| a.1.worst.total_cmp(&b.1.worst));
        match near {
            Some((picks, tried)) if tried.worst.is_finite() => match self.frame.evaluate(&self.sections(picks)) {
                Ok(evaluated) => nearest(self.frame, &evaluated),
                Err(why) => why,
            },
            _ => self.no_frame.clone(),
        }
    }

    fn outcome(&self, task: &Task<'_>, best: &[usize], proof: Proof, mut how: Vec<String>) -> SizingOutcome {
        let mut others: Vec<(&Vec<usize>, &Tried)> = self
            .tried
            .iter()
            .filter(|(picks, tried)| {
                tried.worst <= 1.0 + KEPT && picks.as_slice() != best && self.lists.few_enough(picks)
            })
            .collect();
        others.sort_by(|a, b| a.1.cost.total_cmp(&b.1.cost));
        let mut designs = others.iter().filter_map(|(picks, _)| self.design(task, picks));
        let effort = self.effort.counted(self.frame);
        let Some(best) = self.design(task, best) else {
            // Never seen: what was found side by side does not stand on its own solution.
            how.push(
                "the best design of the search breaks a limit on its own solution: the next best is told".to_owned(),
            );
            let proof = Proof::BestFound { relaxed: None };
            return SizingOutcome {
                best: designs.next(),
                runners_up: designs.take(RUNNERS_UP).collect(),
                proof,
                how,
                effort,
            };
        };
        SizingOutcome { best: Some(best), runners_up: designs.take(RUNNERS_UP).collect(), proof, how, effort }
    }

    /// A design that keeps the limits on a whole solution of its own.
    fn design(&self, task: &Task<'_>, picks: &[usize]) -> Option<SizedDesign> {
        let evaluated = self.frame.evaluate(&self.sections(picks)).ok().filter(Evaluated::kept)?;
        let chosen = (task.variables.iter().zip(picks).zip(&self.lists.options))
            .map(|((variable, pick), options)| {
                let size = options[*pick].as_ref();
                Chosen {
                    variable: variable.name.clone(),
                    size: size.map_or("left out", |size| &size.name).to_owned(),
                    area_mm2: size.map_or(0.0, |size| size.section.area * 1e6),
                    wall_mm: size.and_then(|size| {
                        let hollow = crate::sensitivity::wall_rate(&size.section).is_some();
                        size.section.thickness().filter(|_| hollow).map(strutwork_model::units::to_mm)
                    }),
                }
            })
            .collect();
        let price = (task.aim == Aim::Price).then(|| self.lists.cost(picks));
        Some(design(self.frame, &evaluated, chosen, price))
    }
}
