//! Consistent end forces of what acts between a tube's ends.

use super::Beam;
use crate::Vec12;

/// What acts between a tube's ends, local axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SpanLoad {
    /// Linear from end to end, N/m of tube.
    Line {
        /// At end 1.
        from: [f64; 3],
        /// At end 2.
        to: [f64; 3],
    },
    /// At one place.
    Point {
        /// Distance from end 1, m, 0 to L.
        at: f64,
        /// N.
        force: [f64; 3],
        /// N·m.
        moment: [f64; 3],
    },
    /// Strain that the tube would take if nothing held it.
    Free {
        /// Axial strain (thermal: α·ΔT).
        strain: f64,
        /// Change of axial strain along y, 1/m (thermal: α·gradient; positive: the +y side grows longer).
        strain_y: f64,
        /// Change of axial strain along z, 1/m.
        strain_z: f64,
    },
}

impl SpanLoad {
    /// The load times a factor.
    #[must_use]
    pub fn times(&self, factor: f64) -> Self {
        let by = |vector: [f64; 3]| vector.map(|value| value * factor);
        match *self {
            Self::Line { from, to } => Self::Line { from: by(from), to: by(to) },
            Self::Point { at, force, moment } => Self::Point { at, force: by(force), moment: by(moment) },
            Self::Free { strain, strain_y, strain_z } => {
                let [strain, strain_y, strain_z] = by([strain, strain_y, strain_z]);
                Self::Free { strain, strain_y, strain_z }
            }
        }
    }
}

impl Beam {
    /// The loads at the two ends that do the same work as the span load: f = ∫Nᵀq dx.
    ///
    /// With cubic shape functions these give the exact displacements at the ends. The forces of a tube clamped at both
    /// ends are their negatives.
    ///
    /// # Units and shapes
    /// 12 values, N and N·m, local axes.
    ///
    /// # Source
    /// Linear load and point load: Roark's Formulas for Stress and Strain, 7th ed., Table 8.1, cases 2d and 1d
    /// (clamped ends; from memory). Point moment: derivative of the point load's. Free strain: EA·ε and EI·κ (derived).
    pub fn end_loads(&self, load: &SpanLoad) -> Vec12 {
        let l = self.length;
        let mut f = Vec12::zeros();
        match *load {
            SpanLoad::Line { from, to } => {
                f[0] = l * (2.0 * from[0] + to[0]) / 6.0;
                f[6] = l * (from[0] + 2.0 * to[0]) / 6.0;
                for (axis, r, sign) in [(1, 5, 1.0), (2, 4, -1.0)] {
                    let (a, b) = (from[axis], to[axis]);
                    f[axis] = l * (7.0 * a + 3.0 * b) / 20.0;
                    f[axis + 6] = l * (3.0 * a + 7.0 * b) / 20.0;
                    f[r] = sign * l * l * (3.0 * a + 2.0 * b) / 60.0;
                    f[r + 6] = -sign * l * l * (2.0 * a + 3.0 * b) / 60.0;
                }
            }
            SpanLoad::Point { at, force, moment } => {
                let (a, b) = (at, l - at);
                f[0] = force[0] * b / l;
                f[6] = force[0] * a / l;
                f[3] = moment[0] * b / l;
                f[9] = moment[0] * a / l;
                for (axis, r, sign) in [(1, 5, 1.0), (2, 4, -1.0)] {
                    let p = force[axis];
                    // The moment about the axis that bends in this plane, positive with the slope.
                    let m = sign * moment[r - 3];
                    let l2 = l * l;
                    f[axis] = p * b * b * (3.0 * a + b) / (l2 * l) - 6.0 * a * b / (l2 * l) * m;
                    f[axis + 6] = p * a * a * (a + 3.0 * b) / (l2 * l) + 6.0 * a * b / (l2 * l) * m;
                    f[r] = sign * (p * a * b * b / l2 + b * (b - 2.0 * a) / l2 * m);
                    f[r + 6] = sign * (-p * a * a * b / l2 + a * (a - 2.0 * b) / l2 * m);
                }
            }
            SpanLoad::Free { strain, strain_y, strain_z } => {
                let push = self.youngs * self.area * strain;
                f[0] = -push;
                f[6] = push;
                let mz = self.youngs * self.iz * strain_y;
                f[5] = mz;
                f[11] = -mz;
                let my = self.youngs * self.iy * strain_z;
                f[4] = -my;
                f[10] = my;
            }
        }
        f
    }
}
