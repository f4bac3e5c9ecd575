//! A chain against closed forms, and against the linear tube.

use std::f64::consts::PI;

use super::*;
use crate::beam::Ends;

const BEAM: Beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 5e-8, j: 5e-8, length: 1.3 };
const FINE: Division = Division::Within(1e-8);

fn uniform(force: f64, loads: &[SpanLoad]) -> LoadedChain {
    Chain::of_tube(BEAM, &Ends::RIGID, force, force, loads, FINE)
}

/// Bending stiffness of a clamped end in x–y against a turn, and against a shift: stability functions.
fn exact(force: f64) -> [f64; 2] {
    let (ei, l) = (BEAM.youngs * BEAM.iz, BEAM.length);
    let u = (force.abs() / ei).sqrt() * l;
    let (turn, carried) = if force < 0.0 {
        let d = 2.0 - 2.0 * u.cos() - u * u.sin();
        (u * (u.sin() - u * u.cos()) / d, u * (u - u.sin()) / d)
    } else {
        let d = 2.0 - 2.0 * u.cosh() + u * u.sinh();
        (u * (u * u.cosh() - u.sinh()) / d, u * (u.sinh() - u) / d)
    };
    [ei / l * turn, ei / (l * l * l) * 2.0 * (turn + carried) + force / l]
}

#[test]
fn clamped_ends_resist_as_the_stability_functions_say() {
    for share in [-2.0, -0.9, -0.2, 0.0001, 0.7, 5.0, 30.0] {
        let force = share * PI.powi(2) * BEAM.youngs * BEAM.iz / BEAM.length.powi(2);
        let chain = uniform(force, &[]);
        let k = chain.stiffness();
        let [turn, shift] = exact(force);
        assert!((k[(5, 5)] / turn - 1.0).abs() < 1e-6, "{share}: {} {turn}", k[(5, 5)]);
        assert!((k[(1, 1)] / shift - 1.0).abs() < 1e-6, "{share}: {} {shift}", k[(1, 1)]);
        assert_eq!(chain.bowed(), 0, "{share}");
        assert!(chain.piece_error() <= 1e-8 * 1.000001);
    }
}

#[test]
fn without_an_axial_force_it_is_the_linear_tube_with_arms_springs_and_releases() {
    let mut ends = Ends { arms: [[0.02, -0.01, 0.03], [0.0, 0.04, -0.02]], ..Ends::RIGID };
    (ends.springs[5], ends.springs[4], ends.springs[10], ends.springs[3]) =
        (Some(900.0), Some(0.0), Some(0.0), Some(50.0));
    let loads = [
        SpanLoad::Line { from: [30.0, 100.0, -50.0], to: [-30.0, 20.0, 90.0] },
        SpanLoad::Point { at: 0.4, force: [0.0, 70.0, -40.0], moment: [3.0, -5.0, 8.0] },
        SpanLoad::Free { strain: 0.0, strain_y: 1e-4, strain_z: -2e-4 },
    ];
    let joined = BEAM.join(&ends);
    let acting = loads.iter().fold(Vec12::zeros(), |sum, load| sum + BEAM.end_loads(load));
    // The linear load along would press the pieces: none here.
    let loads: Vec<SpanLoad> = loads.to_vec();
    let bent = [SpanLoad::Line { from: [0.0, 100.0, -50.0], to: [0.0, 20.0, 90.0] }, loads[1], loads[2]];
    let along = BEAM.end_loads(&SpanLoad::Line { from: [30.0, 0.0, 0.0], to: [-30.0, 0.0, 0.0] });
    let chain = Chain::of_tube(BEAM, &ends, 0.0, 0.0, &bent, Division::Into(5));
    let joints = Vec12::from_fn(|i, _| 1e-3 * (i as f64 * 1.7).sin());
    let near = |a: &Vec12, b: &Vec12| (a - b).amax() < 1e-8 * b.amax();
    assert!((chain.stiffness() - joined.stiffness()).amax() < 1e-9 * joined.stiffness().amax());
    assert!(near(&chain.joint_loads(), &joined.joint_loads(&(acting - along))));
    let (own, forces) = chain.own_ends(&joints);
    let (linear_own, linear_forces) = joined.own_ends(&joints, &(acting - along));
    assert!(near(&own, &linear_own));
    assert!(near(&forces, &linear_forces));
    let (bowed, straight) = (chain.along(&own, &forces), Along::new(BEAM, linear_own, &linear_forces, &bent));
    for at in [0.0, 0.1, 0.3, 0.55, 0.8, 1.0] {
        let (a, b) = (bowed.forces_at(at), straight.forces_at(at));
        for i in 0..6 {
            assert!((a[i] - b[i]).abs() < 1e-7 * (1.0 + b[i].abs()), "{at} {i}: {} {}", a[i], b[i]);
        }
    }
}

#[test]
fn a_pinned_tube_bows_as_the_closed_form_says() {
    // Pinned by releases at both ends, in both planes; uniform load across, uniform compression.
    let mut ends = Ends::RIGID;
    for freed in [4, 5, 10, 11] {
        ends.springs[freed] = Some(0.0);
    }
    let w = 40.0;
    let load = [SpanLoad::Line { from: [0.0, w, w], to: [0.0, w, w] }];
    for share in [0.2, 0.5, 0.8] {
        let force = -share * PI.powi(2) * BEAM.youngs * BEAM.iy / BEAM.length.powi(2);
        let chain = Chain::of_tube(BEAM, &ends, force, force, &load, FINE);
        // The ends where they are, but pressed together by the force.
        let mut joints = Vec12::zeros();
        joints[6] = force * BEAM.length / (BEAM.youngs * BEAM.area);
        let (own, forces) = chain.own_ends(&joints);
        let middle = chain.along(&own, &forces).forces_at(0.5);
        let half = |inertia: f64| BEAM.length / 2.0 * (-force / (BEAM.youngs * inertia)).sqrt();
        let first = w * BEAM.length.powi(2) / 8.0;
        let grown = |u: f64| 2.0 * (1.0 / u.cos() - 1.0) / (u * u);
        assert!((middle[4].abs() / (first * grown(half(BEAM.iy))) - 1.0).abs() < 1e-6, "{share}");
        assert!((middle[5].abs() / (first * grown(half(BEAM.iz))) - 1.0).abs() < 1e-6, "{share}");
        assert_eq!(chain.bowed(), 0);
        // Transverse stiffness of a pinned bar: the axial force over its length.
        assert!((chain.stiffness()[(1, 1)] - force / BEAM.length).abs() < 1e-6 * (force / BEAM.length).abs());
    }
    let beyond = -1.01 * PI.powi(2) * BEAM.youngs * BEAM.iy / BEAM.length.powi(2);
    assert_eq!(Chain::of_tube(BEAM, &ends, beyond, beyond, &[], FINE).bowed(), 1);
    let clamped = 4.0 * PI.powi(2) * BEAM.youngs * BEAM.iy / BEAM.length.powi(2);
    assert_eq!(uniform(-0.999 * clamped, &[]).bowed(), 0);
    assert_eq!(uniform(-1.001 * clamped, &[]).bowed(), 1);
}

#[test]
fn the_force_runs_along_as_the_loads_make_it() {
    let loads = [
        SpanLoad::Line { from: [100.0, 0.0, 0.0], to: [300.0, 0.0, 0.0] },
        SpanLoad::Point { at: 0.5, force: [-700.0, 0.0, 0.0], moment: [0.0; 3] },
    ];
    let chain = Chain::of_tube(BEAM, &Ends::RIGID, 50.0, 50.0, &loads, Division::Into(4));
    let cuts = chain.cuts();
    assert_eq!(cuts.iter().map(|cut| cut.from).filter(|x| *x == 0.5).count(), 1);
    let last = cuts.last().unwrap();
    assert!((last.axial[1] - (50.0 - 200.0 * 1.3 + 700.0)).abs() < 1e-9);
    for pair in cuts.windows(2) {
        let jump = if pair[1].from == 0.5 { 700.0 } else { 0.0 };
        assert!((pair[1].axial[0] - pair[0].axial[1] - jump).abs() < 1e-9);
    }
}

#[test]
fn the_couple_closes_the_moments_of_a_turned_tube() {
    let chain = uniform(5000.0, &[]);
    // A turn about z of 1 mrad: the force makes F·L·θ about z.
    let mut own = Vec12::zeros();
    (own[5], own[11], own[7]) = (1e-3, 1e-3, 1e-3 * BEAM.length);
    let [_, _, z] = chain.couple(&own);
    assert!((z + 5000.0 * 1e-3 * BEAM.length).abs() < 1e-9);
    let (_, f) = chain.own_ends(&own);
    // Forces of the joints on the tube, about end 1 as it was: out of balance by just that.
    let moment = f[5] + f[11] + BEAM.length * f[7];
    assert!((moment + z).abs() < 1e-9, "{moment} {z}");
}

#[test]
fn halving_the_pieces_takes_the_error_by_sixteen() {
    let force = -0.8 * PI.powi(2) * BEAM.youngs * BEAM.iz / BEAM.length.powi(2);
    let error = |count| {
        let k = Chain::of_tube(BEAM, &Ends::RIGID, force, force, &[], Division::Into(count)).stiffness();
        (k[(5, 5)] / exact(force)[0] - 1.0).abs()
    };
    let order = |count| f64::log2(error(count) / error(2 * count));
    for count in [2, 4, 8] {
        assert!((order(count) - 4.0).abs() < 0.15, "{count}: {}", order(count));
    }
}
