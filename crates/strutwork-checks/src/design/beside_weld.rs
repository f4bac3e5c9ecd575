//! What a tube's material keeps of its strength beside a weld.

use strutwork_model::TubeId;
use strutwork_model::grades;
use strutwork_model::model::{Material, Model, Section, Strength, WeldProcess};
use strutwork_model::units::MPA;

use super::steel_tube::LEAST_YOUNGS;
use crate::code::haz;

/// Why a weld is no pass beside which the strength is not known.
pub const UNSAID: &str = "the model does not say what the material keeps beside a weld";

/// The strength beside a weld, and how it is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BesideWeld {
    /// The parent's.
    pub parent: Strength,
    /// What is left; the parent's where nothing is said.
    pub strength: Strength,
    /// How it is known.
    pub kept: Kept,
    /// Whether the material is steel; all that is not is taken as aluminium.
    pub steel: bool,
}

/// How a strength beside a weld is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kept {
    /// All of it: a grade whose strength does not come from cold work or heat treatment, or equal values in the model.
    Whole,
    /// Less, by the material's values, times this factor for TIG welding.
    Less(f64),
    /// The model does not say.
    Unsaid,
}

/// The strength of a tube beside a weld; `None` where the material has no strength at all.
///
/// A grade of the list that has no values of its own beside a weld keeps its strength, unless `model.toml` makes it stronger than
/// listed. Listed values of aluminium hold for MIG: TIG takes [`haz::tig_factor`]; values given in `model.toml` hold as they are.
pub fn beside_weld(model: &Model, tube: TubeId) -> Option<BesideWeld> {
    let row = &model.tubes()[tube];
    made(&model.sections()[row.section], &model.materials()[row.material], model.welds().process)
}

/// The same of a section and a material that are welded in this way.
pub fn made(section: &Section, material: &Material, process: WeldProcess) -> Option<BesideWeld> {
    let parent = material.strength?;
    let steel = is_steel(material);
    let listed = grades::find(&material.grade);
    let (strength, kept) = match material.heat_affected {
        Some(own) if own == parent => (parent, Kept::Whole),
        Some(own) => {
            let as_listed = listed
                .and_then(|grade| grade.haz_mpa)
                .is_some_and(|haz| haz.map(|strength| strength * MPA) == [own.yield_stress, own.ultimate]);
            let wall = section.thickness();
            let factor = match (material.grade.chars().next(), wall) {
                (Some(series), Some(wall)) if !steel && as_listed && process == WeldProcess::Tig => {
                    haz::tig_factor(series, wall)
                }
                _ => 1.0,
            };
            let less = Strength { yield_stress: factor * own.yield_stress, ultimate: factor * own.ultimate };
            (less, Kept::Less(factor))
        }
        None => {
            let keeps = listed.filter(|grade| grade.haz_mpa.is_none()).and_then(|grade| grade.strength_mpa);
            let within = keeps.is_some_and(|[yielding, ultimate]| {
                parent.yield_stress <= yielding * MPA && parent.ultimate <= ultimate * MPA
            });
            (parent, if within { Kept::Whole } else { Kept::Unsaid })
        }
    };
    Some(BesideWeld { parent, strength, kept, steel })
}

/// Whether a material is steel, by its stiffness.
pub(super) fn is_steel(material: &Material) -> bool {
    material.youngs >= LEAST_YOUNGS
}
