//! The builder that case scripts use: from a name to a finished [`LoadCase`], with the story of how it came about.
//!
//! In reading order: the story (here), what acts at joints, bodies and tubes (`acting`), at places (`places`), on the wheels
//! (`vehicle`), gravity and inertia (`inertia`), sums of cases (`combine`), how it is held and what is read off (`holding`),
//! and what is done and checked at the end (`finish`).

mod acting;
mod combine;
mod finish;
mod holding;
mod inertia;
mod places;
mod twist;
mod vehicle;

pub use places::{groups, places};

use std::ops::Deref;
use std::sync::Arc;

use strutwork_model::model::{Carrier, Model};
use strutwork_model::nearest::nearest;
use strutwork_model::{BodyId, Dof, JointId, TubeId};

use crate::basis::Basis;
use crate::case::{LoadCase, Mark, Nature, Placed, Remark, Step, UsedFactor};
use crate::error::LoadError;
use crate::field::Field;
use crate::loads::{Loads, PointLoad};
use crate::masses::MassModel;
use crate::suspension::Uprights;

/// Builds one load case on one model.
///
/// `M` is `&Model`, or an `Arc<Model>` where the builder must outlive the borrow.
///
/// # Signs and order
/// Global axes, SI units: m, N, N·m, m/s², rad. Steps, factors and remarks appear in the order of the calls.
///
/// # Errors
/// Every call that takes numbers refuses those that are not finite ([`LoadError::NotFinite`]).
#[derive(Debug, Clone)]
pub struct CaseBuilder<M: Deref<Target = Model>> {
    model: M,
    basis: Arc<Basis>,
    case: LoadCase,
    /// What acts on each upright, N and N·m about its contact point, until the links take it at the end.
    uprights: [[f64; 6]; 4],
    /// Gravity less the accelerations, about the centre of gravity.
    field: Field,
    /// Whether inertia was made to balance the case.
    balanced: bool,
    /// Whether another case was added.
    summed: bool,
    held_as_vehicle: bool,
}

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// A case in which nothing acts yet and nothing is held.
    ///
    /// # Errors
    /// [`LoadError::BadName`] where the name is empty or has control characters; [`LoadError::Upright`] where the links
    /// of a corner do not hold its upright.
    pub fn new(model: M, name: &str, title: &str, nature: Nature) -> Result<Self, LoadError> {
        let basis = Arc::new(Basis::of(&model)?);
        Self::on(model, basis, name, title, nature)
    }

    /// A case on a model whose masses and uprights are known.
    pub(crate) fn on(model: M, basis: Arc<Basis>, name: &str, title: &str, nature: Nature) -> Result<Self, LoadError> {
        check_name("case", name)?;
        let mut case = LoadCase::new(name, nature, Vec::new());
        if !title.trim().is_empty() {
            title.clone_into(&mut case.title);
        }
        let field = Field { about: basis.mass.centre, ..Field::default() };
        let uprights = [[0.0; 6]; 4];
        Ok(Self { model, basis, case, uprights, field, balanced: false, summed: false, held_as_vehicle: false })
    }

    /// The model that the case is for.
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// Mass, centre of gravity and inertia of the model.
    pub fn mass(&self) -> &MassModel {
        &self.basis.mass
    }

    /// The linked corners of the model.
    pub fn uprights(&self) -> &Uprights {
        &self.basis.uprights
    }

    /// The case's name.
    pub fn name(&self) -> &str {
        &self.case.name
    }

    /// A named value that the case rests on: the model's own where `model.toml` sets it, otherwise the default. Both are
    /// noted with their source. Asking twice for one name notes it once.
    ///
    /// # Errors
    /// [`LoadError::BadName`]; [`LoadError::NotFinite`].
    pub fn factor(&mut self, name: &str, default: f64, unit: &str, source: &str) -> Result<f64, LoadError> {
        check_name("factor", name)?;
        finite(&format!("factor {name}"), default)?;
        let set = self.model.factors().iter().find(|factor| factor.name == name);
        let used = UsedFactor {
            name: name.to_owned(),
            value: set.map_or(default, |factor| factor.value),
            unit: unit.to_owned(),
            source: set.map_or(source, |factor| factor.source.as_str()).to_owned(),
            mark: if set.is_some() { Mark::Own } else { Mark::of(source) },
            overridden: set.is_some(),
        };
        let value = used.value;
        let factors = &mut self.case.derivation.factors;
        if !factors.contains(&used) {
            factors.push(used);
        }
        Ok(value)
    }

    /// A step of the derivation: what was done, and the number it gave in a door unit.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`].
    pub fn step(&mut self, text: &str, value: f64, unit: &str) -> Result<(), LoadError> {
        finite(&format!("the step \"{text}\""), value)?;
        let step = Step { text: text.to_owned(), value: Some(value), unit: unit.to_owned(), accounted: false };
        self.case.derivation.steps.push(step);
        Ok(())
    }

    /// As [`CaseBuilder::step`], of what the case's account says too.
    fn step_of_account(&mut self, text: &str, value: f64, unit: &str) -> Result<(), LoadError> {
        self.step(text, value, unit)?;
        if let Some(last) = self.case.derivation.steps.last_mut() {
            last.accounted = true;
        }
        Ok(())
    }

    /// A step of the derivation in words.
    pub fn explain(&mut self, text: &str) {
        let step = Step { text: text.to_owned(), value: None, unit: String::new(), accounted: false };
        self.case.derivation.steps.push(step);
    }

    /// As [`CaseBuilder::explain`], of what the case's account says too.
    fn explain_of_account(&mut self, text: &str) {
        self.explain(text);
        if let Some(last) = self.case.derivation.steps.last_mut() {
            last.accounted = true;
        }
    }

    /// Something that a reader of the case must know.
    pub fn remark(&mut self, text: &str) {
        self.coded_remark("", text.to_owned());
    }

    fn coded_remark(&mut self, code: &'static str, text: String) {
        self.case.derivation.remarks.push(Remark { code, text });
    }

    /// The joint with this name.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`], with the nearest name.
    pub fn joint(&self, name: &str) -> Result<JointId, LoadError> {
        self.model
            .joint_named(name)
            .ok_or_else(|| unknown("joint", name, self.model.joints().iter().map(|joint| joint.name.as_str())))
    }

    /// The tube with this name.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`], with the nearest name.
    pub fn tube(&self, name: &str) -> Result<TubeId, LoadError> {
        self.model
            .tube_named(name)
            .ok_or_else(|| unknown("tube", name, self.model.tubes().iter().map(|tube| tube.name.as_str())))
    }

    /// The body with this name.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`], with the nearest name.
    pub fn body(&self, name: &str) -> Result<BodyId, LoadError> {
        self.model
            .body_named(name)
            .ok_or_else(|| unknown("body", name, self.model.bodies().iter().map(|body| body.name.as_str())))
    }

    /// A force and a moment onto what carries them.
    fn put(&mut self, carrier: &Carrier, load: &PointLoad) {
        let mut loads = Loads::default();
        loads.put(&self.model, carrier, load);
        self.take(loads);
    }

    /// As [`CaseBuilder::put`], told in the case's account as put on `on`.
    fn place_on(&mut self, on: String, carrier: &Carrier, load: &PointLoad) {
        self.tell_placed(on, load);
        self.put(carrier, load);
    }

    /// A line of the case's account.
    fn tell_placed(&mut self, on: String, load: &PointLoad) {
        let ([fx, fy, fz], [mx, my, mz]) = (load.force, load.moment);
        self.case.derivation.placed.push(Placed { on, at: load.at, load: [fx, fy, fz, mx, my, mz] });
    }

    /// Takes loads over into the case.
    fn take(&mut self, loads: Loads) {
        self.case.joint_loads.extend(loads.joint_loads);
        self.case.body_loads.extend(loads.body_loads);
        self.case.tube_loads.extend(loads.tube_loads);
        for (sum, part) in self.uprights.as_flattened_mut().iter_mut().zip(loads.uprights.as_flattened()) {
            *sum += part;
        }
    }
}

/// The freedoms with these names, separated by spaces: `ux uy uz`.
///
/// # Errors
/// [`LoadError::UnknownName`] for the first that is none.
pub fn freedoms(names: &str) -> Result<Vec<Dof>, LoadError> {
    names
        .split_whitespace()
        .map(|name| Dof::from_name(name).ok_or_else(|| unknown("freedom", name, Dof::ALL.map(Dof::name))))
        .collect()
}

pub(crate) fn unknown<'a>(kind: &'static str, name: &str, known: impl IntoIterator<Item = &'a str>) -> LoadError {
    LoadError::UnknownName { kind, name: name.to_owned(), nearest: nearest(name, known.into_iter()).map(str::to_owned) }
}

fn check_name(kind: &'static str, name: &str) -> Result<(), LoadError> {
    if name.trim().is_empty() || name.chars().any(char::is_control) {
        return Err(LoadError::BadName { kind });
    }
    Ok(())
}

fn finite(what: &str, value: f64) -> Result<(), LoadError> {
    if value.is_finite() { Ok(()) } else { Err(LoadError::NotFinite { what: what.to_owned(), value }) }
}

fn all_finite(what: &str, values: &[f64]) -> Result<(), LoadError> {
    values.iter().try_for_each(|&value| finite(what, value))
}
