//! Mechanics holds, whatever the code: properties over random tubes and loads.

use approx::assert_relative_eq;
use proptest::prelude::*;

use super::{Along, Beam, SpanLoad};
use crate::Vec12;

pub(super) fn beams() -> impl Strategy<Value = Beam> {
    (0.2..3.0_f64, 1e-4..1e-3_f64, 1e-8..1e-6_f64, 1e-8..1e-6_f64, 1e-8..1e-6_f64)
        .prop_map(|(length, area, iy, iz, j)| Beam { youngs: 210e9, shear: 81e9, area, iy, iz, j, length })
}

pub(super) fn span_loads() -> impl Strategy<Value = SpanLoad> {
    let three = || prop::array::uniform3(-1e3..1e3_f64);
    prop_oneof![
        (three(), three()).prop_map(|(from, to)| SpanLoad::Line { from, to }),
        (0.01..0.19_f64, three(), three()).prop_map(|(at, force, moment)| SpanLoad::Point { at, force, moment }),
        (-1e-3..1e-3_f64, -1e-2..1e-2_f64, -1e-2..1e-2_f64).prop_map(|(strain, strain_y, strain_z)| SpanLoad::Free {
            strain,
            strain_y,
            strain_z
        }),
    ]
}

pub(super) fn rigid_motions(length: f64) -> [Vec12; 6] {
    let mut motions = [Vec12::zeros(); 6];
    for (i, motion) in motions.iter_mut().enumerate() {
        motion[i] = 1.0;
        motion[i + 6] = 1.0;
    }
    motions[4][8] = -length;
    motions[5][7] = length;
    motions
}

/// Sum of end forces, and of their moments about end 1.
fn resultant(f: &Vec12, length: f64) -> [f64; 6] {
    [f[0] + f[6], f[1] + f[7], f[2] + f[8], f[3] + f[9], f[4] + f[10] - length * f[8], f[5] + f[11] + length * f[7]]
}

proptest! {
    #[test]
    fn stiffness_is_symmetric_with_six_rigid_motions(beam in beams()) {
        let k = beam.stiffness();
        prop_assert_eq!(k, k.transpose());
        for motion in rigid_motions(beam.length) {
            let force = k * motion;
            prop_assert!(force.amax() <= 1e-9 * k.amax(), "{force}");
        }
        let eigenvalues = k.symmetric_eigenvalues();
        let largest = eigenvalues.amax();
        prop_assert_eq!(eigenvalues.iter().filter(|v| **v > 1e-12 * largest).count(), 6);
        prop_assert!(eigenvalues.iter().all(|v| *v > -1e-12 * largest));
    }

    #[test]
    fn end_loads_are_in_equilibrium_with_the_span_load(beam in beams(), load in span_loads()) {
        let f = resultant(&beam.end_loads(&load), beam.length);
        let l = beam.length;
        let mut expected = [0.0; 6];
        match load {
            SpanLoad::Line { from, to } => {
                for axis in 0..3 { expected[axis] = l * (from[axis] + to[axis]) / 2.0; }
                let first = |axis: usize| l * l * (from[axis] + 2.0 * to[axis]) / 6.0;
                expected[4] = -first(2);
                expected[5] = first(1);
            }
            SpanLoad::Point { at, force, moment } => {
                expected[..3].copy_from_slice(&force);
                expected[3] = moment[0];
                expected[4] = moment[1] - at * force[2];
                expected[5] = moment[2] + at * force[1];
            }
            SpanLoad::Free { .. } => {}
        }
        for (f, e) in f.iter().zip(expected) {
            prop_assert!((f - e).abs() < 1e-9 * (1e6 * beam.area + 1e4), "{f} {e}");
        }
    }

    /// The deflection integrated from end 1 arrives at end 2 as the stiffness says: ties end loads, stiffness, section
    /// forces and deflection to one another.
    #[test]
    fn deflection_arrives_at_the_other_end(
        beam in beams(),
        loads in prop::collection::vec(span_loads(), 0..4),
        ends in prop::array::uniform12(-1e-3..1e-3_f64),
    ) {
        let ends = Vec12::from(ends);
        let mut forces = beam.stiffness() * ends;
        for load in &loads {
            forces -= beam.end_loads(load);
        }
        let along = Along::new(beam, ends, &forces, &loads);
        let tip = along.displacements(&[beam.length])[0];
        for axis in 0..3 {
            prop_assert!((tip[axis] - ends[axis + 6]).abs() < 1e-9, "{axis}: {tip:?} {ends}");
        }
        // What the far end's joint exerts on the tube is the section force there.
        let section = along.forces_at(1.0);
        for i in 0..6 {
            prop_assert!((section[i] - forces[i + 6]).abs() <= 1e-8 * forces.amax().max(1.0));
        }
    }
}

pub(super) fn tube() -> Beam {
    Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 2e-8, j: 5e-8, length: 2.0 }
}

/// Clamped at both ends, load P at a: M = Pab²/L², Pa²b/L² (Roark, 7th ed., Table 8.1 case 1d; from memory).
#[test]
fn clamped_end_moments_of_a_point_load() {
    let (a, b, l, p) = (0.5, 1.5, 2.0, 100.0);
    let f = tube().end_loads(&SpanLoad::Point { at: a, force: [0.0, -p, 0.0], moment: [0.0; 3] });
    assert_relative_eq!(f[5], -p * a * b * b / (l * l));
    assert_relative_eq!(f[11], p * a * a * b / (l * l));
}

/// Greatest moment of a clamped tube under uniform load: wL²/24 at the middle, wL²/12 at the ends.
#[test]
fn moments_between_the_ends_of_a_clamped_tube() {
    let load = SpanLoad::Line { from: [0.0, 0.0, -120.0], to: [0.0, 0.0, -120.0] };
    let beam = tube();
    let along = Along::new(beam, Vec12::zeros(), &-beam.end_loads(&load), &[load]);
    let piece = along.pieces()[0];
    let extreme: Vec<f64> = piece.stationary(&[0.0, 0.0, 0.0, 0.0, 1.0, 0.0]).collect();
    assert_eq!(extreme.len(), 1);
    assert_relative_eq!(extreme[0], 1.0);
    // A load along −z pulls the underside at mid-span: ∫zσ dA is negative there, positive at the ends.
    assert_relative_eq!(piece.at(1.0)[4], -120.0 * 4.0 / 24.0, epsilon = 1e-9);
    assert_relative_eq!(piece.at(0.0)[4], 120.0 * 4.0 / 12.0, epsilon = 1e-9);
    // wL⁴/384EI
    let middle = along.displacements(&[1.0])[0];
    assert_relative_eq!(middle[2], -120.0 * 16.0 / (384.0 * 210e9 * 3e-8), max_relative = 1e-12);
}

#[test]
fn the_resultant_moment_has_its_extreme_between_skew_loads() {
    let loads = [SpanLoad::Line { from: [0.0, 50.0, -120.0], to: [0.0, 90.0, 40.0] }];
    let beam = tube();
    let along = Along::new(beam, Vec12::zeros(), &-beam.end_loads(&loads[0]), &loads);
    let piece = along.pieces()[0];
    let resultant = |x: f64| piece.at(x)[4].hypot(piece.at(x)[5]);
    let found = piece.stationary_resultant();
    assert!(!found.is_empty());
    for x in found {
        assert!((resultant(x + 1e-4) - resultant(x - 1e-4)).abs() < 1e-4 * resultant(x).max(1e-3));
    }
}
