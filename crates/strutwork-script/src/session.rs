//! What one run of a script shares: the host, the model in hand, the cases built so far, the budget.

use std::cell::Cell;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use rhai::NativeCallContext;

use crate::fault::Fault;
use crate::handle::{Case, Frame};
use crate::host::{ScriptHost, below};
use crate::limits::Limits;

/// What kind of script is run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Builds load cases on one given model.
    Cases,
    /// Does as it likes: opens models, changes them, solves, writes.
    Free,
}

/// What one run of a script shares. Cheap to clone: every clone is the same session.
#[derive(Clone)]
pub(crate) struct Session(Arc<Inner>);

struct Inner {
    kind: Kind,
    host: ScriptHost,
    limits: Limits,
    args: Vec<String>,
    /// Steps taken, shared with the sessions of case scripts run on the way.
    operations: Arc<AtomicU64>,
    frame: Mutex<Option<Frame>>,
    cases: Mutex<Vec<Case>>,
    written: Mutex<Vec<String>>,
    /// Seconds spent in studies.
    in_studies: Mutex<f64>,
    /// Name and text of a free-standing script.
    text: Mutex<(String, String)>,
    /// Texts of imported scripts by name.
    imported: Mutex<BTreeMap<String, String>>,
}

thread_local! {
    /// Steps that scripts took for the variant that this thread evaluates: each variant has the whole budget.
    static VARIANT_STEPS: Cell<Option<u64>> = const { Cell::new(None) };
}

/// Runs scripts for one variant of a study, on a budget of its own. A thread that waits for its variant may take up another
/// meanwhile: each goes on with its own count.
pub(crate) fn within_variant<T>(run: impl FnOnce() -> T) -> T {
    let outer = VARIANT_STEPS.replace(Some(0));
    let done = run();
    VARIANT_STEPS.set(outer);
    done
}

impl Session {
    /// A free-standing script's.
    pub(crate) fn free(host: ScriptHost, limits: Limits, args: Vec<String>) -> Self {
        Self(Arc::new(Inner {
            kind: Kind::Free,
            host,
            limits,
            args,
            operations: Arc::default(),
            frame: Mutex::default(),
            cases: Mutex::default(),
            written: Mutex::default(),
            in_studies: Mutex::default(),
            text: Mutex::default(),
            imported: Mutex::default(),
        }))
    }

    /// That of case scripts on one model.
    pub(crate) fn for_cases(host: ScriptHost, limits: Limits, frame: Frame) -> Self {
        Self(Arc::new(Inner {
            kind: Kind::Cases,
            host,
            limits,
            args: Vec::new(),
            operations: Arc::default(),
            frame: Mutex::new(Some(frame)),
            cases: Mutex::default(),
            written: Mutex::default(),
            in_studies: Mutex::default(),
            text: Mutex::default(),
            imported: Mutex::default(),
        }))
    }

    /// That of case scripts on one model, on this session's budget.
    pub(crate) fn nested_cases(&self, frame: Frame) -> Self {
        Self(Arc::new(Inner {
            kind: Kind::Cases,
            host: self.0.host.clone(),
            limits: self.0.limits,
            args: Vec::new(),
            operations: Arc::clone(&self.0.operations),
            frame: Mutex::new(Some(frame)),
            cases: Mutex::default(),
            written: Mutex::default(),
            in_studies: Mutex::default(),
            text: Mutex::default(),
            imported: Mutex::default(),
        }))
    }

    /// The session of the script that makes this call.
    pub(crate) fn of(context: &NativeCallContext<'_>) -> Self {
        context.tag().and_then(|tag| tag.clone().try_cast()).expect("bug: an engine without a session")
    }

    pub(crate) fn host(&self) -> &ScriptHost {
        &self.0.host
    }

    pub(crate) fn limits(&self) -> &Limits {
        &self.0.limits
    }

    pub(crate) fn args(&self) -> &[String] {
        &self.0.args
    }

    /// Whether the script may read a folder: one below its own, or one that it was given as an argument.
    ///
    /// # Errors
    /// [`Fault::PathRefused`].
    pub(crate) fn may_read(&self, folder: &str) -> Result<(), Fault> {
        if self.args().iter().any(|arg| arg == folder) { Ok(()) } else { below(folder).map(|_| ()) }
    }

    /// Refuses a function that goes with free-standing scripts only.
    ///
    /// # Errors
    /// [`Fault::NotHere`].
    pub(crate) fn only_free(&self, function: &'static str) -> Result<(), Fault> {
        match self.0.kind {
            Kind::Free => Ok(()),
            Kind::Cases => Err(Fault::NotHere {
                function,
                why: "a case script builds load cases on the model of the run, and does nothing else",
            }),
        }
    }

    /// The model in hand: that of the run, or the last one opened.
    ///
    /// # Errors
    /// [`Fault::NotHere`] where none was opened.
    pub(crate) fn frame(&self) -> Result<Frame, Fault> {
        let why = "no model is open yet: open one with open_model(\"folder\")";
        lock(&self.0.frame).clone().ok_or(Fault::NotHere { function: "model", why })
    }

    pub(crate) fn set_frame(&self, frame: Frame) {
        *lock(&self.0.frame) = Some(frame);
    }

    /// Notes a case that a script opened. Only case scripts hand theirs over; a free-standing script solves what it likes.
    pub(crate) fn note_case(&self, case: Case) {
        if self.0.kind == Kind::Cases {
            lock(&self.0.cases).push(case);
        }
    }

    pub(crate) fn take_cases(&self) -> Vec<Case> {
        std::mem::take(&mut lock(&self.0.cases))
    }

    pub(crate) fn note_written(&self, path: &str) {
        let mut written = lock(&self.0.written);
        if !written.iter().any(|known| known == path) {
            written.push(path.to_owned());
        }
    }

    pub(crate) fn written(&self) -> Vec<String> {
        lock(&self.0.written).clone()
    }

    pub(crate) fn operations(&self) -> u64 {
        self.0.operations.load(Ordering::Relaxed)
    }

    /// Seconds of the script's own: those of its studies do not count.
    fn own_seconds(&self) -> f64 {
        self.0.host.elapsed_seconds() - *lock(&self.0.in_studies)
    }

    /// Runs a study; its time does not count as the script's.
    pub(crate) fn in_study<T>(&self, run: impl FnOnce() -> T) -> T {
        let before = self.0.host.elapsed_seconds();
        let done = run();
        *lock(&self.0.in_studies) += self.0.host.elapsed_seconds() - before;
        done
    }

    /// The script's own text, by name: a study that calls back into it is another one when the text changes.
    pub(crate) fn set_text(&self, name: &str, text: &str) {
        *lock(&self.0.text) = (name.to_owned(), text.to_owned());
    }

    /// Name and text of the script.
    pub(crate) fn text(&self) -> (String, String) {
        lock(&self.0.text).clone()
    }

    /// Notes the text of an imported script.
    pub(crate) fn note_import(&self, name: &str, text: &str) {
        lock(&self.0.imported).insert(name.to_owned(), text.to_owned());
    }

    /// Name and text of the script and of everything that it imported so far.
    pub(crate) fn texts(&self) -> Vec<(String, String)> {
        let imported = lock(&self.0.imported).clone();
        std::iter::once(self.text()).chain(imported).collect()
    }

    /// Counts a step. Says which limit is passed, if one is.
    pub(crate) fn count_step(&self) -> Option<&'static str> {
        /// The clock is looked at once in so many steps.
        const BETWEEN_LOOKS: u64 = 64;
        if let Some(steps) = VARIANT_STEPS.get() {
            VARIANT_STEPS.set(Some(steps + 1));
            return (steps >= self.0.limits.operations).then_some(OPERATIONS);
        }
        let steps = self.0.operations.fetch_add(1, Ordering::Relaxed);
        if self.0.host.stop_asked() {
            return Some(STOPPED);
        }
        if steps >= self.0.limits.operations {
            Some(OPERATIONS)
        } else if steps.is_multiple_of(BETWEEN_LOOKS) && self.own_seconds() > self.0.limits.seconds {
            Some(TIME)
        } else {
            None
        }
    }
}

/// The token with which a script is ended for its operations.
pub(crate) const OPERATIONS: &str = "operations";
/// The token with which a script is ended because somebody asked to stop.
pub(crate) const STOPPED: &str = "stopped";
/// The token with which a script is ended for its time.
pub(crate) const TIME: &str = "time";

/// A lock that a panic elsewhere cannot spoil: what it guards is replaced or added to whole.
pub(crate) fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
