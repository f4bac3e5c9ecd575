//! The load cases of variants: the load files', those of the standard scripts, the model's own.

use std::sync::{Arc, Mutex};

use rhai::{AST, Engine, Scope};
use strutwork_loads::case::Measure;
use strutwork_loads::{LoadCases, LoadError, derive_plain};
use strutwork_model::Model;
use strutwork_study::evaluate::Wanted;
use strutwork_study::{CaseSource, Cases, Status, Trouble};

use crate::engine::engine;
use crate::error::ScriptError;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::host::ScriptHost;
use crate::limits::Limits;
use crate::resolver::Confined;
use crate::run::CaseScript;
use crate::session::{Session, lock, within_variant};
use crate::suggest::Vocabulary;

/// Builds the load cases of one variant after the other, from many threads at once: the same cases as a run of the changed
/// model has. Scripts are read once; every variant has the whole budget of operations.
pub struct VariantCases {
    host: ScriptHost,
    limits: Limits,
    scripts: Vec<CaseScript>,
    idle: Mutex<Vec<Worker>>,
}

/// An engine with its scripts read, for one thread at a time.
struct Worker {
    session: Session,
    engine: Engine,
    scripts: Vec<AST>,
}

impl VariantCases {
    /// With these case scripts, besides the load files'.
    pub fn new(host: ScriptHost, limits: Limits, scripts: Vec<CaseScript>) -> Self {
        Self { host, limits, scripts, idle: Mutex::default() }
    }

    /// A worker: one that is idle, or a new one.
    fn worker(&self, model: &Arc<Model>) -> Result<Worker, ScriptError> {
        if let Some(worker) = lock(&self.idle).pop() {
            return Ok(worker);
        }
        // Time is the business of whoever watches the study; every variant has the whole budget of operations.
        let limits = Limits { seconds: f64::INFINITY, ..self.limits };
        let session = Session::for_cases(self.host.clone(), limits, Frame::given(Arc::clone(model)));
        let engine = engine(&session);
        let read = |script: &CaseScript| {
            let mut ast = engine.compile(&script.text).map_err(|error| {
                ScriptError::of_parsing(&error, &script.name, &Vocabulary::of(&engine, &script.text))
            })?;
            ast.set_source(script.name.as_str());
            Ok(ast)
        };
        let scripts = self.scripts.iter().map(read).collect::<Result<_, ScriptError>>()?;
        Ok(Worker { session, engine, scripts })
    }

    /// The cases of one script.
    fn build(&self, worker: &mut Worker, place: usize, model: &Arc<Model>) -> Result<LoadCases, ScriptError> {
        worker.session.set_frame(Frame::given(Arc::clone(model)));
        worker.session.take_cases();
        // What an imported script computed for another variant must not be met again.
        worker.engine.set_module_resolver(Confined::new(worker.session.clone()));
        let script = &self.scripts[place];
        let ran = within_variant(|| worker.engine.run_ast_with_scope(&mut Scope::new(), &worker.scripts[place]));
        ran.map_err(|error| ScriptError::of(&error, &script.name, &Vocabulary::of(&worker.engine, &script.text)))?;
        let finish =
            |case: crate::handle::Case| case.finish().map_err(|fault| ScriptError::of_fault(fault, &script.name));
        worker.session.take_cases().into_iter().map(finish).collect::<Result<_, _>>().map(LoadCases)
    }

    /// The scripts, those first that most likely make what is wanted.
    fn order(&self, wanted: Wanted<'_>) -> Vec<usize> {
        let stem = |place: usize| {
            let name = self.scripts[place].name.as_str();
            name.rsplit('/').next().unwrap_or(name).trim_end_matches(".rhai")
        };
        let likely = |place: &usize| match wanted {
            Wanted::Of(Cases::All) => true,
            Wanted::Of(Cases::Named(names)) => names.iter().any(|name| name.starts_with(stem(*place))),
            Wanted::Twist => stem(*place) == "twist",
        };
        let (mut first, rest): (Vec<usize>, Vec<usize>) = (0..self.scripts.len()).partition(likely);
        first.extend(rest);
        first
    }

    /// The cases of all scripts that are needed, in the order of the scripts.
    fn built(&self, model: &Arc<Model>, wanted: Wanted<'_>, plain: &LoadCases) -> Result<Vec<LoadCases>, ScriptError> {
        let mut of_scripts = vec![LoadCases::default(); self.scripts.len()];
        if self.scripts.is_empty() {
            return Ok(of_scripts);
        }
        let mut worker = self.worker(model)?;
        let built = self.build_wanted(&mut worker, model, wanted, plain, &mut of_scripts);
        lock(&self.idle).push(worker);
        built.map(|()| of_scripts)
    }

    /// Builds script by script until everything that is wanted is there.
    fn build_wanted(
        &self,
        worker: &mut Worker,
        model: &Arc<Model>,
        wanted: Wanted<'_>,
        plain: &LoadCases,
        of_scripts: &mut [LoadCases],
    ) -> Result<(), ScriptError> {
        for place in self.order(wanted) {
            let all = plain.0.iter().chain(of_scripts.iter().flat_map(|cases| &cases.0));
            let enough = match wanted {
                Wanted::Of(Cases::All) => false,
                Wanted::Of(Cases::Named(names)) => {
                    let known: Vec<&str> = all.map(|case| case.name.as_str()).collect();
                    names.iter().all(|name| known.contains(&name.as_str()))
                }
                Wanted::Twist => {
                    let mut measures = all.flat_map(|case| &case.measures);
                    measures.any(|measure| matches!(measure, Measure::Twist { .. }))
                }
            };
            if enough {
                break;
            }
            of_scripts[place] = self.build(worker, place, model)?;
        }
        Ok(())
    }
}

impl CaseSource for VariantCases {
    fn cases(&self, model: &Arc<Model>, wanted: Wanted<'_>) -> Result<LoadCases, Trouble> {
        let mut cases = derive_plain(model).map_err(|error| Trouble::from(&error))?;
        let of_scripts = self.built(model, wanted, &cases).map_err(|error| trouble(&error))?;
        for case in of_scripts.into_iter().flat_map(|cases| cases.0) {
            if cases.0.iter().any(|known| known.name == case.name) {
                return Err(Trouble::from(&LoadError::DuplicateCase { name: case.name }));
            }
            cases.0.push(case);
        }
        Ok(cases)
    }

    fn texts(&self) -> Vec<(String, String)> {
        self.scripts.iter().map(|script| (script.name.clone(), script.text.clone())).collect()
    }
}

/// Why a script stopped, as the outcome of the variant that it stopped at.
pub(crate) fn trouble(error: &ScriptError) -> Trouble {
    let at = if error.line > 0 { format!("{}:{}: ", error.file, error.line) } else { String::new() };
    let note = format!("{at}{}: {}", error.code, error.message);
    let status = match error.fault() {
        Some(Fault::Solve { error: strutwork_solve::SolveError::Mechanism { .. }, .. }) => Status::Mechanism,
        Some(Fault::Solve { .. }) => Status::Unsolved,
        Some(Fault::Model(_)) => Status::ModelFault,
        Some(Fault::Load(_)) => Status::LoadFault,
        Some(Fault::Script(inner)) => return trouble(inner),
        _ => Status::ScriptFault,
    };
    Trouble { status, note }
}
