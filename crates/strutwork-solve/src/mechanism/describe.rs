//! Free motions told: of the whole frame, or of parts, by the joints that move.

use nalgebra::{DMatrix, SymmetricEigen};
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, JointId, Model};

use super::basis::{independent, localise, orthonormalise};
use super::{STILL, size};
use crate::error::Motion;
use crate::numbering::Numbering;

/// Sorts free motions into those of the whole frame and those of parts, each told by the joints that move.
pub(crate) fn describe(
    model: &Model,
    numbering: &Numbering,
    supports: &[Support],
    motions: &[Vec<f64>],
) -> Vec<Motion> {
    let frame = Frame::of(model);
    let (rigid, whole) = frame.whole_motions(supports);
    let mut told = whole;
    let parts = motions.len().saturating_sub(rigid.len());
    if parts == 0 {
        return told;
    }
    // Each motion over all joints, rotations times the frame's size, so that all components are lengths.
    let mut full: Vec<Vec<f64>> = motions
        .iter()
        .map(|motion| {
            (0..numbering.joints())
                .flat_map(|joint| {
                    let values = numbering.joint_values(joint, motion);
                    (0..6).map(move |i| if i < 3 { values[i] } else { values[i] * frame.size })
                })
                .collect()
        })
        .collect();
    let rigid: Vec<Vec<f64>> = rigid.iter().map(|motion| frame.spread(motion)).collect();
    if !rigid.is_empty() {
        // Only what is left beside whole-frame motions, and of that as many as are independent.
        let mut basis = rigid.clone();
        orthonormalise(&mut basis, &vec![1.0; 6 * numbering.joints()]);
        for motion in &mut full {
            for unit in &basis {
                let along: f64 = motion.iter().zip(unit).map(|(a, b)| a * b).sum();
                for (value, b) in motion.iter_mut().zip(unit) {
                    *value -= along * b;
                }
            }
        }
        full = independent(&full, parts);
    }
    localise(&mut full);
    for mut motion in full {
        still_most(&mut motion, &rigid);
        told.push(part(&motion, frame.size));
    }
    told
}

fn part(motion: &[f64], size: f64) -> Motion {
    let most = motion.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let mut joints: Vec<(JointId, [f64; 6], f64)> = motion
        .chunks_exact(6)
        .enumerate()
        .filter_map(|(joint, values)| {
            let own = values.iter().fold(0.0_f64, |own, value| own.max(value.abs()));
            (own > 1e-4 * most).then(|| {
                let scaled = [0, 1, 2, 3, 4, 5].map(|i| {
                    let value = values[i] / most;
                    let value = if value.abs() < STILL { 0.0 } else { value };
                    if i < 3 { value } else { value / size }
                });
                (JointId::new(joint), scaled, own)
            })
        })
        .collect();
    joints.sort_by(|a, b| b.2.total_cmp(&a.2).then(a.0.cmp(&b.0)));
    Motion::Part { joints: joints.into_iter().map(|(joint, values, _)| (joint, values)).collect() }
}

/// Adds the whole-frame motion that leaves most joints still: least absolute deviations by reweighted least squares.
fn still_most(motion: &mut [f64], rigid: &[Vec<f64>]) {
    if rigid.is_empty() {
        return;
    }
    let original = motion.to_vec();
    for _ in 0..30 {
        let weights: Vec<f64> = motion
            .chunks_exact(6)
            .flat_map(|values| {
                let own = values.iter().map(|v| v * v).sum::<f64>().sqrt();
                [1.0 / own.max(1e-9); 6]
            })
            .collect();
        let k = rigid.len();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).zip(&weights).map(|((a, b), w)| a * b * w).sum::<f64>();
        let normal = DMatrix::from_fn(k, k, |i, j| dot(&rigid[i], &rigid[j]));
        let right = nalgebra::DVector::from_fn(k, |i, _| -dot(&rigid[i], &original));
        let Some(shares) = normal.cholesky().map(|factor| factor.solve(&right)) else { return };
        motion.copy_from_slice(&original);
        for (share, mode) in shares.iter().zip(rigid) {
            for (value, m) in motion.iter_mut().zip(mode) {
                *value += share * m;
            }
        }
    }
}

/// The frame's place and size, for motions of the whole.
struct Frame<'m> {
    model: &'m Model,
    centre: [f64; 3],
    size: f64,
}

impl<'m> Frame<'m> {
    fn of(model: &'m Model) -> Self {
        let count = model.joints().len() as f64;
        let mut centre = [0.0; 3];
        for joint in model.joints() {
            for (sum, x) in centre.iter_mut().zip(joint.at) {
                *sum += x / count;
            }
        }
        Self { model, centre, size: size(model) }
    }

    /// A rigid motion (slide at the centre; turn times size) at every joint: six values each, rotations times size.
    fn spread(&self, motion: &[f64; 6]) -> Vec<f64> {
        let turn = [motion[3], motion[4], motion[5]].map(|t| t / self.size);
        self.model
            .joints()
            .iter()
            .flat_map(|joint| {
                let r = [0, 1, 2].map(|i| joint.at[i] - self.centre[i]);
                [
                    motion[0] + turn[1] * r[2] - turn[2] * r[1],
                    motion[1] + turn[2] * r[0] - turn[0] * r[2],
                    motion[2] + turn[0] * r[1] - turn[1] * r[0],
                    motion[3],
                    motion[4],
                    motion[5],
                ]
            })
            .collect()
    }

    /// The motions of the whole frame that the supports do not hold: as six shares, and told.
    fn whole_motions(&self, supports: &[Support]) -> (Vec<[f64; 6]>, Vec<Motion>) {
        let mut gram = DMatrix::<f64>::zeros(6, 6);
        let unit: Vec<Vec<f64>> = (0..6)
            .map(|i| {
                let mut motion = [0.0; 6];
                motion[i] = 1.0;
                self.spread(&motion)
            })
            .collect();
        for support in supports {
            for dof in Dof::ALL {
                if support.holds[dof] != Hold::Free {
                    let place = 6 * support.joint.index() + dof.index();
                    for i in 0..6 {
                        for j in 0..6 {
                            gram[(i, j)] += unit[i][place] * unit[j][place];
                        }
                    }
                }
            }
        }
        let eigen = SymmetricEigen::new(gram);
        let mut free: Vec<Vec<f64>> = (0..6)
            .filter(|i| eigen.eigenvalues[*i] < 1e-12)
            .map(|i| eigen.eigenvectors.column(i).iter().copied().collect())
            .collect();
        localise(&mut free);
        let shares: Vec<[f64; 6]> = free.iter().map(|v| [0, 1, 2, 3, 4, 5].map(|i| v[i])).collect();
        let told = shares
            .iter()
            .map(|s| {
                let slide = [s[0], s[1], s[2]];
                let turn = [s[3], s[4], s[5]].map(|t| t / self.size);
                let rate: f64 = turn.iter().map(|t| t * t).sum();
                // The point of the axis nearest the centre: c + ω × v / ω².
                let about = if rate > 0.0 {
                    let cross = [
                        turn[1] * slide[2] - turn[2] * slide[1],
                        turn[2] * slide[0] - turn[0] * slide[2],
                        turn[0] * slide[1] - turn[1] * slide[0],
                    ];
                    [0, 1, 2].map(|i| self.centre[i] + cross[i] / rate)
                } else {
                    self.centre
                };
                Motion::Whole { slide, turn, about }
            })
            .collect();
        (shares, told)
    }
}
