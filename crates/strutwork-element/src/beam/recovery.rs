//! Section forces and deflection along a tube, exact for every span load.

use super::{Beam, SpanLoad};
use crate::Vec12;

/// Section forces N, Vy, Vz, T, My, Mz (N, N·m), local axes.
pub type Forces = [f64; 6];

/// A polynomial in the distance from end 1, lowest power first: at most cubic for forces.
type Poly = [f64; 4];

/// A stretch of the tube on which the section forces are polynomials of the distance x from end 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Start, m from end 1.
    pub from: f64,
    /// End, m from end 1.
    pub to: f64,
    /// N, Vy, Vz, T, My, Mz.
    pub forces: [Poly; 6],
}

impl Piece {
    /// Section forces at x, m from end 1.
    pub fn at(&self, x: f64) -> Forces {
        self.forces.map(|poly| value(&poly, x))
    }

    /// Where a weighted sum of the six forces is stationary inside the piece.
    ///
    /// `weights` in the order of the forces; with (1/A, 0, 0, 0, z/Iy, −y/Iz) it is the normal stress at (y, z).
    pub fn stationary(&self, weights: &[f64; 6]) -> impl Iterator<Item = f64> + use<> {
        let mut sum = [0.0; 4];
        for (poly, weight) in self.forces.iter().zip(weights) {
            for (s, c) in sum.iter_mut().zip(poly) {
                *s += weight * c;
            }
        }
        let (from, to) = (self.from, self.to);
        quadratic_roots(3.0 * sum[3], 2.0 * sum[2], sum[1]).into_iter().flatten().filter(move |x| *x > from && *x < to)
    }

    /// Where the resultant moment √(My² + Mz²) is stationary inside the piece.
    ///
    /// The derivative is a quintic: its sign changes are bracketed on a grid of the piece and closed by bisection.
    pub fn stationary_resultant(&self) -> Vec<f64> {
        let [my, mz] = [self.forces[4], self.forces[5]];
        if degree(&my) < 2 && degree(&mz) < 2 && (degree(&my) == 0 || degree(&mz) == 0) {
            return Vec::new();
        }
        let slope = |x: f64| value(&my, x) * value(&derivative(&my), x) + value(&mz, x) * value(&derivative(&mz), x);
        const STEPS: usize = 16;
        let place = |i: usize| self.from + (self.to - self.from) * i as f64 / STEPS as f64;
        (0..STEPS)
            .filter_map(|i| {
                let (mut low, mut high) = (place(i), place(i + 1));
                let start = slope(low);
                if start == 0.0 || start.signum() == slope(high).signum() {
                    return None;
                }
                for _ in 0..60 {
                    let middle = f64::midpoint(low, high);
                    if slope(middle).signum() == start.signum() { low = middle } else { high = middle }
                }
                Some(f64::midpoint(low, high))
            })
            .collect()
    }
}

/// Section forces along a whole tube.
#[derive(Debug, Clone, PartialEq)]
pub struct Along {
    beam: Beam,
    /// In order, without gaps; at least one.
    pieces: Vec<Piece>,
    /// Strain that needs no force: axial, and its change along y and z.
    free: [f64; 3],
    /// Displacements of the tube's ends, local axes.
    ends: Vec12,
}

impl Along {
    /// From the tube's own end displacements (local axes), the end forces on the tube (local axes, k·u − f) and what acts
    /// between its ends.
    ///
    /// # Signs and order
    /// Equilibrium of the part from end 1 to x: N = −F1x − ∫qx, V likewise, Mz = −M1z + x·F1y + ∫(x−s)qy ds,
    /// My = −M1y − x·F1z − ∫(x−s)qz ds, less the point moments passed.
    pub fn new(beam: Beam, ends: Vec12, end_forces: &Vec12, loads: &[SpanLoad]) -> Self {
        let mut breaks = vec![0.0, beam.length];
        let mut free = [0.0; 3];
        for load in loads {
            match *load {
                SpanLoad::Point { at, .. } => breaks.push(at.clamp(0.0, beam.length)),
                SpanLoad::Free { strain, strain_y, strain_z } => {
                    for (sum, part) in free.iter_mut().zip([strain, strain_y, strain_z]) {
                        *sum += part;
                    }
                }
                SpanLoad::Line { .. } => {}
            }
        }
        breaks.sort_by(f64::total_cmp);
        breaks.dedup();
        let f = end_forces;
        let start: [Poly; 6] = [
            [-f[0], 0.0, 0.0, 0.0],
            [-f[1], 0.0, 0.0, 0.0],
            [-f[2], 0.0, 0.0, 0.0],
            [-f[3], 0.0, 0.0, 0.0],
            [-f[4], -f[2], 0.0, 0.0],
            [-f[5], f[1], 0.0, 0.0],
        ];
        let pieces = breaks
            .windows(2)
            .map(|ends| {
                let mut forces = start;
                for load in loads {
                    add(&mut forces, load, ends[0], beam.length);
                }
                Piece { from: ends[0], to: ends[1], forces }
            })
            .collect();
        Self { beam, pieces, free, ends }
    }

    /// From forces that are known piece by piece, what acts between the ends, and the tube's own end displacements.
    pub(super) fn of_pieces(beam: Beam, pieces: Vec<Piece>, loads: &[SpanLoad], ends: Vec12) -> Self {
        Self { pieces, ..Self::new(beam, ends, &Vec12::zeros(), loads) }
    }

    /// The piece at x, m from end 1.
    pub(super) fn piece_at(&self, x: f64) -> &Piece {
        self.pieces.iter().find(|piece| x <= piece.to).unwrap_or(&self.pieces[self.pieces.len() - 1])
    }

    /// The pieces, from end 1 to end 2.
    pub fn pieces(&self) -> &[Piece] {
        &self.pieces
    }

    /// Section forces at a share `at` (0…1) of the length; at a point load, those just before it.
    pub fn forces_at(&self, at: f64) -> Forces {
        let x = at * self.beam.length;
        self.piece_at(x).at(x)
    }

    /// Displacement of the axis (local x, y, z, m) at each of the given distances from end 1, m, ascending.
    ///
    /// Integrates u' = N/EA + ε, v'' = Mz/EIz − ε_y, w'' = −My/EIy − ε_z from end 1.
    pub fn displacements(&self, places: &[f64]) -> Vec<[f64; 3]> {
        let beam = &self.beam;
        let (ea, eiy, eiz) = (beam.youngs * beam.area, beam.youngs * beam.iy, beam.youngs * beam.iz);
        // Displacement and slope in each plane at the start of the current piece.
        let (mut u, mut v, mut w) = (self.ends[0], [self.ends[1], self.ends[5]], [self.ends[2], -self.ends[4]]);
        let mut out = Vec::with_capacity(places.len());
        let mut next = places.iter().copied().peekable();
        for (index, piece) in self.pieces.iter().enumerate() {
            let strain = |sign: f64, poly: &Poly, stiffness: f64, free: f64| {
                let mut strain = poly.map(|c| sign * c / stiffness);
                strain[0] += free;
                strain
            };
            let axial = strain(1.0, &piece.forces[0], ea, self.free[0]);
            let curve_y = strain(1.0, &piece.forces[5], eiz, -self.free[1]);
            let curve_z = strain(-1.0, &piece.forces[4], eiy, -self.free[2]);
            let state = |x: f64| {
                let along = |start: [f64; 2], curve: &Poly| {
                    let (slope, rise) = integrate_twice(curve, piece.from, x);
                    [start[0] + start[1] * (x - piece.from) + rise, start[1] + slope]
                };
                (u + integrate_twice(&axial, piece.from, x).0, along(v, &curve_y), along(w, &curve_z))
            };
            let last = index + 1 == self.pieces.len();
            while let Some(x) = next.next_if(|x| last || *x <= piece.to) {
                let (u, v, w) = state(x);
                out.push([u, v[0], w[0]]);
            }
            (u, v, w) = state(piece.to);
        }
        out
    }
}

/// Adds what a load that acts on [0, x] contributes to the section forces beyond `start`.
fn add(forces: &mut [Poly; 6], load: &SpanLoad, start: f64, length: f64) {
    match *load {
        SpanLoad::Line { from, to } => {
            for axis in 0..3 {
                let (a, slope) = (from[axis], (to[axis] - from[axis]) / length);
                forces[axis][1] -= a;
                forces[axis][2] -= slope / 2.0;
                // ∫(x−s)(a + slope·s) ds = a x²/2 + slope x³/6
                let (moment, sign) = match axis {
                    1 => (5, 1.0),
                    2 => (4, -1.0),
                    _ => continue,
                };
                forces[moment][2] += sign * a / 2.0;
                forces[moment][3] += sign * slope / 6.0;
            }
        }
        SpanLoad::Point { at, force, moment } => {
            if at > start {
                return;
            }
            for axis in 0..3 {
                forces[axis][0] -= force[axis];
                forces[axis + 3][0] -= moment[axis];
            }
            forces[5][0] -= force[1] * at;
            forces[5][1] += force[1];
            forces[4][0] += force[2] * at;
            forces[4][1] -= force[2];
        }
        SpanLoad::Free { .. } => {}
    }
}

pub(super) fn value(poly: &Poly, x: f64) -> f64 {
    ((poly[3] * x + poly[2]) * x + poly[1]) * x + poly[0]
}

fn derivative(poly: &Poly) -> Poly {
    [poly[1], 2.0 * poly[2], 3.0 * poly[3], 0.0]
}

fn degree(poly: &Poly) -> usize {
    poly.iter().rposition(|c| *c != 0.0).unwrap_or(0)
}

/// ∫ and ∫∫ of a polynomial from `from` to `x`.
fn integrate_twice(poly: &Poly, from: f64, x: f64) -> (f64, f64) {
    // Shifted to start at `from`, so that nothing cancels far from end 1.
    let d = x - from;
    let shifted =
        [value(poly, from), value(&derivative(poly), from), (2.0 * poly[2] + 6.0 * poly[3] * from) / 2.0, poly[3]];
    let once = d * (shifted[0] + d * (shifted[1] / 2.0 + d * (shifted[2] / 3.0 + d * shifted[3] / 4.0)));
    let twice = d * d * (shifted[0] / 2.0 + d * (shifted[1] / 6.0 + d * (shifted[2] / 12.0 + d * shifted[3] / 20.0)));
    (once, twice)
}

/// Real roots of a x² + b x + c, without cancellation; a constant has none.
fn quadratic_roots(a: f64, b: f64, c: f64) -> [Option<f64>; 2] {
    if a == 0.0 {
        return [(b != 0.0).then(|| -c / b), None];
    }
    let discriminant = b * b - 4.0 * a * c;
    if discriminant < 0.0 {
        return [None, None];
    }
    let q = -(b + discriminant.sqrt().copysign(b)) / 2.0;
    [Some(q / a), (q != 0.0).then(|| c / q)]
}
