//! A model with other sections, and whether two models differ in no more than that.

use super::{Model, Section};
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
        // The whole is compared, so that nothing that a model will have one day is forgotten.
        let mut alike = Self { sections: self.sections.clone(), ..other.clone() };
        for (id, own) in self.tubes.ids().zip(self.tubes.iter()).take(other.tubes.len()) {
            alike.tubes[id].section = own.section;
        }
        *self == alike
    }
}
