//! One plane of a chain: deflection and slope at every node, the inner ones eliminated one after another.

use nalgebra::{Matrix2, Matrix4, Vector2, Vector4};

use super::{FREEDOMS, TURN};
use crate::{Mat12, Vec12};

/// One plane of a chain, eliminated.
#[derive(Debug, Clone)]
pub(super) struct Plane {
    pieces: Vec<Matrix4<f64>>,
    inner: Vec<Inner>,
    /// Over deflection and slope of both ends.
    stiffness: Matrix4<f64>,
    negative: usize,
}

/// An eliminated node: x = inverse · (load − start · x₁ − end · x_next).
#[derive(Debug, Clone, Copy)]
struct Inner {
    inverse: Matrix2<f64>,
    start: Matrix2<f64>,
    end: Matrix2<f64>,
}

/// What acts in a plane, eliminated likewise.
#[derive(Debug, Clone)]
pub(super) struct Loaded {
    pieces: Vec<Vector4<f64>>,
    inner: Vec<Vector2<f64>>,
    ends: Vector4<f64>,
}

impl Plane {
    pub(super) fn of(pieces: impl Iterator<Item = Matrix4<f64>>) -> Self {
        let pieces: Vec<Matrix4<f64>> = pieces.collect();
        let mut stiffness = pieces[0];
        let mut inner = Vec::with_capacity(pieces.len() - 1);
        let mut negative = 0;
        for piece in &pieces[1..] {
            let middle = block(&stiffness, 1, 1) + block(piece, 0, 0);
            let (inverse, below) = inverse(&middle);
            negative += below;
            let (start, end) = (block(&stiffness, 1, 0), block(piece, 0, 1));
            let (at_start, at_end) = (start.tr_mul(&inverse), end.tr_mul(&inverse));
            let mut whole = Matrix4::zeros();
            whole.fixed_view_mut::<2, 2>(0, 0).copy_from(&(block(&stiffness, 0, 0) - at_start * start));
            whole.fixed_view_mut::<2, 2>(0, 2).copy_from(&-(at_start * end));
            whole.fixed_view_mut::<2, 2>(2, 0).copy_from(&-(at_end * start));
            whole.fixed_view_mut::<2, 2>(2, 2).copy_from(&(block(piece, 1, 1) - at_end * end));
            stiffness = (whole + whole.transpose()) / 2.0;
            inner.push(Inner { inverse, start, end });
        }
        Self { pieces, inner, stiffness, negative }
    }

    pub(super) fn stiffness(&self) -> &Matrix4<f64> {
        &self.stiffness
    }

    /// How many pivots were negative: ways of bowing out between held ends.
    pub(super) fn negative(&self) -> usize {
        self.negative
    }

    /// What acts on the pieces, and at the nodes between them.
    pub(super) fn load(
        &self,
        pieces: impl Iterator<Item = Vector4<f64>>,
        nodes: impl Iterator<Item = Vector2<f64>>,
    ) -> Loaded {
        let pieces: Vec<Vector4<f64>> = pieces.collect();
        let mut ends = pieces[0];
        let mut inner = Vec::with_capacity(self.inner.len());
        for ((eliminated, piece), at_node) in self.inner.iter().zip(&pieces[1..]).zip(nodes) {
            let load = ends.fixed_rows::<2>(2) + piece.fixed_rows::<2>(0) + at_node;
            let passed = eliminated.inverse * load;
            let start = ends.fixed_rows::<2>(0) - eliminated.start.tr_mul(&passed);
            let end = piece.fixed_rows::<2>(2) - eliminated.end.tr_mul(&passed);
            ends = Vector4::new(start[0], start[1], end[0], end[1]);
            inner.push(load);
        }
        Loaded { pieces, inner, ends }
    }

    /// Deflection and slope of every node, from those of the ends.
    pub(super) fn nodes(&self, loaded: &Loaded, ends: &Vector4<f64>) -> Vec<[f64; 2]> {
        let (first, mut next) = (Vector2::new(ends[0], ends[1]), Vector2::new(ends[2], ends[3]));
        let mut nodes = vec![[next[0], next[1]]];
        for (eliminated, load) in self.inner.iter().zip(&loaded.inner).rev() {
            next = eliminated.inverse * (load - eliminated.start * first - eliminated.end * next);
            nodes.push([next[0], next[1]]);
        }
        nodes.push([first[0], first[1]]);
        nodes.reverse();
        nodes
    }

    /// The moment in the slope's direction at both ends of every piece.
    pub(super) fn moments(&self, loaded: &Loaded, nodes: &[[f64; 2]]) -> Vec<[f64; 2]> {
        let each = self.pieces.iter().zip(&loaded.pieces).zip(nodes.windows(2));
        each.map(|((stiffness, load), node)| {
            let [[v1, s1], [v2, s2]] = [node[0], node[1]];
            let forces = stiffness * Vector4::new(v1, s1, v2, s2) - load;
            [-forces[1], forces[3]]
        })
        .collect()
    }
}

impl Loaded {
    /// On the ends.
    pub(super) fn ends(&self) -> &Vector4<f64> {
        &self.ends
    }
}

/// A piece in a plane, over deflection and slope of both ends: bending, and the axial force at work on the deflection.
///
/// The two planes of [`Beam::stiffness`](crate::Beam::stiffness) and
/// [`Beam::geometric_stiffness`](crate::Beam::geometric_stiffness), without the rest.
pub(super) fn piece(ei: f64, l: f64, [from, to]: [f64; 2]) -> Matrix4<f64> {
    let (a, b, c) = (12.0 * ei / (l * l * l), 6.0 * ei / (l * l), 2.0 * ei / l);
    let (n, d) = (f64::midpoint(from, to), (to - from) / 2.0);
    // ∫ N v′ v′ dx of the cubic shapes, N = n + d·(2s − 1): the even part, and what the slope of N moves between the ends.
    let (dd, ds) = (a + 1.2 * n / l, n / 10.0);
    let (first, second) = (b + ds + d / 10.0, b + ds - d / 10.0);
    let (near, far) = (2.0 * c + (2.0 * n - d) * l / 15.0, 2.0 * c + (2.0 * n + d) * l / 15.0);
    let cross = c - n * l / 30.0;
    Matrix4::new(
        dd, first, -dd, second, //
        first, near, -first, cross, //
        -dd, -first, dd, -second, //
        second, cross, -second, far,
    )
}

/// Deflection and slope of both ends in a plane, out of a vector over the tube's twelve freedoms.
pub(super) fn part_of_vector(whole: &Vec12, plane: usize) -> Vector4<f64> {
    Vector4::from_fn(|i, _| sign(plane, i) * whole[FREEDOMS[plane][i]])
}

/// Puts a plane's matrix back.
pub(super) fn put(whole: &mut Mat12, plane: usize, of: &Matrix4<f64>) {
    for i in 0..4 {
        for j in 0..4 {
            whole[(FREEDOMS[plane][i], FREEDOMS[plane][j])] = sign(plane, i) * sign(plane, j) * of[(i, j)];
        }
    }
}

/// Puts a plane's vector back.
pub(super) fn put_vector(whole: &mut Vec12, plane: usize, of: &Vector4<f64>) {
    for i in 0..4 {
        whole[FREEDOMS[plane][i]] = sign(plane, i) * of[i];
    }
}

fn sign(plane: usize, place: usize) -> f64 {
    if place % 2 == 1 { TURN[plane] } else { 1.0 }
}

fn block(matrix: &Matrix4<f64>, i: usize, j: usize) -> Matrix2<f64> {
    matrix.fixed_view::<2, 2>(2 * i, 2 * j).into_owned()
}

/// The inverse of a symmetric matrix, and how many of its eigenvalues are not positive.
fn inverse(matrix: &Matrix2<f64>) -> (Matrix2<f64>, usize) {
    let (a, b, d) = (matrix[(0, 0)], matrix[(0, 1)], matrix[(1, 1)]);
    let below = match a * d - b * b {
        det if det > 0.0 && a > 0.0 => 0,
        det if det > 0.0 => 2,
        _ => 1,
    };
    // Singular to the last digit counts as bowed out; any small pivot keeps the numbers finite.
    let det = match a * d - b * b {
        0.0 => -f64::EPSILON * (a * d).abs().max(f64::MIN_POSITIVE),
        det => det,
    };
    (Matrix2::new(d, -b, -b, a) / det, below)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Beam;

    #[test]
    fn a_piece_is_both_matrices_of_the_tube_in_a_plane() {
        let beam = Beam { youngs: 210e9, shear: 81e9, area: 2e-4, iy: 3e-8, iz: 5e-8, j: 5e-8, length: 0.7 };
        let (from, to) = (-3000.0, 11_000.0);
        let whole = beam.stiffness() + beam.geometric_stiffness(from, to);
        for (plane, inertia) in [beam.iz, beam.iy].into_iter().enumerate() {
            let part = piece(beam.youngs * inertia, beam.length, [from, to]);
            let expected = Matrix4::from_fn(|i, j| {
                sign(plane, i) * sign(plane, j) * whole[(FREEDOMS[plane][i], FREEDOMS[plane][j])]
            });
            assert!((part - expected).amax() < 1e-12 * expected.amax(), "{part} {expected}");
        }
    }
}
