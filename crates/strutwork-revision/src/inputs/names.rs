//! The names of a model's parts as both revisions are told: those of the second revision, where a part has a pair there.

use strutwork_model::ids::Id;
use strutwork_model::model::Carrier;
use strutwork_model::{BodyId, BoltId, FixingId, JointId, MaterialId, Model, SectionId, TubeId};

/// A model, and the names that its parts are told by.
#[derive(Debug, Clone)]
pub(super) struct Side<'m> {
    pub(super) model: &'m Model,
    pub(super) joints: Vec<&'m str>,
    pub(super) tubes: Vec<&'m str>,
    pub(super) sections: Vec<&'m str>,
    pub(super) materials: Vec<&'m str>,
    pub(super) bodies: Vec<&'m str>,
    pub(super) bolts: Vec<&'m str>,
    pub(super) fixings: Vec<&'m str>,
}

impl<'m> Side<'m> {
    /// A model by its own names.
    pub(super) fn of(model: &'m Model) -> Self {
        Self {
            model,
            joints: model.joints().iter().map(|of| of.name.as_str()).collect(),
            tubes: model.tubes().iter().map(|of| of.name.as_str()).collect(),
            sections: model.sections().iter().map(|of| of.name.as_str()).collect(),
            materials: model.materials().iter().map(|of| of.name.as_str()).collect(),
            bodies: model.bodies().iter().map(|of| of.name.as_str()).collect(),
            bolts: model.bolts().iter().map(|of| of.name.as_str()).collect(),
            fixings: model.fixings().iter().map(|of| of.name.as_str()).collect(),
        }
    }

    pub(super) fn joint(&self, id: JointId) -> &'m str {
        self.joints[id.index()]
    }

    pub(super) fn tube(&self, id: TubeId) -> &'m str {
        self.tubes[id.index()]
    }

    pub(super) fn section(&self, id: SectionId) -> &'m str {
        self.sections[id.index()]
    }

    pub(super) fn material(&self, id: MaterialId) -> &'m str {
        self.materials[id.index()]
    }

    pub(super) fn body(&self, id: BodyId) -> &'m str {
        self.bodies[id.index()]
    }

    pub(super) fn bolt(&self, id: BoltId) -> &'m str {
        self.bolts[id.index()]
    }

    pub(super) fn fixing(&self, id: FixingId) -> &'m str {
        self.fixings[id.index()]
    }

    /// What carries something, in words; the order of joints does not matter.
    pub(super) fn carrier(&self, carrier: &Carrier) -> String {
        match carrier {
            Carrier::Joints(list) => {
                let mut names: Vec<&str> = list.iter().map(|&joint| self.joint(joint)).collect();
                names.sort_unstable();
                format!("joint{} {}", if names.len() == 1 { "" } else { "s" }, names.join(", "))
            }
            Carrier::Body(body) => format!("body {}", self.body(*body)),
            Carrier::Upright(wheel) => format!("the upright of {}", wheel.name()),
        }
    }
}
