//! Equilibrium of uprights: hand-worked corners, independent elimination, free-body checks, and links that do not hold.

use approx::assert_relative_eq;
use proptest::prelude::*;
use strutwork_loads::LoadError;
use strutwork_loads::case::LinkForce;
use strutwork_loads::suspension::{Motion, Upright, UprightFault};
use strutwork_model::JointId;
use strutwork_model::ids::Id;
use strutwork_model::model::{Carrier, Link, LinkKind, Wheel};

type Vec3 = [f64; 3];

fn link(name: &str, kind: LinkKind, chassis: Vec3, upright: Vec3) -> Link {
    Link { name: name.to_owned(), kind, upright, chassis, carrier: Carrier::Joints(vec![JointId::new(0)]) }
}

/// A double wishbone with a pushrod, m: upper and lower legs, track rod, pushrod. The contact point is (0, 0.65, 0).
fn double_wishbone() -> Vec<Link> {
    use LinkKind::{Link as L, Spring as S};
    let (upper, lower) = ([0.0, 0.56, 0.38], [0.01, 0.6, 0.13]);
    vec![
        link("upper front", L, [0.13, 0.28, 0.36], upper),
        link("upper rear", L, [-0.15, 0.28, 0.35], upper),
        link("lower front", L, [0.17, 0.22, 0.15], lower),
        link("lower rear", L, [-0.19, 0.22, 0.14], lower),
        link("track rod", L, [0.1, 0.25, 0.2], [0.11, 0.58, 0.19]),
        link("pushrod", S, [0.02, 0.24, 0.48], [0.015, 0.55, 0.16]),
    ]
}

const CONTACT: Vec3 = [0.0, 0.65, 0.0];

/// A strut whose foot is part of the upright, a lower wishbone, a track rod.
fn strut() -> Vec<Link> {
    use LinkKind::{Link as L, Strut};
    let ball = [0.0, 0.62, 0.14];
    vec![
        link("strut", Strut, [-0.03, 0.5, 0.75], [0.0, 0.57, 0.3]),
        link("front leg", L, [0.16, 0.25, 0.16], ball),
        link("rear leg", L, [-0.18, 0.25, 0.15], ball),
        link("track rod", L, [-0.12, 0.28, 0.2], [-0.13, 0.59, 0.21]),
    ]
}

/// A semi-trailing arm: the arm and the wheel carrier are one, turning about a slanting axis; a spring stands on it.
fn semi_trailing() -> Vec<Link> {
    vec![
        link("inner pivot", LinkKind::Pivot, [0.42, 0.2, 0.25], [0.42, 0.2, 0.25]),
        link("outer pivot", LinkKind::Guide, [0.5, 0.55, 0.23], [0.42, 0.2, 0.25]),
        link("spring", LinkKind::Spring, [0.1, 0.45, 0.7], [0.08, 0.5, 0.3]),
    ]
}

fn solved(links: &[Link], acting: [f64; 6]) -> Vec<LinkForce> {
    Upright::of(Wheel::FrontLeft, CONTACT, links).expect("the links hold").link_forces(&acting)
}

fn cross(a: Vec3, b: Vec3) -> Vec3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

fn minus(a: Vec3, b: Vec3) -> Vec3 {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

fn dot(a: Vec3, b: Vec3) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

fn unit(a: Vec3) -> Vec3 {
    a.map(|part| part / dot(a, a).sqrt())
}

/// Gaussian elimination with row exchange, in place.
fn eliminate(mut rows: Vec<Vec<f64>>) -> Vec<f64> {
    let n = rows.len();
    for pivot in 0..n {
        let best = (pivot..n).max_by(|&i, &j| rows[i][pivot].abs().total_cmp(&rows[j][pivot].abs())).expect("rows");
        rows.swap(pivot, best);
        let pivot_row = rows[pivot].clone();
        for (place, row) in rows.iter_mut().enumerate() {
            if place != pivot {
                let factor = row[pivot] / pivot_row[pivot];
                for (value, part) in row.iter_mut().zip(&pivot_row) {
                    *value -= factor * part;
                }
            }
        }
    }
    (0..n).map(|row| rows[row][n] / rows[row][row]).collect()
}

/// The forces on the frame by another road: every link brings three components; two equations a two-force link and one a
/// guide say that it carries nothing across or along; six say equilibrium about the origin.
fn independent(links: &[Link], acting: [f64; 6]) -> Vec<Vec3> {
    let columns = 3 * links.len();
    let mut rows = Vec::new();
    for axis in 0..3 {
        let mut force = vec![0.0; columns + 1];
        let mut moment = vec![0.0; columns + 1];
        for (place, link) in links.iter().enumerate() {
            force[3 * place + axis] = 1.0;
            for part in 0..3 {
                let mut direction = [0.0; 3];
                direction[part] = 1.0;
                moment[3 * place + part] = cross(link.chassis, direction)[axis];
            }
        }
        let [fx, fy, fz, mx, my, mz] = acting;
        force[columns] = acting[axis];
        let arm = cross(CONTACT, [fx, fy, fz]);
        moment[columns] = [mx, my, mz][axis] + arm[axis];
        rows.extend([force, moment]);
    }
    for (place, link) in links.iter().enumerate() {
        let along = minus(link.chassis, link.upright);
        let mut none = |direction: Vec3| {
            let mut row = vec![0.0; columns + 1];
            row[3 * place..3 * place + 3].copy_from_slice(&direction);
            rows.push(row);
        };
        match link.kind {
            LinkKind::Link | LinkKind::Spring => {
                let other = if along[0].abs() < along[2].abs() { [1.0, 0.0, 0.0] } else { [0.0, 0.0, 1.0] };
                let first = cross(along, other);
                none(unit(first));
                none(unit(cross(along, first)));
            }
            LinkKind::Guide => none(unit(along)),
            LinkKind::Strut | LinkKind::Pivot => {}
        }
    }
    let found = eliminate(rows);
    (0..links.len()).map(|place| [found[3 * place], found[3 * place + 1], found[3 * place + 2]]).collect()
}

/// Braking and cornering, and a bump, on the double wishbone. Source: equilibrium of the upright, six equations (derived),
/// worked by an independent dense elimination.
#[test]
fn double_wishbone_by_hand() {
    for (acting, wanted) in [
        (
            [-1500.0, 2200.0, 3000.0, 0.0, 0.0, 0.0],
            [-2274.523544557, 26.16215394989, 7465.050483155, 789.7941278314, 82.04552047887, -4911.122926952],
        ),
        (
            [0.0, 0.0, 6000.0, 0.0, 0.0, 0.0],
            [-1412.976682466, -488.9109168778, 5381.241680941, 3484.047611633, -52.94287643287, -9019.210232703],
        ),
    ] {
        for (force, wanted) in solved(&double_wishbone(), acting).iter().zip(wanted) {
            assert_relative_eq!(force.axial.expect("a two-force link"), wanted, max_relative = 1e-10);
        }
    }
}

/// A leg that pulls along x alone, and others along y and z: the forces can be read off.
#[test]
fn six_square_links_by_hand() {
    use LinkKind::Link as L;
    let links = [
        link("x", L, [-1.0, 0.65, 0.0], [0.0, 0.65, 0.0]),
        link("y low", L, [0.0, 0.0, 0.0], [0.0, 0.6, 0.0]),
        link("z", L, [0.0, 0.65, 1.0], [0.0, 0.65, 0.4]),
        link("y high", L, [0.0, 0.0, 0.3], [0.0, 0.6, 0.3]),
        link("x high", L, [-1.0, 0.65, 0.3], [0.0, 0.65, 0.3]),
        link("y ahead", L, [0.2, 0.0, 0.0], [0.2, 0.6, 0.0]),
    ];
    let forces = solved(&links, [-300.0, 500.0, 2000.0, 0.0, 0.0, 0.0]);
    let axial: Vec<f64> = forces.iter().map(|force| force.axial.expect("two-force")).collect();
    // 300 N rearwards push the x link together; 500 N outwards pull the low y link; 2000 N upwards compress the z link.
    for (found, wanted) in axial.iter().zip([-300.0, 500.0, -2000.0, 0.0, 0.0, 0.0]) {
        assert!((found - wanted).abs() < 1e-11 * 2000.0, "{axial:?}");
    }
    assert_relative_eq!(forces[2].on_frame[2], 2000.0, max_relative = 1e-13);
    assert_relative_eq!(forces[0].on_frame[0], -300.0, max_relative = 1e-13);
}

fn wrench() -> impl Strategy<Value = [f64; 6]> {
    [-5e3..5e3, -5e3..5e3, -5e3..9e3, -800.0..800.0, -800.0..800.0, -800.0..800.0]
}

fn shaken(links: Vec<Link>, shake: &[Vec3]) -> Vec<Link> {
    let moved = |point: Vec3, by: Vec3| [0, 1, 2].map(|axis| point[axis] + by[axis]);
    let shakes = shake.iter().copied().cycle();
    links
        .into_iter()
        .zip(shakes)
        .map(|(link, by)| {
            // A pivot's two points stand together.
            let upright = if link.kind == LinkKind::Pivot { moved(link.upright, by) } else { link.upright };
            Link { chassis: moved(link.chassis, by), upright, ..link }
        })
        .collect()
}

proptest! {
    #[test]
    fn every_layout_is_a_free_body(acting in wrench(), layout in 0..3_usize,
                                   shake in prop::collection::vec([-0.02..0.02, -0.02..0.02, -0.02..0.02], 6)) {
        let links = shaken([double_wishbone, strut, semi_trailing][layout](), &shake);
        let forces = solved(&links, acting);
        let mut left = acting;
        let mut size = acting.iter().map(|value| value.abs()).sum::<f64>();
        for (link, force) in links.iter().zip(&forces) {
            let moment = cross(minus(link.chassis, CONTACT), force.on_frame);
            for axis in 0..3 {
                left[axis] -= force.on_frame[axis];
                left[axis + 3] -= moment[axis];
            }
            size += force.on_frame.iter().map(|value| value.abs()).sum::<f64>();
            let along = unit(minus(link.chassis, link.upright));
            match link.kind {
                LinkKind::Link | LinkKind::Spring => {
                    // Tension pulls the frame towards the upright.
                    let axial = force.axial.expect("two-force");
                    let wanted = along.map(|part| -axial * part);
                    prop_assert!(minus(force.on_frame, wanted).iter().all(|part| part.abs() < 1e-12 * size));
                }
                LinkKind::Strut => {
                    prop_assert!((force.axial.expect("a strut") + dot(along, force.on_frame)).abs() < 1e-12 * size);
                }
                LinkKind::Guide => {
                    prop_assert!(force.axial.is_none());
                    prop_assert!(dot(along, force.on_frame).abs() < 1e-12 * size);
                }
                LinkKind::Pivot => prop_assert!(force.axial.is_none()),
            }
        }
        prop_assert!(left.iter().all(|value| value.abs() < 1e-12 * size), "{left:?} of {size}");
        for (force, wanted) in forces.iter().zip(independent(&links, acting)) {
            prop_assert!(minus(force.on_frame, wanted).iter().all(|part| part.abs() < 1e-9 * size),
                         "{:?} for {wanted:?}", force.on_frame);
        }
    }
}

fn fault(links: &[Link]) -> UprightFault {
    match Upright::of(Wheel::RearRight, CONTACT, links) {
        Err(LoadError::Upright { wheel: "rear-right", fault }) => fault,
        other => panic!("{other:?}"),
    }
}

/// The double wishbone with its pushrod on the lower ball joint, and the outer end of its track rod so far, m, ahead of the
/// middle between the two ball joints.
fn free_to_steer(ahead: f64) -> Vec<Link> {
    let mut links = double_wishbone();
    links[4].upright = [0.005 + ahead, 0.58, 0.255];
    links[5].upright = [0.01, 0.6, 0.13];
    links
}

#[test]
fn a_track_rod_through_the_ball_joints_axis_leaves_the_steering_free() {
    let links = free_to_steer(0.0);
    let found = fault(&links);
    let UprightFault::Free { unknowns: 6, motions: 1, motion: Motion::Turn { axis, through, pitch } } = found else {
        panic!("{found:?}")
    };
    let kingpin = unit(minus([0.0, 0.56, 0.38], [0.01, 0.6, 0.13]));
    assert!(cross(axis, kingpin).iter().all(|part| part.abs() < 1e-9), "{axis:?}");
    // Through the lower ball joint, and no sliding.
    let off = cross(minus(through, [0.01, 0.6, 0.13]), kingpin);
    assert!(off.iter().all(|part| part.abs() < 1e-9) && pitch == 0.0, "{through:?}");
    let words = LoadError::Upright { wheel: "rear-right", fault: found }.to_string();
    assert_eq!(
        words,
        "the rear-right upright is not held by its links: it can turn about the axis along the direction \
         (-0.039, -0.158, 0.987) through (15.4, 621.4, -4.0) mm"
    );
}

#[test]
fn links_across_x_leave_a_slide_along_x() {
    use LinkKind::Link as L;
    let in_plane = |x: f64, y: f64, z: f64| link("leg", L, [x, 0.2, z], [x, 0.6 + y, z + 0.1 * y]);
    let links = [
        in_plane(0.0, 0.0, 0.1),
        in_plane(0.2, 0.02, 0.15),
        in_plane(-0.2, 0.0, 0.3),
        in_plane(0.1, -0.05, 0.4),
        link("spring", LinkKind::Spring, [0.02, 0.3, 0.6], [0.02, 0.5, 0.2]),
        link("brace", L, [-0.1, 0.3, 0.6], [-0.1, 0.62, 0.1]),
    ];
    let found = fault(&links);
    let UprightFault::Free { motion: Motion::Slide { direction }, .. } = found else { panic!("{found:?}") };
    assert!((direction[0] - 1.0).abs() < 1e-9, "{direction:?}");
    let error = LoadError::Upright { wheel: "rear-right", fault: found };
    assert_eq!(error.to_string(), "the rear-right upright is not held by its links: it can slide along x");
    assert!(error.help().contains("along that direction"));
}

#[test]
fn near_a_dead_centre_the_limit_is_told() {
    let found = fault(&free_to_steer(5e-5));
    let UprightFault::Hardly { amplified, limit, .. } = found else { panic!("{found:?}") };
    assert!(amplified > limit && amplified < 1e5, "{amplified}");
    let words = LoadError::Upright { wheel: "rear-right", fault: found }.to_string();
    assert!(words.contains("hardly held") && words.contains("at most 1000"), "{words}");
    // 10 mm beside it is a short steering arm, not a fault.
    assert!(Upright::of(Wheel::RearRight, CONTACT, &free_to_steer(0.01)).is_ok());
}

#[test]
fn fewer_and_more_than_six_are_told() {
    let mut links = double_wishbone();
    let spring = links.pop().expect("six links");
    let UprightFault::Free { unknowns: 5, motions: 1, motion } = fault(&links) else { panic!("five forces") };
    assert!(matches!(motion, Motion::Turn { .. }));
    let words = fault(&links).to_string();
    assert!(words.contains("5 unknown forces, and it takes six"), "{words}");
    links.pop();
    assert!(fault(&links).to_string().contains("one of 2 motions"), "{}", fault(&links));
    let mut links = double_wishbone();
    links.push(spring);
    assert_eq!(fault(&links), UprightFault::TooMany { unknowns: 7 });
    assert!(matches!(fault(&[]), UprightFault::Free { unknowns: 0, motions: 6, .. }));
}

#[test]
fn absurd_numbers_are_no_panic() {
    let mut links = double_wishbone();
    links[0].chassis = [1e300, -1e300, 1e300];
    links[1].upright = [-1e308, 1e308, 0.0];
    assert!(Upright::of(Wheel::FrontLeft, CONTACT, &links).is_err());
}

#[test]
fn nothing_acting_is_exactly_nothing() {
    for force in solved(&strut(), [0.0; 6]) {
        assert_eq!(force.on_frame.map(f64::abs), [0.0; 3]);
    }
}
