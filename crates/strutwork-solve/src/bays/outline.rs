//! The outline of a quadrilateral: its mean plane, its shape in it, and what lies inside.

use nalgebra::{Vector2, Vector3};

/// Distance between the diagonals over the shorter, at most.
const FLAT: f64 = 1.0 / 20.0;
/// Distance of a joint from the plane over the shorter diagonal, at most, to lie in it.
const IN_PLANE: f64 = 1.0 / 25.0;
/// Cosine of the sharpest corner: 25°. The bluntest, 155°, has its negative.
const SHARPEST_COSINE: f64 = 0.906_307_787_036_65;
/// Distance inside every edge, over the shorter diagonal, from which on a place is inside.
const INSIDE: f64 = 0.01;
/// Normals within 15° count as parallel.
const PARALLEL_COSINE: f64 = 0.965_925_826_289_068_3;
/// Share of the smaller of two bays that may overlap by a bend of a side.
const OVERLAP: f64 = 0.1;

/// A convex quadrilateral, nearly plane.
#[derive(Debug, Clone, Copy)]
pub(super) struct Outline {
    /// Mean of the corners, m.
    pub(super) centre: Vector3<f64>,
    /// Two unit vectors in the plane and its unit normal, right-handed; the corners go round the normal.
    pub(super) axes: [Vector3<f64>; 3],
    /// Corners in the plane's axes about the centre, m.
    pub(super) corners: [Vector2<f64>; 4],
    /// Distance between the diagonals over the shorter.
    pub(super) warp: f64,
    /// Length of the shorter diagonal, m.
    pub(super) diagonal: f64,
}

impl Outline {
    /// The outline of four corners in order; `None` unless they are nearly plane, convex and not too sharp.
    pub(super) fn of(at: [Vector3<f64>; 4]) -> Option<Self> {
        let (first, second) = (at[2] - at[0], at[3] - at[1]);
        let diagonal = first.norm().min(second.norm());
        let across = first.cross(&second);
        let twice_area = across.norm();
        if twice_area <= 1e-9 * diagonal * diagonal {
            return None;
        }
        let normal = across / twice_area;
        let warp = (at[1] - at[0]).dot(&normal).abs() / diagonal;
        if warp > FLAT {
            return None;
        }
        let centre = (at[0] + at[1] + at[2] + at[3]) / 4.0;
        let edge = at[1] - at[0];
        let along = (edge - normal * edge.dot(&normal)).normalize();
        let axes = [along, normal.cross(&along), normal];
        let corners = at.map(|point| Vector2::new((point - centre).dot(&along), (point - centre).dot(&axes[1])));
        let outline = Self { centre, axes, corners, warp, diagonal };
        let sound = (0..4).all(|i| outline.convex(i) && outline.corner_cosine(i).abs() <= SHARPEST_COSINE);
        sound.then_some(outline)
    }

    fn edge(&self, i: usize) -> Vector2<f64> {
        self.corners[(i + 1) % 4] - self.corners[i % 4]
    }

    fn convex(&self, i: usize) -> bool {
        self.edge(i + 3).perp(&self.edge(i)) > 0.0
    }

    /// Cosine of the inner angle at a corner.
    fn corner_cosine(&self, i: usize) -> f64 {
        let (before, after) = (-self.edge(i + 3), self.edge(i));
        before.dot(&after) / (before.norm() * after.norm())
    }

    /// How far its worst corner is from a right angle, degrees.
    pub(super) fn skewness(&self) -> f64 {
        (0..4).map(|i| self.corner_cosine(i).abs()).fold(0.0, f64::max).asin().to_degrees()
    }

    /// m².
    pub(super) fn area(&self) -> f64 {
        area(&self.corners)
    }

    /// A place in the plane's axes; `None` where it is too far from the plane.
    pub(super) fn project(&self, at: Vector3<f64>) -> Option<Vector2<f64>> {
        let from = at - self.centre;
        let near = from.dot(&self.axes[2]).abs() <= IN_PLANE * self.diagonal;
        near.then(|| Vector2::new(from.dot(&self.axes[0]), from.dot(&self.axes[1])))
    }

    /// Whether a place in the plane's axes is inside, away from the edges.
    pub(super) fn holds(&self, at: Vector2<f64>) -> bool {
        (0..4).all(|i| {
            let edge = self.edge(i);
            edge.perp(&(at - self.corners[i])) > INSIDE * self.diagonal * edge.norm()
        })
    }

    /// Whether two bays cover the same ground in the same plane.
    pub(super) fn overlaps(&self, other: &Self) -> bool {
        let apart = other.centre - self.centre;
        let smaller = self.area().min(other.area());
        if self.axes[2].dot(&other.axes[2]).abs() < PARALLEL_COSINE
            || apart.dot(&self.axes[2]).abs() > 0.2 * smaller.sqrt()
        {
            return false;
        }
        let mut clipped: Vec<Vector2<f64>> = (0..4)
            .map(|i| {
                let at = other.centre + other.axes[0] * other.corners[i].x + other.axes[1] * other.corners[i].y;
                let from = at - self.centre;
                Vector2::new(from.dot(&self.axes[0]), from.dot(&self.axes[1]))
            })
            .collect();
        for i in 0..4 {
            clipped = clip(&clipped, self.corners[i], self.edge(i));
        }
        area(&clipped).abs() > OVERLAP * smaller
    }
}

/// Area of a polygon, positive where it goes round against the clock.
fn area(corners: &[Vector2<f64>]) -> f64 {
    (0..corners.len()).map(|i| corners[i].perp(&corners[(i + 1) % corners.len()])).sum::<f64>() / 2.0
}

/// The part of a polygon on the left of a line.
fn clip(polygon: &[Vector2<f64>], on: Vector2<f64>, along: Vector2<f64>) -> Vec<Vector2<f64>> {
    let left = |at: &Vector2<f64>| along.perp(&(at - on));
    let mut kept = Vec::with_capacity(polygon.len() + 1);
    for (i, at) in polygon.iter().enumerate() {
        let next = &polygon[(i + 1) % polygon.len()];
        let (here, there) = (left(at), left(next));
        if here >= 0.0 {
            kept.push(*at);
        }
        if (here >= 0.0) != (there >= 0.0) {
            kept.push(at + (next - at) * (here / (here - there)));
        }
    }
    kept
}
