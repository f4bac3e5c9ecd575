//! Ways in which a frame can move without resistance: found from the near-singular part of the stiffness, not from a pivot.

use nalgebra::{DMatrix, SymmetricEigen};
use strutwork_element::Vec12;
use strutwork_model::ids::Id;
use strutwork_model::model::{Hold, Support};
use strutwork_model::{Dof, JointId, Model};

use crate::assembly::System;
use crate::elements::Elements;
use crate::error::Motion;
use crate::linear::Symbolic;
use crate::numbering::Numbering;
use crate::results::LeftOut;

/// Energy of a motion over that of the same displacements, each freedom moved alone, below which nothing resists it.
/// Rounding leaves about 1e-20, the softest sound frames keep above 1e-13.
const NO_RESISTANCE: f64 = 1e-14;
/// The same for one joint's own block, which carries the rounding of its entries.
const NO_JOINT_RESISTANCE: f64 = 1e-13;
/// Stiffness added while looking, as a share of the diagonal.
const SHIFT: f64 = 1e-9;
/// Rounds of inverse iteration.
const ROUNDS: usize = 10;
/// A component below this share of the largest counts as still.
const STILL: f64 = 1e-6;

/// Slides or turns of single joints that nothing stiffens: a ball-jointed truss' rotations, a plane truss' way out of its
/// plane.
///
/// Only joints that a released tube reaches can have one.
pub(crate) fn unstiffened(elements: &Elements, numbering: &Numbering, system: &System) -> Vec<LeftOut> {
    let mut suspect = vec![false; numbering.joints()];
    // What the joint's tubes would offer unreleased, as the scale of each kind of freedom.
    let mut scale = vec![[0.0_f64; 2]; numbering.joints()];
    for element in elements.iter() {
        let k = element.beam.stiffness();
        for joint in element.joints {
            suspect[joint] |= element.released.is_some();
            scale[joint][0] = scale[joint][0].max(k[(0, 0)]);
            scale[joint][1] = scale[joint][1].max(k[(3, 3)]).max(k[(4, 4)]).max(k[(5, 5)]);
        }
    }
    let (offsets, _, values) = system.stiffness().csc_data();
    let mut found = Vec::new();
    for joint in (0..numbering.joints()).filter(|joint| suspect[*joint]) {
        let all: Vec<(usize, usize)> = numbering.free(joint).collect();
        // Slides and turns apart: an arm that swings about a hinge does both at its tip, and is a mechanism.
        for turns in [false, true] {
            let free: Vec<(usize, usize)> = all.iter().copied().filter(|(dof, _)| (*dof >= 3) == turns).collect();
            if free.is_empty() {
                continue;
            }
            let size = scale[joint][usize::from(turns)];
            let block = DMatrix::from_fn(free.len(), free.len(), |i, j| {
                let (low, high) = (free[i.min(j)].1, free[i.max(j)].1);
                values[offsets[low] + high - low] / size
            });
            let eigen = SymmetricEigen::new(block);
            let mut motions: Vec<Vec<f64>> = (0..free.len())
                .filter(|i| eigen.eigenvalues[*i] < NO_JOINT_RESISTANCE)
                .map(|i| eigen.eigenvectors.column(i).iter().copied().collect())
                .collect();
            localise(&mut motions);
            for motion in motions {
                let mut direction = [0.0; 6];
                let norm = motion.iter().map(|v| v * v).sum::<f64>().sqrt();
                for ((dof, _), value) in free.iter().zip(&motion) {
                    direction[*dof] = value / norm;
                }
                let dof = Dof::ALL[largest(&direction)];
                found.push(LeftOut { joint: JointId::new(joint), dof, direction });
            }
        }
    }
    found
}

/// Motions over the equations that nothing resists: an independent set of all of them, each scaled to largest component 1.
pub(crate) fn free_motions(
    elements: &Elements,
    numbering: &Numbering,
    system: &System,
    symbolic: &Symbolic,
    supports: &[Support],
    grounded: &[LeftOut],
    typical: [f64; 2],
) -> Vec<Vec<f64>> {
    let n = numbering.len();
    let diagonal = shifted_diagonal(system);
    let mut shifted = system.clone();
    for (equation, d) in diagonal.iter().enumerate() {
        shifted.add_diagonal(equation, SHIFT * d);
    }
    let Ok(factored) = symbolic.factor(shifted.stiffness()) else { return Vec::new() };
    let springs = springs(numbering, supports);
    let mut width = 12.min(n);
    loop {
        let mut block: Vec<Vec<f64>> = (0..width).map(|column| start_vector(n, column as u64 + 1)).collect();
        for _ in 0..ROUNDS {
            for vector in &mut block {
                for (value, d) in vector.iter_mut().zip(&diagonal) {
                    *value *= d;
                }
                factored.solve(vector, 1);
            }
            orthonormalise(&mut block, &diagonal);
        }
        let energies = energies(elements, numbering, &springs, grounded, typical, &block);
        let eigen = SymmetricEigen::new(energies);
        let free: Vec<usize> = (0..width).filter(|i| eigen.eigenvalues[*i] < NO_RESISTANCE).collect();
        if free.len() == width && width < n {
            width = (2 * width).min(n);
            continue;
        }
        return free
            .into_iter()
            .map(|i| {
                let mut motion = vec![0.0; n];
                for (share, vector) in eigen.eigenvectors.column(i).iter().zip(&block) {
                    for (sum, value) in motion.iter_mut().zip(vector) {
                        *sum += share * value;
                    }
                }
                motion
            })
            .collect();
    }
}

/// Recombines free motions so that independent ones come apart; rotations weigh as the frame's size times the angle.
pub(crate) fn come_apart(numbering: &Numbering, motions: &mut [Vec<f64>], size: f64) {
    let weight = |equation: usize| if numbering.freedom(equation).1.is_rotation() { size } else { 1.0 };
    for motion in motions.iter_mut() {
        motion.iter_mut().enumerate().for_each(|(equation, value)| *value *= weight(equation));
    }
    localise(motions);
    for motion in motions.iter_mut() {
        motion.iter_mut().enumerate().for_each(|(equation, value)| *value /= weight(equation));
    }
}

/// Whether a motion only turns joints without moving any.
pub(crate) fn only_turns(numbering: &Numbering, motion: &[f64], size: f64) -> bool {
    let mut slide = 0.0_f64;
    let mut turn = 0.0_f64;
    for (equation, value) in motion.iter().enumerate() {
        match numbering.freedom(equation).1.is_rotation() {
            true => turn = turn.max(value.abs() * size),
            false => slide = slide.max(value.abs()),
        }
    }
    slide <= STILL * turn
}

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

/// Half the diagonal of the box around the frame, m; 1 for a frame without extent.
pub(crate) fn size(model: &Model) -> f64 {
    let extent = |axis: usize| {
        let values = || model.joints().iter().map(|joint| joint.at[axis]);
        values().fold(f64::MIN, f64::max) - values().fold(f64::MAX, f64::min)
    };
    let size = (0..3).map(|axis| extent(axis).powi(2)).sum::<f64>().sqrt() / 2.0;
    if size > 0.0 { size } else { 1.0 }
}

/// The diagonal, with a floor for freedoms that nothing stiffens.
fn shifted_diagonal(system: &System) -> Vec<f64> {
    let diagonal = system.diagonal();
    let most = diagonal.iter().copied().fold(0.0, f64::max);
    diagonal.into_iter().map(|d| d.max(1e-9 * most)).collect()
}

/// Support springs by equation.
fn springs(numbering: &Numbering, supports: &[Support]) -> Vec<(usize, f64)> {
    supports
        .iter()
        .flat_map(|support| Dof::ALL.map(|dof| (support.joint.index(), dof, support.holds[dof])))
        .filter_map(|(joint, dof, hold)| match hold {
            Hold::Spring(stiffness) => Some((numbering.equation(joint, dof)?, stiffness)),
            Hold::Free | Hold::Fixed => None,
        })
        .collect()
}

/// Energies vᵢᵀ K vⱼ, summed from the deformations of each tube, so that rigid motions cancel before they are squared.
fn energies(
    elements: &Elements,
    numbering: &Numbering,
    springs: &[(usize, f64)],
    grounded: &[LeftOut],
    typical: [f64; 2],
    block: &[Vec<f64>],
) -> DMatrix<f64> {
    let width = block.len();
    let mut energies = DMatrix::zeros(width, width);
    let mut deformations = vec![[0.0; 6]; width];
    for element in elements.iter() {
        let mut stiffness = [[0.0; 6]; 6];
        for (vector, q) in block.iter().zip(&mut deformations) {
            let [a, b] = element.joints.map(|joint| numbering.joint_values(joint, vector));
            (*q, stiffness) = element.deformation(&Vec12::from_iterator(a.into_iter().chain(b)));
        }
        for (j, q) in deformations.iter().enumerate() {
            let force = stiffness.map(|row| row.iter().zip(q).map(|(k, q)| k * q).sum::<f64>());
            for (i, p) in deformations.iter().enumerate().take(j + 1) {
                let work: f64 = p.iter().zip(force).map(|(p, f)| p * f).sum();
                energies[(i, j)] += work;
                if i != j {
                    energies[(j, i)] += work;
                }
            }
        }
    }
    for (i, a) in block.iter().enumerate() {
        for (j, b) in block.iter().enumerate() {
            energies[(i, j)] += springs.iter().map(|(equation, k)| k * a[*equation] * b[*equation]).sum::<f64>();
            // Left-out freedoms are held by the stiffness put there: they are no free motion any more.
            for left in grounded {
                let along = |v: &[f64]| -> f64 {
                    let values = numbering.joint_values(left.joint.index(), v);
                    values.iter().zip(left.direction).map(|(a, b)| a * b).sum()
                };
                energies[(i, j)] += typical[usize::from(left.dof.is_rotation())] * along(a) * along(b);
            }
        }
    }
    energies
}

/// A fixed vector without symmetry, so that no motion is missed by chance.
fn start_vector(n: usize, seed: u64) -> Vec<f64> {
    let mut state = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15);
    (0..n)
        .map(|_| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1u64 << 52) as f64 - 1.0
        })
        .collect()
}

/// Modified Gram–Schmidt, twice, in the inner product of a diagonal.
fn orthonormalise(block: &mut [Vec<f64>], diagonal: &[f64]) {
    for column in 0..block.len() {
        let (done, rest) = block.split_at_mut(column);
        let vector = &mut rest[0];
        for _ in 0..2 {
            for other in done.iter() {
                let along: f64 = vector.iter().zip(other).zip(diagonal).map(|((a, b), d)| a * b * d).sum();
                for (value, b) in vector.iter_mut().zip(other) {
                    *value -= along * b;
                }
            }
        }
        let norm = vector.iter().zip(diagonal).map(|(a, d)| a * a * d).sum::<f64>().sqrt();
        for value in vector.iter_mut() {
            *value /= norm;
        }
    }
}

/// The `count` largest independent directions of a set.
fn independent(vectors: &[Vec<f64>], count: usize) -> Vec<Vec<f64>> {
    let k = vectors.len();
    let gram = DMatrix::from_fn(k, k, |i, j| vectors[i].iter().zip(&vectors[j]).map(|(a, b)| a * b).sum::<f64>());
    let eigen = SymmetricEigen::new(gram);
    let mut order: Vec<usize> = (0..k).collect();
    order.sort_by(|a, b| eigen.eigenvalues[*b].total_cmp(&eigen.eigenvalues[*a]));
    order
        .into_iter()
        .take(count)
        .map(|i| {
            let mut sum = vec![0.0; vectors[0].len()];
            for (share, vector) in eigen.eigenvectors.column(i).iter().zip(vectors) {
                for (s, v) in sum.iter_mut().zip(vector) {
                    *s += share * v;
                }
            }
            sum
        })
        .collect()
}

/// Recombines a basis so that each vector has a component of 1 where all others have 0: independent motions come apart.
fn localise(basis: &mut [Vec<f64>]) {
    for row in 0..basis.len() {
        // The largest component among the vectors not done yet.
        let (mut pivot, mut most) = ((row, 0), 0.0);
        for (i, vector) in basis.iter().enumerate().skip(row) {
            for (j, value) in vector.iter().enumerate() {
                if value.abs() > most * (1.0 + 1e-9) {
                    (pivot, most) = ((i, j), value.abs());
                }
            }
        }
        if most == 0.0 {
            return;
        }
        basis.swap(row, pivot.0);
        let divisor = basis[row][pivot.1];
        for value in &mut basis[row] {
            *value /= divisor;
        }
        let done = basis[row].clone();
        for (i, vector) in basis.iter_mut().enumerate() {
            if i != row {
                let factor = vector[pivot.1];
                for (value, d) in vector.iter_mut().zip(&done) {
                    *value -= factor * d;
                }
            }
        }
    }
    for vector in basis {
        for value in vector.iter_mut() {
            if value.abs() < 1e-9 {
                *value = 0.0;
            }
        }
    }
}

fn largest(values: &[f64]) -> usize {
    values.iter().enumerate().fold(0, |best, (i, v)| if v.abs() > values[best].abs() * (1.0 + 1e-9) { i } else { best })
}
