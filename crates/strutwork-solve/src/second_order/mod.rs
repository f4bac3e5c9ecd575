//! Second order: balance on the frame as it bends, with the geometric stiffness of the axial forces.
//!
//! ```text
//! (K + K_g(N)) u = f(N)      N from the u of the pass before, until both are steady
//! ```
//! Each tube is as many cubic pieces as its own bow needs, eliminated inside ([`Chain`](strutwork_element::beam::Chain)), so that
//! the equations are those of first order. A frame that nothing holds moves about its mean place, and what its couples leave
//! unbalanced is taken by its inertia, as in buckling.

mod bent;
mod compare;
mod free;
mod held;
mod limit;
mod steady;

use std::cell::Cell;

use rayon::prelude::*;
use strutwork_element::beam::Division;
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;

use crate::analysis::Held;
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::SolveError;
use crate::results::{CaseResult, Refused, Results};
pub(crate) use bent::Bent;
pub use compare::{Grown, Growth};
use free::FreeFrame;
use held::HeldFrame;

/// What is wanted of second order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SecondOrderWanted {
    /// Passes end when one changes no axial force by more than this share of it (or of the tube's own Euler load, if that is
    /// more), and no movement by more than this share of the greatest.
    pub tolerance: f64,
    /// After this many passes without that, the case is given up.
    pub most_passes: u32,
    /// Pieces of each tube.
    pub division: Division,
}

impl Default for SecondOrderWanted {
    /// Steady to 1e-9 within 50 passes; pieces that put no tube's own load factor more than 1e-7 of it too high.
    fn default() -> Self {
        Self { tolerance: 1e-9, most_passes: 50, division: Division::Within(1e-7) }
    }
}

/// How a case came to be in balance on the frame as it bends.
#[derive(Debug, Clone, PartialEq)]
pub struct SecondOrder {
    /// What each pass changed.
    pub passes: Vec<Pass>,
    /// The greatest number of pieces that a tube was divided into.
    pub pieces: usize,
    /// The greatest (kℓ)⁴/720 of a piece: by how much the load factor at which a tube would bow is put too high at most,
    /// relative to it. Displacements are put too low by about this times (growth − 1).
    pub piece_error: f64,
    /// What inertia takes of the couples on a free frame: m/s² and rad/s² on top of the case's own accelerations, about its
    /// centre of gravity; 0 about an axis that meets no inertia; `None` for a held frame.
    pub acceleration: Option<[f64; 6]>,
    /// How much the case grows.
    pub growth: Growth,
}

/// What one pass changed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pass {
    /// Greatest change of an axial force, over it or the tube's Euler load.
    pub forces: f64,
    /// Greatest change of a movement, over the greatest movement.
    pub movements: f64,
}

/// Solves every case in second order, from its results in first order.
///
/// The counters of what comes out are those of `first` and of this work together.
///
/// # Assumes
/// Loads keep their directions and act on the bent frame; the frame is as straight as drawn before (imperfections are not added);
/// nothing yields; slopes are small. Forces do work on displacements across tubes: that of rigid bodies, end offsets and
/// panels as they turn is left out.
///
/// A case at or above its buckling load, or one that does not become steady, is refused with its reason
/// ([`Results::refused`]), and the others are solved.
///
/// # Errors
/// [`SolveError`] as in first order.
///
/// # Source
/// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, ch. 15 (from memory).
///
/// # Example
/// ```
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// use strutwork_model::files::{InputFile, InputFiles};
/// let file = |name: &str, text: &str| InputFile { name: name.into(), bytes: text.into() };
/// let model = strutwork_model::read_model(&InputFiles(vec![
///     file("model.toml", "title = 'one post'\n[materials.mild]\ngrade = 'S235JRH'\n[sections.rail]\nshape = 'square'\nwidth_mm = 30\nwall_mm = 2\n"),
///     file("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,0,0,1500\n"),
///     file("tubes.csv", "tube,from,to,section,material\npost,foot,head,rail,mild\n"),
///     file("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n"),
///     file("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nlean,head,50,0,-2000,0,0,0\n"),
/// ]))?.value;
/// let cases = strutwork_loads::derive_plain(&model)?;
/// let first = strutwork_solve::solve_cases(&model, &cases)?;
/// let second = strutwork_solve::solve_second_order(&model, &cases, &first, Default::default())?;
/// let growth = &second.cases[0].second_order.as_ref().unwrap().growth;
/// let section = model.sections().iter().next().unwrap();
/// let u = 1.5 * (2000.0 / (210e9 * section.iy)).sqrt();
/// assert!((growth.moment.1.factor().unwrap() - u.tan() / u).abs() < 1e-5); // a cantilever: tan u / u
/// # Ok(())
/// # }
/// ```
pub fn solve_second_order(
    model: &Model,
    cases: &LoadCases,
    first: &Results,
    wanted: SecondOrderWanted,
) -> Result<Results, SolveError> {
    let elements = Elements::of(model);
    let mut counters = Counters::default();
    let mut systems = first.systems.clone();
    let mut solved: Vec<Option<Solved>> = cases.0.iter().map(|_| None).collect();
    for (system, trust) in systems.iter_mut().enumerate() {
        let group: Vec<usize> = (0..cases.0.len()).filter(|i| first.cases[*i].system == system).collect();
        let Some(&leader) = group.first() else { continue };
        let frame = Frame { model, elements: &elements, wanted };
        let held = Held::of(model, &elements, &cases.0[leader]);
        let pairs: Vec<(&LoadCase, &CaseResult)> = group.iter().map(|i| (&cases.0[*i], &first.cases[*i])).collect();
        let found: Vec<Solved> = match &held {
            Held::Supports(_) => {
                let frame = HeldFrame::of(frame, &held, system, &pairs, &mut counters)?;
                pairs.par_iter().enumerate().map(|(place, pair)| frame.solve(place, *pair)).collect()
            }
            Held::Free { .. } => {
                let frame = FreeFrame::of(frame, &held, system, &mut counters);
                pairs.par_iter().map(|pair| frame.solve(*pair)).collect()
            }
        };
        for (place, one) in group.into_iter().zip(found) {
            counters.add(&one.counters);
            if let Some((condition, pivot)) = one.condition {
                trust.condition = trust.condition.max(condition);
                trust.smallest_pivot = trust.smallest_pivot.min(pivot);
            }
            solved[place] = Some(one);
        }
    }
    let mut total = first.counters;
    total.add(&counters);
    let mut results = Results { cases: Vec::new(), systems, counters: total, refused: Vec::new() };
    for (first, one) in first.cases.iter().zip(solved.into_iter().flatten()) {
        match one.result {
            Ok(mut result) => {
                let growth = Growth::of(first, &result);
                let Solved { passes, pieces, piece_error, acceleration, .. } = one;
                result.second_order = Some(Box::new(SecondOrder { passes, pieces, piece_error, acceleration, growth }));
                results.cases.push(*result);
            }
            Err(error) => results.refused.push(Refused { case: first.name.clone(), error, passes: one.passes }),
        }
    }
    Ok(results)
}

/// What all cases share.
#[derive(Clone, Copy)]
struct Frame<'a> {
    model: &'a Model,
    elements: &'a Elements,
    wanted: SecondOrderWanted,
}

/// One case on its way out.
struct Solved {
    result: Result<Box<CaseResult>, SolveError>,
    passes: Vec<Pass>,
    pieces: usize,
    piece_error: f64,
    acceleration: Option<[f64; 6]>,
    /// Condition number of the last stiffness, and its smallest pivot.
    condition: Option<(f64, f64)>,
    counters: Counters,
}

/// Adds to counters that several closures share.
fn count(counters: &Cell<Counters>, add: impl FnOnce(&mut Counters)) {
    let mut count = counters.get();
    add(&mut count);
    counters.set(count);
}
