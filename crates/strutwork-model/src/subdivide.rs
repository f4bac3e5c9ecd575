//! The same frame with every tube in several pieces, for analyses whose shapes one piece cannot follow.

use crate::dof::{Dof, DofMap};
use crate::ids::{IndexVec, JointId, TubeId};
use crate::model::{Joint, Model, Tube, TubeEnd};

/// A frame with every tube in pieces.
#[derive(Debug, Clone, PartialEq)]
pub struct Subdivided {
    /// The frame. Its first joints are those of the whole frame, in order; everything else but the tubes is the same.
    pub model: Model,
    /// For each piece: its tube in the whole frame, and where it starts and ends along it, 0 to 1.
    pub pieces: IndexVec<TubeId, (TubeId, [f64; 2])>,
}

impl Model {
    /// The same frame with every tube in `count` equal pieces: see [`Self::subdivided_at`].
    #[must_use]
    pub fn subdivided(&self, count: usize) -> Subdivided {
        let count = count.max(1);
        let cuts: Vec<f64> = (1..count).map(|piece| piece as f64 / count as f64).collect();
        self.subdivided_at(&self.tubes.ids().map(|_| cuts.clone()).collect())
    }

    /// The same frame with every tube cut at these places along it (ascending, between 0 and 1) and joined rigidly there;
    /// offsets, springs and releases stay at the tube's own ends.
    ///
    /// A tube that is freed along or about the same axis at both ends could move by itself once it is in pieces: it keeps
    /// the release of its `from` end, which leaves the forces as they are.
    #[must_use]
    pub fn subdivided_at(&self, cuts: &IndexVec<TubeId, Vec<f64>>) -> Subdivided {
        let mut model = self.clone();
        let mut tubes = IndexVec::new();
        let mut pieces = IndexVec::new();
        for (id, tube) in self.tubes.iter_with_id() {
            let [from, to] = self.tube_ends(id);
            let places = &cuts[id];
            let count = places.len() + 1;
            let mut last = tube.from;
            for piece in 0..count {
                let start = if piece == 0 { 0.0 } else { places[piece - 1] };
                let end = places.get(piece).copied().unwrap_or(1.0);
                let next = if piece + 1 == count {
                    tube.to
                } else {
                    let at = std::array::from_fn(|axis| from[axis] + (to[axis] - from[axis]) * end);
                    let name = format!("{} {}/{count}", tube.name, piece + 1);
                    model.joints.push(Joint { name, at, note: String::new() })
                };
                tubes.push(part(tube, last, next, piece == 0, piece + 1 == count));
                pieces.push((id, [start, end]));
                last = next;
            }
        }
        model.tubes = tubes;
        Subdivided { model, pieces }
    }
}

/// A piece of a tube, with what is at the tube's ends where it has them.
fn part(tube: &Tube, from: JointId, to: JointId, first: bool, last: bool) -> Tube {
    let mut part = tube.clone();
    (part.from, part.to) = (from, to);
    if !first {
        part.release_from = DofMap::default();
        part.end_from = TubeEnd::default();
    }
    if last {
        for dof in Dof::ALL {
            part.release_to[dof] &= first || !tube.release_from[dof] || matches!(dof, Dof::Ry | Dof::Rz);
        }
    } else {
        part.release_to = DofMap::default();
        part.end_to = TubeEnd::default();
    }
    part
}
