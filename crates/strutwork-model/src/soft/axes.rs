//! Local axes of a tube, after the rule in the opening of the crate.

/// A tube this close to vertical takes the rule for vertical tubes: 0.1°, as a sine.
const NEAR_VERTICAL: f64 = 0.001_745_328_365_898_309;

/// Unit vectors along local x, y, z, global axes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Axes(pub(super) [[f64; 3]; 3]);

impl Axes {
    /// Axes of a tube between two points, turned by `roll`, rad; `None` where the points coincide.
    pub(super) fn between(from: [f64; 3], to: [f64; 3], roll: f64) -> Option<Self> {
        let x = unit([0, 1, 2].map(|axis| to[axis] - from[axis]))?;
        let up = if x[0].hypot(x[1]) < NEAR_VERTICAL { [-x[2].signum(), 0.0, 0.0] } else { [0.0, 0.0, 1.0] };
        let lean = dot(up, x);
        let z = unit([0, 1, 2].map(|axis| up[axis] - lean * x[axis]))?;
        let y = cross(z, x);
        let (sin, cos) = roll.sin_cos();
        Some(Self([
            x,
            [0, 1, 2].map(|axis| y[axis] * cos + z[axis] * sin),
            [0, 1, 2].map(|axis| z[axis] * cos - y[axis] * sin),
        ]))
    }
}

fn unit(vector: [f64; 3]) -> Option<[f64; 3]> {
    let length = dot(vector, vector).sqrt();
    (length > 0.0 && length.is_finite()).then(|| vector.map(|part| part / length))
}

pub(super) fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use strutwork_element::LocalAxes;

    use super::*;

    proptest! {
        /// The solver's axes, which results and sections go by.
        #[test]
        fn axes_are_those_of_the_solver(
            to in prop_oneof![prop::array::uniform3(-2.0..2.0_f64), Just([0.0, 0.0, 1.0]), Just([0.0005, 0.0, -1.0])],
            roll in -4.0..4.0_f64,
        ) {
            prop_assume!(dot(to, to) > 1e-4);
            let ours = Axes::between([0.0; 3], to, roll).unwrap().0;
            let theirs = LocalAxes::between([0.0; 3], to, roll).unwrap().rotation;
            for (row, axis) in ours.iter().enumerate() {
                for (column, part) in axis.iter().enumerate() {
                    prop_assert!((part - theirs[(row, column)]).abs() < 1e-14);
                }
            }
        }
    }
}
