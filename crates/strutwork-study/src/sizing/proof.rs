//! Every choice that is cheaper than the best.

use super::moves::Lists;

/// All choices that are cheaper than this one and keep to the number of sizes; `None` where there are more than `most`.
///
/// Variables are gone through one after another; what the rest costs at least ends a branch early.
pub(super) fn cheaper_choices(lists: &Lists, best: &[usize], most: usize) -> Option<Vec<Vec<usize>>> {
    let count = best.len();
    let mut rest = vec![0.0; count + 1];
    for variable in (0..count).rev() {
        let least = lists.costs[variable].iter().copied().fold(f64::INFINITY, f64::min);
        rest[variable] = rest[variable + 1] + least;
    }
    let limit = lists.cost(best);
    // Costs that are equal but for rounding count as equal.
    let mut walk = Walk { lists, rest, limit: limit - 1e-9 * limit.abs(), most, picks: Vec::new(), found: Vec::new() };
    walk.go(0.0).then_some(walk.found)
}

struct Walk<'a> {
    lists: &'a Lists,
    rest: Vec<f64>,
    limit: f64,
    most: usize,
    picks: Vec<usize>,
    found: Vec<Vec<usize>>,
}

impl Walk<'_> {
    /// Whether all were found.
    fn go(&mut self, cost: f64) -> bool {
        let variable = self.picks.len();
        if variable == self.lists.costs.len() {
            if self.lists.few_enough(&self.picks) {
                self.found.push(self.picks.clone());
            }
            return self.found.len() <= self.most;
        }
        for entry in 0..self.lists.costs[variable].len() {
            let next = cost + self.lists.costs[variable][entry];
            // Entries are sorted by cost.
            if next + self.rest[variable + 1] >= self.limit {
                break;
            }
            self.picks.push(entry);
            let all = self.go(next);
            self.picks.pop();
            if !all {
                return false;
            }
        }
        true
    }
}
