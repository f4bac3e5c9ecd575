//! Running scripts: case scripts on one model, and free-standing ones.

use std::sync::Arc;

use rhai::{Engine, Scope};
use strutwork_loads::{LoadCases, LoadError};
use strutwork_model::Model;

use crate::engine::engine;
use crate::error::ScriptError;
use crate::fault::Fault;
use crate::handle::{Case, Frame};
use crate::host::{NoHost, ScriptHost};
use crate::limits::Limits;
use crate::session::Session;
use crate::standard::STANDARD_CASES;
use crate::suggest::Vocabulary;

/// Stack for a script: calls within calls up to [`Limits::DEEPEST`], and the taking apart of deeply nested values, need
/// more than a thread has by default. Only what is used of it is ever taken from the system.
const STACK_BYTES: usize = 512 << 20;

/// A script that builds load cases.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CaseScript {
    /// Its name in messages: `cases/bending.rhai`, `cases.rhai`.
    pub name: String,
    /// Its text.
    pub text: String,
}

impl CaseScript {
    /// A script with this name and text.
    pub fn new(name: impl Into<String>, text: impl AsRef<str>) -> Self {
        Self { name: name.into(), text: text.as_ref().to_owned() }
    }

    /// The standard load cases of a vehicle ([`STANDARD_CASES`]), in order.
    pub fn standard() -> Vec<Self> {
        STANDARD_CASES.iter().map(|(name, text)| Self::new(format!("cases/{name}.rhai"), text)).collect()
    }
}

/// What a free-standing script left behind.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outcome {
    /// Paths below the output folder that it wrote, in the order in which it first did.
    pub written: Vec<String>,
    /// Steps that it took.
    pub operations: u64,
}

/// Runs case scripts in order on one model, without files, terminal and clock.
///
/// # Signs and order
/// The cases in the order in which the scripts began them.
///
/// # Errors
/// [`ScriptError`] for the first thing that goes wrong; two cases of one name are [`LoadError::DuplicateCase`].
///
/// # Example
/// ```no_run
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let files = strutwork_model::files::InputFiles::default();
/// use strutwork_script::{CaseScript, Limits, run_cases};
/// let model = strutwork_model::read_model(&files)?.value;
/// let cases = run_cases(&model, &CaseScript::standard(), Limits::default())?;
/// # Ok(())
/// # }
/// ```
pub fn run_cases(model: &Model, scripts: &[CaseScript], limits: Limits) -> Result<LoadCases, ScriptError> {
    run_cases_on(Arc::new(NoHost), model, scripts, limits)
}

/// Runs case scripts as [`run_cases`] does, with a host: their imports are found, their prints shown, their time counted.
///
/// # Errors
/// As [`run_cases`].
pub fn run_cases_on(
    host: ScriptHost,
    model: &Model,
    scripts: &[CaseScript],
    limits: Limits,
) -> Result<LoadCases, ScriptError> {
    on_deep_stack(|| {
        let session = Session::for_cases(host, limits, Frame::given(Arc::new(model.clone())));
        let mut list = LoadCases::default();
        for (script, cases) in scripts.iter().zip(cases_of(&session, scripts)?) {
            for case in cases {
                let case = case.finish().map_err(|fault| ScriptError::of_fault(fault, &script.name))?;
                if list.0.iter().any(|known| known.name == case.name) {
                    let fault = LoadError::DuplicateCase { name: case.name };
                    return Err(ScriptError::of_fault(fault.into(), &script.name));
                }
                list.0.push(case);
            }
        }
        Ok(list)
    })
}

/// Runs a free-standing script: it may open models below its folder, change them, build load cases, solve, and write below
/// the output folder.
///
/// # Errors
/// [`ScriptError`] with the place in the script, for the first thing that goes wrong. What was written before stays. That
/// somebody asked to stop is no error.
pub fn run_script(
    host: ScriptHost,
    name: &str,
    text: &str,
    args: &[String],
    limits: Limits,
) -> Result<Outcome, ScriptError> {
    on_deep_stack(|| {
        let session = Session::free(host, limits, args.to_vec());
        session.set_text(name, text);
        match run_text(&engine(&session), name, text) {
            // Not an error: it ends as if it had come to its end, and what it wrote is kept.
            Err(_) if session.host().stop_asked() => {}
            ran => ran?,
        }
        Ok(Outcome { written: session.written(), operations: session.operations() })
    })
}

/// The cases that scripts build on a frame, within the budget of the script that asks for them.
///
/// # Errors
/// [`Fault::Script`]; [`Fault::Model`] where the frame is not valid.
pub(crate) fn build_nested(session: &Session, frame: &Frame, scripts: &[CaseScript]) -> Result<Vec<Case>, Fault> {
    let nested = session.nested_cases(Frame::given(frame.model()?));
    let cases = cases_of(&nested, scripts).map_err(|error| Fault::Script(Box::new(error)))?;
    Ok(cases.into_iter().flatten().collect())
}

/// The cases of each script, as they stand when it ends.
fn cases_of(session: &Session, scripts: &[CaseScript]) -> Result<Vec<Vec<Case>>, ScriptError> {
    let engine = engine(session);
    scripts
        .iter()
        .map(|script| {
            run_text(&engine, &script.name, &script.text)?;
            Ok(session.take_cases())
        })
        .collect()
}

fn run_text(engine: &Engine, name: &str, text: &str) -> Result<(), ScriptError> {
    let mut ast =
        engine.compile(text).map_err(|error| ScriptError::of_parsing(&error, name, &Vocabulary::of(engine, text)))?;
    ast.set_source(name);
    engine
        .run_ast_with_scope(&mut Scope::new(), &ast)
        .map_err(|error| ScriptError::of(&error, name, &Vocabulary::of(engine, text)))
}

/// Runs on a thread with a deep stack, and waits for it. A panic goes on in the caller.
fn on_deep_stack<T: Send>(run: impl FnOnce() -> Result<T, ScriptError> + Send) -> Result<T, ScriptError> {
    std::thread::scope(|scope| {
        let thread = std::thread::Builder::new().name("script".to_owned()).stack_size(STACK_BYTES);
        match thread.spawn_scoped(scope, run) {
            Ok(running) => running.join().unwrap_or_else(|panic| std::panic::resume_unwind(panic)),
            Err(cause) => Err(ScriptError::of_fault(
                Fault::Host(crate::host::HostError {
                    path: "script".to_owned(),
                    reason: format!("no thread can be started: {cause}"),
                    environment: true,
                }),
                "",
            )),
        }
    })
}
