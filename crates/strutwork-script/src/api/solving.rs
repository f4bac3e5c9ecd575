//! From load cases to results.

use std::sync::Arc;

use rhai::Array;
use rhai::plugin::*;
use strutwork_loads::case::Nature;
use strutwork_loads::{CaseBuilder, LoadCases, LoadError};
use strutwork_model::Model;
use strutwork_model::units::to_nm_per_deg;
use strutwork_solve::results::MeasureResult;

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Case, Frame, Solved, SolvedRun};
use crate::number::kind;
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

/// The cases of an array, finished: all of this model, no name twice.
pub(super) fn finished(model: &Arc<Model>, cases: &Array) -> Result<LoadCases, Fault> {
    let mut list = LoadCases::default();
    for item in cases {
        let Some(case) = item.clone().try_cast::<Case>() else {
            return Err(Fault::WrongType {
                what: "an item of the array of load cases".to_owned(),
                expected: "a load case",
                got: kind(item),
            });
        };
        if !case.is_for(model) {
            return Err(Fault::Stale { case: case.name() });
        }
        let case = case.finish()?;
        if list.0.iter().any(|known| known.name == case.name) {
            return Err(LoadError::DuplicateCase { name: case.name }.into());
        }
        list.0.push(case);
    }
    Ok(list)
}

/// The torsional stiffness of the frame between the spring places of its corners, N·m/rad.
fn twist_stiffness(model: &Arc<Model>) -> Result<f64, Fault> {
    let name = "unit twist";
    let mut case = CaseBuilder::new(Arc::clone(model), name, "", Nature::Notional)?;
    case.twist_axles(1000.0)?;
    case.balance()?;
    let cases = LoadCases(vec![case.finish()?]);
    let results = strutwork_solve::solve_cases(model, &cases)
        .map_err(|error| Fault::Solve { explained: strutwork_solve::explain::explain(model, &error), error })?;
    results.cases[0]
        .measures
        .iter()
        .find_map(|measure| match measure {
            MeasureResult::Twist { stiffness, .. } => Some(*stiffness),
            MeasureResult::Movement { .. } => None,
        })
        .ok_or_else(|| Fault::NoResult { case: name.to_owned(), what: "twist that was measured" })
}

#[export_module]
mod functions {
    use super::*;

    /// The torsional stiffness of the frame between the spring places of its corners, solved for as it is now.
    ///
    /// * Case scripts may call it too: load transfer depends on it.
    ///
    /// # Units
    /// N·m/degree.
    ///
    /// ```rhai
    /// print(fixed(model().frame_stiffness(), 0));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn frame_stiffness(frame: Frame) -> Result<f64, Raised> {
        Ok(to_nm_per_deg(twist_stiffness(&frame.model()?)?))
    }

    /// Solves load cases on the frame as it is now, and judges the results.
    ///
    /// * The cases must have been built on this frame after its last change.
    /// * A frame that cannot be solved stops the script; a failed check does not: see `findings`.
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("twist"));
    /// print(r.torsional_stiffness("twist"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn solve(context: NativeCallContext, frame: Frame, cases: Array) -> Result<Solved, Raised> {
        Session::of(&context).only_free("solve")?;
        let model = frame.model()?;
        let cases = finished(&model, &cases)?;
        let results = strutwork_solve::solve_cases(&model, &cases)
            .map_err(|error| Fault::Solve { explained: strutwork_solve::explain::explain(&model, &error), error })?;
        Ok(Solved(Arc::new(SolvedRun(Arc::new(strutwork_study::Solved::new(model, cases, results))))))
    }
}
