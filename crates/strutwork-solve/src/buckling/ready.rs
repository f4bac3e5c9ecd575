//! A divided frame, factored once for all cases that are held alike.

use std::cell::Cell;

use strutwork_loads::CarriedInertia;
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, Model, Subdivided, TubeId};

use super::forces::Axial;
use crate::assembly::System;
use crate::counters::Counters;
use crate::eigen::{Held, Pencil, RigidPart};
use crate::error::SolveError;
use crate::linear::Factored;
use crate::modes::{Masses, TubeMass};

/// The frame in pieces, with its factor.
pub(super) struct Ready<'a> {
    pub(super) fine: &'a Subdivided,
    pub(super) held: &'a Held,
    pub(super) factored: &'a Factored<'a>,
    /// What balances a free frame by inertia.
    pub(super) rigid: &'a RigidPart,
}

/// What holds the frame, and what it carries.
#[derive(Clone, Copy)]
pub(super) struct Hung<'a> {
    pub(super) model: &'a Model,
    pub(super) supports: &'a [Support],
    pub(super) carried: &'a [CarriedInertia],
}

impl Hung<'_> {
    /// Cuts the tubes, factors, and hands the frame to `work`. `case` is named where it cannot be factored.
    ///
    /// # Errors
    /// [`SolveError::Mechanism`] where the frame can move without resistance.
    pub(super) fn divided<T>(
        &self,
        cuts: &IndexVec<TubeId, Vec<f64>>,
        case: &str,
        counters: &mut Counters,
        work: impl FnOnce(&Ready<'_>) -> T,
    ) -> Result<T, SolveError> {
        let fine = self.model.subdivided_at(cuts);
        let held = Held::of(&fine.model, self.supports);
        counters.symbolic_analyses += 1;
        counters.factorisations += 1;
        counters.equations = counters.equations.max(held.numbering.len() as u64);
        counters.stiffness_entries = counters.stiffness_entries.max(held.pattern.entries() as u64);
        counters.factor_entries = counters.factor_entries.max(held.symbolic.factor_entries() as u64);
        let factored = held.factor(self.model, &fine, self.supports, case)?;
        // Only the balance of a free frame asks for masses.
        let masses =
            (!held.rigid.is_empty()).then(|| Masses::of(&fine.model, &held, self.carried, TubeMass::Consistent));
        let rigid = masses.map_or_else(RigidPart::none, |masses| RigidPart::of(&held.rigid, |x| masses.multiply(x)));
        Ok(work(&Ready { fine: &fine, held: &held, factored: &factored, rigid: &rigid }))
    }
}

impl Ready<'_> {
    /// The geometric stiffness of these forces.
    pub(super) fn geometric(&self, axial: &Axial) -> System {
        of_axial(self.held, axial)
    }
}

/// K_g of a case's axial forces on a divided frame.
pub(crate) fn axial_stiffness(fine: &Subdivided, held: &Held, result: &crate::CaseResult) -> System {
    of_axial(held, &Axial::of(fine, result, 1.0))
}

fn of_axial(held: &Held, axial: &Axial) -> System {
    System::of_tubes(&held.elements, &held.numbering, &held.pattern, |place, element| {
        let [from, to] = axial.ends(place);
        let own = element.beam.geometric_stiffness(from, to);
        element.axes.mat_to_global(&element.joined.as_ref().map_or(own, |joined| joined.condense(&own)))
    })
}

/// −K⁻¹ K_g, in the inner product of K; for a free frame without the rigid motions.
pub(super) struct Pressed<'a> {
    pub(super) ready: &'a Ready<'a>,
    pub(super) geometric: &'a System,
    /// Right-hand sides solved.
    pub(super) solves: Cell<u64>,
}

impl Pencil for Pressed<'_> {
    fn len(&self) -> usize {
        self.ready.held.numbering.len()
    }

    fn operate(&self, x: &[f64]) -> Vec<f64> {
        let mut u = self.geometric.multiply(x);
        u.iter_mut().for_each(|value| *value = -*value);
        self.ready.rigid.balance(&mut u);
        self.ready.factored.solve(&mut u, 1);
        self.solves.set(self.solves.get() + 1);
        self.ready.rigid.take_out(&mut u);
        u
    }

    fn weigh(&self, x: &[f64]) -> Vec<f64> {
        self.ready.held.stiffness.multiply(x)
    }
}
