//! Shapes in which a frame moves as a whole.

use nalgebra::{DMatrix, DVector};

use super::Mode;

/// Along the frame shapes are polynomials up to this degree.
const DEGREE: usize = 4;
/// Extent below this share of the greatest is none.
const FLAT: f64 = 1e-6;
/// Movement below this share of what turning alone gives is none.
const UNMOVED: f64 = 1e-6;

/// Movements of a joint from its place: axis and value.
type Field<'a, const N: usize> = &'a dyn Fn(&[f64; 3]) -> [(usize, f64); N];

/// A shape in which a frame moves as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Cross-sections turn about the length.
    Torsion,
    /// A lying frame bends up and down.
    VerticalBending,
    /// A lying frame bends sideways.
    LateralBending,
    /// An upright frame bends or sways along x or y.
    Sway(char),
    /// Cross-sections become rhombic.
    Lozenging,
    /// The plan of a lying frame, or the side of an upright one, becomes rhombic.
    InPlaneShear,
    /// The frame moves along its length.
    Axial,
}

impl Shape {
    /// In words.
    pub(super) const fn word(self) -> &'static str {
        match self {
            Self::Torsion => "torsion",
            Self::VerticalBending => "vertical bending",
            Self::LateralBending => "lateral bending",
            Self::Sway('x') => "sway along x",
            Self::Sway(_) => "sway along y",
            Self::Lozenging => "lozenging of the cross-section",
            Self::InPlaneShear => "in-plane shear",
            Self::Axial => "movement along its length",
        }
    }
}

/// Places of joints in a frame's own measures: along its length and across, each from −1 to 1.
pub(super) struct Frame {
    places: Vec<[f64; 3]>,
    /// The axis of the length, then the two across.
    axes: [usize; 3],
    half: [f64; 3],
}

impl Frame {
    /// The length is the axis of the greatest extent; of equal ones the first.
    pub(super) fn of(places: &[[f64; 3]]) -> Self {
        let span = |axis: usize| {
            let (low, high) = places
                .iter()
                .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at[axis]), high.max(at[axis])));
            (low, high)
        };
        let spans = [span(0), span(1), span(2)];
        let half = spans.map(|(low, high)| (high - low) / 2.0);
        let mut long = 0;
        for axis in 1..3 {
            if half[axis] > half[long] * (1.0 + 1e-9) {
                long = axis;
            }
        }
        let none = half[long] * FLAT;
        let unit = |at: &[f64; 3]| {
            std::array::from_fn(|axis| {
                let (low, high) = spans[axis];
                if half[axis] > none { (at[axis] - f64::midpoint(low, high)) / half[axis] } else { 0.0 }
            })
        };
        let across: [usize; 2] = match long {
            0 => [1, 2],
            1 => [0, 2],
            _ => [0, 1],
        };
        Self { places: places.iter().map(unit).collect(), axes: [long, across[0], across[1]], half }
    }

    /// Three for each joint.
    pub(super) fn len(&self) -> usize {
        3 * self.places.len()
    }

    /// Whether joints turn about the length and move nowhere: a straight tube in torsion.
    pub(super) fn only_turns(&self, mode: &Mode) -> bool {
        let long = self.axes[0];
        let (mut moved, mut turned) = (0.0_f64, 0.0_f64);
        for six in mode.joints.iter().take(self.places.len()) {
            moved = six[..3].iter().fold(moved, |most, value| most.max(value.abs()));
            turned = turned.max(six[3 + long].abs());
        }
        moved < UNMOVED * turned * self.half[long]
    }

    /// Each shape with an orthonormal basis of its movements; the simplest of what looks alike first.
    pub(super) fn families(&self, free: bool) -> Vec<(Shape, DMatrix<f64>)> {
        let [s, t, v] = self.axes;
        let bending = |axis: usize| match (s, axis) {
            (2, 0) => Shape::Sway('x'),
            (2, _) => Shape::Sway('y'),
            (_, 2) => Shape::VerticalBending,
            _ => Shape::LateralBending,
        };
        let mut families = Vec::new();
        if free {
            // Of a held frame it cannot be told from bending.
            families.push((Shape::InPlaneShear, vec![self.field(&|at| [(s, at[t])]), self.field(&|at| [(t, at[s])])]));
        }
        families.push((Shape::Torsion, self.along(&|at| [(t, -at[v] * self.half[v]), (v, at[t] * self.half[t])])));
        for axis in [v, t] {
            let mut basis = self.along(&|_| [(axis, 1.0)]);
            basis.extend(self.along(&|at| [(s, at[axis])]));
            families.push((bending(axis), basis));
        }
        families.push((Shape::Lozenging, self.along(&|at| [(t, at[v] * self.half[v]), (v, at[t] * self.half[t])])));
        families.push((Shape::Axial, self.along(&|_| [(s, 1.0)])));
        families.into_iter().map(|(shape, columns)| (shape, orthonormal(&columns))).collect()
    }

    /// A field times each power of the place along the length.
    fn along<const N: usize>(&self, of: Field<'_, N>) -> Vec<DVector<f64>> {
        let along = self.axes[0];
        let powers = 0..=DEGREE as i32;
        powers
            .map(|power| self.field(&|at| of(at).map(|(axis, value)| (axis, value * at[along].powi(power)))))
            .collect()
    }

    fn field<const N: usize>(&self, of: Field<'_, N>) -> DVector<f64> {
        let mut field = DVector::zeros(self.len());
        for (joint, at) in self.places.iter().enumerate() {
            for (axis, value) in of(at) {
                field[3 * joint + axis] += value;
            }
        }
        field
    }
}

/// An orthonormal basis of what the columns span.
fn orthonormal(columns: &[DVector<f64>]) -> DMatrix<f64> {
    let mut basis: Vec<DVector<f64>> = Vec::new();
    for column in columns {
        let mut rest = column.clone();
        // Twice is enough (Kahan and Parlett; from memory).
        for _ in 0..2 {
            for known in &basis {
                let part = known.dot(&rest);
                rest.axpy(-part, known, 1.0);
            }
        }
        let norm = rest.norm();
        if norm > 1e-8 * column.norm() && norm > 0.0 {
            basis.push(rest / norm);
        }
    }
    if basis.is_empty() {
        return DMatrix::zeros(columns.first().map_or(0, DVector::len), 0);
    }
    DMatrix::from_columns(&basis)
}
