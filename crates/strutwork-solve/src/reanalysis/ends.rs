//! Stiffness over the deformations of a tube whose ends are joined by springs and releases, from its section.

use strutwork_element::Vec12;

use super::variant::TubeStiffness;
use crate::elements::Element;

/// Below this share of what it was taken from an entry is rounding, not stiffness.
const ROUNDING: f64 = 1e-12;

/// How a tube's values follow from its stiffness.
#[derive(Debug, Clone)]
pub(super) enum TubeLaw {
    /// EA/L, GJ/L, EIy/L, EIz/L.
    Rigid {
        /// 1/L.
        per_length: f64,
    },
    /// The entries of the stiffness over the deformations, [`EndLaw::ENTRIES`].
    Joined(Box<EndLaw>),
}

impl TubeLaw {
    /// The law of a tube.
    pub(super) fn of(element: &Element) -> Self {
        match &element.joined {
            None => Self::Rigid { per_length: 1.0 / element.axes.length },
            Some(_) => Self::Joined(Box::new(EndLaw::of(element))),
        }
    }

    /// The values of a tube of this stiffness, and how many of them there are.
    pub(super) fn values(&self, stiffness: &TubeStiffness) -> ([f64; 8], usize) {
        match self {
            Self::Rigid { per_length } => {
                let s = stiffness;
                let [a, b, c, d] = [s.ea, s.gj, s.eiy, s.eiz].map(|value| value * per_length);
                ([a, b, c, d, 0.0, 0.0, 0.0, 0.0], 4)
            }
            Self::Joined(law) => (law.values(stiffness), 8),
        }
    }

    /// The stiffness over stretch, twist, and in each plane of bending over the sum and the difference of the slopes, each
    /// over √2: three entries a plane.
    pub(super) fn turned(&self, stiffness: &TubeStiffness) -> ([f64; 2], [[f64; 3]; 2]) {
        let ([a, b, c, d, e, f, g, h], _) = self.values(stiffness);
        match self {
            // [4 2; 2 4]·EI/L.
            Self::Rigid { .. } => ([a, b], [c, d].map(|bend| [6.0 * bend, 0.0, 2.0 * bend])),
            Self::Joined(_) => {
                let turn = |[p, q, r]: [f64; 3]| [(p + r) / 2.0 + q, (p - r) / 2.0, (p + r) / 2.0 - q];
                ([a, b], [turn([c, d, e]), turn([f, g, h])])
            }
        }
    }
}

/// Springs and releases in one plane of bending, over its two slopes against the chord.
#[derive(Debug, Clone, Default)]
struct Plane {
    /// Flexibility of the springs.
    springs: [f64; 3],
    /// Directions that releases free.
    released: Vec<[f64; 2]>,
}

/// How the stiffness over a tube's deformations follows from its section.
///
/// ```text
/// k* = (F + Σ b bᵀ/s)⁻¹ over springs s, then k* ← k* − k* b bᵀ k* / (bᵀ k* b) over releases
/// ```
///
/// b is what slipping by one at the freedom does to the deformations. Stretch, twist and the two planes of bending have no
/// part in each other, so that everything is of one or two rows.
///
/// # Source
/// Flexibilities in series; Guyan (1965), AIAA Journal 3(2), p. 380 (page from memory), for the releases.
#[derive(Debug, Clone)]
pub(super) struct EndLaw {
    length: f64,
    /// Flexibility of the springs along and about the axis; infinite where released.
    along: [f64; 2],
    /// About y and about z.
    planes: [Plane; 2],
}

impl EndLaw {
    /// The entries of the stiffness over the deformations that [`Self::values`] gives.
    pub(super) const ENTRIES: [(usize, usize); 8] = [(0, 0), (1, 1), (2, 2), (2, 3), (3, 3), (4, 4), (4, 5), (5, 5)];

    /// The law of a tube.
    pub(super) fn of(element: &Element) -> Self {
        let mut law =
            Self { length: element.axes.length, along: [0.0; 2], planes: [Plane::default(), Plane::default()] };
        let springs = element.joined.as_ref().map_or([None; 12], |joined| joined.ends().springs);
        for (freedom, spring) in springs.iter().enumerate() {
            let Some(stiffness) = *spring else { continue };
            let mut unit = Vec12::zeros();
            unit[freedom] = 1.0;
            let b = element.beam.deformations(&unit);
            for (along, b) in law.along.iter_mut().zip([b[0], b[1]]).filter(|(_, b)| *b != 0.0) {
                *along += b * b / stiffness;
            }
            for (plane, b) in law.planes.iter_mut().zip([[b[2], b[3]], [b[4], b[5]]]).filter(|(_, b)| *b != [0.0; 2]) {
                if stiffness == 0.0 {
                    plane.released.push(b);
                } else {
                    for (sum, part) in plane.springs.iter_mut().zip([b[0] * b[0], b[0] * b[1], b[1] * b[1]]) {
                        *sum += part / stiffness;
                    }
                }
            }
        }
        law
    }

    /// The entries of the stiffness over the deformations, N/m and N·m/rad.
    pub(super) fn values(&self, stiffness: &TubeStiffness) -> [f64; 8] {
        let l = self.length;
        let along = |stiffness: f64, slip: f64| if stiffness > 0.0 { 1.0 / (l / stiffness + slip) } else { 0.0 };
        let [a, b, c] = self.planes[0].values(stiffness.eiy / l);
        let [d, e, f] = self.planes[1].values(stiffness.eiz / l);
        [along(stiffness.ea, self.along[0]), along(stiffness.gj, self.along[1]), a, b, c, d, e, f]
    }
}

impl Plane {
    /// The three entries, from EI/L.
    fn values(&self, ei: f64) -> [f64; 3] {
        if ei <= 0.0 {
            return [0.0; 3];
        }
        let mut k = [4.0 * ei, 2.0 * ei, 4.0 * ei];
        if self.springs != [0.0; 3] {
            // The flexibility of [4 2; 2 4]·EI/L, and the springs'.
            let [a, b, c] = [
                1.0 / (3.0 * ei) + self.springs[0],
                -1.0 / (6.0 * ei) + self.springs[1],
                1.0 / (3.0 * ei) + self.springs[2],
            ];
            let determinant = a * c - b * b;
            k = [c / determinant, -b / determinant, a / determinant];
        }
        let whole = k;
        for [p, q] in &self.released {
            let force = [k[0] * p + k[1] * q, k[1] * p + k[2] * q];
            let resisted = p * force[0] + q * force[1];
            let without = whole[0] * p * p + 2.0 * whole[1] * p * q + whole[2] * q * q;
            if resisted <= ROUNDING * without {
                continue;
            }
            k[0] -= force[0] * force[0] / resisted;
            k[1] -= force[0] * force[1] / resisted;
            k[2] -= force[1] * force[1] / resisted;
            for (value, size) in k.iter_mut().zip([whole[0], (whole[0] * whole[2]).sqrt(), whole[2]]) {
                if value.abs() <= ROUNDING * size {
                    *value = 0.0;
                }
            }
        }
        k
    }
}
