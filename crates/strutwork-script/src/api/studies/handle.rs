//! A study that a script describes.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

use rhai::FnPtr;
use strutwork_study::{Change, Levels, Parameter, Study};

use crate::fault::Fault;
use crate::session::lock;

/// A study in the making; copies of the handle are one study.
#[derive(Clone)]
pub(crate) struct StudyHandle(Arc<Mutex<Described>>);

/// What a script said of a study, and its own functions.
#[derive(Clone)]
pub(crate) struct Described {
    pub(crate) study: Study,
    /// The text of the model folder's own `cases.rhai`.
    pub(crate) own_cases: Option<Arc<str>>,
    /// Functions that change the frame, by the place of their parameter.
    pub(crate) changes: BTreeMap<usize, FnPtr>,
    /// Functions that answer, by the place of their response, and whether they take the variant's values too.
    pub(crate) answers: BTreeMap<usize, (FnPtr, bool)>,
    /// The function that builds the load cases.
    pub(crate) builds: Option<FnPtr>,
}

impl Described {
    pub(crate) fn new(study: Study, own_cases: Option<Arc<str>>) -> Self {
        Self { study, own_cases, changes: BTreeMap::new(), answers: BTreeMap::new(), builds: None }
    }

    /// Whether the results depend on functions of the script.
    pub(crate) fn calls_back(&self) -> bool {
        self.builds.is_some() || !self.changes.is_empty() || !self.answers.is_empty()
    }
}

impl StudyHandle {
    pub(crate) fn new(described: Described) -> Self {
        Self(Arc::new(Mutex::new(described)))
    }

    pub(crate) fn described(&self) -> Described {
        lock(&self.0).clone()
    }

    /// Adds to it.
    ///
    /// # Errors
    /// What `add` says.
    pub(crate) fn add<T>(&self, add: impl FnOnce(&mut Described) -> Result<T, Fault>) -> Result<T, Fault> {
        add(&mut lock(&self.0))
    }

    /// Adds a parameter.
    ///
    /// # Errors
    /// [`Fault::Study`].
    pub(crate) fn vary(&self, name: Option<&str>, change: Change, levels: Levels) -> Result<(), Fault> {
        self.add(|described| {
            let parameter = Parameter::new(&described.study.base, name, change, levels)?;
            described.study.parameters.push(parameter);
            Ok(())
        })
    }
}
