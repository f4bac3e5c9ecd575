//! The search among lists: repair, exchange, shake.

use std::collections::BTreeMap;

use strutwork_model::model::Section;

use super::descent::Descent;
use super::frame::{Evaluated, Frame};
use super::limits::KEPT;
use super::moves::{Exchange, Lists, Options, Tables, cheaper};
use super::outcome::Effort;
use super::relaxed::Relaxed;
use super::rows::Rows;
use super::task::Aim;
use super::{SizingFault, Task};
use crate::random::Random;

/// Exchanges are tried in groups of this size, side by side; the first of a group that keeps the limits is taken.
const TOGETHER: usize = 8;
/// Groups of exchanges tried before a design counts as the best among its neighbours.
const GROUPS: usize = 8;
/// Exchanges that are expected to break a limit by more than this are not tried.
const SLACK: f64 = 0.25;
/// Steps of a repair.
const REPAIRS: usize = 200;
/// What a choice came to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Tried {
    /// In the unit of the aim, of what is chosen alone.
    pub cost: f64,
    /// Greatest use; infinite where there is no frame.
    pub worst: f64,
}

/// A search among lists.
pub(super) struct Hunt<'a> {
    pub frame: &'a Frame<'a>,
    pub lists: Lists,
    /// Every choice that was solved.
    pub tried: BTreeMap<Vec<usize>, Tried>,
    pub effort: Effort,
    pub most_solutions: usize,
    /// Why the last choice that made no frame made none.
    pub no_frame: String,
}

impl Hunt<'_> {
    pub(super) fn sections(&self, picks: &[usize]) -> Vec<Option<&Section>> {
        picks
            .iter()
            .zip(&self.lists.options)
            .map(|(pick, options)| options[*pick].as_ref().map(|s| &s.section))
            .collect()
    }

    /// Solves a choice.
    fn solve(&mut self, picks: &[usize]) -> Option<Evaluated> {
        self.effort.solutions += 1;
        let found = self.frame.search(&[self.sections(picks)]).pop();
        let evaluated = found.unwrap_or_else(|| Err("nothing was solved".to_owned()));
        let worst = evaluated.as_ref().map_or(f64::INFINITY, Evaluated::worst);
        self.tried.insert(picks.to_vec(), Tried { cost: self.lists.cost(picks), worst });
        evaluated.map_err(|why| self.no_frame = why).ok()
    }

    /// Greatest use of each of these choices; those not known yet are solved side by side.
    fn try_group(&mut self, group: &[Vec<usize>]) -> Vec<f64> {
        let unknown: Vec<&Vec<usize>> = group.iter().filter(|picks| !self.tried.contains_key(*picks)).collect();
        let choices: Vec<Vec<Option<&Section>>> = unknown.iter().map(|picks| self.sections(picks)).collect();
        let found: Vec<Result<f64, String>> =
            self.frame.search(&choices).into_iter().map(|found| found.map(|evaluated| evaluated.worst())).collect();
        self.effort.solutions += unknown.len();
        let known: Vec<(Vec<usize>, f64)> = unknown
            .into_iter()
            .zip(found)
            .map(|(picks, found)| (picks.clone(), found.unwrap_or(f64::INFINITY)))
            .collect();
        for (picks, worst) in known {
            let cost = self.lists.cost(&picks);
            self.tried.insert(picks, Tried { cost, worst });
        }
        group.iter().map(|picks| self.tried[picks].worst).collect()
    }

    fn spent(&self) -> bool {
        self.effort.solutions >= self.most_solutions
    }

    fn rows(&mut self, evaluated: &Evaluated) -> Result<Rows, SizingFault> {
        let rows = Rows::of(self.frame, evaluated)?;
        self.effort.derivatives += 1;
        self.effort.derivative_solves += rows.solves;
        Ok(rows)
    }

    /// The least between the sizes of the lists, in the unit of the aim, and it rounded up.
    pub(super) fn relaxed(
        &mut self,
        task: &Task<'_>,
        how: &mut Vec<String>,
    ) -> Result<Option<(f64, Vec<usize>)>, SizingFault> {
        let relaxed: Vec<Relaxed> = task.variables.iter().map(|variable| Relaxed::of(&variable.choice)).collect();
        if task.aim == Aim::Price || relaxed.iter().any(|one| one.least >= one.most) {
            return Ok(None);
        }
        let mut descent = Descent { frame: self.frame, relaxed, effort: self.effort };
        let middle = descent.between(|| 0.5);
        let ended = descent.run(middle)?;
        self.effort = descent.effort;
        let ended = match ended {
            Ok(ended) if ended.evaluated.kept() => ended,
            Ok(_) | Err(_) => return Ok(None),
        };
        let areas: Vec<f64> = descent.relaxed.iter().zip(&ended.x).map(|(one, x)| one.section(*x).area).collect();
        let mass = ended.evaluated.mass;
        how.push(format!("between the sizes of the lists, by exact derivatives: {mass:.4} kg"));
        let rounded = areas
            .iter()
            .zip(&self.lists.options)
            .map(|(area, options)| {
                let enough = |option: &Option<super::Size>| {
                    option.as_ref().is_some_and(|size| size.section.area >= area * (1.0 - 1e-6))
                };
                options.iter().position(enough).unwrap_or(options.len() - 1)
            })
            .collect();
        Ok(Some((mass, rounded)))
    }

    /// Every variable at the size of greatest area; one size for all where few sizes are allowed and all lists have it.
    pub(super) fn largest(&self) -> Vec<usize> {
        let area = |option: &Option<super::Size>| option.as_ref().map_or(0.0, |size| size.section.area);
        let largest = |options: &Options| {
            (0..options.len()).max_by(|a, b| area(&options[*a]).total_cmp(&area(&options[*b]))).unwrap_or(0)
        };
        let picks: Vec<usize> = self.lists.options.iter().map(largest).collect();
        if self.lists.few_enough(&picks) {
            return picks;
        }
        let mut shared: Vec<&super::Size> = self.lists.options[0].iter().flatten().collect();
        shared.sort_by(|a, b| b.section.area.total_cmp(&a.section.area));
        let place = |size: &super::Size, options: &Options| {
            options.iter().position(|option| option.as_ref().is_some_and(|other| other.name == size.name))
        };
        shared
            .iter()
            .find_map(|size| self.lists.options.iter().map(|options| place(size, options)).collect::<Option<Vec<_>>>())
            .unwrap_or(picks)
    }

    /// Raises sizes, each time the one that mends most for its cost, until the limits are kept.
    pub(super) fn repair(&mut self, mut picks: Vec<usize>) -> Result<Option<Vec<usize>>, SizingFault> {
        for _ in 0..REPAIRS {
            let Some(evaluated) = self.solve(&picks) else { return Ok(None) };
            if evaluated.kept() {
                return Ok(self.lists.few_enough(&picks).then_some(picks));
            }
            if self.spent() {
                return Ok(None);
            }
            let rows = self.rows(&evaluated)?;
            let tables = Tables::of(&self.lists, &rows, &picks);
            let now = tables.broken(&[]);
            let mut most: Option<(f64, usize, usize)> = None;
            for variable in 0..picks.len() {
                for entry in 0..self.lists.options[variable].len() {
                    let dearer = self.lists.costs[variable][entry] - self.lists.costs[variable][picks[variable]];
                    let mut then = picks.clone();
                    then[variable] = entry;
                    if dearer <= 0.0 || self.tried.contains_key(&then) {
                        continue;
                    }
                    let mends = (now - tables.broken(&[(variable, entry)])) / dearer;
                    if mends > 0.0 && most.is_none_or(|(known, ..)| mends > known) {
                        most = Some((mends, variable, entry));
                    }
                }
            }
            match most {
                Some((_, variable, entry)) => picks[variable] = entry,
                None => return Ok(None),
            }
        }
        Ok(None)
    }

    /// Cheaper exchanges, as long as one keeps the limits.
    pub(super) fn improve(&mut self, mut picks: Vec<usize>) -> Result<Vec<usize>, SizingFault> {
        'next: while !self.spent() {
            let Some(evaluated) = self.solve(&picks) else { return Ok(picks) };
            let rows = self.rows(&evaluated)?;
            let tables = Tables::of(&self.lists, &rows, &picks);
            let (sure, unsure): (Vec<Exchange>, Vec<Exchange>) =
                cheaper(&self.lists, &tables, &picks, SLACK).into_iter().partition(Exchange::sure);
            let then = |exchange: &Exchange| {
                let mut then = picks.clone();
                exchange.changes.iter().for_each(|(variable, entry)| then[*variable] = *entry);
                then
            };
            let open = |then: &Vec<usize>| self.tried.get(then).is_none_or(|tried| tried.worst <= 1.0 + KEPT);
            let first = |list: &[Exchange]| list.iter().map(then).filter(open).take(TOGETHER * GROUPS).collect();
            let choices: [Vec<Vec<usize>>; 2] = [first(&sure), first(&unsure)];
            let choices = choices.concat();
            for group in choices.chunks(TOGETHER) {
                let worst = self.try_group(group);
                if let Some(first) = worst.iter().position(|worst| *worst <= 1.0 + KEPT) {
                    picks = group[first].clone();
                    continue 'next;
                }
                if self.spent() {
                    break 'next;
                }
            }
            break;
        }
        Ok(picks)
    }

    /// Two or three variables moved along their lists, by lot.
    pub(super) fn shake(&self, picks: &[usize], random: &mut Random) -> Vec<usize> {
        let mut shaken = picks.to_vec();
        for _ in 0..2 + random.one_of(2) {
            let variable = random.one_of(picks.len());
            let count = self.lists.options[variable].len();
            let by = 1 + random.one_of(3);
            shaken[variable] = if random.share() < 0.6 {
                (shaken[variable] + by).min(count - 1)
            } else {
                shaken[variable].saturating_sub(by)
            };
        }
        if self.lists.few_enough(&shaken) { shaken } else { picks.to_vec() }
    }

    pub(super) fn better(&self, known: Option<Vec<usize>>, found: Vec<usize>) -> Option<Vec<usize>> {
        match known {
            Some(known) if self.lists.cost(&known) <= self.lists.cost(&found) => Some(known),
            _ => Some(found),
        }
    }

    /// Solves every choice of a list; the cheapest that keeps the limits, or the one that is known.
    pub(super) fn try_all(&mut self, list: Vec<Vec<usize>>, known: Vec<usize>) -> Vec<usize> {
        let mut best = known;
        for group in list.chunks(64) {
            let worst = self.try_group(group);
            for (picks, worst) in group.iter().zip(worst) {
                let cheaper = self.lists.cost(picks) < self.lists.cost(&best);
                if worst <= 1.0 + KEPT && cheaper && self.lists.few_enough(picks) {
                    best = picks.clone();
                }
            }
        }
        best
    }
}
