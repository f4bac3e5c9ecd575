//! Ways in which a frame can move without resistance: found from the near-singular part of the stiffness, not from a pivot.

mod basis;
mod describe;
mod energies;

use nalgebra::{DMatrix, SymmetricEigen};
use strutwork_model::ids::Id;
use strutwork_model::model::Support;
use strutwork_model::{Dof, JointId, Model};

use crate::assembly::System;
use crate::elements::Elements;
use crate::error::Node;
use crate::linear::Symbolic;
use crate::numbering::Numbering;
use crate::results::LeftOut;

use basis::{largest, localise, orthonormalise, start_vector};
pub(crate) use describe::describe;
use energies::{Holding, energies};

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
/// Only joints that a tube with releases, a spring or an arm reaches, or no tube at all, can have one. Bodies have none: a
/// body that can move is a mechanism.
pub(crate) fn unstiffened(elements: &Elements, numbering: &Numbering, system: &System) -> Vec<LeftOut> {
    let mut reached = vec![false; numbering.nodes()];
    let mut suspect = vec![false; numbering.nodes()];
    // What the joint's tubes would offer unreleased, as the scale of each kind of freedom.
    let mut scale = vec![[0.0_f64; 2]; numbering.nodes()];
    for element in elements.tubes() {
        let k = element.beam.stiffness();
        for joint in element.joints {
            reached[joint] = true;
            suspect[joint] |= element.joined.is_some();
            scale[joint][0] = scale[joint][0].max(k[(0, 0)]);
            scale[joint][1] = scale[joint][1].max(k[(3, 3)]).max(k[(4, 4)]).max(k[(5, 5)]);
        }
    }
    for bush in elements.bushes() {
        for (dof, stiffness) in bush.stiffness.iter().enumerate() {
            let [joint, _] = bush.nodes;
            scale[joint][dof / 3] = scale[joint][dof / 3].max(*stiffness);
        }
    }
    let is_joint = |node: &usize| matches!(numbering.node(*node), Node::Joint(_));
    let nodes = (0..numbering.nodes()).filter(is_joint);
    let (offsets, _, values) = system.stiffness().csc_data();
    let mut found = Vec::new();
    for joint in nodes.filter(|joint| suspect[*joint] || !reached[*joint]) {
        let all: Vec<(usize, usize)> = numbering.free(joint).collect();
        // Slides and turns apart: an arm that swings about a hinge does both at its tip, and is a mechanism.
        for turns in [false, true] {
            let free: Vec<(usize, usize)> = all.iter().copied().filter(|(dof, _)| (*dof >= 3) == turns).collect();
            if free.is_empty() {
                continue;
            }
            let size = Some(scale[joint][usize::from(turns)]).filter(|size| *size > 0.0).unwrap_or(1.0);
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
    let holding = Holding { supports, grounded, typical };
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
        let energies = energies(elements, numbering, &holding, &block);
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

/// Whether a motion only turns joints without moving any, nor a body.
pub(crate) fn only_turns(numbering: &Numbering, motion: &[f64], size: f64) -> bool {
    let mut other = 0.0_f64;
    let mut turn = 0.0_f64;
    for (equation, value) in motion.iter().enumerate() {
        let (node, dof) = numbering.freedom(equation);
        let length = if dof.is_rotation() { value.abs() * size } else { value.abs() };
        if dof.is_rotation() && matches!(numbering.node(node), Node::Joint(_)) {
            turn = turn.max(length);
        } else {
            other = other.max(length);
        }
    }
    other <= STILL * turn
}

/// Half the diagonal of the box around the frame, m; 1 for a frame without extent.
pub fn size(model: &Model) -> f64 {
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
