//! How a tube's ends are joined to the joints: rigid arms, springs, releases.

use nalgebra::Vector3;

use super::Beam;
use super::deformation::{Mat6, Mat6x12, Vec6};
use super::slip::{ROUNDING, Slip};
use crate::{Mat12, Vec12};

/// What stands between an end freedom of the tube and its joint: `None` is rigid, zero is released, else the stiffness
/// of a spring, N/m or N·m/rad, local axes.
pub type EndSprings = [Option<f64>; 12];

/// How both ends of a tube are joined.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// Springs and releases, in the order of the end freedoms; springs ≥ 0.
    pub springs: EndSprings,
    /// Rigid arms from joint 1 to end 1 and from joint 2 to end 2, m, local axes of the tube between its ends.
    pub arms: [[f64; 3]; 2],
}

impl Ends {
    /// Both ends rigid and at their joints.
    pub const RIGID: Self = Self { springs: [None; 12], arms: [[0.0; 3]; 2] };
}

/// A tube as its joints see it, through arms, springs and releases.
///
/// ```text
/// joint o──arm──▫ /\/\/ ▪══════ tube ══════▪ \/\/\ ▫──arm──o joint
///               a      e                    e     a
/// u_a = u_joint + θ_joint × arm        u_e = u_a + s at the sprung and the released freedoms
/// ```
///
/// Springs are condensed first, then releases, both over the tube's six deformations, so that a movement of the whole tube
/// costs nothing. A tube may be freed more than it can bear (torsion freed at both ends): it can then move in itself, which
/// is harmless as long as nothing loads that motion ([`Joined::loaded`]).
///
/// # Source
/// Derived here: static condensation, Guyan (1965), AIAA Journal 3(2), p. 380 (page from memory).
#[derive(Debug, Clone)]
pub struct Joined {
    beam: Beam,
    ends: Ends,
    /// B.
    b: Mat6x12,
    springs: Slip,
    releases: Slip,
    /// k*, over the deformations.
    deformed: Mat6,
    /// K*, over the freedoms at the arms' ends.
    seen: Mat12,
}

impl Beam {
    /// The tube with its ends joined so.
    pub fn join(&self, ends: &Ends) -> Joined {
        let b = self.deformation_matrix();
        let (mut sprung, mut springs, mut released) = (Vec::new(), Vec::new(), Vec::new());
        for (i, spring) in ends.springs.iter().enumerate() {
            match *spring {
                None => {}
                Some(0.0) => released.push(i),
                Some(stiffness) => {
                    sprung.push(i);
                    springs.push(stiffness);
                }
            }
        }
        let none = vec![0.0; released.len()];
        let (springs, deformed) = Slip::of(&self.deformation_stiffness(), &b, sprung, springs);
        let (releases, deformed) = Slip::of(&deformed, &b, released, none);
        let seen = self.seen(&b, &deformed, &releases.freedoms);
        Joined { beam: *self, ends: *ends, b, springs, releases, deformed, seen }
    }

    /// Bᵀ k* B, with exact zeros where nothing but rounding is left of the rigid tube's stiffness.
    fn seen(&self, b: &Mat6x12, deformed: &Mat6, released: &[usize]) -> Mat12 {
        let (full, rigid) = (b.tr_mul(&(deformed * b)), self.stiffness());
        Mat12::from_fn(|i, j| {
            let value = (full[(i, j)] + full[(j, i)]) / 2.0;
            let gone = released.contains(&i) || released.contains(&j);
            if gone || value.abs() <= ROUNDING * (rigid[(i, i)] * rigid[(j, j)]).sqrt() { 0.0 } else { value }
        })
    }
}

impl Joined {
    /// Stiffness seen by the joints, local axes.
    ///
    /// # Units and shapes
    /// 12×12, N/m, N and N·m; rows and columns of released freedoms are exactly zero where the tube has no arms.
    pub fn stiffness(&self) -> Mat12 {
        if self.ends.arms == [[0.0; 3]; 2] {
            return self.seen;
        }
        // Hᵀ K H: columns moved along the arms, then rows.
        let mut half = Mat12::zeros();
        for i in 0..12 {
            half.set_row(i, &self.to_joints(&self.seen.row(i).transpose()).transpose());
        }
        let mut whole = Mat12::zeros();
        for j in 0..12 {
            whole.set_column(j, &self.to_joints(&half.column(j).into_owned()));
        }
        (whole + whole.transpose()) / 2.0
    }

    /// Deformations that cost energy, from the joints' displacements (local axes), and the stiffness over them.
    ///
    /// # Signs and order
    /// As [`Beam::deformations`].
    pub fn deformation(&self, joints: &Vec12) -> (Vec6, Mat6) {
        (self.beam.deformations(&self.at_arms(joints)), self.deformed)
    }

    /// Loads that reach the joints when `loads` (of [`Beam::end_loads`]) act on the tube, local axes.
    pub fn joint_loads(&self, loads: &Vec12) -> Vec12 {
        self.to_joints(&self.passed_on(loads))
    }

    /// Displacements of the tube's own ends and the forces on them, local axes, from the joints' displacements (local
    /// axes) and the loads of [`Beam::end_loads`].
    ///
    /// # Signs and order
    /// Forces act on the tube; they are exactly zero at released freedoms.
    pub fn own_ends(&self, joints: &Vec12, loads: &Vec12) -> (Vec12, Vec12) {
        let mut own = self.at_arms(joints);
        let q = self.beam.deformations(&own);
        let mut forces = self.b.tr_mul(&(self.deformed * q)) - self.passed_on(loads);
        for (slip, &i) in
            self.releases.slips(&q, &self.springs.pass_on(&self.b, loads)).iter().zip(&self.releases.freedoms)
        {
            own[i] += slip;
            forces[i] = 0.0;
        }
        let q = self.beam.deformations(&own);
        for (slip, &i) in self.springs.slips(&q, loads).iter().zip(&self.springs.freedoms) {
            own[i] += slip;
        }
        (own, forces)
    }

    /// A matrix over the tube's own ends (mass, geometric stiffness) as the joints see it, local axes: Tᵀ m T, where T gives
    /// the movement of the tube's own ends from the joints' with nothing acting between (static condensation).
    ///
    /// # Source
    /// Guyan (1965), AIAA Journal 3(2), p. 380 (page from memory).
    pub fn condense(&self, own: &Mat12) -> Mat12 {
        let none = Vec12::zeros();
        let mut moves = Mat12::zeros();
        for i in 0..12 {
            let mut unit = Vec12::zeros();
            unit[i] = 1.0;
            moves.set_column(i, &self.own_ends(&unit, &none).0);
        }
        moves.tr_mul(&(own * moves))
    }

    /// Forces at the arms' ends carried to the joints: the same forces, moments M + arm × F.
    pub fn to_joints(&self, forces: &Vec12) -> Vec12 {
        to_joints(&self.ends.arms, forces)
    }

    /// How its ends are joined.
    pub fn ends(&self) -> &Ends {
        &self.ends
    }

    /// Which released freedom moves without limit under these loads, if one does: the largest of its motion.
    pub fn loaded(&self, loads: &Vec12) -> Option<usize> {
        self.releases.loaded(loads)
    }

    fn at_arms(&self, joints: &Vec12) -> Vec12 {
        at_arms(&self.ends.arms, joints)
    }

    /// Loads that reach the arms' ends.
    fn passed_on(&self, loads: &Vec12) -> Vec12 {
        self.releases.pass_on(&self.b, &self.springs.pass_on(&self.b, loads))
    }
}

/// Displacements at the arms' ends: u + θ × arm.
pub(super) fn at_arms(arms: &[[f64; 3]; 2], joints: &Vec12) -> Vec12 {
    let mut moved = *joints;
    for (end, arm) in arms.iter().enumerate() {
        let turn: Vector3<f64> = joints.fixed_rows::<3>(6 * end + 3).into_owned();
        let mut place = moved.fixed_rows_mut::<3>(6 * end);
        place += turn.cross(&Vector3::from(*arm));
    }
    moved
}

/// Forces at the arms' ends carried to the joints: the same forces, moments M + arm × F.
pub(super) fn to_joints(arms: &[[f64; 3]; 2], forces: &Vec12) -> Vec12 {
    let mut carried = *forces;
    for (end, arm) in arms.iter().enumerate() {
        let force: Vector3<f64> = forces.fixed_rows::<3>(6 * end).into_owned();
        let mut moment = carried.fixed_rows_mut::<3>(6 * end + 3);
        moment += Vector3::from(*arm).cross(&force);
    }
    carried
}
