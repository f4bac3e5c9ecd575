//! A force and a moment shared among several points, statically equivalent.

use nalgebra::{Matrix3, SymmetricEigen, Vector3};

/// Points whose spread about their own line is below this share of their spread along it count as lying on the line:
/// as a ratio of second moments, so that a pattern 1 mm wide on 1 m of length is still a line.
const ON_A_LINE: f64 = 1e-6;

/// Shares a force and a moment, acting at one point, among several points with equal weights, statically equivalent.
///
/// ```text
/// f_i = F/n + θ × r_i,   S θ = M_c,   S = Σ(|r_i|² 1 − r_i r_iᵀ),   M_c = M + (at − c) × F
/// ```
/// with r_i measured from the centroid c of the points. What points on one line (or a single point) cannot take as
/// forces, the moment about that line, is given as equal moments at the points.
///
/// # Units and shapes
/// | argument | unit | meaning |
/// |---|---|---|
/// | `force` | N | acting at `at` |
/// | `moment` | N·m | acting with it |
/// | `at` | m | where they act |
/// | `points` | m | where the shares act |
/// | returned | N, N·m | for each point fx, fy, fz, mx, my, mz; empty for no points |
///
/// # Signs and order
/// One pair of axes for everything; the shares are in the order of the points.
///
/// # Assumes
/// Equal weights: how stiff the structure is at each point plays no part. This is the usual bolt-group rule.
///
/// # Source
/// Derived: the elastic method for a group of equal fasteners, carried to three dimensions.
///
/// # Example
/// ```
/// // 100 N down, a quarter of the way between two points: three quarters and one quarter.
/// let shares = strutwork_loads::spread([0.0, 0.0, -100.0], [0.0; 3], [0.25, 0.0, 0.0], &[[0.0; 3], [1.0, 0.0, 0.0]]);
/// assert_eq!((shares[0][2], shares[1][2]), (-75.0, -25.0));
/// ```
pub fn spread(force: [f64; 3], moment: [f64; 3], at: [f64; 3], points: &[[f64; 3]]) -> Vec<[f64; 6]> {
    if points.is_empty() {
        return Vec::new();
    }
    let count = points.len() as f64;
    let centroid = points.iter().map(|p| Vector3::from(*p)).sum::<Vector3<f64>>() / count;
    let arms: Vec<Vector3<f64>> = points.iter().map(|p| Vector3::from(*p) - centroid).collect();
    let force = Vector3::from(force);
    let about_centroid = Vector3::from(moment) + (Vector3::from(at) - centroid).cross(&force);

    let turn = pseudo_solve(&second_moments(&arms), &about_centroid);
    let forces: Vec<Vector3<f64>> = arms.iter().map(|r| force / count + turn.cross(r)).collect();
    let taken: Vector3<f64> = arms.iter().zip(&forces).map(|(r, f)| r.cross(f)).sum();
    let rest = (about_centroid - taken) / count;
    forces.iter().map(|f| [f.x, f.y, f.z, rest.x, rest.y, rest.z]).collect()
}

/// S = Σ(|r|² 1 − r rᵀ).
fn second_moments(arms: &[Vector3<f64>]) -> Matrix3<f64> {
    arms.iter().map(|r| Matrix3::identity() * r.norm_squared() - r * r.transpose()).sum()
}

/// θ of least size with S θ = M in the directions that S can take; zero in the others.
fn pseudo_solve(matrix: &Matrix3<f64>, right: &Vector3<f64>) -> Vector3<f64> {
    let eigen = SymmetricEigen::new(*matrix);
    let greatest = eigen.eigenvalues.max();
    let mut solution = Vector3::zeros();
    for (value, direction) in eigen.eigenvalues.iter().zip(eigen.eigenvectors.column_iter()) {
        if *value > ON_A_LINE * greatest {
            solution += direction * (direction.dot(right) / value);
        }
    }
    solution
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn vector() -> impl Strategy<Value = [f64; 3]> {
        [-2.0..2.0, -2.0..2.0, -2.0..2.0]
    }

    /// The resultant about the origin of loads at points.
    fn resultant(shares: &[[f64; 6]], points: &[[f64; 3]]) -> (Vector3<f64>, Vector3<f64>) {
        shares.iter().zip(points).fold((Vector3::zeros(), Vector3::zeros()), |(f, m), (share, at)| {
            let force = Vector3::new(share[0], share[1], share[2]);
            let moment = Vector3::new(share[3], share[4], share[5]);
            (f + force, m + moment + Vector3::from(*at).cross(&force))
        })
    }

    fn assert_equivalent(force: [f64; 3], moment: [f64; 3], at: [f64; 3], points: &[[f64; 3]]) {
        let shares = spread(force, moment, at, points);
        assert_eq!(shares.len(), points.len());
        let (f, m) = resultant(&shares, points);
        let wanted = Vector3::from(moment) + Vector3::from(at).cross(&Vector3::from(force));
        // Nearly collinear points turn a moment into large opposite forces, whose rounding is part of the sum.
        let size: f64 = 1.0 + shares.iter().map(|s| s.iter().map(|v| v.abs()).sum::<f64>()).sum::<f64>();
        assert!((f - Vector3::from(force)).norm() < 1e-12 * size, "force {f} of {force:?}");
        assert!((m - wanted).norm() < 1e-11 * size, "moment {m} of {wanted}");
    }

    proptest! {
        #[test]
        fn resultant_is_kept(force in vector(), moment in vector(), at in vector(),
                             points in prop::collection::vec(vector(), 1..7)) {
            assert_equivalent(force, moment, at, &points);
        }

        #[test]
        fn resultant_is_kept_on_a_line(force in vector(), moment in vector(), at in vector(), start in vector(),
                                       along in vector(), places in prop::collection::vec(-1.0..1.0, 1..5)) {
            let points: Vec<[f64; 3]> =
                places.iter().map(|s| [0, 1, 2].map(|axis| start[axis] + s * along[axis])).collect();
            assert_equivalent(force, moment, at, &points);
        }
    }

    #[test]
    fn one_point_takes_force_and_moment() {
        let shares = spread([1.0, 2.0, 3.0], [4.0, 5.0, 6.0], [0.0, 0.0, 1.0], &[[0.0; 3]]);
        // (0,0,1) × (1,2,3) = (−2, 1, 0).
        assert_eq!(shares, vec![[1.0, 2.0, 3.0, 2.0, 6.0, 6.0]]);
    }

    #[test]
    fn two_points_take_the_moment_about_their_line_as_moments() {
        let shares = spread([0.0; 3], [10.0, 0.0, 4.0], [0.0; 3], &[[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]]);
        // 4 N·m about z: ±2 N at 2 m along y. 10 N·m about x: 5 N·m each.
        assert_eq!(shares, vec![[0.0, -2.0, 0.0, 5.0, 0.0, 0.0], [0.0, 2.0, 0.0, 5.0, 0.0, 0.0]]);
    }

    #[test]
    fn coincident_points_share_equally() {
        let shares = spread([6.0, 0.0, 0.0], [0.0, 2.0, 0.0], [0.5; 3], &[[0.5; 3], [0.5; 3]]);
        assert_eq!(shares, vec![[3.0, 0.0, 0.0, 0.0, 1.0, 0.0]; 2]);
    }

    #[test]
    fn no_points_no_shares() {
        assert!(spread([1.0; 3], [1.0; 3], [0.0; 3], &[]).is_empty());
    }
}
