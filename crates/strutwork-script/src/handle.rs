//! What a script holds in its hands: frames, load cases, results. Each is a handle; copies of a handle are one thing.

use std::sync::{Arc, Mutex, MutexGuard};

use strutwork_checks::Finding;
use strutwork_checks::governing::Standing;
use strutwork_loads::{CaseBuilder, LoadCase};
use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;

use crate::fault::Fault;
use crate::session::lock;

/// A frame that a script looks at or changes.
#[derive(Clone)]
pub(crate) struct Frame(Arc<Mutex<Inside>>);

enum Inside {
    /// The model of a run: not to be changed.
    Given(Arc<Model>),
    /// A spec that the script may change, its own load cases, and the model that it makes, once it was asked for.
    Open { spec: Box<ModelSpec>, cases: Option<Arc<str>>, model: Option<Arc<Model>> },
}

impl Frame {
    /// The model of a run: not to be changed.
    pub(crate) fn given(model: Arc<Model>) -> Self {
        Self(Arc::new(Mutex::new(Inside::Given(model))))
    }

    /// A spec that the script may change, the text of the folder's own `cases.rhai`, and the model that the spec makes.
    pub(crate) fn open(spec: ModelSpec, cases: Option<String>, model: Model) -> Self {
        let cases = cases.map(Arc::from);
        Self(Arc::new(Mutex::new(Inside::Open { spec: Box::new(spec), cases, model: Some(Arc::new(model)) })))
    }

    /// A spec that nobody has validated yet.
    pub(crate) fn of_spec(spec: ModelSpec) -> Self {
        Self(Arc::new(Mutex::new(Inside::Open { spec: Box::new(spec), cases: None, model: None })))
    }

    /// The spec as it is now.
    ///
    /// # Errors
    /// [`Fault::NotHere`] for the model of a run.
    pub(crate) fn spec(&self, function: &'static str) -> Result<ModelSpec, Fault> {
        match &*lock(&self.0) {
            Inside::Given(_) => {
                Err(Fault::NotHere { function, why: "a case script builds load cases, and no studies" })
            }
            Inside::Open { spec, .. } => Ok((**spec).clone()),
        }
    }

    /// Another frame with the same content, to be changed by itself.
    ///
    /// # Errors
    /// [`Fault::NotHere`] for the model of a run.
    pub(crate) fn duplicate(&self) -> Result<Self, Fault> {
        match &*lock(&self.0) {
            Inside::Given(_) => Err(not_to_be_changed("duplicate")),
            Inside::Open { spec, cases, model } => Ok(Self(Arc::new(Mutex::new(Inside::Open {
                spec: spec.clone(),
                cases: cases.clone(),
                model: model.clone(),
            })))),
        }
    }

    /// The valid model of what the frame is now.
    ///
    /// # Errors
    /// [`Fault::Model`] with every fault.
    pub(crate) fn model(&self) -> Result<Arc<Model>, Fault> {
        match &mut *lock(&self.0) {
            Inside::Given(model) => Ok(Arc::clone(model)),
            Inside::Open { model: Some(model), .. } => Ok(Arc::clone(model)),
            Inside::Open { spec, model, .. } => {
                let valid = Arc::new(strutwork_model::validate::validate(spec).map_err(Fault::Model)?.value);
                *model = Some(Arc::clone(&valid));
                Ok(valid)
            }
        }
    }

    /// The text of the folder's own `cases.rhai`.
    pub(crate) fn own_cases(&self) -> Option<Arc<str>> {
        match &*lock(&self.0) {
            Inside::Given(_) => None,
            Inside::Open { cases, .. } => cases.clone(),
        }
    }

    /// Changes the spec. What was made of it before is forgotten.
    ///
    /// # Errors
    /// [`Fault::NotHere`] for the model of a run; otherwise what `change` says, and then nothing is changed.
    pub(crate) fn change<T>(
        &self,
        function: &'static str,
        change: impl FnOnce(&mut ModelSpec) -> Result<T, Fault>,
    ) -> Result<T, Fault> {
        match &mut *lock(&self.0) {
            Inside::Given(_) => Err(not_to_be_changed(function)),
            Inside::Open { spec, model, .. } => {
                let done = change(spec)?;
                *model = None;
                Ok(done)
            }
        }
    }
}

fn not_to_be_changed(function: &'static str) -> Fault {
    Fault::NotHere { function, why: "the model of a run is not to be changed by its load cases" }
}

/// A load case that a script builds, or one that is finished.
#[derive(Clone)]
pub(crate) struct Case(Arc<Mutex<Stage>>);

pub(crate) type Builder = CaseBuilder<Arc<Model>>;

enum Stage {
    Building(Box<Builder>),
    /// A case of the load files, and the model that it is for.
    Done(Arc<Model>, Box<LoadCase>),
}

impl Case {
    pub(crate) fn building(builder: Builder) -> Self {
        Self(Arc::new(Mutex::new(Stage::Building(Box::new(builder)))))
    }

    pub(crate) fn done(model: Arc<Model>, case: LoadCase) -> Self {
        Self(Arc::new(Mutex::new(Stage::Done(model, Box::new(case)))))
    }

    pub(crate) fn name(&self) -> String {
        match &*lock(&self.0) {
            Stage::Building(builder) => builder.name().to_owned(),
            Stage::Done(_, case) => case.name.clone(),
        }
    }

    /// The case as it stands now, finished.
    ///
    /// # Errors
    /// As [`CaseBuilder::finish`].
    pub(crate) fn finish(&self) -> Result<LoadCase, Fault> {
        let builder = match &*lock(&self.0) {
            Stage::Building(builder) => builder.clone(),
            Stage::Done(_, case) => return Ok((**case).clone()),
        };
        Ok(builder.finish()?)
    }

    /// Whether it was built for exactly this model.
    pub(crate) fn is_for(&self, model: &Arc<Model>) -> bool {
        std::ptr::eq(self.model(), Arc::as_ptr(model))
    }

    /// Whether both were built for one and the same model.
    pub(crate) fn same_model(&self, other: &Self) -> bool {
        std::ptr::eq(self.model(), other.model())
    }

    /// The place of the model that it was built for.
    fn model(&self) -> *const Model {
        match &*lock(&self.0) {
            Stage::Building(builder) => std::ptr::from_ref(builder.model()),
            Stage::Done(own, _) => Arc::as_ptr(own),
        }
    }

    /// Adds to the case.
    ///
    /// # Errors
    /// [`Fault::NotHere`] for a case of the load files; otherwise what `add` says.
    pub(crate) fn add<T>(
        &self,
        function: &'static str,
        add: impl FnOnce(&mut Builder) -> Result<T, Fault>,
    ) -> Result<T, Fault> {
        let mut stage: MutexGuard<'_, Stage> = lock(&self.0);
        match &mut *stage {
            Stage::Building(builder) => add(builder),
            Stage::Done(..) => {
                Err(Fault::NotHere { function, why: "a finished case, such as one of the load files, stays as it is" })
            }
        }
    }
}

/// The results of a run that a script made.
#[derive(Clone)]
pub(crate) struct Solved(pub(crate) Arc<SolvedRun>);

/// Everything that a run gave; judged when somebody asks.
pub(crate) struct SolvedRun(pub(crate) Arc<strutwork_study::Solved>);

impl std::ops::Deref for SolvedRun {
    type Target = strutwork_study::Solved;

    fn deref(&self) -> &Self::Target {
        &self.0
    }
}

/// One of the findings of a run, by its place among them.
#[derive(Clone)]
pub(crate) struct Judgement {
    pub(crate) run: Arc<SolvedRun>,
    pub(crate) place: usize,
    /// How its item stands over all checks and cases, where it governs one.
    pub(crate) standing: Option<Standing>,
}

impl Judgement {
    pub(crate) fn finding(&self) -> &Finding {
        &self.run.findings()[self.place]
    }
}
