//! A frame that is ready to vibrate: its stiffness is factored once, whatever masses it then carries.

use std::cell::Cell;

use strutwork_loads::CarriedInertia;
use strutwork_model::model::Support;
use strutwork_model::{Model, Subdivided};

use super::confined::Confined;
use super::masses::Shifted;
use super::{Masses, Mode, ModeCount, ModeWork, Modes, TubeMass, name, recover};
use crate::assembly::System;
use crate::buckling::axial_stiffness;
use crate::eigen::{Counted, Held, Pair, Pencil, RigidPart, counted_pairs};
use crate::error::SolveError;
use crate::linear::Factored;
use crate::results::CaseResult;

/// A frame, held and divided, with what its modes share.
pub(super) struct Ready<'a> {
    model: &'a Model,
    fine: &'a Subdivided,
    held: &'a Held,
    factored: Factored<'a>,
    /// K + K_g of the case that it vibrates under, with the springs that hold a free frame.
    loaded: Option<System>,
    case: &'a str,
    factorisations: Cell<u64>,
    counts: Cell<u64>,
    solves: Cell<u64>,
}

/// Modes with what a comparison needs.
pub(super) struct Found {
    pub(super) modes: Modes,
    pub(super) pairs: Vec<Pair>,
    pub(super) masses: Masses,
}

/// Hands over a frame that is ready; under the axial forces of a solved case where one is given.
///
/// # Errors
/// As [`super::natural_modes_under`].
pub(super) fn ready<T>(
    model: &Model,
    supports: &[Support],
    under: Option<&CaseResult>,
    pieces: usize,
    then: impl FnOnce(&Ready<'_>) -> Result<T, SolveError>,
) -> Result<T, SolveError> {
    let fine = model.subdivided(pieces);
    let held = Held::of(&fine.model, supports);
    let case = under.map_or("natural modes", |result| result.name.as_str());
    let mut factored = held.factor(model, &fine, supports, case)?;
    let mut factorisations = 1;
    let loaded = under.map(|result| {
        let mut loaded = held.sound.clone();
        loaded.add_multiple(1.0, &axial_stiffness(&fine, &held, result));
        loaded
    });
    // A free frame is confined to what its inertia balances; that has a factor of its own.
    if let (Some(loaded), true) = (&loaded, held.rigid.is_empty()) {
        let buckled = |_| SolveError::Buckled { case: case.to_owned() };
        factored = held.symbolic.factor(loaded.stiffness()).map_err(buckled)?;
        factorisations += 1;
    }
    then(&Ready {
        model,
        fine: &fine,
        held: &held,
        factored,
        loaded,
        case,
        factorisations: Cell::new(factorisations),
        counts: Cell::new(0),
        solves: Cell::new(0),
    })
}

impl Ready<'_> {
    /// The lowest modes with these masses.
    pub(super) fn modes(&self, carried: &[CarriedInertia], count: usize, how: TubeMass) -> Result<Found, SolveError> {
        let held = self.held;
        let masses = Masses::of(&self.fine.model, held, carried, how);
        let rigid = RigidPart::of(&held.rigid, |x| masses.multiply(x));
        let confined = match &self.loaded {
            Some(loaded) if !held.rigid.is_empty() => {
                add(&self.factorisations);
                let refused = |equation| held.uneven(self.model, self.fine, self.case, (0.0, equation));
                Some(Confined::of(held, loaded, &rigid).map_err(refused)?)
            }
            _ => None,
        };
        let vibrating = Vibrating { ready: self, masses: &masses, rigid: &rigid, confined: confined.as_ref() };
        let (pairs, proof) = vibrating.search(count);
        if confined.is_some() && vibrating.buckled(&pairs) {
            return Err(SolveError::Buckled { case: self.case.to_owned() });
        }
        let mut modes: Vec<Mode> = pairs.iter().map(|pair| recover::mode(self.fine, held, &masses, pair)).collect();
        name::name(self.model, self.fine, !held.rigid.is_empty(), &mut modes);
        let whole = recover::whole(&self.fine.model, held, &masses);
        Ok(Found { modes: Modes { rigid: held.rigid.len(), modes, proof, whole, work: self.work() }, pairs, masses })
    }

    /// What has been done so far.
    pub(super) fn work(&self) -> ModeWork {
        ModeWork { factorisations: self.factorisations.get(), counts: self.counts.get(), solves: self.solves.get() }
    }

    /// K, or K + K_g, with the springs that hold a free frame.
    fn sound(&self) -> &System {
        self.loaded.as_ref().unwrap_or(&self.held.sound)
    }
}

fn add(counter: &Cell<u64>) {
    counter.set(counter.get() + 1);
}

/// K⁻¹ M, in the inner product of M; for a free frame without the rigid motions.
struct Vibrating<'a> {
    ready: &'a Ready<'a>,
    masses: &'a Masses,
    rigid: &'a RigidPart,
    confined: Option<&'a Confined<'a>>,
}

impl Vibrating<'_> {
    /// The lowest modes, until the count agrees.
    fn search(&self, wanted: usize) -> (Vec<Pair>, ModeCount) {
        let rigid = self.ready.held.rigid.len();
        let (found, counted) = counted_pairs(self, wanted, rigid, |square| self.below(square));
        let none = ModeCount { below: 0.0, counted: None, found: rigid };
        let proof = counted.map_or(none, |Counted { below, counted, found }| ModeCount {
            below: below.sqrt() / std::f64::consts::TAU,
            counted,
            found,
        });
        (found, proof)
    }

    /// How many modes lie below ω² = `square`, rigid ones among them.
    fn below(&self, square: f64) -> Option<usize> {
        add(&self.ready.counts);
        let balance = self.confined.map(|confined| confined.balance.as_slice());
        let held = self.ready.held;
        let of = Shifted {
            symbolic: &held.symbolic,
            stiffness: self.ready.sound(),
            springs: &held.springs,
            balance: balance.unwrap_or_default(),
        };
        let counted = self.masses.modes_below(&of, square)?;
        // Each balance takes one rigid motion out of the count, wherever its own frequency lies.
        Some(counted + balance.map_or(0, |balance| self.ready.held.rigid.len() - balance.len()))
    }

    /// Whether a frame that is confined to its balance has a mode of negative ω²: the forces have buckled it.
    fn buckled(&self, found: &[Pair]) -> bool {
        // A thousandth of the lowest: far above rounding, and a frame that near to buckling is not to be called stiff.
        let Some(lowest) = found.first() else { return true };
        let below = self.below(-1e-3 / lowest.theta);
        below.is_none_or(|below| below > self.ready.held.rigid.len())
    }
}

impl Pencil for Vibrating<'_> {
    fn len(&self) -> usize {
        self.ready.held.numbering.len()
    }

    fn operate(&self, x: &[f64]) -> Vec<f64> {
        add(&self.ready.solves);
        let mut u = self.masses.multiply(x);
        self.rigid.balance(&mut u);
        match self.confined {
            Some(confined) => confined.solve(&mut u),
            None => self.ready.factored.solve(&mut u, 1),
        }
        self.rigid.take_out(&mut u);
        u
    }

    fn weigh(&self, x: &[f64]) -> Vec<f64> {
        self.masses.multiply(x)
    }
}
