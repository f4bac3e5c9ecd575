//! The rule for soft joints: ends of tubes that bend the face of a wider hollow tube.

mod axes;
mod face;
#[cfg(test)]
mod plate;

use crate::dof::{Dof, DofMap};
use crate::ids::{IndexVec, JointId, TubeId};
use crate::model::{Model, Shape, Tube};
use axes::{Axes, dot};
use face::{Face, Patch};

/// Two tubes are one chord that runs through the joint where they bend by less than this, as a cosine: 5°.
const STRAIGHT: f64 = 0.996_194_698_091_745_5;

/// A tube nearer to the chord's face than this lies along it rather than on it, as a sine: 15°.
const ALONG_THE_FACE: f64 = 0.258_819_045_102_520_74;

/// An end of a tube that the rule makes soft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoftEnd {
    /// The tube.
    pub tube: TubeId,
    /// The joint at that end.
    pub joint: JointId,
    /// Whether it is the tube's `to` end.
    pub at_to: bool,
    /// The tube whose face it bends.
    pub chord: TubeId,
    /// Width of the tube on the face over the face's width, 0 to 1.
    pub share: f64,
    /// Springs of the rule, local axes of the tube: N/m along it, N·m/rad about y and z; `None` is rigid.
    pub springs: DofMap<Option<f64>>,
}

impl Model {
    /// Ends that the rule for soft joints makes less than rigid, tube by tube.
    ///
    /// An end is soft where a hollow tube meets the face of a hollow rectangular one and is narrower than the option's
    /// share of that face. The face's tube (the chord) is one that runs through the joint in two straight pieces of one
    /// section, the widest of these; failing that, the widest tube that ends there. A freedom that is released or has a
    /// spring keeps it.
    ///
    /// # Assumes
    /// The chord's face as a thin plate strip between the side walls, held by them, with a rigid patch of the tube's
    /// footprint ([`Model::with_soft_joints`]). One tube on the face: what stands beside it is left out, and so are the
    /// distortion of the chord's section, twist about the tube, and stiffening by large deflections.
    ///
    /// # Source
    /// Derived here, not from a standard: an order of magnitude for a sensitivity band.
    pub fn soft_ends(&self) -> Vec<SoftEnd> {
        let limit = self.options.soft_joints.narrower_than;
        let axes: IndexVec<TubeId, Option<Axes>> = self.tubes.ids().map(|tube| self.axes_of(tube)).collect();
        let mut at_joint: IndexVec<JointId, Vec<TubeId>> = self.joints.ids().map(|_| Vec::new()).collect();
        for (id, tube) in self.tubes.iter_with_id() {
            at_joint[tube.from].push(id);
            at_joint[tube.to].push(id);
        }
        let mut ends = Vec::new();
        for (id, tube) in self.tubes.iter_with_id() {
            for (joint, at_to) in [(tube.from, false), (tube.to, true)] {
                ends.extend(self.soft_end(id, joint, at_to, &at_joint[joint], &axes, limit));
            }
        }
        ends
    }

    /// The same frame with the springs of the rule for soft joints at the ends that it finds.
    ///
    /// ```text
    /// s = b₀ − t₀ between the side walls' mid-lines, a = (s − b₁)/2, D = E t₀³ / 12(1 − ν²)
    /// ρ = a/h (4 − 4/(4 + 2h/s)), h = h₀ − t₀: the side walls hold the face's edges; c = 12(1 + ρ)/(4 + ρ)
    /// lift        K = 2 c D (l + 1.6 a)/a³                     axial spring K/sin²θ
    /// in plane    K = c D (l + 1.9 a)³/(6 a³)                  about the line across the face
    /// across      K = 2 D/a (l + 1.2 a)[k₁₁(b₁/2a)² + 2 k₁₂ b₁/2a + k₂₂]   about the chord
    ///             k₁₁ = 12 − 36/(4 + ρ),  k₁₂ = 6 − 12/(4 + ρ),  k₂₂ = 4 − 4/(4 + ρ)
    /// ```
    ///
    /// b₁ and l are the tube's footprint on the face, across and along the chord; all three grow without limit as the tube
    /// becomes as wide as the face. The lengths 1.6 a, 1.9 a and 1.2 a stand for the plate beyond the patch's ends; they
    /// were fitted to solutions of the plate, which the formulas meet within a quarter for widths of 0.2 to 0.8 of the face
    /// (a test solves the plate).
    ///
    /// # Source
    /// Derived here, not from a standard: an order of magnitude for a sensitivity band.
    #[must_use]
    pub fn with_soft_joints(&self) -> Self {
        let mut soft = self.clone();
        for end in self.soft_ends() {
            let tube = &mut soft.tubes[end.tube];
            let place = if end.at_to { &mut tube.end_to } else { &mut tube.end_from };
            for dof in Dof::ALL {
                place.springs[dof] = place.springs[dof].or(end.springs[dof]);
            }
        }
        soft
    }

    /// Unit vectors along a tube's local x, y and z, global axes, after the rule in the opening of the crate.
    pub fn local_axes(&self, tube: TubeId) -> [[f64; 3]; 3] {
        self.axes_of(tube).expect("bug: validation refuses a tube without length").0
    }

    fn axes_of(&self, tube: TubeId) -> Option<Axes> {
        let [from, to] = self.tube_ends(tube);
        Axes::between(from, to, self.tubes[tube].roll)
    }

    fn soft_end(
        &self,
        id: TubeId,
        joint: JointId,
        at_to: bool,
        here: &[TubeId],
        axes: &IndexVec<TubeId, Option<Axes>>,
        limit: f64,
    ) -> Option<SoftEnd> {
        let tube = &self.tubes[id];
        let own = axes[id].as_ref()?;
        let chord = self.chord(id, joint, here, axes)?;
        let Shape::Hollow { height, width, wall, .. } = self.sections[self.tubes[chord].section].shape else {
            return None;
        };
        let [x, y, z] = axes[chord].as_ref()?.0;
        // From the joint into the tube: it leaves through the face whose distance it covers first.
        let out = if at_to { own.0[0].map(|part| -part) } else { own.0[0] };
        let through_top = (dot(out, z) / height).abs() >= (dot(out, y) / width).abs();
        let (normal, across, breadth, depth) = if through_top { (z, y, width, height) } else { (y, z, height, width) };
        let sine = dot(out, normal).abs();
        if sine < ALONG_THE_FACE {
            return None;
        }
        let extent = |direction: [f64; 3]| {
            // The same place on the face, seen along the tube: p − d (p·n)/(d·n).
            let lean = dot(direction, out) / dot(normal, out);
            let seen = [0, 1, 2].map(|axis| direction[axis] - normal[axis] * lean);
            self.extent(tube, seen, own)
        };
        let patch = Patch { across: extent(across)?, along: extent(x)? };
        let share = patch.across / breadth;
        if share >= limit {
            return None;
        }
        let material = &self.materials[self.tubes[chord].material];
        let face = Face { breadth, depth, wall, youngs: material.youngs, shear: material.shear };
        let stiffness = face.stiffness(patch)?;
        let flexible =
            |axis: [f64; 3]| dot(axis, across).powi(2) / stiffness.in_plane + dot(axis, x).powi(2) / stiffness.across;
        let released = if at_to { &tube.release_to } else { &tube.release_from };
        let given = if at_to { &tube.end_to.springs } else { &tube.end_from.springs };
        let mut springs = DofMap::default();
        for (dof, stiffness) in [
            (Dof::Ux, stiffness.lift / (sine * sine)),
            (Dof::Ry, 1.0 / flexible(own.0[1])),
            (Dof::Rz, 1.0 / flexible(own.0[2])),
        ] {
            if !released[dof] && given[dof].is_none() && stiffness.is_finite() {
                springs[dof] = Some(stiffness);
            }
        }
        springs.0.iter().any(Option::is_some).then_some(SoftEnd { tube: id, joint, at_to, chord, share, springs })
    }

    /// How far a hollow tube's section reaches in a direction across it, both sides together, m; `None` for other tubes.
    fn extent(&self, tube: &Tube, direction: [f64; 3], axes: &Axes) -> Option<f64> {
        let [_, y, z] = axes.0;
        match self.sections[tube.section].shape {
            Shape::Hollow { height, width, .. } => {
                Some(width * dot(direction, y).abs() + height * dot(direction, z).abs())
            }
            Shape::Round { diameter, .. } => Some(diameter * dot(direction, direction).sqrt()),
            Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
        }
    }

    /// The tube whose face an end bends: the widest of those that run through, else the widest that ends here.
    fn chord(
        &self,
        id: TubeId,
        joint: JointId,
        here: &[TubeId],
        axes: &IndexVec<TubeId, Option<Axes>>,
    ) -> Option<TubeId> {
        let others: Vec<TubeId> = here.iter().copied().filter(|&other| other != id).collect();
        let runs_through = |&tube: &TubeId| {
            others.iter().any(|&other| {
                let one_tube = self.tubes[other].section == self.tubes[tube].section;
                other != tube && one_tube && self.straight(tube, other, joint, axes)
            })
        };
        let through: Vec<TubeId> = others.iter().copied().filter(runs_through).collect();
        let among = if through.is_empty() { &others } else { &through };
        let least = |tube: TubeId| match self.sections[self.tubes[tube].section].shape {
            Shape::Hollow { height, width, .. } => height.min(width),
            _ => 0.0,
        };
        // The first of the widest, so that the order of the tubes alone decides between equals.
        among
            .iter()
            .copied()
            .filter(|&tube| least(tube) > 0.0)
            .reduce(|best, tube| if least(tube) > least(best) { tube } else { best })
    }

    /// Whether two tubes make one straight line through their joint.
    fn straight(&self, a: TubeId, b: TubeId, joint: JointId, axes: &IndexVec<TubeId, Option<Axes>>) -> bool {
        let out = |tube: TubeId| {
            let direction = axes[tube].as_ref()?.0[0];
            Some(if self.tubes[tube].to == joint { direction.map(|part| -part) } else { direction })
        };
        match (out(a), out(b)) {
            (Some(a), Some(b)) => dot(a, b) <= -STRAIGHT,
            _ => false,
        }
    }
}
