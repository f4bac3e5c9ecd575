//! A chain's ends on arms, springs and releases.

use nalgebra::{DMatrix, SymmetricEigen};

use crate::beam::Ends;
use crate::beam::ends::{at_arms, to_joints};
use crate::beam::slip::ROUNDING;
use crate::{Mat12, Vec12};

/// Own ends that slip against the arms' ends: e = moves · a + still · f, with a the movement of the arms' ends and f the loads
/// on the own ends.
///
/// The condensation is exact: the own ends are where they are in balance.
#[derive(Debug, Clone)]
pub(super) struct Slipping {
    ends: Ends,
    freedoms: Vec<usize>,
    springs: Vec<f64>,
    moves: Mat12,
    still: Mat12,
    negative: usize,
}

impl Slipping {
    /// Of a tube with this stiffness over its own ends.
    pub(super) fn of(own: &Mat12, ends: &Ends) -> Self {
        let (freedoms, springs): (Vec<usize>, Vec<f64>) =
            ends.springs.iter().enumerate().filter_map(|(i, spring)| Some((i, (*spring)?))).unzip();
        let m = freedoms.len();
        let resisting =
            DMatrix::from_fn(m, m, |i, j| own[(freedoms[i], freedoms[j])] + if i == j { springs[i] } else { 0.0 });
        let (inverse, negative) = inverse(&resisting);
        let (mut moves, mut still) = (Mat12::identity(), Mat12::zeros());
        let pulls = DMatrix::from_fn(m, 12, |i, j| match freedoms.iter().position(|f| *f == j) {
            Some(at) => {
                if at == i {
                    springs[i]
                } else {
                    0.0
                }
            }
            None => -own[(freedoms[i], j)],
        });
        let slips = &inverse * pulls;
        for (row, &i) in freedoms.iter().enumerate() {
            for j in 0..12 {
                moves[(i, j)] = slips[(row, j)];
            }
            for (column, &j) in freedoms.iter().enumerate() {
                still[(i, j)] = inverse[(row, column)];
            }
        }
        Self { ends: *ends, freedoms, springs, moves, still, negative }
    }

    /// Ways in which the tube gives way between its joints.
    pub(super) fn negative(&self) -> usize {
        self.negative
    }

    pub(super) fn released(&self) -> impl Iterator<Item = usize> + '_ {
        self.freedoms.iter().zip(&self.springs).filter(|(_, spring)| **spring == 0.0).map(|(i, _)| *i)
    }

    /// What the joints see of the stiffness over the own ends.
    pub(super) fn stiffness(&self, own: &Mat12) -> Mat12 {
        let mut seen = self.moves.tr_mul(&(own * self.moves));
        let slips = self.moves - Mat12::identity();
        for (&i, spring) in self.freedoms.iter().zip(&self.springs) {
            let row = slips.row(i);
            seen += row.transpose() * row * *spring;
        }
        let mut half = Mat12::zeros();
        for i in 0..12 {
            half.set_row(i, &to_joints(&self.ends.arms, &seen.row(i).transpose()).transpose());
        }
        let mut whole = Mat12::zeros();
        for j in 0..12 {
            whole.set_column(j, &to_joints(&self.ends.arms, &half.column(j).into_owned()));
        }
        (whole + whole.transpose()) / 2.0
    }

    /// What reaches the joints of loads on the own ends.
    pub(super) fn loads(&self, own: &Mat12, loads: &Vec12) -> Vec12 {
        let still = self.still * loads;
        let mut passed = self.moves.tr_mul(&(loads - own * still));
        let slips = self.moves - Mat12::identity();
        for (&i, spring) in self.freedoms.iter().zip(&self.springs) {
            passed -= slips.row(i).transpose() * (*spring * still[i]);
        }
        to_joints(&self.ends.arms, &passed)
    }

    /// Movement of the own ends from the joints' and the loads on the own ends.
    pub(super) fn own(&self, loads: &Vec12, joints: &Vec12) -> Vec12 {
        self.moves * at_arms(&self.ends.arms, joints) + self.still * loads
    }

    /// Forces on the own ends carried to the joints.
    pub(super) fn to_joints(&self, forces: &Vec12) -> Vec12 {
        to_joints(&self.ends.arms, forces)
    }
}

/// The inverse over what resists or gives way, nothing where a tube is freed more than it can bear; and how many of the
/// eigenvalues are negative.
fn inverse(matrix: &DMatrix<f64>) -> (DMatrix<f64>, usize) {
    let m = matrix.nrows();
    if m == 0 {
        return (DMatrix::zeros(0, 0), 0);
    }
    // Scaled to a unit diagonal, so that metres and radians weigh alike in what counts as zero.
    let weight = |diagonal: f64| if diagonal == 0.0 { 1.0 } else { 1.0 / diagonal.abs().sqrt() };
    let scale: Vec<f64> = (0..m).map(|i| weight(matrix[(i, i)])).collect();
    let scaled = DMatrix::from_fn(m, m, |i, j| scale[i] * matrix[(i, j)] * scale[j]);
    if !scaled.iter().all(|value| value.is_finite()) {
        // Noticed once the stiffness stands; the decomposition would not end on it.
        return (scaled, 0);
    }
    let eigen = SymmetricEigen::new(scaled);
    let counted = |c: &usize| eigen.eigenvalues[*c].abs() >= ROUNDING;
    let part =
        |i: usize, j: usize, c: usize| eigen.eigenvectors[(i, c)] * eigen.eigenvectors[(j, c)] / eigen.eigenvalues[c];
    let inverse =
        DMatrix::from_fn(m, m, |i, j| (0..m).filter(counted).map(|c| part(i, j, c)).sum::<f64>() * scale[i] * scale[j]);
    (inverse, (0..m).filter(counted).filter(|c| eigen.eigenvalues[*c] < 0.0).count())
}
