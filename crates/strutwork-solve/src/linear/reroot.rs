//! An elimination order whose tree has its root in the middle of the work.

use super::groups::Groups;

/// An order (`order[place] = node`) with the same fill and the same work, whose tree is rooted where no branch holds more
/// than half of the work.
///
/// A frame is longer than wide: minimum degree eats it up from one end, and its tree is one long path along which nothing
/// can be done side by side. The cliques of a filled graph form a tree that may be rooted at any of them: eliminate first
/// what hangs off the way from the old root to the new one, then along that way, from each clique what the next one lacks.
/// No new fill appears, as every column's later neighbours are within one clique still.
///
/// Nor does the work change. A clique of m columns of which the s last are passed on takes f(m) − f(s), f(m) = Σ k² for
/// k ≤ m; over the tree the sum is that of f over all cliques less that of f over all pairs of neighbours' common columns,
/// whichever is the root.
///
/// # Source
/// Jess and Kees (1982), A data structure for parallel L/U decomposition, IEEE Transactions on Computers C-31(3),
/// pp. 231–239 (from memory), for orders of the same fill; the root in the middle of the work: derived here.
pub(super) fn rerooted(groups: &Groups) -> Vec<usize> {
    let way = way_to_the_middle(groups);
    let mut left = vec![true; groups.nodes.len()];
    let mut order = Vec::with_capacity(left.len());
    for &group in &way {
        left[groups.places(group)].fill(false);
    }
    order.extend((0..left.len()).filter(|place| left[*place]));
    for &group in &way {
        left[groups.places(group)].fill(true);
    }
    let clique = |group: usize| groups.places(group).chain(groups.rows(group).iter().copied());
    let mut kept_by = vec![0; left.len()];
    for (step, &group) in way.iter().enumerate() {
        if let Some(&next) = way.get(step + 1) {
            clique(next).for_each(|place| kept_by[place] = step + 1);
        }
        for place in clique(group) {
            let kept = kept_by[place] > step;
            if !kept && std::mem::take(&mut left[place]) {
                order.push(place);
            }
        }
    }
    order.into_iter().map(|place| groups.nodes[place]).collect()
}

/// The groups from the root of the heaviest tree down to the last one that still has half of all work at or below it.
fn way_to_the_middle(groups: &Groups) -> Vec<usize> {
    let mut below: Vec<f64> = (0..groups.len()).map(|group| groups.work(group)).collect();
    let total: f64 = below.iter().sum();
    let mut heaviest_child = vec![None; groups.len()];
    let mut root: Option<usize> = None;
    for group in 0..groups.len() {
        let heavier = |than: Option<usize>| than.is_none_or(|other| below[group] > below[other]);
        match groups.parent(group) {
            Some(parent) => {
                if heavier(heaviest_child[parent]) {
                    heaviest_child[parent] = Some(group);
                }
                below[parent] += below[group];
            }
            None if heavier(root) => root = Some(group),
            None => {}
        }
    }
    let mut way = Vec::new();
    while let Some(group) = root.filter(|group| below[*group] >= 0.5 * total) {
        way.push(group);
        root = heaviest_child[group];
    }
    way
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A ladder of joints, eliminated from one end to the other.
    fn ladder(rungs: usize) -> (Vec<Vec<u32>>, Vec<usize>) {
        let joint = |rung: usize, side: usize| (2 * rung + side) as u32;
        let mut neighbours = Vec::new();
        for rung in 0..rungs {
            for side in 0..2 {
                let mut list = vec![joint(rung, 1 - side)];
                if rung > 0 {
                    list.extend([joint(rung - 1, 0), joint(rung - 1, 1)]);
                }
                if rung + 1 < rungs {
                    list.extend([joint(rung + 1, 0), joint(rung + 1, 1)]);
                }
                list.sort_unstable();
                neighbours.push(list);
            }
        }
        (neighbours, vec![6; 2 * rungs])
    }

    fn entries(groups: &Groups) -> usize {
        (0..groups.len()).map(|group| groups.size(group)).map(|(width, below)| width * (width + below)).sum()
    }

    #[test]
    fn no_branch_holds_more_than_half_and_nothing_is_added() {
        let (neighbours, counts) = ladder(64);
        let along = Groups::of(&neighbours, &counts, 0..128);
        let order = rerooted(&along);
        let mut sorted = order.clone();
        sorted.sort_unstable();
        assert!(sorted.into_iter().eq(0..128));
        let (middle, first) = Groups::of(&neighbours, &counts, order.into_iter()).in_postorder(&counts);
        // Groups may be merged a little differently at the ends of the way.
        assert!(entries(&middle) <= entries(&along) + entries(&along) / 20);
        assert!(middle.total_work() <= 1.05 * along.total_work());
        let root = middle.len() - 1;
        let tree = |root: usize| (first[root]..=root).map(|group| middle.work(group)).sum::<f64>();
        for child in (0..root).filter(|group| middle.parent(*group) == Some(root)) {
            assert!(tree(child) <= 0.55 * middle.total_work());
        }
    }
}
