//! Laws of joined ends: whatever the arms, springs and releases.

use approx::assert_relative_eq;
use nalgebra::Vector3;
use proptest::prelude::*;

use super::laws::{beams, rigid_motions, span_loads, tube};
use super::{Ends, SpanLoad};
use crate::Vec12;

/// Springs from much softer to much stiffer than the tubes, releases, rigid connections.
fn springs() -> impl Strategy<Value = [Option<f64>; 12]> {
    prop::array::uniform12(prop_oneof![
        3 => Just(None),
        1 => Just(Some(0.0)),
        2 => (2.0..9.0_f64).prop_map(|power| Some(10.0_f64.powf(power))),
    ])
}

fn arms() -> impl Strategy<Value = [[f64; 3]; 2]> {
    let arm = || prop_oneof![Just([0.0; 3]), prop::array::uniform3(-0.1..0.1_f64)];
    (arm(), arm()).prop_map(|(from, to)| [from, to])
}

/// The six movements of the whole, seen at joints that stand off the tube's ends by the arms.
fn whole_motions(length: f64, arms: [[f64; 3]; 2]) -> [Vec12; 6] {
    let places = [-Vector3::from(arms[0]), Vector3::new(length, 0.0, 0.0) - Vector3::from(arms[1])];
    let mut motions = [Vec12::zeros(); 6];
    for axis in 0..3 {
        let mut direction = Vector3::zeros();
        direction[axis] = 1.0;
        for (end, place) in places.iter().enumerate() {
            motions[axis].fixed_rows_mut::<3>(6 * end).copy_from(&direction);
            motions[axis + 3].fixed_rows_mut::<3>(6 * end).copy_from(&direction.cross(place));
            motions[axis + 3].fixed_rows_mut::<3>(6 * end + 3).copy_from(&direction);
        }
    }
    motions
}

proptest! {
    #[test]
    fn movements_of_the_whole_cost_nothing(beam in beams(), springs in springs(), arms in arms()) {
        let k = beam.join(&Ends { springs, arms }).stiffness();
        prop_assert_eq!(k, k.transpose());
        let scale = beam.stiffness().amax();
        for motion in whole_motions(beam.length, arms) {
            prop_assert!((k * motion).amax() <= 1e-11 * scale, "{}", k * motion);
        }
        prop_assert!(k.symmetric_eigenvalues().iter().all(|value| *value > -1e-11 * scale));
    }

    /// Tube, springs and arms each obey their own law, and the forces they pass on agree: that leaves one answer.
    #[test]
    fn tube_springs_and_arms_obey_their_own_laws(
        beam in beams(),
        springs in springs(),
        arms in arms(),
        load in span_loads(),
        joints in prop::array::uniform12(-1e-3..1e-3_f64),
    ) {
        let joined = beam.join(&Ends { springs, arms });
        let loads = beam.end_loads(&load);
        prop_assume!(joined.loaded(&loads).is_none());
        let joints = Vec12::from(joints);
        let (own, forces) = joined.own_ends(&joints, &loads);
        let scale = beam.stiffness().amax() * 1e-3 + loads.amax();

        let through_tube = beam.stiffness() * own - loads;
        prop_assert!((through_tube - forces).amax() <= 1e-9 * scale, "{through_tube} {forces}");

        for (end, arm) in arms.map(Vector3::from).into_iter().enumerate() {
            let turn = joints.fixed_rows::<3>(6 * end + 3).into_owned();
            for freedom in 0..6 {
                let i = 6 * end + freedom;
                let arm_end = joints[i] + if freedom < 3 { turn.cross(&arm)[freedom] } else { 0.0 };
                match springs[i] {
                    None => prop_assert!((own[i] - arm_end).abs() < 1e-15),
                    Some(k) => prop_assert!((forces[i] - k * (arm_end - own[i])).abs() <= 1e-9 * scale, "{i}"),
                }
            }
        }

        let mut at_joints = forces;
        for (end, arm) in arms.map(Vector3::from).into_iter().enumerate() {
            let moment = arm.cross(&forces.fixed_rows::<3>(6 * end).into_owned());
            for axis in 0..3 {
                at_joints[6 * end + 3 + axis] += moment[axis];
            }
        }
        let seen = joined.stiffness() * joints - joined.joint_loads(&loads);
        prop_assert!((seen - at_joints).amax() <= 1e-9 * scale);
    }

    #[test]
    fn energy_over_the_deformations_is_that_of_the_stiffness(
        beam in beams(),
        springs in springs(),
        arms in arms(),
        joints in prop::array::uniform12(-1e-3..1e-3_f64),
    ) {
        let joined = beam.join(&Ends { springs, arms });
        let joints = Vec12::from(joints);
        let (q, k) = joined.deformation(&joints);
        let whole = joints.dot(&(joined.stiffness() * joints));
        prop_assert!((q.dot(&(k * q)) - whole).abs() <= 1e-10 * beam.stiffness().amax() * 1e-6);
    }

    #[test]
    fn rigid_ends_at_the_joints_change_nothing(beam in beams()) {
        let k = beam.join(&Ends::RIGID).stiffness();
        prop_assert!((k - beam.stiffness()).amax() <= 1e-14 * k.amax());
    }

    #[test]
    fn a_released_tube_keeps_its_rigid_motions_and_carries_nothing_at_the_release(
        beam in beams(),
        freed in prop::array::uniform12(prop::bool::weighted(0.3)),
        load in span_loads(),
        joints in prop::array::uniform12(-1e-3..1e-3_f64),
    ) {
        let ends = Ends { springs: freed.map(|freed| freed.then_some(0.0)), ..Ends::RIGID };
        let released = beam.join(&ends);
        let k = released.stiffness();
        for motion in rigid_motions(beam.length) {
            prop_assert!((k * motion).amax() <= 1e-11 * beam.stiffness().amax());
        }
        let loads = beam.end_loads(&load);
        prop_assume!(released.loaded(&loads).is_none());
        let (_, forces) = released.own_ends(&Vec12::from(joints), &loads);
        for i in (0..12).filter(|&i| freed[i]) {
            prop_assert_eq!(forces[i], 0.0);
            prop_assert_eq!(k.row(i).amax(), 0.0);
            prop_assert_eq!(released.joint_loads(&loads)[i], 0.0);
        }
    }
}

fn released(freedoms: &[usize]) -> Ends {
    let mut ends = Ends::RIGID;
    for &i in freedoms {
        ends.springs[i] = Some(0.0);
    }
    ends
}

#[test]
fn a_tube_pinned_at_both_ends_is_a_bar() {
    let k = tube().join(&released(&[4, 5, 10, 11])).stiffness();
    for i in [1, 2, 4, 5, 7, 8, 10, 11] {
        assert_eq!(k.row(i).amax(), 0.0, "row {i}");
    }
    assert_relative_eq!(k[(0, 0)], 210e9 * 2e-4 / 2.0);
}

#[test]
fn torsion_freed_at_both_ends_is_harmless_until_loaded() {
    let released = tube().join(&released(&[3, 9]));
    let bend = tube().end_loads(&SpanLoad::Line { from: [0.0, 0.0, -10.0], to: [0.0, 0.0, -10.0] });
    assert_eq!(released.loaded(&bend), None);
    let twist = tube().end_loads(&SpanLoad::Point { at: 0.5, force: [0.0; 3], moment: [10.0, 0.0, 0.0] });
    assert!(matches!(released.loaded(&twist), Some(3 | 9)));
}

/// A cantilever on a rotational spring at its root: tip deflection PL³/3EI + PL²/k (superposition, Roark, 7th ed.,
/// Table 8.1 case 1a for the first term; from memory).
#[test]
fn a_cantilever_on_a_spring_adds_the_turn_of_its_root() {
    let (beam, spring, load) = (tube(), 5e3, 80.0);
    let mut ends = Ends::RIGID;
    ends.springs[5] = Some(spring);
    let k = beam.join(&ends).stiffness();
    // Root held; the tip's deflection v and slope: a 2×2 block of the stiffness.
    let (a, b, c) = (k[(7, 7)], k[(7, 11)], k[(11, 11)]);
    let tip = load * c / (a * c - b * b);
    let (l, ei) = (beam.length, beam.youngs * beam.iz);
    assert_relative_eq!(tip, load * l.powi(3) / (3.0 * ei) + load * l * l / spring, max_relative = 1e-12);
}

/// Two axial springs and the tube in series: 1/k = 1/k1 + L/EA + 1/k2.
#[test]
fn axial_springs_stand_in_series_with_the_tube() {
    let beam = tube();
    for (first, second) in [(3e7, 1e6), (1e5, 1e14), (2e8, 5e7)] {
        let mut ends = Ends::RIGID;
        ends.springs[0] = Some(first);
        ends.springs[6] = Some(second);
        let series = 1.0 / (1.0 / first + beam.length / (beam.youngs * beam.area) + 1.0 / second);
        let k = beam.join(&ends).stiffness()[(0, 0)];
        assert_relative_eq!(k, series, max_relative = 1e-12);
    }
}

/// A tube between rigid arms square to it, its far joint held: a force F along x at the first joint works on the tube at
/// the arm's tip, so that the joint moves by F (L/EA + arm² L/EI).
#[test]
fn an_arm_adds_its_moment() {
    let (beam, arm) = (tube(), 0.05);
    let ends = Ends { arms: [[0.0, 0.0, arm], [0.0, 0.0, arm]], ..Ends::RIGID };
    let k = beam.join(&ends).stiffness().fixed_view::<6, 6>(0, 0).into_owned();
    let mut force = nalgebra::Vector6::zeros();
    force[0] = 1000.0;
    let moved = k.lu().solve(&force).unwrap();
    let (l, ea, eiy) = (beam.length, beam.youngs * beam.area, beam.youngs * beam.iy);
    assert_relative_eq!(moved[0], 1000.0 * (l / ea + arm * arm * l / eiy), max_relative = 1e-9);
}
