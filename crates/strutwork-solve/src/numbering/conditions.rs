//! What supports at a body's joints demand of the body: linear conditions on its six freedoms.

use nalgebra::{DMatrix, DVector, Matrix6, Vector6};
use strutwork_model::ids::Id;
use strutwork_model::{Dof, JointId};

use crate::rigid;

/// An entry below this share of the greatest counts as nil: the condition follows from the others.
const NIL: f64 = 1e-9;
/// Prescribed movements may miss a rigid motion by this share of themselves: what is left of rounding them in a file.
const ROUNDING: f64 = 1e-6;

/// The conditions `A·b = s` on the movement b of a body, solved for as many of its freedoms as they determine.
///
/// ```text
/// b = own equations + map · own equations + give · s        reactions = share · g
/// ```
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Conditions {
    /// The body's node.
    pub body: usize,
    /// The held freedoms, one a condition.
    pub rows: Vec<(usize, Dof)>,
    /// Freedoms of the body that follow from the others.
    pub dependent: [bool; 6],
    /// Rows of the dependent freedoms over the others.
    pub map: Matrix6<f64>,
    /// Movement of the body from what is prescribed, 6 × conditions.
    give: DMatrix<f64>,
    /// Combinations of what is prescribed that must come to nothing, and the condition that each leaves over.
    spare: DMatrix<f64>,
    /// Reactions from the force that they must give the body at its reference point, conditions × 6: those of the least sum
    /// of squares where there are more than are needed.
    pub share: DMatrix<f64>,
}

/// Movements prescribed at a body's joints that a rigid body cannot make.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Misfit {
    /// The body's node.
    pub body: usize,
    /// A joint whose movement does not fit.
    pub joint: usize,
    /// The freedom.
    pub dof: Dof,
    /// By how much, m or rad.
    pub by: f64,
}

impl Conditions {
    /// The conditions that these held freedoms (joint, freedom, arm of the joint) put on a body.
    pub(crate) fn of(body: usize, held: Vec<(usize, Dof, [f64; 3])>) -> Self {
        let m = held.len();
        let longest = held.iter().map(|(_, _, arm)| rigid::norm(arm)).fold(0.0, f64::max);
        let size = if longest > 0.0 { longest } else { 1.0 };
        // Rotations weigh as the angle times the body's size.
        let column_scale: [f64; 6] = std::array::from_fn(|column| if column < 3 { 1.0 } else { 1.0 / size });
        let row_scale: Vec<f64> = held.iter().map(|(_, dof, _)| if dof.is_rotation() { size } else { 1.0 }).collect();
        let a = DMatrix::from_fn(m, 6, |row, column| {
            let (_, dof, arm) = held[row];
            row_scale[row] * rigid::matrix(arm)[(dof.index(), column)] * column_scale[column]
        });
        // What is not finite is refused once the stiffness stands; the decomposition would not end on it.
        let finite = a.iter().all(|value| value.is_finite());
        let inverse = finite.then(|| a.transpose().pseudo_inverse(NIL).ok()).flatten();
        let inverse = inverse.unwrap_or_else(|| DMatrix::zeros(m, 6));
        let share =
            DMatrix::from_fn(m, 6, |row, column| row_scale[row] * inverse[(row, column)] * column_scale[column]);
        let (reduced, steps, pivots) = eliminate(a);
        let rank = pivots.len();
        let mut dependent = [false; 6];
        for &column in &pivots {
            dependent[column] = true;
        }
        let mut map = Matrix6::zeros();
        let mut give = DMatrix::zeros(6, m);
        for (row, &column) in pivots.iter().enumerate() {
            for other in (0..6).filter(|other| !dependent[*other]) {
                map[(column, other)] = -column_scale[column] * reduced[(row, other)] / column_scale[other];
            }
            for i in 0..m {
                give[(column, i)] = column_scale[column] * steps[(row, i)] * row_scale[i];
            }
        }
        let spare = DMatrix::from_fn(m - rank, m, |row, i| steps[(rank + row, i)] * row_scale[i]);
        let rows = held.into_iter().map(|(joint, dof, _)| (joint, dof)).collect();
        Self { body, rows, dependent, map, give, spare, share }
    }

    /// Whether there are more conditions than determine the body's movement.
    pub(crate) fn redundant(&self) -> bool {
        self.spare.nrows() > 0
    }

    /// Movement that what is prescribed at the joints gives the body.
    ///
    /// # Errors
    /// Where a rigid body cannot move like that.
    pub(crate) fn moved(&self, settlements: &[(JointId, [f64; 6])]) -> Result<[f64; 6], Misfit> {
        let wanted = DVector::from_iterator(
            self.rows.len(),
            self.rows.iter().map(|(joint, dof)| {
                let found = settlements.iter().find(|(settled, _)| settled.index() == *joint);
                found.map_or(0.0, |(_, values)| values[dof.index()])
            }),
        );
        for combination in self.spare.row_iter() {
            let parts: Vec<f64> = combination.iter().zip(wanted.iter()).map(|(c, w)| c * w).collect();
            let left: f64 = parts.iter().sum();
            let gross: f64 = parts.iter().map(|part| part.abs()).sum();
            if left.abs() > ROUNDING * gross {
                let worst =
                    (0..parts.len()).fold(0, |worst, i| if parts[i].abs() > parts[worst].abs() { i } else { worst });
                let (joint, dof) = self.rows[worst];
                return Err(Misfit { body: self.body, joint, dof, by: left / combination[worst] });
            }
        }
        let moved: Vector6<f64> = Vector6::from_iterator((&self.give * wanted).iter().copied());
        Ok(moved.into())
    }
}

/// Gauss–Jordan elimination with the largest entry as pivot: the reduced matrix, the row operations, and the column of each
/// pivot row.
fn eliminate(mut a: DMatrix<f64>) -> (DMatrix<f64>, DMatrix<f64>, Vec<usize>) {
    let (m, columns) = a.shape();
    let mut steps = DMatrix::identity(m, m);
    let mut pivots: Vec<usize> = Vec::new();
    for step in 0..m.min(columns) {
        let mut best = (0, 0, 0.0_f64);
        for row in step..m {
            for column in (0..columns).filter(|column| !pivots.contains(column)) {
                // The first of equals.
                if a[(row, column)].abs() > best.2 * (1.0 + NIL) {
                    best = (row, column, a[(row, column)].abs());
                }
            }
        }
        let (row, column, size) = best;
        if size < NIL {
            break;
        }
        a.swap_rows(step, row);
        steps.swap_rows(step, row);
        let divisor = a[(step, column)];
        a.row_mut(step).iter_mut().for_each(|value| *value /= divisor);
        steps.row_mut(step).iter_mut().for_each(|value| *value /= divisor);
        for other in (0..m).filter(|other| *other != step) {
            let factor = a[(other, column)];
            if factor != 0.0 {
                for j in 0..columns {
                    a[(other, j)] -= factor * a[(step, j)];
                }
                for j in 0..m {
                    steps[(other, j)] -= factor * steps[(step, j)];
                }
            }
        }
        pivots.push(column);
    }
    (a, steps, pivots)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three joints of a body, each held along z: the body keeps three freedoms, and its joints stay where they are.
    #[test]
    fn held_joints_stay_whatever_the_body_still_can_do() {
        let arms = [[0.4, 0.3, 0.1], [-0.5, 0.2, 0.0], [0.1, -0.5, -0.1]];
        let held = arms.iter().enumerate().map(|(joint, arm)| (joint, Dof::Uz, *arm)).collect();
        let conditions = Conditions::of(9, held);
        assert_eq!(conditions.dependent.iter().filter(|d| **d).count(), 3);
        assert!(!conditions.redundant());
        for free in (0..6).filter(|dof| !conditions.dependent[*dof]) {
            let mut own = Vector6::zeros();
            own[free] = 1.0;
            let motion: [f64; 6] = (own + conditions.map * own).into();
            for arm in arms {
                assert!(rigid::carried(&motion, arm)[2].abs() < 1e-14);
            }
        }
        // What is prescribed is met.
        let settled: Vec<(JointId, [f64; 6])> =
            (0..3).map(|i| (JointId::new(i), [0.0, 0.0, 1e-3 * (i as f64 + 1.0), 0.0, 0.0, 0.0])).collect();
        let moved = conditions.moved(&settled).unwrap();
        for (i, arm) in arms.iter().enumerate() {
            assert!((rigid::carried(&moved, *arm)[2] - 1e-3 * (i as f64 + 1.0)).abs() < 1e-16);
        }
    }

    #[test]
    fn four_joints_held_along_z_are_one_too_many_and_must_settle_in_a_plane() {
        let arms = [[0.5, 0.5, 0.0], [-0.5, 0.5, 0.0], [-0.5, -0.5, 0.0], [0.5, -0.5, 0.0]];
        let held = arms.iter().enumerate().map(|(joint, arm)| (joint, Dof::Uz, *arm)).collect();
        let conditions = Conditions::of(9, held);
        assert!(conditions.redundant());
        let settle = |values: [f64; 4]| -> Vec<(JointId, [f64; 6])> {
            values.iter().enumerate().map(|(i, v)| (JointId::new(i), [0.0, 0.0, *v, 0.0, 0.0, 0.0])).collect()
        };
        assert!(conditions.moved(&settle([2e-3, 1e-3, 0.0, 1e-3])).is_ok());
        let misfit = conditions.moved(&settle([2e-3, 0.0, 0.0, 0.0])).unwrap_err();
        assert!((misfit.by.abs() - 2e-3).abs() < 1e-15, "{misfit:?}");
        // A force down at the reference point is shared evenly.
        let shares = &conditions.share * DVector::from_column_slice(&[0.0, 0.0, 8.0, 0.0, 0.0, 0.0]);
        assert!(shares.iter().all(|share| (share - 2.0).abs() < 1e-12), "{shares}");
    }
}
