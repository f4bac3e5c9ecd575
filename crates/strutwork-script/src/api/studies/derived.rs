//! The load cases of frames that sizing and tolerances try: made anew for each, from many threads at once.

use std::sync::Arc;

use rhai::{EvalAltResult, FnPtr, NativeCallContext};
use strutwork_loads::LoadCases;
use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;
use strutwork_study::evaluate::Wanted;
use strutwork_study::{CaseSource as _, Cases, Study};

use super::Described;
use super::closures::Closures;
use crate::api::Raised;
use crate::fault::Fault;
use crate::session::Session;
use crate::studies::StudyJob;

/// A frame to be tried in many ways, and where its load cases come from.
#[derive(Clone)]
pub(super) struct Tried {
    pub(super) spec: ModelSpec,
    own_cases: Option<Arc<str>>,
    /// The script's own function that builds the cases.
    pub(super) builds: Option<FnPtr>,
}

impl Tried {
    /// The frame as it is now.
    pub(super) fn new(spec: ModelSpec, own_cases: Option<Arc<str>>) -> Self {
        Self { spec, own_cases, builds: None }
    }

    /// Calls `run` with what makes the cases of a frame, on threads that scripts fit on; its time is not the script's. Only
    /// cases of these names are needed, or with `None` all.
    ///
    /// Once somebody asks to stop, no further cases are made, so that `run` comes to its end; then nothing that follows in the
    /// script is done.
    ///
    /// # Errors
    /// What `run` says; [`Fault::Host`] where the system starts no threads.
    pub(super) fn run<T: Send>(
        &self,
        context: &NativeCallContext<'_>,
        named: Option<Vec<String>>,
        run: impl FnOnce(&strutwork_study::sizing::Derive<'_>) -> Result<T, Fault> + Send,
    ) -> Result<T, Raised> {
        let session = Session::of(context);
        let mut described = Described::new(Study::new("tried", self.spec.clone()), self.own_cases.clone());
        described.builds.clone_from(&self.builds);
        let closures = Closures::new(context, &session, &described);
        let wanted = named.map_or(Cases::All, Cases::Named);
        let host = session.host();
        let derive = |model: &Model| -> Result<LoadCases, String> {
            if host.stop_asked() {
                return Err("somebody asked to stop".to_owned());
            }
            closures.cases(&Arc::new(model.clone()), Wanted::Of(&wanted)).map_err(|trouble| trouble.note)
        };
        let pool = StudyJob::threads(0).map_err(Fault::from)?;
        let done = session.in_study(|| pool.install(|| run(&derive)));
        if host.stop_asked() {
            return Err(EvalAltResult::Exit(rhai::Dynamic::UNIT, context.call_position()).into());
        }
        Ok(done?)
    }
}
