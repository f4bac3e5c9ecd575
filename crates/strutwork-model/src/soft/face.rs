//! The face of a hollow rectangular tube under a patch: three stiffnesses in closed form.

/// Lengths over the gap beside the patch that stand for the plate beyond its ends: lifted, turned in the plane of the two
/// tubes, turned about the chord. Fitted to the plate solutions of the test.
const BEYOND: [f64; 3] = [1.6, 1.9, 1.2];

/// The face and what holds it, m and Pa.
#[derive(Debug, Clone, Copy)]
pub(super) struct Face {
    /// Outside width of the face.
    pub(super) breadth: f64,
    /// Outside depth of the side walls.
    pub(super) depth: f64,
    /// Wall.
    pub(super) wall: f64,
    /// E.
    pub(super) youngs: f64,
    /// G.
    pub(super) shear: f64,
}

/// What stands on the face, a rigid rectangle in its middle, m.
#[derive(Debug, Clone, Copy)]
pub(super) struct Patch {
    /// Across the face.
    pub(super) across: f64,
    /// Along the chord.
    pub(super) along: f64,
}

/// How stiffly the face holds the patch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stiffness {
    /// Against lifting off the face, N/m.
    pub(super) lift: f64,
    /// Against turning about the line across the face, N·m/rad.
    pub(super) in_plane: f64,
    /// Against turning about the chord, N·m/rad.
    pub(super) across: f64,
}

impl Face {
    /// The three stiffnesses; `None` where the patch reaches the side walls. The formulas stand at
    /// [`Model::with_soft_joints`](crate::Model::with_soft_joints).
    pub(super) fn stiffness(&self, patch: Patch) -> Option<Stiffness> {
        let (span, depth) = (self.breadth - self.wall, self.depth - self.wall);
        let gap = (span - patch.across) / 2.0;
        let nu = self.youngs / (2.0 * self.shear) - 1.0;
        let plate = self.youngs * self.wall.powi(3) / (12.0 * (1.0 - nu * nu));
        let held = gap * restraint(span, depth);
        let (b, l) = (patch.across / (2.0 * gap), patch.along / gap);
        let [lift, in_plane, across] = shape(b, l, held);
        let found = Stiffness { lift: plate / (gap * gap) * lift, in_plane: plate * in_plane, across: plate * across };
        (gap > 0.0 && depth > 0.0 && plate.is_finite() && found.lift.is_finite()).then_some(found)
    }
}

/// Moment a turn with which a side wall and the far face hold a length of the face's edge, over D, 1/m: the far corner turns
/// with 4/h of the wall and 2/s of the far face, which bends evenly.
fn restraint(span: f64, depth: f64) -> f64 {
    (4.0 - 4.0 / (4.0 + 2.0 * depth / span)) / depth
}

/// The three stiffnesses over D/a², D and D, from b₁/2a, l/a and the restraint ρ of the edges over D/a.
fn shape(b: f64, l: f64, held: f64) -> [f64; 3] {
    // A strip of length a, clamped at the patch, its far end held by ρ: forces for a unit of deflection and slope there.
    let [k11, k12, k22] =
        [(12.0, 36.0), (6.0, 12.0), (4.0, 4.0)].map(|(clamped, given)| clamped - given / (4.0 + held));
    let [lift, in_plane, across] = BEYOND.map(|beyond| l + beyond);
    [2.0 * k11 * lift, k11 * in_plane.powi(3) / 6.0, 2.0 * across * (k11 * b * b + 2.0 * k12 * b + k22)]
}

#[cfg(test)]
mod tests {
    use super::super::plate::{self, Motion};
    use super::*;

    /// Widths 0.2 to 0.8 of the face, footprints of 1 to 2 widths, chords from flat to deep: within a quarter of the plate.
    #[test]
    fn the_closed_form_is_near_the_plate() {
        let cases =
            [(2, 2, 1.0), (2, 4, 0.5), (4, 4, 2.0), (4, 8, 1.0), (6, 6, 0.5), (6, 12, 1.0), (8, 8, 1.0), (8, 12, 2.0)];
        for (tenths, long, depth) in cases {
            let held = restraint(1.0, depth);
            let (across, along) = (tenths as f64 / 10.0, long as f64 / 10.0);
            let gap = (1.0 - across) / 2.0;
            let [lift, in_plane, turned] = shape(across / (2.0 * gap), along / gap, gap * held);
            for (motion, ours) in
                [(Motion::Lift, lift / (gap * gap)), (Motion::InPlane, in_plane), (Motion::Across, turned)]
            {
                let ratio = ours / plate::stiffness(motion, tenths, long, held);
                assert!((0.8..1.25).contains(&ratio), "{motion:?} {across} {along} {depth}: {ratio}");
            }
        }
    }

    /// A point load in the middle of a long plate: w = 0.00725 P s²/D with clamped edges, 0.01695 P s²/D with hinged ones
    /// (Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., tables 29 and 23; from memory).
    #[test]
    fn the_plate_meets_its_own_closed_forms() {
        for (held, flexible) in [(1e9, 0.00725), (0.0, 0.01695)] {
            let ratio = plate::stiffness(Motion::Lift, 0, 0, held) * flexible;
            assert!((ratio - 1.0).abs() < 0.01, "{held}: {ratio}");
        }
    }

    #[test]
    fn a_patch_as_wide_as_the_face_is_rigid() {
        let face = Face { breadth: 0.04, depth: 0.04, wall: 0.002, youngs: 210e9, shear: 81e9 };
        let lift = |across: f64| face.stiffness(Patch { across, along: 0.025 }).map(|stiffness| stiffness.lift);
        assert!(lift(0.025).unwrap() < lift(0.03).unwrap());
        assert!(lift(0.0379).unwrap() > 1e4 * lift(0.025).unwrap());
        assert_eq!(lift(0.038), None);
    }
}
