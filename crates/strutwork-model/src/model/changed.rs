//! A model with other sections, and whether two models differ in no more than that.

use super::{Model, Section, Tube};
use crate::ids::{SectionId, TubeId};

impl Model {
    /// The same frame with other sections for some tubes: what validation makes of the changed spec, where no more than
    /// sections follows from the change ([`Model::differs_in_sections_alone`]). Each section is added behind those that there
    /// are; a tube that is named twice has the last.
    ///
    /// # Assumes
    /// The sections are valid, and soft joints and welds do not follow from them.
    #[must_use]
    pub fn with_sections<'s>(&self, changes: impl IntoIterator<Item = (&'s Section, &'s [TubeId])>) -> Self {
        let mut changed = self.clone();
        for (section, tubes) in changes {
            let id: SectionId = changed.sections.push(section.clone());
            for tube in tubes {
                changed.tubes[*tube].section = id;
            }
        }
        changed
    }

    /// Whether the other model is the same but for the sections of its tubes.
    pub fn differs_in_sections_alone(&self, other: &Self) -> bool {
        // Taken apart, so that nothing that a model will have one day is forgotten.
        let Self {
            title,
            options,
            joints,
            tubes,
            sections: _,
            materials,
            supports,
            masses,
            plain_cases,
            bodies,
            mounts,
            bolts,
            panels,
            fixings,
            vehicle,
            places,
            weighed,
            rig,
            factors,
            basis,
            members,
            switched_off,
            welds,
            fatigue,
            limits,
        } = self;
        let same = |(one, two): (&Tube, &Tube)| *one == Tube { section: one.section, ..two.clone() };
        *title == other.title
            && *options == other.options
            && *joints == other.joints
            && tubes.len() == other.tubes.len()
            && tubes.iter().zip(other.tubes.iter()).all(same)
            && *materials == other.materials
            && *supports == other.supports
            && *masses == other.masses
            && *plain_cases == other.plain_cases
            && *bodies == other.bodies
            && *mounts == other.mounts
            && *bolts == other.bolts
            && *panels == other.panels
            && *fixings == other.fixings
            && *vehicle == other.vehicle
            && *places == other.places
            && *weighed == other.weighed
            && *rig == other.rig
            && *factors == other.factors
            && *basis == other.basis
            && *members == other.members
            && *switched_off == other.switched_off
            && *welds == other.welds
            && *fatigue == other.fatigue
            && *limits == other.limits
    }
}
