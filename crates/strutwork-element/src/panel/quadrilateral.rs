//! The quadrilateral panel: one state of shear, in balance along its four edges.

use nalgebra::{SMatrix, SVector, Vector3};

use super::{NONE, NoPanel, Panel, Skin};

/// Places and weights of Gauss' rule with five points on 0…1.
///
/// Abramowitz & Stegun (1964), Handbook of Mathematical Functions, table 25.4 (from memory; the laws check its moments).
const GAUSS: [(f64, f64); 5] = [
    (0.046_910_077_030_668, 0.118_463_442_528_094_54),
    (0.230_765_344_947_158_45, 0.239_314_335_249_683_23),
    (0.5, 0.284_444_444_444_444_44),
    (0.769_234_655_052_841_5, 0.239_314_335_249_683_23),
    (0.953_089_922_969_332, 0.118_463_442_528_094_54),
];

/// The panel on four corners.
///
/// ```text
///      4 ←──── 3       The frame drags the edges towards corners 1 and 3 with the flows q₁ … q₄ (q > 0).
///      │ q₃    ↑       Balance of forces along the edges leaves one state; with Sᵢ the area of the triangle that the
///   q₄ ↓       │ q₂    diagonal cuts off at corner i, and q the mean flow,
///      1 ←──── 2         q₁ = q √(S₃S₄/S₁S₂)   q₂ = q √(S₁S₄/S₂S₃)   q₃ = q √(S₁S₂/S₃S₄)   q₄ = q √(S₂S₃/S₁S₄)
///         q₁             q₁q₃ = q₂q₄ = q²
///
/// energy = ½ q² C    C = A/(Gt) + 4/(Et) ∫ (q(P)/q)² cot²θ dA + c Σ (qᵢ/q)² lᵢ
/// ```
///
/// θ is the angle between the two lines through P that meet the intersections of opposite edges: on both only shear acts,
/// which slanting lines can do with direct stress alone. The field q(P) is that of a square under constant shear carried
/// over by the projective map of the square onto the quadrilateral (such maps keep forces in balance); its square has the
/// mean q² over any convex quadrilateral, which is the first term. Rectangle: C = ab/(Gt) + 2c(a + b). Parallelogram:
/// ab sinθ (1/(Gt) + 4cot²θ/(Et)) + 2c(a + b).
///
/// A warped quadrilateral is taken as flat on the plane midway between its diagonals; the corner forces are then freed of
/// what a rigid movement of the true corners would cost, by the least change.
///
/// # Source
/// Derived here after Garvey (1951), The Quadrilateral Shear Panel, Aircraft Engineering 23, pp. 134–135, 144 (from memory).
pub(super) fn panel(corners: [Vector3<f64>; 4], skin: Skin) -> Result<Panel, NoPanel> {
    let [first, second] = [corners[2] - corners[0], corners[3] - corners[1]];
    let normal = first.cross(&second);
    let area = normal.norm() / 2.0;
    let size = first.norm().max(second.norm());
    if !(area.is_finite() && area > NONE * size * size) {
        return Err(NoPanel::NoArea);
    }
    let normal = normal.normalize();
    let flat = corners.map(|corner| corner - normal * normal.dot(&(corner - corners[0])));
    let edge = |i: usize| flat[(i + 1) % 4] - flat[i];
    let cut = [0, 1, 2, 3].map(|i| normal.dot(&edge((i + 3) % 4).cross(&edge(i))) / 2.0);
    if cut.iter().any(|part| *part <= NONE * area) {
        return Err(NoPanel::NotConvex);
    }
    let lengths = [0, 1, 2, 3].map(|i| edge(i).norm());
    let all = cut.iter().product::<f64>().sqrt();
    let shares = [0, 1, 2, 3].map(|i| cut[(i + 2) % 4] * cut[(i + 3) % 4] / all);

    let mut state = [Vector3::zeros(); 4];
    for i in 0..4 {
        // Towards corner 1 or 3: against the order of the corners on the first and third edge.
        let sense = if i % 2 == 0 { -1.0 } else { 1.0 };
        let half = edge(i) * (sense * shares[i] / 2.0);
        state[i] += half;
        state[(i + 1) % 4] += half;
    }
    let slip = skin.fixing * (0..4).map(|i| shares[i] * shares[i] * lengths[i]).sum::<f64>();
    let slant = slant(&flat, &cut, &normal) * 4.0 / (skin.youngs * skin.thickness);
    let (a, b) = ((lengths[0] + lengths[2]) / 2.0, (lengths[1] + lengths[3]) / 2.0);
    Ok(Panel {
        states: vec![without_rigid_work(&corners, &state)],
        flexibility: area / (skin.shear * skin.thickness) + slant + slip,
        slip,
        edges: shares.to_vec(),
        // What the edges leave at a corner for a bar across.
        diagonals: vec![
            [(edge(0) * shares[0] - edge(3) * shares[3]).norm(), first.norm()],
            [(edge(1) * shares[1] - edge(0) * shares[0]).norm(), second.norm()],
        ],
        area,
        sides: [a.max(b), a.min(b)],
        warp: normal.dot(&(corners[1] - corners[0])).abs() / first.norm().min(second.norm()),
        skin,
    })
}

/// ∫ (q(P)/q)² cot²θ dA over a flat quadrilateral, m².
///
/// The map of the unit square is P = Σ wᵢdᵢPᵢ / Σ wᵢdᵢ with bilinear wᵢ and dᵢ = S of the opposite corner; q(P)/q = d²/√(S₁S₂S₃S₄).
fn slant(corners: &[Vector3<f64>; 4], cut: &[f64; 4], normal: &Vector3<f64>) -> f64 {
    let from_first = corners.map(|corner| corner - corners[0]);
    let weights = [cut[2], cut[3], cut[0], cut[1]];
    let (along, up) = (from_first[1] * weights[1], from_first[3] * weights[3]);
    let (d_along, d_up) = (weights[1] - weights[0], weights[3] - weights[0]);
    let all: f64 = cut.iter().product();
    let mut sum = 0.0;
    for (x, weight_x) in GAUSS {
        for (y, weight_y) in GAUSS {
            let (v, d) = (along * x + up * y, weights[0] + d_along * x + d_up * y);
            let (a, b) = ((along * d - v * d_along) / (d * d), (up * d - v * d_up) / (d * d));
            let spread = normal.dot(&a.cross(&b));
            sum += weight_x * weight_y * d.powi(4) * a.dot(&b).powi(2) / spread;
        }
    }
    sum / all
}

/// Corner forces in balance as they stand: freed of the work that they would do in the six rigid movements.
fn without_rigid_work(corners: &[Vector3<f64>; 4], state: &[Vector3<f64>; 4]) -> Vec<Vector3<f64>> {
    let middle = corners.iter().sum::<Vector3<f64>>() / 4.0;
    let size = (corners[0] - middle).norm();
    let mut motions = SMatrix::<f64, 12, 6>::zeros();
    for (i, corner) in corners.iter().enumerate() {
        let arm = (corner - middle) / size;
        for axis in 0..3 {
            let mut unit = Vector3::zeros();
            unit[axis] = 1.0;
            motions.fixed_view_mut::<3, 1>(3 * i, axis).copy_from(&unit);
            motions.fixed_view_mut::<3, 1>(3 * i, axis + 3).copy_from(&unit.cross(&arm));
        }
    }
    let basis = motions.qr().q();
    let mut forces = SVector::<f64, 12>::from_fn(|i, _| state[i / 3][i % 3]);
    // Twice: the second time takes the rounding of the first.
    for _ in 0..2 {
        forces -= basis * basis.tr_mul(&forces);
    }
    (0..4).map(|i| forces.fixed_rows::<3>(3 * i).into_owned()).collect()
}
