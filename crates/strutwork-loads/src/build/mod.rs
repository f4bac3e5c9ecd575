//! The builder that case scripts use: from a name to a finished [`LoadCase`], with the story of how it came about.
//!
//! In reading order: the story (here), what acts at joints and tubes (`acting`), gravity and inertia (`inertia`),
//! the wheels (`vehicle`), how it is held and what is read off (`holding`), and what is checked at the end (`finish`).

mod acting;
mod finish;
mod holding;
mod inertia;
mod vehicle;

use std::ops::Deref;

use strutwork_model::model::Model;
use strutwork_model::nearest::nearest;
use strutwork_model::{Dof, JointId, TubeId};

use crate::case::{LoadCase, Mark, Nature, Remark, Step, UsedFactor};
use crate::error::LoadError;
use crate::masses::MassModel;

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
    mass: MassModel,
    case: LoadCase,
    /// Body force at the centre of gravity, m/s²: gravity less the acceleration.
    field: [f64; 3],
    /// Angular acceleration, rad/s²: the body force at r from the centre of gravity is `field` − α × r.
    turn: [f64; 3],
    held_as_vehicle: bool,
}

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// A case in which nothing acts yet and nothing is held.
    ///
    /// # Errors
    /// [`LoadError::BadName`] where the name is empty or has control characters.
    pub fn new(model: M, name: &str, title: &str, nature: Nature) -> Result<Self, LoadError> {
        check_name("case", name)?;
        let mut case = LoadCase::new(name, nature, Vec::new());
        if !title.trim().is_empty() {
            title.clone_into(&mut case.title);
        }
        let mass = MassModel::of(&model);
        Ok(Self { model, mass, case, field: [0.0; 3], turn: [0.0; 3], held_as_vehicle: false })
    }

    /// The model that the case is for.
    pub fn model(&self) -> &Model {
        &self.model
    }

    /// Mass, centre of gravity and inertia of the model.
    pub const fn mass(&self) -> &MassModel {
        &self.mass
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
        self.case.derivation.steps.push(Step { text: text.to_owned(), value: Some(value), unit: unit.to_owned() });
        Ok(())
    }

    /// A step of the derivation in words.
    pub fn explain(&mut self, text: &str) {
        self.case.derivation.steps.push(Step { text: text.to_owned(), value: None, unit: String::new() });
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
