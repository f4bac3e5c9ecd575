//! Everything that has mass, piece by piece: tubes as thin rods, panels as thin plates, carried masses.

use nalgebra::{Matrix3, Vector3};
use strutwork_model::model::Model;
use strutwork_model::{PanelId, TubeId};

/// One thing that has mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// What it is.
    pub of: PieceOf,
    /// kg.
    pub mass: f64,
    /// Its centre, m, global axes.
    pub centre: [f64; 3],
    /// Its inertia about its own centre, kg·m², global axes.
    pub inertia: [[f64; 3]; 3],
}

/// What a piece is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PieceOf {
    /// A tube.
    Tube(TubeId),
    /// A panel.
    Panel(PanelId),
    /// The mass at this place of [`Model::masses`].
    Mass(usize),
}

/// Everything that may have mass: tubes, then panels, then carried masses, in input order; what has no density weighs 0.
///
/// ```text
/// rod     m = ρ A L,  I = m L²/12 (1 − e eᵀ)
/// plate   m = ρ t A,  I = tr(S) 1 − S,  S = ρ t ∫ r rᵀ dA,  of a triangle  A/12 (Σ v vᵀ + (Σ v)(Σ v)ᵀ)
/// ```
///
/// # Assumes
/// Tubes have no inertia about their own axis, panels no thickness. A warped panel counts with its area projected on its
/// mean plane, as the mean of its two divisions into triangles.
///
/// # Source
/// Standard mechanics (derived): thin rod m·L²/12; second moments of a triangle from its corners.
pub fn pieces(model: &Model) -> impl Iterator<Item = Piece> {
    let tubes = model.tubes().ids().map(|tube| rod(model, tube));
    let panels = model.panels().ids().map(|panel| plate(model, panel));
    let masses = model.masses().iter().enumerate().map(|(place, mass)| {
        let [x, y, z] = mass.inertia;
        Piece {
            of: PieceOf::Mass(place),
            mass: mass.mass,
            centre: mass.at,
            inertia: [[x, 0.0, 0.0], [0.0, y, 0.0], [0.0, 0.0, z]],
        }
    });
    tubes.chain(panels).chain(masses)
}

fn rod(model: &Model, tube: TubeId) -> Piece {
    let [from, to] = model.tube_ends(tube).map(Vector3::from);
    let span = to - from;
    let mass = model.tube_mass(tube);
    let inertia = (Matrix3::identity() * span.norm_squared() - span * span.transpose()) * (mass / 12.0);
    Piece { of: PieceOf::Tube(tube), mass, centre: ((from + to) / 2.0).into(), inertia: rows(&inertia) }
}

fn plate(model: &Model, panel: PanelId) -> Piece {
    let row = &model.panels()[panel];
    let corners: Vec<Vector3<f64>> = row.joints.iter().map(|&joint| Vector3::from(model.joints()[joint].at)).collect();
    let shape = Plate::of(&corners);
    let line = model.materials()[row.material].density * row.thickness;
    let second = shape.second * line;
    let inertia = Matrix3::identity() * second.trace() - second;
    Piece { of: PieceOf::Panel(panel), mass: shape.area * line, centre: shape.centre.into(), inertia: rows(&inertia) }
}

/// Area, centroid and second moments ∫ r rᵀ dA about it of a flat or nearly flat figure.
struct Plate {
    area: f64,
    centre: Vector3<f64>,
    second: Matrix3<f64>,
}

impl Plate {
    /// Of three or four corners in order round the edge.
    fn of(corners: &[Vector3<f64>]) -> Self {
        let middle = corners.iter().sum::<Vector3<f64>>() / corners.len().max(1) as f64;
        let c: Vec<Vector3<f64>> = corners.iter().map(|corner| corner - middle).collect();
        let (triangles, weight): (Vec<[Vector3<f64>; 3]>, f64) = match *c.as_slice() {
            [p, q, r] => (vec![[p, q, r]], 1.0),
            [p, q, r, s] => (vec![[p, q, r], [r, s, p], [q, r, s], [s, p, q]], 0.5),
            _ => (Vec::new(), 0.0),
        };
        // Twice the area as a vector: its direction is the mean normal, on which every triangle counts with its sign.
        let normal = triangles.iter().map(|t| (t[1] - t[0]).cross(&(t[2] - t[0]))).sum::<Vector3<f64>>() * weight;
        let Some(unit) = normal.try_normalize(0.0) else {
            return Self { area: 0.0, centre: middle, second: Matrix3::zeros() };
        };
        let (mut area, mut first, mut second) = (0.0, Vector3::zeros(), Matrix3::zeros());
        for t in &triangles {
            let part = weight * unit.dot(&(t[1] - t[0]).cross(&(t[2] - t[0]))) / 2.0;
            let sum = t[0] + t[1] + t[2];
            area += part;
            first += sum * (part / 3.0);
            second +=
                (sum * sum.transpose() + t.iter().map(|v| v * v.transpose()).sum::<Matrix3<f64>>()) * (part / 12.0);
        }
        let centre = first / area;
        Self { area, centre: middle + centre, second: second - centre * centre.transpose() * area }
    }
}

fn rows(matrix: &Matrix3<f64>) -> [[f64; 3]; 3] {
    std::array::from_fn(|row| std::array::from_fn(|column| matrix[(row, column)]))
}

#[cfg(test)]
mod tests {
    use approx::assert_relative_eq;

    use super::*;

    fn corners<const N: usize>(points: [[f64; 3]; N]) -> Vec<Vector3<f64>> {
        points.map(Vector3::from).to_vec()
    }

    /// A rectangle a × b: ∫x² = a³b/12, ∫y² = ab³/12 (standard).
    #[test]
    fn rectangle_by_hand() {
        let plate = Plate::of(&corners([[1.0, 2.0, 3.0], [3.0, 2.0, 3.0], [3.0, 3.0, 3.0], [1.0, 3.0, 3.0]]));
        assert_relative_eq!(plate.area, 2.0, max_relative = 1e-14);
        assert_relative_eq!(plate.centre, Vector3::new(2.0, 2.5, 3.0), max_relative = 1e-14);
        assert_relative_eq!(plate.second[(0, 0)], 8.0 / 12.0, max_relative = 1e-14);
        assert_relative_eq!(plate.second[(1, 1)], 2.0 / 12.0, max_relative = 1e-14);
        assert!(plate.second[(0, 1)].abs() < 1e-14 && plate.second[(2, 2)].abs() < 1e-14);
    }

    /// A right triangle with legs b, h: ∫x² = hb³/36, ∫xy = −b²h²/72 about its centroid (standard).
    #[test]
    fn triangle_by_hand() {
        let plate = Plate::of(&corners([[0.0; 3], [3.0, 0.0, 0.0], [0.0, 2.0, 0.0]]));
        assert_relative_eq!(plate.area, 3.0, max_relative = 1e-14);
        assert_relative_eq!(plate.centre, Vector3::new(1.0, 2.0 / 3.0, 0.0), max_relative = 1e-14);
        assert_relative_eq!(plate.second[(0, 0)], 2.0 * 27.0 / 36.0, max_relative = 1e-13);
        assert_relative_eq!(plate.second[(0, 1)], -36.0 / 72.0, max_relative = 1e-13);
    }

    #[test]
    fn a_kite_with_a_dent_counts_signed() {
        // An arrowhead: the triangle (−1,0) (1,0) (0,2) less the triangle (−1,0) (1,0) (0,1).
        let plate = Plate::of(&corners([[-1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [1.0, 0.0, 0.0], [0.0, 2.0, 0.0]]));
        assert_relative_eq!(plate.area, 1.0, max_relative = 1e-14);
        assert_relative_eq!(plate.centre.y, (2.0 * 2.0 / 3.0 - 1.0 / 3.0) / 1.0, max_relative = 1e-13);
    }

    #[test]
    fn corners_on_a_line_weigh_nothing() {
        let plate = Plate::of(&corners([[0.0; 3], [1.0, 0.0, 0.0], [2.0, 0.0, 0.0]]));
        assert_eq!(plate.area, 0.0);
    }
}
