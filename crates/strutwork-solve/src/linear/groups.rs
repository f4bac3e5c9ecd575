//! Which joints are eliminated together, before any number is known.
//!
//! Everything is counted in joints and bodies with equations (nodes): six times fewer than equations, and their blocks are
//! full.

use std::ops::Range;

use super::{library, work};

/// No parent.
const NONE: usize = usize::MAX;

/// An elimination order of nodes, and the groups of them that share their rows below.
///
/// A *place* is a node's rank in the order. A group and its rows below make a clique of the filled graph; the group that
/// holds the first of its rows below is its parent.
#[derive(Debug)]
pub(super) struct Groups {
    /// Node of each place.
    pub(super) nodes: Vec<usize>,
    /// First equation of each place, counted in elimination order; one more at the end.
    pub(super) firsts: Vec<usize>,
    list: Vec<(Range<usize>, Vec<usize>)>,
    parents: Vec<usize>,
}

impl Groups {
    /// The groups of an order (`order[place] = node`); nodes without equations are left out.
    pub(super) fn of(neighbours: &[Vec<u32>], counts: &[usize], order: impl Iterator<Item = usize>) -> Self {
        let nodes: Vec<usize> = order.filter(|node| counts[*node] > 0).collect();
        let mut places = vec![NONE; counts.len()];
        for (place, &node) in nodes.iter().enumerate() {
            places[node] = place;
        }
        let mut columns = vec![0];
        let mut rows: Vec<usize> = Vec::new();
        for (place, &node) in nodes.iter().enumerate() {
            let start = rows.len();
            rows.extend(neighbours[node].iter().map(|other| places[*other as usize]).filter(|other| *other < place));
            rows[start..].sort_unstable();
            rows.push(place);
            columns.push(rows.len());
        }
        Self::from(nodes, counts, library::groups(&columns, &rows))
    }

    fn from(nodes: Vec<usize>, counts: &[usize], list: Vec<(Range<usize>, Vec<usize>)>) -> Self {
        let mut firsts = vec![0];
        for (place, &node) in nodes.iter().enumerate() {
            firsts.push(firsts[place] + counts[node]);
        }
        let mut owners = vec![0; nodes.len()];
        for (group, (places, _)) in list.iter().enumerate() {
            owners[places.clone()].fill(group);
        }
        let parents = list.iter().map(|(_, rows)| rows.first().map_or(NONE, |row| owners[*row])).collect();
        Self { nodes, firsts, list, parents }
    }

    /// Number of groups.
    pub(super) fn len(&self) -> usize {
        self.list.len()
    }

    /// The places of a group.
    pub(super) fn places(&self, group: usize) -> Range<usize> {
        self.list[group].0.clone()
    }

    /// The places below a group that it reaches, ascending.
    pub(super) fn rows(&self, group: usize) -> &[usize] {
        &self.list[group].1
    }

    /// The group that a group passes its rest on to; it stands later in the order.
    pub(super) fn parent(&self, group: usize) -> Option<usize> {
        Some(self.parents[group]).filter(|parent| *parent != NONE)
    }

    /// Equations of a place.
    pub(super) fn count(&self, place: usize) -> usize {
        self.firsts[place + 1] - self.firsts[place]
    }

    /// Equations of a group, and those below that it reaches.
    pub(super) fn size(&self, group: usize) -> (usize, usize) {
        let places = self.places(group);
        let below = self.rows(group).iter().map(|row| self.count(*row)).sum();
        (self.firsts[places.end] - self.firsts[places.start], below)
    }

    /// Multiplications that a group takes.
    pub(super) fn work(&self, group: usize) -> f64 {
        let (width, below) = self.size(group);
        work(width, below)
    }

    /// Multiplications of a factorisation.
    pub(super) fn total_work(&self) -> f64 {
        (0..self.len()).map(|group| self.work(group)).sum()
    }

    /// The same groups in postorder, every tree in one piece: the order changes, the fill does not. With it the first group
    /// of every group's tree.
    pub(super) fn in_postorder(&self, counts: &[usize]) -> (Self, Vec<usize>) {
        let (post, first) = postorder(&self.parents);
        let mut nodes = Vec::with_capacity(self.nodes.len());
        let mut moved = vec![0; self.nodes.len()];
        let mut ranges = Vec::with_capacity(self.len());
        for &group in &post {
            let start = nodes.len();
            for place in self.places(group) {
                moved[place] = nodes.len();
                nodes.push(self.nodes[place]);
            }
            ranges.push(start..nodes.len());
        }
        // Ancestors keep their order among each other, so rows stay ascending.
        let rows = |group: &usize| self.rows(*group).iter().map(|row| moved[*row]).collect();
        let list = ranges.into_iter().zip(post.iter().map(rows)).collect();
        (Self::from(nodes, counts, list), first)
    }
}

/// Postorder of a forest (`post[new] = old`), children ascending, and the first of each tree in it.
fn postorder(parents: &[usize]) -> (Vec<usize>, Vec<usize>) {
    let count = parents.len();
    let mut size = vec![1; count];
    for group in 0..count {
        if parents[group] != NONE {
            size[parents[group]] += size[group];
        }
    }
    let (mut post, mut first) = (vec![0; count], vec![0; count]);
    // The next free place for a child of each group, and for a root.
    let (mut free, mut free_root) = (vec![0; count], count);
    for group in (0..count).rev() {
        let end = if parents[group] == NONE { &mut free_root } else { &mut free[parents[group]] };
        let last = *end - 1;
        *end -= size[group];
        post[last] = group;
        first[last] = *end;
        free[group] = last;
    }
    (post, first)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A path of seven joints eliminated from both ends, inwards by turns, is put in order end by end.
    #[test]
    fn postorder_keeps_every_tree_in_one_piece() {
        // 0 → 2 → 4 → 6 and 1 → 3 → 5 → 6.
        let (post, first) = postorder(&[2, 3, 4, 5, 6, 6, NONE]);
        assert_eq!(post, [0, 2, 4, 1, 3, 5, 6]);
        assert_eq!(first, [0, 0, 0, 3, 3, 3, 0]);
    }

    #[test]
    fn joints_without_equations_are_left_out() {
        let neighbours = [vec![1], vec![0, 2], vec![1]];
        let groups = Groups::of(&neighbours, &[6, 0, 3], 0..3);
        assert_eq!((groups.nodes.as_slice(), groups.firsts.as_slice()), ([0, 2].as_slice(), [0, 6, 9].as_slice()));
        assert!((0..groups.len()).all(|group| groups.rows(group).is_empty()));
    }
}
