//! How much each tube is worth: derivatives of stiffness and movement by the adjoint method.
//!
//! ```text
//! K(x) u = f(x),  R = c·u,  K λ = c:      dR/dx = λᵀ (df/dx − dK/dx u)
//! ```
//!
//! One more solution λ a response gives its derivatives for all tubes at once; where a case is loaded by the very couple
//! that the response reads (pure twist), λ is the case's own solution and nothing more is solved. The work is done tube by
//! tube over the deformations of its own two ends: what stands between end and joint (arms, springs, releases) does not
//! depend on the section, and what slips there is in equilibrium, so it adds nothing to the derivative.

mod adjoint;
mod buckling;
mod fault;
mod functional;
mod gauge;
mod position;
mod ranking;
mod tube;
mod vibration;
mod worth;

pub use buckling::{BucklingRates, buckling_rates};
pub use fault::SensitivityFault;
pub use functional::{Functional, Response};
pub use gauge::{SizeRate, wall_rate};
pub use position::{PositionRates, position_rates};
pub use ranking::{Rank, energy_shares, ranking, ranking_of_groups};
pub use tube::SectionRate;
pub use vibration::{FrequencyRates, frequency_rate, frequency_rates};
pub use worth::Worth;

use strutwork_loads::LoadCases;
use strutwork_model::{IndexVec, Model, TubeId};
use strutwork_solve::{Elements, Results, solve_cases};

use adjoint::Adjoints;

/// A response and how each tube's section changes it.
#[derive(Debug, Clone, PartialEq)]
pub struct ResponseRates {
    /// What was asked for.
    pub response: Response,
    /// Its value: N·m/rad for a stiffness, m or rad for a movement, m for a stretch.
    pub value: f64,
    /// Derivatives for every tube.
    pub tubes: IndexVec<TubeId, SectionRate>,
    /// Whether the case's own solution served as the adjoint one.
    pub self_adjoint: bool,
}

/// Responses, their derivatives, and the solution that they rest on.
#[derive(Debug, Clone, PartialEq)]
pub struct Sensitivities {
    /// In the order in which they were asked for.
    pub responses: Vec<ResponseRates>,
    /// Results of the cases themselves; the counters tell all work, that of the adjoint solutions included.
    pub results: Results,
    /// How many solutions were added for the responses.
    pub added: usize,
}

/// Derivatives of responses by the sections of all tubes.
///
/// # Units and shapes
/// SI: a stiffness in N·m/rad by area in N·m/rad a m², and so on.
///
/// # Assumes
/// Loads stay as they are, but for self weight in a held case of the load files and for what temperatures bring: these
/// follow the section. The stiffness of a twist is read by the slopes at its stations, not their arc tangents: they differ
/// by the square of the turn, as the analysis itself does.
///
/// # Errors
/// [`SensitivityFault`]: a response that the case does not have or whose derivative is outside of what is done here, and
/// what the solver says.
///
/// # Source
/// Adjoint method: Haftka & Gürdal (1992), Elements of Structural Optimization, 3rd ed., section 7.2 (from memory).
pub fn section_rates(
    model: &Model,
    cases: &LoadCases,
    responses: &[Response],
) -> Result<Sensitivities, SensitivityFault> {
    let elements = Elements::of(model);
    let functionals: Vec<Functional> =
        responses.iter().map(|response| Functional::of(model, &elements, cases, response)).collect::<Result<_, _>>()?;
    let Rates { found, results, added } = rates_of(model, cases, &functionals)?;
    let found = found.into_iter().zip(responses);
    let responses = found.map(|(rates, response)| ResponseRates {
        response: *response,
        value: rates.value,
        tubes: rates.tubes,
        self_adjoint: rates.self_adjoint,
    });
    Ok(Sensitivities { responses: responses.collect(), results, added })
}

/// Weighted sums, their derivatives, and the solution that they rest on.
struct Rates {
    found: Vec<SumRates>,
    results: Results,
    added: usize,
}

/// A weighted sum, or the stiffness that it stands for, and how each tube's section changes it.
struct SumRates {
    value: f64,
    tubes: IndexVec<TubeId, SectionRate>,
    self_adjoint: bool,
}

/// Derivatives of weighted sums by the sections of all tubes.
fn rates_of(model: &Model, cases: &LoadCases, functionals: &[Functional]) -> Result<Rates, SensitivityFault> {
    let elements = Elements::of(model);
    let adjoints = Adjoints::of(model, cases, functionals)?;
    let mut all = cases.clone();
    all.0.extend(adjoints.cases.iter().cloned());
    let mut results = solve_cases(model, &all).map_err(SensitivityFault::Solve)?;
    let added = results.cases.split_off(cases.0.len());
    let found = functionals
        .iter()
        .zip(&adjoints.places)
        .map(|(functional, place)| {
            let own = &results.cases[functional.case];
            let (adjoint, scale) = match *place {
                adjoint::Place::Own(scale) => (own, scale),
                adjoint::Place::Added(place) => (&added[place], 1.0),
            };
            let weight = tube::SelfWeight::of(model, &cases.0[functional.case]);
            let reading = functional.value(own);
            let factor = functional.factor(reading) * scale;
            let tubes = model
                .tubes()
                .ids()
                .map(|id| {
                    let element = elements.get(id);
                    let mut ends = [own, adjoint].map(|result| tube::own_ends(&result.tubes[id]));
                    if let Some((_, weights, acting)) = functional.inside.iter().find(|(inside, ..)| *inside == id) {
                        // What is summed changes with the tube itself, and its slips follow the loads on its own ends.
                        ends[1] = tube::loaded_ends(element, model, id, adjoint, acting) - weights;
                    }
                    tube::rate(model, element, &cases.0[functional.case], id, &weight, ends).scaled(factor)
                })
                .collect();
            let self_adjoint = matches!(place, adjoint::Place::Own(_));
            SumRates { value: functional.response_value(reading), tubes, self_adjoint }
        })
        .collect();
    Ok(Rates { found, results, added: added.len() })
}
