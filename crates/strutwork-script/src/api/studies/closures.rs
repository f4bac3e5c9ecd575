//! A script's own functions, called for many variants at once.

use std::sync::Arc;

use rhai::{Array, Dynamic, EvalAltResult, FnPtr, Map, NativeCallContext};
use strutwork_loads::LoadCases;
use strutwork_model::Model;
use strutwork_model::files::CASES;
use strutwork_model::spec::ModelSpec;
use strutwork_study::evaluate::Wanted;
use strutwork_study::identity::identity;
use strutwork_study::{CaseSource, Fast, Own, Solved as SolvedVariant, Trouble, Value};

use super::{Described, Ran};
use crate::api::Raised;
use crate::api::solving::finished;
use crate::error::ScriptError;
use crate::fault::Fault;
use crate::handle::{Frame, Solved, SolvedRun};
use crate::number::{kind, number};
use crate::run::CaseScript;
use crate::session::{Session, within_variant};
use crate::studies::{StudyEnd, StudyJob, VariantCases, trouble};
use crate::suggest::Vocabulary;

/// The functions of a study, with the engine that calls them.
pub(super) struct Closures<'c> {
    context: &'c NativeCallContext<'c>,
    session: &'c Session,
    described: &'c Described,
    /// Where load cases come from unless a function builds them.
    cases: VariantCases,
}

/// A function whose captured variables are its own: variants cannot see what others do to them.
fn frozen(function: &FnPtr) -> FnPtr {
    let mut own = function.clone();
    own.set_curry(function.curry().iter().map(|captured| captured.clone().flatten()).collect::<Vec<_>>());
    own
}

pub(super) fn dynamic(value: &Value) -> Dynamic {
    match value {
        Value::Number(number) => (*number).into(),
        Value::Word(word) => word.into(),
    }
}

impl<'c> Closures<'c> {
    pub(super) fn new(context: &'c NativeCallContext<'c>, session: &'c Session, described: &'c Described) -> Self {
        let base = &described.study.base;
        let mut scripts = Vec::new();
        if described.builds.is_none() {
            if base.vehicle.is_some() && base.options.standard_cases {
                scripts.extend(CaseScript::standard());
            }
            scripts.extend(described.own_cases.as_ref().map(|text| CaseScript::new(CASES, text)));
        }
        let cases = VariantCases::new(session.host().clone(), *session.limits(), scripts);
        Self { context, session, described, cases }
    }

    /// Runs the study on the host.
    pub(super) fn run(&self) -> Result<Ran, Raised> {
        let study = &self.described.study;
        // Told with its place in the script, before the host sees it.
        study.count().map_err(Fault::from)?;
        let evaluator = Fast::new(self, Some(self));
        let job = StudyJob { study, evaluator: &evaluator, cases: self, identity: identity(study, &self.texts()) };
        let ran = Ran::new(study);
        let host = self.session.host();
        let end = self.session.in_study(|| host.run_study(&job, &mut |row| ran.add(row))).map_err(Fault::from)?;
        match end {
            StudyEnd::Finished => Ok(ran),
            // Not an error: the rest of the script waits for the rest of the study.
            StudyEnd::Partly => Err(EvalAltResult::Exit(Dynamic::UNIT, self.context.call_position()).into()),
        }
    }

    /// Calls a function for a variant.
    fn call(&self, function: &FnPtr, arguments: impl rhai::FuncArgs) -> Result<Dynamic, Trouble> {
        let called = within_variant(|| frozen(function).call_within_context::<Dynamic>(self.context, arguments));
        called.map_err(|error| {
            let (name, text) = self.session.text();
            trouble(&ScriptError::of(&error, &name, &Vocabulary::of(self.context.engine(), &text)))
        })
    }

    fn wrong(&self, fault: Fault) -> Trouble {
        trouble(&ScriptError::of_fault(fault, &self.session.text().0))
    }
}

impl Own for Closures<'_> {
    fn change(&self, parameter: usize, spec: &mut ModelSpec, value: &Value) -> Result<(), Trouble> {
        let Some(function) = self.described.changes.get(&parameter) else { return Ok(()) };
        let frame = Frame::of_spec(std::mem::take(spec));
        // What it gives back is nobody's business.
        let _ = self.call(function, (frame.clone(), dynamic(value)))?;
        *spec = frame.spec("vary_value").map_err(|fault| self.wrong(fault))?;
        Ok(())
    }

    fn respond(&self, response: usize, solved: &Arc<SolvedVariant>, values: &[Value]) -> Result<Option<f64>, Trouble> {
        let Some((function, takes_values)) = self.described.answers.get(&response) else { return Ok(None) };
        let results = Solved(Arc::new(SolvedRun(Arc::clone(solved))));
        let answer = if *takes_values {
            let names = self.described.study.parameters.iter().map(|parameter| parameter.name.as_str());
            let variant: Map = names.zip(values).map(|(name, value)| (name.into(), dynamic(value))).collect();
            self.call(function, (results, variant))?
        } else {
            self.call(function, (results,))?
        };
        if answer.is_unit() {
            return Ok(None);
        }
        let name = &self.described.study.responses[response].name;
        number(&format!("`{name}`"), &answer).map(Some).map_err(|fault| self.wrong(fault))
    }
}

impl CaseSource for Closures<'_> {
    fn cases(&self, model: &Arc<Model>, wanted: Wanted<'_>) -> Result<LoadCases, Trouble> {
        let Some(function) = &self.described.builds else { return self.cases.cases(model, wanted) };
        let built = self.call(function, (Frame::given(Arc::clone(model)),))?;
        let what = "what build_cases gives".to_owned();
        let got = kind(&built);
        let cases: Array = built
            .try_cast()
            .ok_or_else(|| self.wrong(Fault::WrongType { what, expected: "an array of load cases", got }))?;
        finished(model, &cases).map_err(|fault| self.wrong(fault))
    }

    fn texts(&self) -> Vec<(String, String)> {
        let mut texts = self.cases.texts();
        if self.described.calls_back() {
            texts.extend(self.session.texts());
            texts.extend(self.session.args().iter().map(|argument| ("argument".to_owned(), argument.clone())));
        }
        texts
    }
}
