//! A variant by the whole way: spec, validation, load cases, solution; checks, modes and buckling only where a response asks.

use std::ops::Range;
use std::sync::Arc;

use rayon::prelude::*;

use strutwork_loads::case::{Measure, Nature};
use strutwork_loads::{CaseBuilder, LoadCase, LoadCases, LoadError, check_suspension};
use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;
use strutwork_model::validate::validate;
use strutwork_solve::results::MeasureResult;
use strutwork_solve::{Results, solve_cases};

use crate::change::apply;
use crate::evaluate::{CaseSource, Evaluate, Own, Trouble, Wanted, places};
use crate::outcome::{Outcome, Row, Status, Way, Why};
use crate::parameter::Change;
use crate::read_off::{ReadOff, no_case};
use crate::response::Needs;
use crate::solved::Solved;
use crate::study::{Cases, Study};
use crate::value::Value;

/// The case by which the torsional stiffness is found where no other measures it, and its couple, N·m.
const UNIT_TWIST: (&str, f64) = ("unit twist", 1000.0);

/// Evaluates each variant from its own spec, as a run of the changed model would.
pub struct Exact<'a> {
    cases: &'a dyn CaseSource,
    own: Option<&'a dyn Own>,
}

impl<'a> Exact<'a> {
    /// With load cases from this source, and the caller's own functions where the study has any.
    pub fn new(cases: &'a dyn CaseSource, own: Option<&'a dyn Own>) -> Self {
        Self { cases, own }
    }

    /// The model of a variant.
    pub(crate) fn model(&self, study: &Study, values: &[Value]) -> Result<Arc<Model>, Trouble> {
        Ok(Arc::new(valid(&self.spec(study, values)?)?))
    }

    /// The spec of a variant.
    pub(crate) fn spec(&self, study: &Study, values: &[Value]) -> Result<ModelSpec, Trouble> {
        let mut spec = study.base.clone();
        for (place, (parameter, value)) in study.parameters.iter().zip(values).enumerate() {
            match (&parameter.change, self.own) {
                (Change::Own, Some(own)) => own.change(place, &mut spec, value)?,
                _ => apply(&mut spec, parameter, value),
            }
        }
        Ok(spec)
    }

    /// The load cases, as far as the responses need them.
    pub(crate) fn cases(&self, study: &Study, needs: &Needs, model: &Arc<Model>) -> Result<LoadCases, Trouble> {
        if needs.cases {
            let mut cases = self.cases.cases(model, Wanted::Of(&study.cases))?;
            if let Cases::Named(names) = &study.cases {
                let known = || cases.0.iter().map(|case| case.name.as_str());
                if let Some(name) = names.iter().find(|name| known().all(|known| known != name.as_str())) {
                    return Err(no_case(name, known()));
                }
                cases.0.retain(|case| names.contains(&case.name));
            }
            if cases.0.is_empty() {
                return Err(Trouble::not_there("the model has no load cases, and a response asks what they do"));
            }
            Ok(cases)
        } else if needs.twist {
            let mut cases = self.cases.cases(model, Wanted::Twist)?;
            cases.0.retain(measures_twist);
            cases.0.truncate(1);
            Ok(cases)
        } else {
            Ok(LoadCases::default())
        }
    }

    /// The outcome of a variant, and why it went the whole way.
    pub fn outcome(&self, study: &Study, values: &[Value], why: Why) -> Outcome {
        study.outcome(self.answers(study, values), Way::Whole(why))
    }

    /// The caller's own functions.
    pub(crate) fn own(&self) -> Option<&dyn Own> {
        self.own
    }

    /// The answers of a variant.
    fn answers(&self, study: &Study, values: &[Value]) -> Result<Vec<Option<f64>>, Trouble> {
        let (solved, twist) = self.solved(study, values)?;
        ReadOff::new(&solved, twist, &Needs::of(&study.responses))?.all(study, values, self.own)
    }

    /// A variant solved, and its torsional stiffness, N·m/rad, where that is asked for and measured.
    pub(crate) fn solved(&self, study: &Study, values: &[Value]) -> Result<(Arc<Solved>, Option<f64>), Trouble> {
        let needs = Needs::of(&study.responses);
        let model = self.model(study, values)?;
        let cases = self.cases(study, &needs, &model)?;
        let results = solved(&model, &cases)?;
        let twist = if needs.twist && !cases.0.iter().any(measures_twist) {
            // By itself: the checks look at the load cases of the study alone.
            stiffness(&solved(&model, &unit_twist(&model)?)?)
        } else {
            stiffness(&results)
        };
        Ok((Arc::new(Solved::new(model, cases, results)), twist))
    }
}

/// The model of a spec that is in order.
pub(crate) fn valid(spec: &ModelSpec) -> Result<Model, Trouble> {
    let model = validate(spec).map_err(|faults| Trouble::from(&faults))?.value;
    check_suspension(&model).map_err(|faults| match faults.first() {
        Some(fault) => Trouble::from(fault),
        None => Trouble { status: Status::LoadFault, note: "the suspension does not hold its uprights".to_owned() },
    })?;
    Ok(model)
}

pub(crate) fn measures_twist(case: &LoadCase) -> bool {
    case.measures.iter().any(|measure| matches!(measure, Measure::Twist { .. }))
}

fn solved(model: &Model, cases: &LoadCases) -> Result<Results, Trouble> {
    solve_cases(model, cases).map_err(|error| Trouble::of_solving(model, &error))
}

/// The stiffness that the first measured twist of all cases shows, N·m/rad.
fn stiffness(results: &Results) -> Option<f64> {
    results.cases.iter().find_map(|case| first_twist(&case.measures))
}

/// The stiffness that the first measured twist shows, N·m/rad.
pub(crate) fn first_twist(measures: &[MeasureResult]) -> Option<f64> {
    measures.iter().find_map(|measure| match measure {
        MeasureResult::Twist { stiffness, .. } => Some(*stiffness),
        MeasureResult::Movement { .. } => None,
    })
}

/// The case that finds the torsional stiffness between the spring places.
pub(crate) fn unit_twist(model: &Arc<Model>) -> Result<LoadCases, Trouble> {
    if model.vehicle().is_none() {
        return Err(Trouble::not_there(
            "no load case measures a twist, and the model has no vehicle whose spring places could be turned",
        ));
    }
    let (name, couple) = UNIT_TWIST;
    let build = || -> Result<LoadCases, LoadError> {
        let mut case = CaseBuilder::new(Arc::clone(model), name, "", Nature::Notional)?;
        case.twist_axles(couple)?;
        case.balance()?;
        Ok(LoadCases(vec![case.finish()?]))
    };
    build().map_err(|error| Trouble::from(&error))
}

impl Evaluate for Exact<'_> {
    fn evaluate(&self, study: &Study, variants: Range<u64>) -> Vec<Row> {
        let one = |place: usize| {
            let variant = variants.start + place as u64;
            let values = study.values(variant);
            let outcome = self.outcome(study, &values, Why::Asked);
            Row { variant, values, outcome }
        };
        places(&variants).into_par_iter().map(one).collect()
    }
}
