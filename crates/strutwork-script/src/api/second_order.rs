//! Second order: balance on the frame as it bends.

use std::sync::Arc;

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::LoadCases;
use strutwork_solve::explain::explain;
use strutwork_solve::second_order::{Grown, SecondOrder};
use strutwork_solve::{SecondOrderWanted, SolveError, solve_cases, solve_second_order as in_second_order};

use super::Raised;
use super::models::tube_named;
use super::solving::finished;
use crate::fault::Fault;
use crate::handle::{Frame, Solved, SolvedRun};
use crate::number::{count, map};
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

impl SolvedRun {
    /// How a case came to be in balance on the bent frame.
    fn second_order(&self, name: &str) -> Result<&SecondOrder, Fault> {
        let missing = || Fault::NoResult { case: name.to_owned(), what: "second order: it was solved by `solve`" };
        self.case(name)?.second_order.as_deref().ok_or_else(missing)
    }
}

/// Second over first; 1 where there is nothing in first order.
fn factor(grown: Grown) -> f64 {
    grown.factor().unwrap_or(1.0)
}

#[export_module]
mod functions {
    use super::*;

    /// Solves load cases in second order, on the frame as it bends, and judges the results.
    ///
    /// * Forces, movements and findings of what it gives are those of the bent frame; loads keep their directions.
    /// * A case under which the frame buckles has no result: it is an error among the `findings`, it stands in `refused`, and
    ///   asking for its forces stops the script. The other cases are solved.
    /// * The cases must have been built on this frame after its last change.
    /// * For free-standing scripts only.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve_second_order(frame.cases_of("bending"));
    /// print(`moments grow by ${fixed((r.second_order("bending").moment_growth - 1) * 100, 2)} %`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn solve_second_order(context: NativeCallContext, frame: Frame, cases: Array) -> Result<Solved, Raised> {
        Session::of(&context).only_free("solve_second_order")?;
        let model = frame.model()?;
        let cases = finished(&model, &cases)?;
        let wrong = |error: SolveError| Fault::Solve { explained: explain(&model, &error), error };
        let first = solve_cases(&model, &cases).map_err(wrong)?;
        let results = in_second_order(&model, &cases, &first, SecondOrderWanted::default()).map_err(wrong)?;
        let stands = |name: &str| results.refused.iter().all(|one| one.case != name);
        let cases = LoadCases(cases.0.into_iter().filter(|case| stands(&case.name)).collect());
        Ok(Solved(Arc::new(SolvedRun(Arc::new(strutwork_study::Solved::new(model, cases, results))))))
    }

    /// How a case grew from first to second order.
    ///
    /// * `moment_growth`, `displacement_growth`: the greatest moment and movement in second order over those in first;
    ///   `moment_tube`, `displacement_joint`: where they are.
    /// * `passes`: how many passes it took; `left_forces`, `left_movements`: what the last one changed, as a share.
    /// * `piece_error`: by how much the load at which a tube would bow alone is put too high at most, as a share.
    ///
    /// # Units
    /// Ratios; `moment_nm` and `moment_first_nm` in N·m, `displacement_mm` and `displacement_first_mm` in mm.
    ///
    /// ```rhai
    /// let frame = model();
    /// let grown = frame.solve_second_order(frame.cases_of("bending")).second_order("bending");
    /// print(`${grown.moment_tube}: ${fixed(grown.moment_first_nm, 1)} becomes ${fixed(grown.moment_nm, 1)} N·m`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn second_order(results: Solved, load_case: &str) -> Result<Map, Raised> {
        let run = &results.0;
        let second = run.second_order(load_case)?;
        let ((tube, moment), (joint, moved)) = (second.growth.moment, second.growth.displacement);
        let last = second.passes.last();
        let mut data = map([
            ("moment_growth", factor(moment)),
            ("moment_nm", moment.second),
            ("moment_first_nm", moment.first),
            ("displacement_growth", factor(moved)),
            ("displacement_mm", strutwork_model::units::to_mm(moved.second)),
            ("displacement_first_mm", strutwork_model::units::to_mm(moved.first)),
            ("left_forces", last.map_or(0.0, |pass| pass.forces)),
            ("left_movements", last.map_or(0.0, |pass| pass.movements)),
            ("piece_error", second.piece_error),
        ]);
        data.insert("passes".into(), count(second.passes.len()));
        data.insert("moment_tube".into(), run.model().tubes()[tube].name.clone().into());
        data.insert("displacement_joint".into(), run.model().joints()[joint].name.clone().into());
        Ok(data)
    }

    /// The greatest bending moment of a tube in second order over that in first, in a case.
    ///
    /// # Units
    /// A ratio.
    ///
    /// ```rhai
    /// let frame = model();
    /// print(frame.solve_second_order(frame.cases_of("bending")).moment_growth("bending", "rail-left"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn moment_growth(results: Solved, load_case: &str, tube: &str) -> Result<f64, Raised> {
        let run = &results.0;
        Ok(factor(run.second_order(load_case)?.growth.tubes[tube_named(run.model(), tube)?]))
    }

    /// The load cases that have no result in second order: an array of maps with `load_case`, `code` and `message`, and where the
    /// frame buckles `stands_share`, the share of the load that it does stand.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve_second_order(frame.cases_of("bending"));
    /// for one in r.refused() { print(`${one.load_case}: ${one.message}`); }
    /// ```
    pub fn refused(results: Solved) -> Array {
        let run = &results.0;
        let told = |one: &strutwork_solve::results::Refused| {
            let mut data = Map::new();
            let message: Vec<String> = explain(run.model(), &one.error).into_iter().map(|said| said.message).collect();
            data.insert("load_case".into(), one.case.clone().into());
            data.insert("code".into(), one.error.code().0.into());
            data.insert("message".into(), message.join("; ").into());
            if let SolveError::Buckles { factor, .. } = one.error {
                data.insert("stands_share".into(), factor.into());
            }
            Dynamic::from(data)
        };
        run.refused().iter().map(told).collect()
    }
}
