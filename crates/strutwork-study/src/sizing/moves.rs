//! Exchanges of sizes, and what they are expected to bring.

use std::collections::BTreeSet;

use super::choice::Size;
use super::rows::Rows;

/// Steps along a list that a pair of variables may take, and those that three may.
const PAIR: usize = 8;
const TRIPLE: usize = 3;
/// With more variables than this, three at once are too many.
const MOST_FOR_TRIPLES: usize = 18;

/// What a variable may take, cheapest first; `None` is leaving it out.
pub(super) type Options = Vec<Option<Size>>;

/// The lists of all variables and what each entry costs.
pub(super) struct Lists {
    pub options: Vec<Options>,
    /// In the unit of the aim.
    pub costs: Vec<Vec<f64>>,
    pub most_sizes: Option<usize>,
}

/// An exchange: variables and what they take, and the cost after it.
pub(super) struct Exchange {
    pub changes: Vec<(usize, usize)>,
    pub cost: f64,
    /// Greatest use of the limits that are near, as expected.
    pub expected: f64,
}

impl Lists {
    /// Cost of a choice, of what is chosen alone.
    pub(super) fn cost(&self, picks: &[usize]) -> f64 {
        picks.iter().zip(&self.costs).map(|(pick, costs)| costs[*pick]).sum()
    }

    /// Whether a choice keeps to the number of different sizes.
    pub(super) fn few_enough(&self, picks: &[usize]) -> bool {
        let Some(most) = self.most_sizes else { return true };
        let names = picks.iter().zip(&self.options).filter_map(|(pick, options)| options[*pick].as_ref());
        names.map(|size| size.name.as_str()).collect::<BTreeSet<_>>().len() <= most
    }
}

/// Expected change of every near limit for every entry of every list.
pub(super) struct Tables {
    /// Use now of each limit.
    now: Vec<f64>,
    /// `changes[limit][variable][entry]`.
    changes: Vec<Vec<Vec<f64>>>,
}

impl Tables {
    pub(super) fn of(lists: &Lists, rows: &Rows, picks: &[usize]) -> Self {
        let changes = rows.rows.iter().map(|row| {
            let of_variable = |variable: usize| {
                let section = |entry: usize| lists.options[variable][entry].as_ref().map(|size| &size.section);
                let from = section(picks[variable]);
                (0..lists.options[variable].len()).map(|entry| row.change(variable, from, section(entry))).collect()
            };
            (0..picks.len()).map(of_variable).collect()
        });
        Self { now: rows.rows.iter().map(|row| row.use_now).collect(), changes: changes.collect() }
    }

    /// Greatest use expected after an exchange; more than `stop` is not worked out to the end.
    pub(super) fn expected(&self, exchange: &[(usize, usize)], stop: f64) -> f64 {
        let mut most = 0.0_f64;
        for (now, changes) in self.now.iter().zip(&self.changes) {
            let use_then = now + exchange.iter().map(|(variable, entry)| changes[*variable][*entry]).sum::<f64>();
            most = most.max(use_then);
            if most > stop {
                break;
            }
        }
        most
    }

    /// Sum of what is expected to be broken.
    pub(super) fn broken(&self, exchange: &[(usize, usize)]) -> f64 {
        let after = self.now.iter().zip(&self.changes).map(|(now, changes)| {
            now + exchange.iter().map(|(variable, entry)| changes[*variable][*entry]).sum::<f64>()
        });
        after.map(|use_then| (use_then - 1.0).max(0.0)).sum()
    }
}

/// How far expectations are off, as a rule: an exchange expected this far above a limit keeps it about once in four times.
const OFF: f64 = 0.02;

impl Exchange {
    /// Whether it is expected to keep all limits.
    pub(super) fn sure(&self) -> bool {
        self.expected <= SURE
    }

    /// What the exchange saves, times the chance that it keeps the limits.
    fn promise(&self, cost: f64) -> f64 {
        (cost - self.cost) / (1.0 + ((self.expected - 1.0) / OFF).exp())
    }
}

/// Up to this use an exchange is expected to keep the limits.
const SURE: f64 = 1.003;

/// All exchanges that are cheaper and are expected to break no limit by more than `slack`: first those expected to keep all
/// limits, the cheapest first; then the others, the most promising first.
pub(super) fn cheaper(lists: &Lists, tables: &Tables, picks: &[usize], slack: f64) -> Vec<Exchange> {
    let mut found = Found { lists, tables, picks, cost: lists.cost(picks), slack, list: Vec::new() };
    let count = picks.len();
    for a in 0..count {
        for down in 0..lists.options[a].len() {
            found.consider(&[(a, down)]);
        }
    }
    for a in 0..count {
        for b in (0..count).filter(|b| *b != a) {
            for down in steps_down(picks[a], PAIR) {
                for up in steps_up(picks[b], PAIR, lists.options[b].len()) {
                    found.consider(&[(a, down), (b, up)]);
                }
            }
        }
    }
    if count <= MOST_FOR_TRIPLES {
        for a in 0..count {
            for b in (0..count).filter(|b| *b != a) {
                for c in (b + 1..count).filter(|c| *c != a) {
                    found.consider_three(a, b, c);
                }
            }
        }
    }
    if lists.most_sizes.is_some() {
        found.consider_together();
    }
    let (mut list, cost) = (found.list, found.cost);
    let kept = Exchange::sure;
    list.sort_by(|one, other| {
        let by_cost = || one.cost.total_cmp(&other.cost);
        let by_promise = || other.promise(cost).total_cmp(&one.promise(cost));
        let within = if kept(one) && kept(other) { by_cost() } else { by_promise() };
        kept(other).cmp(&kept(one)).then(within).then_with(|| one.changes.cmp(&other.changes))
    });
    list
}

fn steps_down(from: usize, most: usize) -> std::ops::Range<usize> {
    from.saturating_sub(most)..from
}

fn steps_up(from: usize, most: usize, count: usize) -> std::ops::Range<usize> {
    from + 1..(from + most + 1).min(count)
}

struct Found<'a> {
    lists: &'a Lists,
    tables: &'a Tables,
    picks: &'a [usize],
    cost: f64,
    slack: f64,
    list: Vec<Exchange>,
}

impl Found<'_> {
    fn consider(&mut self, changes: &[(usize, usize)]) {
        let costs = &self.lists.costs;
        let change: f64 = changes
            .iter()
            .map(|(variable, entry)| costs[*variable][*entry] - costs[*variable][self.picks[*variable]])
            .sum();
        if change >= -1e-9 * self.cost.abs() {
            return;
        }
        let expected = self.tables.expected(changes, 1.0 + self.slack);
        if expected > 1.0 + self.slack {
            return;
        }
        if self.lists.most_sizes.is_some() {
            let mut picks = self.picks.to_vec();
            changes.iter().for_each(|(variable, entry)| picks[*variable] = *entry);
            if !self.lists.few_enough(&picks) {
                return;
            }
        }
        self.list.push(Exchange { changes: changes.to_vec(), cost: self.cost + change, expected });
    }

    /// One down and two up, and one up and two down.
    fn consider_three(&mut self, a: usize, b: usize, c: usize) {
        let count = |variable: usize| self.lists.options[variable].len();
        let (down, up) = (
            |variable: usize, picks: &[usize]| steps_down(picks[variable], TRIPLE),
            |variable: usize, picks: &[usize], count: usize| steps_up(picks[variable], TRIPLE, count),
        );
        let (count_a, count_b, count_c) = (count(a), count(b), count(c));
        let picks = self.picks;
        for x in down(a, picks) {
            for y in up(b, picks, count_b) {
                for z in up(c, picks, count_c) {
                    self.consider(&[(a, x), (b, y), (c, z)]);
                }
            }
        }
        for x in up(a, picks, count_a) {
            for y in down(b, picks) {
                for z in down(c, picks) {
                    self.consider(&[(a, x), (b, y), (c, z)]);
                }
            }
        }
    }

    /// All variables of one size take another size together.
    fn consider_together(&mut self) {
        let (lists, picks) = (self.lists, self.picks);
        let name =
            |variable: usize, entry: usize| lists.options[variable][entry].as_ref().map(|size| size.name.as_str());
        let names: BTreeSet<&str> = (0..picks.len()).filter_map(|variable| name(variable, picks[variable])).collect();
        let all: BTreeSet<&str> = lists.options.iter().flatten().flatten().map(|size| size.name.as_str()).collect();
        for from in &names {
            for to in all.iter().filter(|to| *to != from) {
                let changes: Option<Vec<(usize, usize)>> = (0..picks.len())
                    .filter(|variable| name(*variable, picks[*variable]) == Some(from))
                    .map(|variable| {
                        let entry =
                            (0..lists.options[variable].len()).find(|entry| name(variable, *entry) == Some(to))?;
                        Some((variable, entry))
                    })
                    .collect();
                if let Some(changes) = changes {
                    self.consider(&changes);
                }
            }
        }
    }
}
