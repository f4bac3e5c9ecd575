//! A tube under an axial force, in pieces: what it resists, what it passes on, and the forces along it, all with the axial
//! force at work on the bent tube.

mod cut;
mod ends;
mod plane;
#[cfg(test)]
mod tests;

use super::recovery::Along;
use super::{Beam, Ends, SpanLoad};
use crate::{Mat12, Vec12};
pub use cut::{Cut, Division};
use ends::Slipping;
use plane::{Loaded, Plane};

/// Freedoms of the tube's ends in each plane: deflection and turn of end 1, of end 2. In x–z the turn is −dw/dx.
const FREEDOMS: [[usize; 4]; 2] = [[1, 5, 7, 11], [2, 4, 8, 10]];
/// Sign of the turns against the slope, in each plane.
const TURN: [f64; 2] = [1.0, -1.0];

/// A tube under an axial force, divided into cubic pieces whose inner nodes are eliminated.
///
/// ```text
/// (k + k_g(N)) u = f      of each piece; N as it runs along the tube; what is between the ends is condensed exactly
/// ```
///
/// # Units and shapes
/// SI; 12×12 over the tube's own ends or its joints, local axes.
///
/// # Signs and order
/// As the linear tube. Forces keep the directions of the tube's axes before it bends: N along x, V across it. So the slope of
/// the moment is not V alone: dMz/dx = −Vy + N dv/dx, dMy/dx = Vz − N dw/dx.
///
/// # Assumes
/// Small slopes. The axial force does work on the deflection across the tube; its own shortening by the bow, and moments and
/// torques on turned sections, are left out. Rigid arms at the ends turn without the force in them doing work.
///
/// # Source
/// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, ch. 15 (from memory); elimination: Guyan (1965),
/// AIAA Journal 3(2), p. 380 (page from memory), exact in statics.
#[derive(Debug, Clone)]
pub struct Chain {
    beam: Beam,
    cuts: Vec<Cut>,
    planes: [Plane; 2],
    ends: Option<Slipping>,
    /// Over the tube's own ends.
    own: Mat12,
}

/// A chain with what acts between its ends.
#[derive(Debug, Clone)]
pub struct LoadedChain {
    chain: Chain,
    loads: Vec<SpanLoad>,
    planes: [Loaded; 2],
    /// Over the tube's own ends.
    own: Vec12,
}

impl Chain {
    /// A tube whose axial force is `start` (N, tension positive) at end 1 and then runs as the loads along it make it. It is
    /// divided as if that force were `divided_for`, so that its division can stay while the force is being found.
    pub fn of_tube(
        beam: Beam,
        ends: &Ends,
        start: f64,
        divided_for: f64,
        loads: &[SpanLoad],
        division: Division,
    ) -> LoadedChain {
        let cuts = cut::cuts(&beam, [start, divided_for], loads, division);
        let planes = [beam.iz, beam.iy].map(|inertia| {
            Plane::of(cuts.iter().map(|cut| plane::piece(beam.youngs * inertia, cut.to - cut.from, cut.working())))
        });
        let mut own = beam.stiffness();
        for (plane, of) in planes.iter().enumerate() {
            plane::put(&mut own, plane, of.stiffness());
        }
        let ends = (*ends != Ends::RIGID).then(|| Slipping::of(&own, ends));
        Self { beam, cuts, planes, ends, own }.loaded(loads)
    }

    fn loaded(self, loads: &[SpanLoad]) -> LoadedChain {
        let whole = loads.iter().fold(Vec12::zeros(), |sum, load| sum + self.beam.end_loads(load));
        let on_piece = |cut: &Cut| {
            let piece = cut.beam(&self.beam);
            let acting = loads.iter().filter_map(|load| cut.part_of(load, self.beam.length));
            acting.fold(Vec12::zeros(), |sum, load| sum + piece.end_loads(&load))
        };
        let on_pieces: Vec<Vec12> = self.cuts.iter().map(on_piece).collect();
        let planes = [0, 1].map(|plane| {
            let on_pieces = on_pieces.iter().map(|loads| plane::part_of_vector(loads, plane));
            let at_nodes = self.cuts.iter().skip(1).map(|cut| cut::point_loads(loads, cut.from, plane));
            self.planes[plane].load(on_pieces, at_nodes)
        });
        let mut own = Vec12::zeros();
        for along in [0, 3, 6, 9] {
            own[along] = whole[along];
        }
        for (plane, of) in planes.iter().enumerate() {
            plane::put_vector(&mut own, plane, of.ends());
        }
        // A point load at the very end is the end's.
        LoadedChain { loads: loads.to_vec(), planes, own: own + cut::at_ends(loads, self.beam.length), chain: self }
    }
}

impl LoadedChain {
    /// Stiffness seen by the joints, local axes: N/m, N, N·m.
    pub fn stiffness(&self) -> Mat12 {
        self.chain.ends.as_ref().map_or(self.chain.own, |ends| ends.stiffness(&self.chain.own))
    }

    /// Loads that reach the joints, local axes: N, N·m.
    pub fn joint_loads(&self) -> Vec12 {
        self.chain.ends.as_ref().map_or(self.own, |ends| ends.loads(&self.chain.own, &self.own))
    }

    /// How many ways there are in which the tube alone would have bowed out, its ends held: 0 as long as it stands.
    pub fn bowed(&self) -> usize {
        self.chain.planes.iter().map(Plane::negative).sum::<usize>()
            + self.chain.ends.as_ref().map_or(0, Slipping::negative)
    }

    /// The pieces, from end 1 to end 2.
    pub fn cuts(&self) -> &[Cut] {
        &self.chain.cuts
    }

    /// The greatest (kℓ)⁴/720 of its pieces, k² = |N|/EI in the softer plane: by how much a load factor that a cubic piece
    /// gives lies too high, relative to it.
    pub fn piece_error(&self) -> f64 {
        self.chain.cuts.iter().map(|cut| cut.error(&self.chain.beam)).fold(0.0, f64::max)
    }

    /// Displacements of the tube's own ends and the forces on them, local axes, from the joints' displacements, local axes.
    pub fn own_ends(&self, joints: &Vec12) -> (Vec12, Vec12) {
        let own = self.chain.ends.as_ref().map_or(*joints, |ends| ends.own(&self.own, joints));
        let mut forces = self.chain.own * own - self.own;
        for freed in self.chain.ends.iter().flat_map(Slipping::released) {
            forces[freed] = 0.0;
        }
        (own, forces)
    }

    /// Forces that the joints exert on the tube, at the joints, local axes.
    pub fn joint_forces(&self, joints: &Vec12) -> Vec12 {
        let (_, forces) = self.own_ends(joints);
        self.chain.ends.as_ref().map_or(forces, |ends| ends.to_joints(&forces))
    }

    /// The couple that the axial force makes on the bent tube, local axes, N·m: ∫ u′ × N x dx.
    ///
    /// What acts on the tube before it bends is out of balance by this, and so is the frame by the sum over its tubes.
    pub fn couple(&self, own: &Vec12) -> [f64; 3] {
        let [y, z] = self.nodes(own).map(|nodes| {
            let each = self.chain.cuts.iter().zip(nodes.windows(2));
            each.map(|(cut, node)| {
                let [[v1, s1], [v2, s2]] = [node[0], node[1]];
                let [from, to] = cut.working();
                // ∫ N v′ dx of a cubic under a linear force.
                f64::midpoint(from, to) * (v2 - v1) + (to - from) * (cut.to - cut.from) * (s2 - s1) / 12.0
            })
            .sum::<f64>()
        });
        [0.0, z, -y]
    }

    /// Section forces along the tube: axial and across it exact, moments cubic in each piece, right in value and slope at its ends.
    pub fn along(&self, own: &Vec12, forces: &Vec12) -> Along {
        let linear = Along::new(self.chain.beam, *own, forces, &self.loads);
        let nodes = self.nodes(own);
        let moments = [0, 1].map(|plane| self.chain.planes[plane].moments(&self.planes[plane], &nodes[plane]));
        let cuts = self.chain.cuts.iter().enumerate().map(|(place, cut)| {
            let mut forces = linear.piece_at(f64::midpoint(cut.from, cut.to)).forces;
            for plane in [0, 1] {
                // In the deflection's own plane: dm/dx = −V + N v′, with m = Mz, or −My.
                let across = forces[1 + plane];
                let slope = |x: f64, axial: f64, turn: f64| -super::recovery::value(&across, x) + axial * turn;
                let [start, end] = [nodes[plane][place], nodes[plane][place + 1]];
                let m = cut::hermite(
                    [cut.from, cut.to],
                    moments[plane][place],
                    [slope(cut.from, cut.axial[0], start[1]), slope(cut.to, cut.axial[1], end[1])],
                );
                forces[5 - plane] = m.map(|c| TURN[plane] * c);
            }
            super::Piece { from: cut.from, to: cut.to, forces }
        });
        Along::of_pieces(self.chain.beam, cuts.collect(), &self.loads, *own)
    }

    /// Deflection and slope of every node in each plane, from the tube's own ends.
    fn nodes(&self, own: &Vec12) -> [Vec<[f64; 2]>; 2] {
        [0, 1].map(|plane| self.chain.planes[plane].nodes(&self.planes[plane], &plane::part_of_vector(own, plane)))
    }
}
