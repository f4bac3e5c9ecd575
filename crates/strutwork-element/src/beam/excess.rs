//! How much too stiff a piece with cubic shapes is once an axial force bows it: a bound, not an estimate.

use std::f64::consts::PI;

use nalgebra::{DMatrix, SymmetricEigen};

use super::{Beam, EndSprings};
use crate::Mat12;

/// ∫ p A⁻¹ p′ over −1 … 1 of the loads 1, ξ, ξ² on a clamped piece with EI = 1 and half its length 1: deflections
/// (1−ξ²)²/24, ξ(1−ξ²)²/120, (1−ξ²)²(ξ²+2)/360 (derived by integration).
const CLAMPED: [[f64; 3]; 3] =
    [[2.0 / 45.0, 0.0, 2.0 / 315.0], [0.0, 2.0 / 1575.0, 0.0], [2.0 / 315.0, 0.0, 2.0 / 2025.0]];

/// What cubic shapes leave out in one plane of bending, for an axial force that is λ ≥ 0 times the one given.
///
/// ```text
/// K + λ K_g − α² λ² W / (1 − λ s) − (1 − α)² λ V  ≤  exact stiffness of the piece  ≤  K + λ K_g       while λ s < 1
/// α = 1/(1 + λ t)
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Excess {
    /// W, over the freedoms of the piece's own ends: what its bending alone would leave out; N²/m, N² and N²·m over N/m, N and N·m.
    pub bent: Mat12,
    /// V, likewise: what a taut string would; N/m, N and N·m. 0 but where the piece is pulled all along.
    pub taut: Mat12,
    /// s: the piece between held joints buckles beyond λ = 1/s; 0 where nothing presses it.
    pub softness: f64,
    /// t: from λ = 1/t the pull counts for more than the bending; 0 but where it is pulled all along.
    pub tautness: f64,
}

impl Excess {
    /// What W and V count at a load factor; infinite where the piece has buckled by itself.
    pub fn weights(&self, factor: f64) -> [f64; 2] {
        let left = 1.0 - factor * self.softness;
        if left <= 0.0 {
            return [f64::INFINITY; 2];
        }
        let share = 1.0 / (1.0 + factor * self.tautness);
        [(share * factor).powi(2) / left, (1.0 - share).powi(2) * factor]
    }
}

impl Beam {
    /// What cubic shapes leave out in bending about y and about z, under an axial force that runs linearly from `at_from` to
    /// `at_to`, N, tension positive; `None` where its ends hold it so little that it moves without bending.
    ///
    /// ```text
    /// true shape = cubic v + bow b:   b minimises ½ ∫ EI b″² + ½ λ ∫ N b′² + λ ∫ N v′ b′        (∫ EI v″ b″ = 0)
    ///                                 ≥ − ½ λ² q A⁻¹ q / (1 − λ s),   q = (N v′)′,   A the clamped piece
    /// s = max(−N) L²/(4π² EI)         even force, even curvature: W = N² L⁴/(720 EI) of ∫v″²
    /// ```
    ///
    /// Ends that springs or releases join add their own freedoms: q (K_rr + k)⁻¹ q to W, and the greatest
    /// rᵀ G r / rᵀ (K_rr + k) r to s. Where the piece is pulled all along, its bow is held by bending and by the pull:
    ///
    /// ```text
    /// (A + λ G)⁻¹ ≤ α² A⁻¹ + (1 − α)² (λ G)⁻¹ for every α     q G⁻¹ q ≤ V = ∫ (N v′ − mean)² / min(N)     t = min(N) L²/(60 EI)
    /// ```
    ///
    /// # Units and shapes
    /// Springs in the order of the end freedoms, N/m and N·m/rad.
    ///
    /// # Source
    /// Derived here: Schur complement of the bow, Rayleigh's quotient of the clamped column (Timoshenko & Gere (1961), § 2.1,
    /// from memory).
    pub fn excess(&self, springs: &EndSprings, at_from: f64, at_to: f64) -> Option<[Excess; 2]> {
        let pulled = at_from.min(at_to).max(0.0);
        let (k, geometric) = (self.stiffness(), self.geometric_stiffness(at_from, at_to));
        let pressed = (-at_from).max(-at_to).max(0.0);
        let pressing = self.geometric_stiffness(pressed, pressed);
        let plane = |places: [usize; 4], sign: f64, inertia: f64| {
            let spread = |values: [[f64; 4]; 4]| {
                let mut matrix = Mat12::zeros();
                for (a, &i) in places.iter().enumerate() {
                    for (b, &j) in places.iter().enumerate() {
                        let turned = if (a % 2 == 1) == (b % 2 == 1) { 1.0 } else { sign };
                        matrix[(i, j)] = values[a][b] * turned;
                    }
                }
                matrix
            };
            let mut matrix = spread(self.bowed(at_from, at_to, self.youngs * inertia));
            let mut softness = pressed * self.length.powi(2) / (4.0 * PI * PI * self.youngs * inertia);
            let loose: Vec<usize> = places.into_iter().filter(|place| springs[*place].is_some()).collect();
            if !loose.is_empty() {
                let n = loose.len();
                let held = DMatrix::from_fn(n, n, |a, b| {
                    let spring = if a == b { springs[loose[a]].unwrap_or(0.0) } else { 0.0 };
                    k[(loose[a], loose[b])] + spring
                });
                let factor = held.cholesky()?;
                let load = DMatrix::from_fn(n, 12, |a, j| geometric[(loose[a], j)]);
                let moved = load.tr_mul(&factor.solve(&load));
                for &i in &places {
                    for &j in &places {
                        matrix[(i, j)] += moved[(i, j)];
                    }
                }
                // L⁻¹ G L⁻ᵀ.
                let push = DMatrix::from_fn(n, n, |a, b| pressing[(loose[a], loose[b])]);
                let half = factor.l().solve_lower_triangular(&push)?;
                let both = factor.l().solve_lower_triangular(&half.transpose())?;
                softness += SymmetricEigen::new((&both + both.transpose()) / 2.0).eigenvalues.max().max(0.0);
            }
            // An end that shifts lets the string turn as a whole: then the pull is not counted upon.
            let shifts = springs[places[0]].is_some() || springs[places[2]].is_some();
            let (mut taut, mut tautness) = (Mat12::zeros(), 0.0);
            if pulled > 0.0 && !shifts {
                taut = spread(self.strung(at_from, at_to, pulled));
                tautness = pulled * self.length.powi(2) / (60.0 * self.youngs * inertia);
            }
            Some(Excess { bent: matrix, taut, softness, tautness })
        };
        Some([plane([2, 4, 8, 10], -1.0, self.iy)?, plane([1, 5, 7, 11], 1.0, self.iz)?])
    }

    /// q A⁻¹ q of the clamped piece over deflection and rotation of the first end, then of the second.
    fn bowed(&self, at_from: f64, at_to: f64, bending: f64) -> [[f64; 4]; 4] {
        let l = self.length;
        let (n, rise) = (at_from, at_to - at_from);
        let loads = self.slopes().map(|[a, b, c]| {
            // (N v′)′ by powers of the place, then by powers of ξ.
            let q = [n * b + rise * a, 2.0 * (n * c + rise * b), 3.0 * rise * c].map(|q| q / l);
            [q[0] + q[1] / 2.0 + q[2] / 4.0, (q[1] + q[2]) / 2.0, q[2] / 4.0]
        });
        let scale = l.powi(5) / (32.0 * bending);
        let mut bowed = [[0.0; 4]; 4];
        for (i, row) in bowed.iter_mut().enumerate() {
            for (j, value) in row.iter_mut().enumerate() {
                for (a, flexible) in CLAMPED.iter().enumerate() {
                    for (b, share) in flexible.iter().enumerate() {
                        *value += scale * share * loads[i][a] * loads[j][b];
                    }
                }
            }
        }
        bowed
    }

    /// ∫ (N v′ − mean)² over the least pull, over deflection and rotation of the first end, then of the second.
    fn strung(&self, at_from: f64, at_to: f64, least: f64) -> [[f64; 4]; 4] {
        let l = self.length;
        let rise = at_to - at_from;
        // N v′ by powers of the place 0 … 1, and ∫ of the product of two such.
        let pulls =
            self.slopes().map(|[a, b, c]| [at_from * a, at_from * b + rise * a, at_from * c + rise * b, rise * c]);
        let product = |p: &[f64; 4], q: &[f64; 4]| {
            let terms =
                p.iter().enumerate().flat_map(|(i, p)| q.iter().enumerate().map(move |(j, q)| (i + j + 1, p * q)));
            terms.map(|(power, value)| value / power as f64).sum::<f64>()
        };
        let one = [1.0, 0.0, 0.0, 0.0];
        let of = |i: usize, j: usize| {
            l * (product(&pulls[i], &pulls[j]) - product(&pulls[i], &one) * product(&pulls[j], &one)) / least
        };
        std::array::from_fn(|i| std::array::from_fn(|j| of(i, j)))
    }

    /// Slopes of the cubic shapes of deflection and rotation of the first end, then of the second, by powers of the place 0 … 1.
    fn slopes(&self) -> [[f64; 3]; 4] {
        let l = self.length;
        [[0.0, -6.0 / l, 6.0 / l], [1.0, -4.0, 3.0], [0.0, 6.0 / l, -6.0 / l], [0.0, -2.0, 3.0]]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Vec12;
    use crate::beam::Ends;

    const BEAM: Beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 5e-8, j: 5e-8, length: 1.3 };

    #[test]
    fn an_even_curvature_gives_the_fourth_power_over_720() {
        let n = -2e4;
        let [_, z] = BEAM.excess(&[None; 12], n, n).unwrap();
        // v″ = κ: end rotations ∓κL/2.
        let mut v = Vec12::zeros();
        (v[5], v[11]) = (-BEAM.length / 2.0, BEAM.length / 2.0);
        let u4 = (n * n * BEAM.length.powi(4)) / (BEAM.youngs * BEAM.iz).powi(2);
        let bending = v.dot(&(BEAM.stiffness() * v));
        assert!((v.dot(&(z.bent * v)) / bending / (u4 / 720.0) - 1.0).abs() < 1e-12);
        assert!((z.softness * 4.0 * PI * PI * BEAM.youngs * BEAM.iz / BEAM.length.powi(2) - 2e4).abs() < 1e-8);
    }

    /// The pressed piece in many small ones, all but its joints condensed: as exact as matters.
    fn condensed(beam: &Beam, ends: &Ends, at: [f64; 2], factor: f64) -> DMatrix<f64> {
        const PARTS: usize = 12;
        // Own joints 0 and PARTS, then the freedoms of the joints that carry them, at the end.
        let n = 6 * (PARTS + 1) + 12;
        let mut k = DMatrix::zeros(n, n);
        let part = Beam { length: beam.length / PARTS as f64, ..*beam };
        for piece in 0..PARTS {
            let force = |place: usize| factor * (at[0] + (at[1] - at[0]) * place as f64 / PARTS as f64);
            let own = part.stiffness() + part.geometric_stiffness(force(piece), force(piece + 1));
            for i in 0..12 {
                for j in 0..12 {
                    k[(6 * piece + i, 6 * piece + j)] += own[(i, j)];
                }
            }
        }
        for i in 0..12 {
            let (own, joint) = (if i < 6 { i } else { 6 * PARTS + i - 6 }, 6 * (PARTS + 1) + i);
            // A rigid bond as a spring that is as good as rigid here.
            let spring = ends.springs[i].unwrap_or(1e13);
            for (a, b, sign) in [(own, own, 1.0), (joint, joint, 1.0), (own, joint, -1.0), (joint, own, -1.0)] {
                k[(a, b)] += sign * spring;
            }
        }
        let inner = n - 12;
        let (aa, ab, bb) = (
            k.view((0, 0), (inner, inner)).into_owned(),
            k.view((0, inner), (inner, 12)).into_owned(),
            k.view((inner, inner), (12, 12)).into_owned(),
        );
        bb - ab.tr_mul(&aa.lu().solve(&ab).unwrap())
    }

    /// K + λK_g − λ²W/(1−λs) lies below the exact stiffness and that below K + λK_g, for even and uneven forces, rigid, sprung
    /// and hinged ends.
    #[test]
    fn the_exact_stiffness_lies_between() {
        let sprung = |places: &[(usize, f64)]| {
            let mut ends = Ends::RIGID;
            places.iter().for_each(|(place, spring)| ends.springs[*place] = Some(*spring));
            ends
        };
        for ends in [
            Ends::RIGID,
            sprung(&[(11, 0.0)]),
            sprung(&[(4, 2e4), (5, 1e3)]),
            sprung(&[(4, 0.0), (10, 0.0), (5, 0.0), (11, 0.0)]),
            sprung(&[(1, 1e6), (8, 3e5), (10, 500.0)]),
        ] {
            for at in [[-1.0, -1.0], [-1.0, -0.2], [0.0, -1.0], [1.0, 1.0], [1.0, 0.4], [-1.0, 0.7]] {
                let planes = BEAM.excess(&ends.springs, at[0], at[1]).unwrap();
                let most = planes.iter().map(|plane| plane.softness).fold(1e-9, f64::max);
                for share in [0.05, 0.3, 0.7, 0.95] {
                    // A piece that is only pulled: up to u = 20.
                    let factor = (share / most).min(share * 400.0 * BEAM.youngs * BEAM.iy / BEAM.length.powi(2));
                    let joined = BEAM.join(&ends);
                    let seen = |own: &Mat12| joined.condense(own);
                    let cubic = joined.stiffness() + seen(&BEAM.geometric_stiffness(at[0], at[1])) * factor;
                    let excess: Mat12 = planes
                        .iter()
                        .map(|plane| {
                            let [bent, taut] = plane.weights(factor);
                            seen(&plane.bent) * bent + seen(&plane.taut) * taut
                        })
                        .sum();
                    let exact = condensed(&BEAM, &ends, at, factor);
                    let over = DMatrix::from_fn(12, 12, |i, j| cubic[(i, j)] - exact[(i, j)]);
                    let under = DMatrix::from_fn(12, 12, |i, j| excess[(i, j)] - over[(i, j)]);
                    // Lateral freedoms alone; deflections times the length, so that all are of one size. The stand-in for
                    // rigid bonds, and the small pieces, leave 1e-4.
                    for places in [[1, 5, 7, 11], [2, 4, 8, 10]] {
                        let size = |place: usize| if [1, 2, 7, 8].contains(&place) { BEAM.length } else { 1.0 };
                        let of = |m: &DMatrix<f64>| {
                            let scaled = DMatrix::from_fn(4, 4, |a, b| {
                                m[(places[a], places[b])] * size(places[a]) * size(places[b]) / 1e4
                            });
                            SymmetricEigen::new((&scaled + scaled.transpose()) / 2.0).eigenvalues.min()
                        };
                        assert!(of(&over) > -2e-4, "{ends:?} {at:?} {share}: cubic is below by {}", of(&over));
                        assert!(of(&under) > -2e-4, "{ends:?} {at:?} {share}: bound is missed by {}", of(&under));
                    }
                }
            }
        }
    }

    #[test]
    fn ends_that_hold_nothing_have_no_bound() {
        let mut springs = [None; 12];
        for place in [1, 5, 7, 11] {
            springs[place] = Some(0.0);
        }
        assert_eq!(BEAM.excess(&springs, -1.0, -1.0), None);
    }
}
