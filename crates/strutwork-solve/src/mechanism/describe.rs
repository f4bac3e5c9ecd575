//! Free motions told: of the whole frame, or of parts, by the joints and bodies that move.

use nalgebra::{DMatrix, SymmetricEigen};
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, Model};

use super::basis::{independent, localise, orthonormalise};
use super::{STILL, size};
use crate::error::{Motion, Node};
use crate::numbering::Numbering;
use crate::rigid;

/// Sorts free motions into those of the whole frame and those of parts, each told by the joints and bodies that move.
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
    // Each motion over all joints and bodies, rotations times the frame's size, so that all components are lengths.
    let mut full: Vec<Vec<f64>> = motions
        .iter()
        .map(|motion| {
            (0..numbering.nodes())
                .flat_map(|node| {
                    let values = numbering.values(node, motion);
                    (0..6).map(move |i| if i < 3 { values[i] } else { values[i] * frame.size })
                })
                .collect()
        })
        .collect();
    let rigid: Vec<Vec<f64>> = rigid.iter().map(|motion| frame.spread(motion)).collect();
    if !rigid.is_empty() {
        // Only what is left beside whole-frame motions, and of that as many as are independent.
        let mut basis = rigid.clone();
        orthonormalise(&mut basis, &vec![1.0; 6 * numbering.nodes()]);
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
        told.push(part(numbering, &motion, frame.size));
    }
    told
}

fn part(numbering: &Numbering, motion: &[f64], size: f64) -> Motion {
    let most = motion.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let mut moving: Vec<(usize, [f64; 6], f64)> = motion
        .chunks_exact(6)
        .enumerate()
        .filter_map(|(node, values)| {
            let own = values.iter().fold(0.0_f64, |own, value| own.max(value.abs()));
            (own > 1e-4 * most).then(|| {
                let scaled = [0, 1, 2, 3, 4, 5].map(|i| {
                    let value = values[i] / most;
                    let value = if value.abs() < STILL { 0.0 } else { value };
                    if i < 3 { value } else { value / size }
                });
                (node, scaled, own)
            })
        })
        .collect();
    moving.sort_by(|a, b| b.2.total_cmp(&a.2).then(a.0.cmp(&b.0)));
    let named = || moving.iter().map(|(node, values, _)| (numbering.node(*node), *values));
    Motion::Part {
        joints: named()
            .filter_map(|(node, v)| if let Node::Joint(joint) = node { Some((joint, v)) } else { None })
            .collect(),
        bodies: named()
            .filter_map(|(node, v)| if let Node::Body(body) = node { Some((body, v)) } else { None })
            .collect(),
    }
}

/// Adds the whole-frame motion that leaves most joints and bodies still: least absolute deviations by reweighted least squares.
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
struct Frame {
    /// Of every node.
    places: Vec<[f64; 3]>,
    centre: [f64; 3],
    size: f64,
}

impl Frame {
    fn of(model: &Model) -> Self {
        Self { places: rigid::places(model), centre: rigid::centre(model), size: size(model) }
    }

    /// A rigid motion (slide at the centre; turn times size) at every node: six values each, rotations times size.
    fn spread(&self, motion: &[f64; 6]) -> Vec<f64> {
        let scaled: [f64; 6] = std::array::from_fn(|i| if i < 3 { motion[i] } else { motion[i] / self.size });
        let moved = |at: &[f64; 3]| {
            let [x, y, z, ..] = rigid::carried(&scaled, rigid::arm(self.centre, *at));
            [x, y, z, motion[3], motion[4], motion[5]]
        };
        self.places.iter().flat_map(moved).collect()
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
                    let cross = rigid::cross(turn, slide);
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
