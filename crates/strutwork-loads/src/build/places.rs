//! Places of the vehicle at which a case acts: anchorages, hoops, towing eye, jacking points.

use std::ops::Deref;

use strutwork_model::model::{Model, Place, Role};

use super::{CaseBuilder, all_finite, unknown};
use crate::error::LoadError;
use crate::loads::PointLoad;

/// The places with this role, and in this group where one is given, in input order.
pub fn places<'m>(model: &'m Model, role: Option<Role>, group: Option<&str>) -> impl Iterator<Item = &'m Place> {
    model.places().iter().filter(move |place| {
        role.is_none_or(|role| place.role == role) && group.is_none_or(|group| place.group == group)
    })
}

/// The groups of the places with this role, in order of first use; an empty name for places without a group.
pub fn groups(model: &Model, role: Role) -> Vec<&str> {
    let mut found: Vec<&str> = Vec::new();
    for place in places(model, Some(role), None) {
        if !found.contains(&place.group.as_str()) {
            found.push(&place.group);
        }
    }
    found
}

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// The place with this name.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`], with the nearest name.
    pub fn place(&self, name: &str) -> Result<&Place, LoadError> {
        let known = self.model.places();
        known
            .iter()
            .find(|place| place.name == name)
            .ok_or_else(|| unknown("place", name, known.iter().map(|place| place.name.as_str())))
    }

    /// A force, N, and a moment, N·m, at a place, onto the joints or the body that carry it.
    ///
    /// # Errors
    /// [`LoadError::UnknownName`]; [`LoadError::NotFinite`].
    pub fn place_force(&mut self, name: &str, force: [f64; 3], moment: [f64; 3]) -> Result<(), LoadError> {
        let place = self.place(name)?;
        let (at, carrier) = (place.at, place.carrier.clone());
        all_finite(&format!("the force at place `{name}`"), &[force, moment].concat())?;
        self.place_on(format!("place {name}"), &carrier, &PointLoad { force, moment, at });
        Ok(())
    }
}
