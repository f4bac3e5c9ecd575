//! Local axes of a tube from its ends and its roll angle.

use nalgebra::{Matrix3, Vector3};

use crate::{Mat12, Vec12};

/// A tube this close to vertical takes the rule for vertical tubes: 0.1°, as a sine.
const NEAR_VERTICAL: f64 = 0.001_745_328_365_898_309;

/// A tube whose ends coincide has no direction.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoLength;

/// Local axes of a tube, and its length.
///
/// # Signs and order
/// x from end 1 to end 2. z in the vertical plane that contains x, on the side of global +z; for a tube within 0.1° of
/// vertical z is global −x (pointing up) or +x (pointing down), made perpendicular to x. y = z × x. Then y and z turn
/// about x by the roll angle, right-handed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LocalAxes {
    /// Rows are the local x, y, z in global components: local = `rotation` · global.
    pub rotation: Matrix3<f64>,
    /// Distance between the ends, m.
    pub length: f64,
}

impl LocalAxes {
    /// The axes of a tube between two points, m, turned by `roll`, rad.
    ///
    /// # Errors
    /// [`NoLength`] when the points coincide or are not finite.
    ///
    /// # Example
    /// ```
    /// // A tube along global x, unrolled: local axes are the global ones.
    /// let axes = strutwork_element::LocalAxes::between([0.0; 3], [2.0, 0.0, 0.0], 0.0).unwrap();
    /// assert_eq!(axes.rotation, nalgebra::Matrix3::identity());
    /// assert_eq!(axes.length, 2.0);
    /// ```
    pub fn between(from: [f64; 3], to: [f64; 3], roll: f64) -> Result<Self, NoLength> {
        let along = Vector3::from(to) - Vector3::from(from);
        let length = along.norm();
        if !(length > 0.0 && length.is_finite()) {
            return Err(NoLength);
        }
        let x = along / length;
        let up = if x.x.hypot(x.y) < NEAR_VERTICAL { Vector3::new(-x.z.signum(), 0.0, 0.0) } else { Vector3::z() };
        let z = (up - x * up.dot(&x)).normalize();
        let y = z.cross(&x);
        let (sin, cos) = roll.sin_cos();
        let rolled_y = y * cos + z * sin;
        let rolled_z = z * cos - y * sin;
        Ok(Self { rotation: Matrix3::from_rows(&[x.transpose(), rolled_y.transpose(), rolled_z.transpose()]), length })
    }

    /// A vector's local components from its global ones.
    pub fn to_local(&self, global: [f64; 3]) -> [f64; 3] {
        (self.rotation * Vector3::from(global)).into()
    }

    /// Twelve local values from twelve global ones.
    pub fn vec_to_local(&self, global: &Vec12) -> Vec12 {
        self.turn(global, &self.rotation)
    }

    /// Twelve global values from twelve local ones.
    pub fn vec_to_global(&self, local: &Vec12) -> Vec12 {
        self.turn(local, &self.rotation.transpose())
    }

    /// A local stiffness in global axes: Tᵀ k T.
    pub fn mat_to_global(&self, local: &Mat12) -> Mat12 {
        let mut global = Mat12::zeros();
        for i in (0..12).step_by(3) {
            for j in (0..=i).step_by(3) {
                let block: Matrix3<f64> = local.fixed_view::<3, 3>(i, j).into_owned();
                let turned = self.rotation.tr_mul(&(block * self.rotation));
                global.fixed_view_mut::<3, 3>(i, j).copy_from(&turned);
                if i != j {
                    global.fixed_view_mut::<3, 3>(j, i).copy_from(&turned.transpose());
                }
            }
        }
        global
    }

    fn turn(&self, values: &Vec12, rotation: &Matrix3<f64>) -> Vec12 {
        let mut turned = Vec12::zeros();
        for i in (0..12).step_by(3) {
            let part = rotation * values.fixed_rows::<3>(i);
            turned.fixed_rows_mut::<3>(i).copy_from(&part);
        }
        turned
    }
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;
    use proptest::prelude::*;

    use super::*;

    fn axes(from: [f64; 3], to: [f64; 3], roll_deg: f64) -> [[f64; 3]; 3] {
        let rotation = LocalAxes::between(from, to, roll_deg.to_radians()).unwrap().rotation;
        [0, 1, 2].map(|row| [rotation[(row, 0)], rotation[(row, 1)], rotation[(row, 2)]])
    }

    #[test]
    fn a_tube_along_y_keeps_z_up() {
        let [x, y, z] = axes([0.0; 3], [0.0, 3.0, 0.0], 0.0);
        assert_eq!((x, y, z), ([0.0, 1.0, 0.0], [-1.0, 0.0, 0.0], [0.0, 0.0, 1.0]));
    }

    #[test]
    fn vertical_tubes_keep_y_along_global_y() {
        let [x, y, z] = axes([0.0; 3], [0.0, 0.0, 1.0], 0.0);
        assert_eq!((x, y, z), ([0.0, 0.0, 1.0], [0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]));
        let [x, y, z] = axes([0.0; 3], [0.0, 0.0, -1.0], 0.0);
        assert_eq!((x, y, z), ([0.0, 0.0, -1.0], [0.0, 1.0, 0.0], [1.0, 0.0, 0.0]));
    }

    #[test]
    fn the_vertical_rule_ends_at_a_tenth_of_a_degree() {
        let lean = |degrees: f64| axes([0.0; 3], [0.0, degrees.to_radians().sin(), degrees.to_radians().cos()], 0.0);
        // Just inside: y stays near global +y. Just outside: y = z × x lies along global −x for a lean to +y.
        assert_relative_eq!(lean(0.099)[1][1], 1.0, epsilon = 1e-5);
        assert_relative_eq!(lean(0.101)[1][0], -1.0, epsilon = 1e-5);
    }

    #[test]
    fn roll_turns_y_towards_z() {
        let [_, y, z] = axes([0.0; 3], [1.0, 0.0, 0.0], 90.0);
        assert_relative_eq!(y[2], 1.0);
        assert_relative_eq!(z[1], -1.0);
    }

    #[test]
    fn ends_at_one_place_have_no_axes() {
        assert_eq!(LocalAxes::between([1.0; 3], [1.0; 3], 0.0), Err(NoLength));
        assert_eq!(LocalAxes::between([1.0; 3], [f64::NAN; 3], 0.0), Err(NoLength));
    }

    proptest! {
        #[test]
        fn axes_are_a_right_handed_frame(to in prop::array::uniform3(-3.0..3.0_f64), roll in -4.0..4.0_f64) {
            prop_assume!(to.iter().map(|v| v * v).sum::<f64>() > 1e-4);
            let rotation = LocalAxes::between([0.0; 3], to, roll).unwrap().rotation;
            prop_assert!((rotation * rotation.transpose() - Matrix3::identity()).norm() < 1e-12);
            prop_assert!((rotation.determinant() - 1.0).abs() < 1e-12);
        }
    }
}
