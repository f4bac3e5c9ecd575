//! The mass of a frame over its equations.

use nalgebra::{Matrix6, SymmetricEigen, Vector6};
use strutwork_element::Mat12;
use strutwork_element::beam::LineMass;
use strutwork_loads::CarriedInertia;
use strutwork_model::ids::Id;
use strutwork_model::{Model, TubeId};

use crate::assembly::System;
use crate::eigen::{Border, Held};
use crate::elements::Element;
use crate::linear::Symbolic;

/// Inertia below this share of a carried thing's greatest is none.
const NO_INERTIA: f64 = 1e-12;

/// How the mass of tubes is given to their joints.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TubeMass {
    /// By the same shapes as the stiffness.
    #[default]
    Consistent,
    /// Half at each end.
    Lumped,
}

/// The mass of tubes over the pattern of the stiffness, and of all that the frame carries beside it.
pub(crate) struct Masses {
    tubes: System,
    carried: Vec<Carried>,
}

/// What modes are counted of.
pub(crate) struct Shifted<'a> {
    pub(crate) symbolic: &'a Symbolic,
    /// K, or K + K_g, with the springs that hold a free frame.
    pub(crate) stiffness: &'a System,
    /// These springs.
    pub(crate) springs: &'a [(Vec<f64>, f64)],
    /// What modes are confined by: see [`Masses::modes_below`].
    pub(crate) balance: &'a [Vec<f64>],
}

/// Something that moves as the weighted mean of what carries it.
struct Carried {
    /// For each equation that it hangs on, the shares of its six unit loads.
    shares: Vec<(usize, Vector6<f64>)>,
    /// Mass and inertia about its centre.
    matrix: Matrix6<f64>,
}

impl Masses {
    /// The masses of a frame.
    pub(crate) fn of(model: &Model, held: &Held, carried: &[CarriedInertia], how: TubeMass) -> Self {
        let of_tube = |place: usize, element: &Element| -> Mat12 {
            let tube = &model.tubes()[TubeId::new(place)];
            let (section, density) = (&model.sections()[tube.section], model.materials()[tube.material].density);
            let line = LineMass { mass: section.area * density, polar: (section.iy + section.iz) * density };
            let own = match how {
                TubeMass::Consistent => element.beam.mass(line),
                TubeMass::Lumped => element.beam.lumped_mass(line),
            };
            let seen = element.joined.as_ref().map_or(own, |joined| joined.condense(&own));
            element.axes.mat_to_global(&seen)
        };
        let tubes = System::of_tubes(&held.elements, &held.numbering, &held.pattern, of_tube);
        let mut scratch = vec![0.0; held.numbering.len()];
        let carried = carried.iter().map(|thing| Carried::of(model, held, thing, &mut scratch)).collect();
        Self { tubes, carried }
    }

    /// M x.
    pub(crate) fn multiply(&self, x: &[f64]) -> Vec<f64> {
        let mut y = self.tubes.multiply(x);
        for thing in &self.carried {
            let moved: Vector6<f64> = thing.shares.iter().map(|(equation, share)| share * x[*equation]).sum();
            let force = thing.matrix * moved;
            for (equation, share) in &thing.shares {
                y[*equation] += share.dot(&force);
            }
        }
        y
    }

    /// How many natural modes lie below ω² = `square`: negative eigenvalues of K − ω²M, counted.
    ///
    /// ```text
    /// K − ω²M = A − ω² S Sᵀ − E t Eᵀ,   A = K + E t Eᵀ − ω²M₀
    /// as many as A has, and as many more as  diag(1/ω², 1/t) − (S E)ᵀ A⁻¹ (S E)  has
    /// ```
    ///
    /// M₀ is the mass of the tubes, S Sᵀ that of all else, t the springs that hold a free frame at the freedoms E: without them
    /// A were singular where tubes weigh nothing. With `balance` B, the modes with Bᵀφ = 0 are counted, and as many more as B
    /// has columns; ω² may then be negative. `None` where a pivot is zero to the last digit.
    ///
    /// # Source
    /// Sylvester's law of inertia and Haynsworth's additivity for Schur complements (derived from both; from memory).
    pub(crate) fn modes_below(&self, of: &Shifted<'_>, square: f64) -> Option<usize> {
        let mut shifted = of.stiffness.clone();
        shifted.add_multiple(-square, &self.tubes);
        let signs = of.symbolic.signs(shifted.stiffness()).ok()?;
        let equations = signs.len();
        let mut columns = self.columns(equations);
        let carried = columns.len() / equations.max(1);
        // The border's own entries: 1/ω², 1/t, and nothing for a balance.
        let mut border = vec![1.0 / square; carried];
        for (column, stiffness) in of.springs {
            columns.extend(column);
            border.push(1.0 / stiffness);
        }
        for column in of.balance {
            columns.extend(column);
            border.push(0.0);
        }
        if columns.is_empty() {
            return Some(signs.negative());
        }
        let own = border.iter().filter(|entry| **entry < 0.0).count();
        (signs.negative() + Border::of(&signs, &columns, &border).negative()?).checked_sub(own)
    }

    /// S, one column after another.
    fn columns(&self, equations: usize) -> Vec<f64> {
        let mut columns = Vec::new();
        for thing in &self.carried {
            let eigen = SymmetricEigen::new(thing.matrix);
            let most = eigen.eigenvalues.max();
            for i in (0..6).filter(|i| eigen.eigenvalues[*i] > NO_INERTIA * most) {
                let direction = eigen.eigenvectors.column(i) * eigen.eigenvalues[i].sqrt();
                let start = columns.len();
                columns.resize(start + equations, 0.0);
                for (equation, share) in &thing.shares {
                    columns[start + equation] = share.dot(&direction);
                }
            }
        }
        columns
    }
}

impl Carried {
    fn of(model: &Model, held: &Held, thing: &CarriedInertia, scratch: &mut [f64]) -> Self {
        let mut shares: Vec<(usize, Vector6<f64>)> = Vec::new();
        let joints = model.joints().len();
        for (unit, share) in thing.shares.iter().enumerate() {
            for load in &share.joints {
                held.numbering.gather(load.joint.index(), &load.load.0, 1.0, scratch);
            }
            for load in &share.bodies {
                held.numbering.gather(joints + load.body.index(), &load.load.0, 1.0, scratch);
            }
            for (equation, value) in scratch.iter_mut().enumerate().filter(|(_, value)| **value != 0.0) {
                let place = shares.iter().position(|(known, _)| *known == equation).unwrap_or_else(|| {
                    shares.push((equation, Vector6::zeros()));
                    shares.len() - 1
                });
                shares[place].1[unit] = *value;
                *value = 0.0;
            }
        }
        Self { shares, matrix: thing.matrix }
    }
}
