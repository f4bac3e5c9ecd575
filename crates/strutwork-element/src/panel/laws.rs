//! Laws of the panel, and closed forms.

use approx::assert_relative_eq;
use nalgebra::{DVector, Rotation3, Vector3};
use proptest::prelude::*;

use super::{NoPanel, Panel, Skin};

const ALUMINIUM: Skin = Skin { thickness: 1e-3, youngs: 70e9, shear: 26.3e9, fixing: 0.0 };

fn skins() -> impl Strategy<Value = Skin> {
    (3e-4..6e-3_f64, 4e9..210e9_f64, 0.2..0.5_f64, prop_oneof![Just(0.0), 1e-10..1e-6_f64])
        .prop_map(|(thickness, youngs, share, fixing)| Skin { thickness, youngs, shear: share * youngs, fixing })
}

/// Convex quadrilaterals and triangles anywhere in space, flat or warped by `warp` of their size.
fn corners(count: usize, warp: f64) -> impl Strategy<Value = Vec<[f64; 3]>> {
    let shift = || prop::array::uniform3(-0.2..0.2_f64);
    (prop::collection::vec(shift(), count), prop::array::uniform3(-3.0..3.0_f64), prop::array::uniform3(-2.0..2.0_f64))
        .prop_map(move |(shifts, turn, place)| {
            let base = [[0.0, 0.0], [1.0, 0.0], [1.0, 0.8], [0.0, 0.8]];
            let turn = Rotation3::new(Vector3::from(turn));
            let at = |i: usize| {
                let [dx, dy, dz] = shifts[i];
                Vector3::new(base[i][0] + dx, base[i][1] + dy, 5.0 * warp * dz)
            };
            (0..count).map(|i| (turn * at(i) + Vector3::from(place)).into()).collect()
        })
}

fn any_corners() -> impl Strategy<Value = Vec<[f64; 3]>> {
    prop_oneof![corners(3, 0.0), corners(4, 0.0), corners(4, 0.05)]
}

fn rigid(corners: &[[f64; 3]], move_: [f64; 3], turn: [f64; 3]) -> Vec<[f64; 3]> {
    corners.iter().map(|at| (Vector3::from(move_) + Vector3::from(turn).cross(&Vector3::from(*at))).into()).collect()
}

fn flat(values: &[[f64; 3]]) -> DVector<f64> {
    DVector::from_iterator(3 * values.len(), values.iter().flatten().copied())
}

proptest! {
    #[test]
    fn a_panel_is_symmetric_and_no_rigid_movement_costs_anything(
        corners in any_corners(),
        skin in skins(),
        moved in prop::array::uniform3(-1.0..1.0_f64),
        turn in prop::array::uniform3(-1.0..1.0_f64),
    ) {
        let k = Panel::new(&corners, skin).unwrap().stiffness();
        prop_assert_eq!(&k, &k.transpose());
        let force = &k * flat(&rigid(&corners, moved, turn));
        prop_assert!(force.amax() <= 1e-13 * k.amax() * 10.0, "{}", force);
        let strains = if corners.len() == 4 { 1 } else { 2 };
        let values = k.symmetric_eigenvalues();
        let largest = values.amax();
        prop_assert_eq!(values.iter().filter(|value| **value > 1e-12 * largest).count(), strains);
        prop_assert!(values.iter().all(|value| *value > -1e-12 * largest));
    }

    #[test]
    fn corner_forces_are_in_balance_also_when_warped(
        corners in any_corners(),
        skin in skins(),
        moved in prop::collection::vec(prop::array::uniform3(-1e-3..1e-3_f64), 4),
    ) {
        let panel = Panel::new(&corners, skin).unwrap();
        let moved = &moved[..corners.len()];
        let forces = panel.corner_forces(moved);
        let (mut sum, mut turning) = (Vector3::zeros(), Vector3::zeros());
        for (force, at) in forces.iter().map(|f| Vector3::from(*f)).zip(&corners) {
            sum += force;
            turning += Vector3::from(*at).cross(&force);
        }
        let scale = flat(&forces).amax();
        prop_assert!(sum.amax() <= 1e-13 * scale && turning.amax() <= 1e-12 * scale, "{sum} {turning} {scale}");
        prop_assert!((flat(&forces) - panel.stiffness() * flat(moved)).amax() <= 1e-12 * panel.stiffness().amax() * 1e-3);
        let work = flat(&forces).dot(&flat(moved));
        prop_assert!((2.0 * panel.energy(moved) - work).abs() <= 1e-12 * work.abs().max(scale * 1e-6));
    }

    #[test]
    fn turning_the_panel_turns_its_stiffness(corners in any_corners(), skin in skins(), turn in prop::array::uniform3(-3.0..3.0_f64)) {
        let rotation = Rotation3::new(Vector3::from(turn));
        let turned: Vec<[f64; 3]> = corners.iter().map(|at| (rotation * Vector3::from(*at)).into()).collect();
        let (panel, other) = (Panel::new(&corners, skin).unwrap(), Panel::new(&turned, skin).unwrap());
        let moved: Vec<[f64; 3]> = corners.iter().map(|at| [at[1] * 1e-3, at[2] * 2e-3, at[0] * at[1] * 1e-3]).collect();
        let moved_too: Vec<[f64; 3]> = moved.iter().map(|u| (rotation * Vector3::from(*u)).into()).collect();
        for (force, turned) in panel.corner_forces(&moved).iter().zip(other.corner_forces(&moved_too)) {
            let expected = rotation * Vector3::from(*force);
            prop_assert!((expected - Vector3::from(turned)).amax() <= 1e-11 * panel.stiffness().amax() * 1e-2);
        }
    }

    #[test]
    fn the_order_of_the_corners_names_them_alone(corners in any_corners(), skin in skins(), start in 0..4_usize, back in any::<bool>()) {
        let n = corners.len();
        let order: Vec<usize> = (0..n).map(|i| if back { (start + n - i) % n } else { (start + i) % n }).collect();
        let renamed: Vec<[f64; 3]> = order.iter().map(|&i| corners[i]).collect();
        let (k, other) = (Panel::new(&corners, skin).unwrap().stiffness(), Panel::new(&renamed, skin).unwrap().stiffness());
        for i in 0..3 * n {
            for j in 0..3 * n {
                let same = k[(3 * order[i / 3] + i % 3, 3 * order[j / 3] + j % 3)];
                prop_assert!((other[(i, j)] - same).abs() <= 1e-12 * k.amax());
            }
        }
    }

    /// The flows along the edges are in balance as forces in the plane, whatever the quadrilateral.
    #[test]
    fn edge_flows_are_in_balance(corners in corners(4, 0.0), skin in skins()) {
        let panel = Panel::new(&corners, skin).unwrap();
        let moved: Vec<[f64; 3]> = corners.iter().map(|at| [at[1] * 1e-3, at[2] * 2e-3, at[0] * at[1] * 1e-3]).collect();
        let flows = panel.flows(&moved);
        let (mut sum, mut turning, mut gross) = (Vector3::zeros(), Vector3::zeros(), 0.0);
        for i in 0..4 {
            let (a, b) = (Vector3::from(corners[i]), Vector3::from(corners[(i + 1) % 4]));
            let sense = if i % 2 == 0 { -1.0 } else { 1.0 };
            let force = (b - a) * (sense * flows.edges[i]);
            sum += force;
            turning += a.cross(&force);
            gross += force.norm();
        }
        prop_assert!(sum.amax() <= 1e-12 * gross && turning.amax() <= 1e-11 * gross);
        let [q1, q2, q3, q4] = [0, 1, 2, 3].map(|i| flows.edges[i]);
        prop_assert!((q1 * q3 - flows.mean * flows.mean).abs() <= 1e-11 * flows.mean * flows.mean);
        prop_assert!((q2 * q4 - flows.mean * flows.mean).abs() <= 1e-11 * flows.mean * flows.mean);
    }

    /// A parallelogram, by an independent way: uniform stress with tangential tractions on all edges, its energy from
    /// E, G and Hooke's law, its edge forces lumped at the corners.
    #[test]
    fn a_parallelogram_is_exact(a in 0.2..2.0_f64, b in 0.2..2.0_f64, angle in 0.6..2.5_f64, skin in skins()) {
        let (sin, cos) = angle.sin_cos();
        let corners = [[0.0, 0.0, 0.0], [a, 0.0, 0.0], [a + b * cos, b * sin, 0.0], [b * cos, b * sin, 0.0]];
        let panel = Panel::new(&corners, skin).unwrap();
        // τ = 1 Pa, σy = 0; the slanted edge with normal (sin, −cos) is free of normal stress: σx sin² = 2 τ sin cos.
        let direct = 2.0 * cos / sin;
        let density = direct * direct / (2.0 * skin.youngs) + 1.0 / (2.0 * skin.shear);
        let flow = skin.thickness;
        let energy = density * a * b * sin * skin.thickness + 0.5 * skin.fixing * flow * flow * 2.0 * (a + b);
        // Edge 3–4 slides by s along itself against edge 1–2: flow = force / a.
        let slide = 2.0 * energy / (flow * a);
        let moved = [[0.0; 3], [0.0; 3], [slide, 0.0, 0.0], [slide, 0.0, 0.0]];
        let flows = panel.flows(&moved);
        prop_assert!((flows.mean - flow).abs() <= 1e-9 * flow, "{} {}", flows.mean, flow);
        for edge in flows.edges {
            prop_assert!((edge - flow).abs() <= 1e-9 * flow);
        }
    }

    /// Constant shear in a triangle, from its three corners' movements.
    #[test]
    fn a_triangle_holds_constant_shear(corners in corners(3, 0.0), skin in skins(), gamma in -1e-3..1e-3_f64) {
        let panel = Panel::new(&corners, Skin { fixing: 0.0, ..skin }).unwrap();
        let [a, b, c] = [0, 1, 2].map(|i| Vector3::from(corners[i]));
        let x = (b - a).normalize();
        let y = x.cross(&(c - a)).cross(&x).normalize();
        let moved: Vec<[f64; 3]> = corners.iter().map(|at| (x * (gamma * y.dot(&(Vector3::from(*at) - a)))).into()).collect();
        let flow = skin.shear * skin.thickness * gamma.abs();
        prop_assert!((panel.flows(&moved).mean - flow).abs() <= 1e-9 * flow.max(1e-6));
        // Equal stretch in all directions is no shear.
        let swollen: Vec<[f64; 3]> = corners.iter().map(|at| (Vector3::from(*at) * 1e-3).into()).collect();
        prop_assert!(panel.flows(&swollen).mean <= 1e-9 * skin.shear * skin.thickness);
    }

    /// A bar of the equivalent area along a diagonal, in a frame of edges that keep their length, costs the same energy.
    #[test]
    fn the_equivalent_bar_costs_the_same_energy(corners in corners(4, 0.0), skin in skins()) {
        let panel = Panel::new(&corners, skin).unwrap();
        let motion = linkage(&corners);
        let energy = panel.energy(&motion);
        for (diagonal, area) in panel.equivalent_diagonals(210e9).unwrap().into_iter().enumerate() {
            let [from, to] = [diagonal, diagonal + 2].map(|i| (Vector3::from(corners[i]), Vector3::from(motion[i])));
            let along = to.0 - from.0;
            let stretch = along.dot(&(to.1 - from.1)) / along.norm();
            let bar = 0.5 * 210e9 * area / along.norm() * stretch * stretch;
            prop_assert!((bar - energy).abs() <= 1e-9 * energy, "{bar} {energy}");
        }
    }
}

/// The movement of four pinned bars of fixed length: corners 1 and 2 held, 3 and 4 swing in the plane.
fn linkage(corners: &[[f64; 3]]) -> Vec<[f64; 3]> {
    let at: Vec<Vector3<f64>> = corners.iter().map(|corner| Vector3::from(*corner)).collect();
    let normal = (at[2] - at[0]).cross(&(at[3] - at[1])).normalize();
    let fourth = normal.cross(&(at[3] - at[0])) * 1e-3;
    let direction = normal.cross(&(at[2] - at[1]));
    let rod = at[3] - at[2];
    let third = direction * (fourth.dot(&rod) / direction.dot(&rod));
    [Vector3::zeros(), Vector3::zeros(), third, fourth].map(Into::into).to_vec()
}

fn rectangle(a: f64, b: f64) -> [[f64; 3]; 4] {
    [[0.0, 0.0, 0.0], [a, 0.0, 0.0], [a, b, 0.0], [0.0, b, 0.0]]
}

/// Bays of 500 × 400 mm, stiffness along the long side and area of the equivalent steel diagonal: closed forms
/// k = Gt a/b and A = Gt d³/(E a b).
#[test]
fn a_rectangle_is_g_t_a_over_b() {
    for (thickness, shear, stiffness, area) in
        [(1e-3, 26.3e9, 32.9e6, 164e-6), (0.9e-3, 81e9, 91.1e6, 456e-6), (3e-3, 2.75e9, 10.3e6, 52e-6)]
    {
        let skin = Skin { thickness, shear, youngs: 2.6 * shear, fixing: 0.0 };
        let panel = Panel::new(&rectangle(0.5, 0.4), skin).unwrap();
        let slide = [[0.0; 3], [0.0; 3], [1e-3, 0.0, 0.0], [1e-3, 0.0, 0.0]];
        let force: f64 = panel.corner_forces(&slide)[2..].iter().map(|f| f[0]).sum();
        assert_relative_eq!(force / 1e-3, shear * thickness * 0.5 / 0.4, max_relative = 1e-12);
        assert_relative_eq!(force / 1e-3, stiffness, max_relative = 5e-3);
        let [first, second] = panel.equivalent_diagonals(210e9).unwrap();
        assert_relative_eq!(first, second, max_relative = 1e-12);
        assert_relative_eq!(first, area, max_relative = 1e-2);
        let d = 0.5_f64.hypot(0.4);
        assert_relative_eq!(first, shear * thickness * d.powi(3) / (210e9 * 0.5 * 0.4), max_relative = 1e-12);
    }
}

/// 1/(Gt)_eff = 1/(Gt) + 2c(1/a + 1/b), for a line of polyurethane 3 × 20 mm with G = 1 MPa: 3 % is left of 1 mm aluminium.
#[test]
fn fixings_stand_in_series() {
    let fixing = 3e-3 / (1e6 * 20e-3);
    let panel = Panel::new(&rectangle(0.5, 0.4), Skin { fixing, ..ALUMINIUM }).unwrap();
    let flexible = 1.0 / 26.3e6 + 2.0 * fixing * (1.0 / 0.5 + 1.0 / 0.4);
    assert_relative_eq!(panel.effective_shear(), 1.0 / flexible, max_relative = 1e-12);
    let bare = panel.without_slip();
    assert_relative_eq!(bare.effective_shear(), 26.3e6, max_relative = 1e-12);
    assert_relative_eq!(panel.effective_shear() / bare.effective_shear(), 0.03, epsilon = 5e-3);
}

/// A trapezium whose sides meet at distance r₁ from its base and r₃ from its top: q₁r₁² = q₃r₃², legs between (Garvey 1951,
/// from memory); the flow q₁r₁²/r² over its strips gives the mean square q₁q₃.
#[test]
fn a_trapezium_has_the_flows_of_its_strips() {
    let (r1, r3, spread) = (2.0, 1.2, 0.3);
    let corners =
        [[-r1 * spread, -r1, 0.0], [r1 * spread, -r1, 0.0], [r3 * spread, -r3, 0.0], [-r3 * spread, -r3, 0.0]];
    let panel = Panel::new(&corners, Skin { youngs: 1e30, ..ALUMINIUM }).unwrap();
    let moved = [[0.0; 3], [0.0; 3], [1e-3, 0.0, 0.0], [1e-3, 0.0, 0.0]];
    let flows = panel.flows(&moved);
    assert_relative_eq!(flows.edges[0] * r1 * r1, flows.edges[2] * r3 * r3, max_relative = 1e-12);
    assert_relative_eq!(flows.edges[1], flows.mean, max_relative = 1e-12);
    let strips: f64 = (0..20000)
        .map(|i| r3 + (r1 - r3) * (f64::from(i) + 0.5) / 20000.0)
        .map(|r| (flows.edges[0] * r1 * r1 / (r * r)).powi(2) * 2.0 * spread * r * (r1 - r3) / 20000.0)
        .sum();
    let energy = strips / (2.0 * ALUMINIUM.shear * ALUMINIUM.thickness);
    assert_relative_eq!(panel.energy(&moved), energy, max_relative = 1e-6);
}

/// The direct stress that slanting lines need in a trapezium, summed over a fine grid of strips and lines to the apex.
#[test]
fn a_trapezium_has_the_direct_stress_of_its_slanting_lines() {
    let (r1, r3, spread) = (2.0, 1.2, 0.3);
    let corners =
        [[-r1 * spread, -r1, 0.0], [r1 * spread, -r1, 0.0], [r3 * spread, -r3, 0.0], [-r3 * spread, -r3, 0.0]];
    let soft = Panel::new(&corners, Skin { youngs: 1e9, shear: 1e30, ..ALUMINIUM }).unwrap();
    const N: u32 = 400;
    let mut sum = 0.0;
    for i in 0..N {
        let r = r3 + (r1 - r3) * (f64::from(i) + 0.5) / f64::from(N);
        for j in 0..N {
            // A strip crosses the line to the apex that leans by the slope m: cot θ = m; flow over the mean r₁r₃/r².
            let m = spread * ((f64::from(j) + 0.5) / f64::from(N) * 2.0 - 1.0);
            let area = (r1 - r3) / f64::from(N) * 2.0 * spread * r / f64::from(N);
            sum += (r1 * r3 / (r * r)).powi(2) * m * m * area;
        }
    }
    let flexibility = 4.0 * sum / (1e9 * ALUMINIUM.thickness);
    assert_relative_eq!(soft.area() / soft.effective_shear(), flexibility, max_relative = 1e-4);
}

/// 500 × 400 mm, simply supported: τ of 1 mm aluminium 3.2 MPa, of 0.9 mm steel 7.6 MPa (closed form).
#[test]
fn buckling_of_a_bay() {
    let panel = |skin| Panel::new(&rectangle(0.5, 0.4), skin).unwrap().buckling_stress();
    assert_relative_eq!(panel(ALUMINIUM), 3.2e6, epsilon = 0.1e6);
    assert_relative_eq!(
        panel(Skin { thickness: 0.9e-3, youngs: 210e9, shear: 81e9, fixing: 0.0 }),
        7.6e6,
        epsilon = 0.1e6
    );
    let plywood = Skin { thickness: 6e-3, youngs: 8e9, shear: 620e6, fixing: 0.0 };
    assert!(panel(plywood) > 0.0);
}

#[test]
fn warp_is_the_gap_between_the_diagonals() {
    let mut corners = rectangle(0.3, 0.4);
    assert_eq!(Panel::new(&corners, ALUMINIUM).unwrap().warp(), 0.0);
    corners[2][2] = 0.02;
    // Diagonals 1–3 and 2–4: the gap at the middle is half the lift, nearly.
    assert_relative_eq!(Panel::new(&corners, ALUMINIUM).unwrap().warp(), 0.01 / 0.5, max_relative = 1e-2);
}

#[test]
fn corners_that_make_no_panel_are_refused() {
    let refused = |corners: &[[f64; 3]]| Panel::new(corners, ALUMINIUM).unwrap_err();
    let [a, b, c, d] = rectangle(1.0, 1.0);
    assert_eq!(refused(&[a, b]), NoPanel::Corners);
    assert_eq!(refused(&[a, b, [2.0, 0.0, 0.0]]), NoPanel::NoArea);
    assert_eq!(refused(&[a, b, b, a]), NoPanel::NoArea);
    assert_eq!(refused(&[a, c, b, d]), NoPanel::NoArea);
    assert_eq!(refused(&[a, c, b, [0.0, 0.7, 0.0]]), NoPanel::NotConvex);
    assert_eq!(refused(&[a, b, [0.2, 0.2, 0.0], d]), NoPanel::NotConvex);
    assert_eq!(refused(&[a, b, b, d]), NoPanel::NotConvex);
    assert_eq!(refused(&[a, b, c, [f64::NAN; 3]]), NoPanel::NoArea);
}
