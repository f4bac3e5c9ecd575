//! Sums of cases: what acts in a finished case, times a factor, on top of what acts already.

use std::ops::Deref;

use strutwork_model::ids::Id;
use strutwork_model::model::{
    BodyLoad, JointLoad, Model, Settlement, Suspension, Temperature, TubeLoad, TubePointLoad, Wheel,
};
use strutwork_model::{DofMap, JointId, TubeId};

use super::finish::add;
use super::{CaseBuilder, finite};
use crate::case::{LinkForce, LoadCase, Nature, Placed};
use crate::error::LoadError;

impl<M: Deref<Target = Model>> CaseBuilder<M> {
    /// Everything that acts in a finished case, times a factor, on top of what acts already: forces, temperatures,
    /// settlements, the forces on wheels and of links, the accelerations. Factors are noted; measures are not taken over.
    ///
    /// A case that holds nothing yet takes over how the other is held; otherwise both must be held in the same way.
    /// Balanced free cases add up to a balanced one.
    ///
    /// # Errors
    /// [`LoadError::NotFinite`]; [`LoadError::HeldDifferently`]; [`LoadError::OtherModel`].
    pub fn add_case(&mut self, other: &LoadCase, times: f64) -> Result<(), LoadError> {
        finite(&format!("the factor on case {}", other.name), times)?;
        if !fits(other, &self.model) {
            return Err(LoadError::OtherModel { name: other.name.clone() });
        }
        self.hold_as_case(other)?;
        self.explain(&format!("Everything that acts in case {}, times {times}.", other.name));
        if other.nature == Nature::Notional && self.case.nature != Nature::Notional {
            self.remark(&format!("Case {}, which is part of this one, is notional.", other.name));
        }
        self.add_loads(other, times);
        self.add_story(other, times);
        Ok(())
    }

    fn hold_as_case(&mut self, other: &LoadCase) -> Result<(), LoadError> {
        if !self.summed && !self.balanced && self.case.supports.is_empty() {
            self.case.supports.clone_from(&other.supports);
            self.balanced = other.free;
        } else if other.supports != self.case.supports || other.free != (self.balanced && other.supports.is_empty()) {
            let words = |free: bool, held: bool| match (free, held) {
                (true, _) => "free, balanced by its own inertia",
                (false, true) => "held at other joints or freedoms",
                (false, false) => "held by nothing and not balanced",
            };
            let held = !self.case.supports.is_empty();
            let (theirs, ours) = (words(other.free, !other.supports.is_empty()), words(self.balanced && !held, held));
            return Err(LoadError::HeldDifferently { name: other.name.clone(), theirs, ours });
        }
        self.summed = true;
        Ok(())
    }

    fn add_loads(&mut self, other: &LoadCase, times: f64) {
        let three = |values: [f64; 3]| values.map(|value| times * value);
        let six = |values: DofMap<f64>| DofMap(values.0.map(|value| times * value));
        let case = &mut self.case;
        case.joint_loads.extend(other.joint_loads.iter().map(|load| JointLoad { load: six(load.load), ..*load }));
        case.body_loads.extend(other.body_loads.iter().map(|load| BodyLoad { load: six(load.load), ..*load }));
        case.tube_loads.extend(other.tube_loads.iter().map(|load| TubeLoad {
            from: three(load.from),
            to: three(load.to),
            ..*load
        }));
        case.tube_point_loads.extend(other.tube_point_loads.iter().map(|load| TubePointLoad {
            force: three(load.force),
            moment: three(load.moment),
            ..*load
        }));
        case.temperatures.extend(other.temperatures.iter().map(|change| Temperature {
            rise: times * change.rise,
            gradient_y: times * change.gradient_y,
            gradient_z: times * change.gradient_z,
            ..*change
        }));
        case.settlements
            .extend(other.settlements.iter().map(|settled| Settlement { value: times * settled.value, ..*settled }));
    }

    fn add_story(&mut self, other: &LoadCase, times: f64) {
        let story = &mut self.case.derivation;
        for factor in &other.derivation.factors {
            if !story.factors.contains(factor) {
                story.factors.push(factor.clone());
            }
        }
        if let Some(forces) = other.derivation.wheel_forces {
            let sums = story.wheel_forces.get_or_insert_default();
            for (sum, part) in sums.as_flattened_mut().iter_mut().zip(forces.as_flattened()) {
                *sum += times * part;
            }
        }
        if story.link_forces.is_empty() {
            let nothing =
                |force: &LinkForce| LinkForce { on_frame: [0.0; 3], axial: force.axial.map(|_| 0.0), ..*force };
            story.link_forces = other.derivation.link_forces.iter().map(nothing).collect();
        }
        for (sum, part) in story.link_forces.iter_mut().zip(&other.derivation.link_forces) {
            add(sum, part, times);
        }
        story.placed.extend(
            other
                .derivation
                .placed
                .iter()
                .map(|placed| Placed { load: placed.load.map(|value| times * value), ..placed.clone() }),
        );
        for (sum, part) in story.body_force.iter_mut().zip(other.derivation.body_force) {
            *sum += times * part;
        }
        if let Some(acceleration) = other.derivation.acceleration {
            self.note_acceleration(acceleration.map(|value| times * value));
        }
    }
}

/// Whether everything that a case acts on is in a model.
fn fits(case: &LoadCase, model: &Model) -> bool {
    let joint = |id: JointId| id.index() < model.joints().len();
    let tube = |id: TubeId| id.index() < model.tubes().len();
    let links = model.vehicle().map_or(0, |vehicle| {
        Wheel::ALL
            .into_iter()
            .map(|wheel| match &vehicle.corner(wheel).suspension {
                Suspension::Linked(links) => links.len(),
                Suspension::Rigid(_) => 0,
            })
            .sum()
    });
    case.supports.iter().all(|support| joint(support.joint))
        && case.joint_loads.iter().all(|load| joint(load.joint))
        && case.body_loads.iter().all(|load| load.body.index() < model.bodies().len())
        && case.tube_loads.iter().all(|load| tube(load.tube))
        && case.tube_point_loads.iter().all(|load| tube(load.tube))
        && case.temperatures.iter().all(|change| tube(change.tube))
        && case.settlements.iter().all(|settled| joint(settled.joint))
        && [0, links].contains(&case.derivation.link_forces.len())
}
