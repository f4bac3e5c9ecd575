//! Every weld of the frame, for the workshop: what is welded to what, how thick, how long, how much metal.

use strutwork_model::model::{Model, WeldKind};
use strutwork_model::{JointId, TubeId};

use super::welds::Inputs;
use super::welds::ends::{WeldedEnd, joined, outline_of};
use crate::code::weld;

/// One weld: the end of a tube, all round, to what it ends at. SI units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeldItem {
    /// The tube that ends there.
    pub tube: TubeId,
    /// Whether it is the tube's `to` end.
    pub at_to: bool,
    /// The joint at that end.
    pub joint: JointId,
    /// What it is welded to.
    pub host: TubeId,
    /// Fillet or butt.
    pub kind: WeldKind,
    /// θ between tube and face, rad; π/2 is a square cut.
    pub angle: f64,
    /// Throat, m, of a butt weld the wall; `None` for a fillet round a bar that no throat is given for.
    pub throat: Option<f64>,
    /// Whether the throat is given in `[welds]`; otherwise it is assumed to be the wall.
    pub throat_given: bool,
    /// Length all round, m; `None` for a section given by its properties, whose outline is not known.
    pub length: Option<f64>,
    /// Weld metal, kg; `None` where throat or length is not known, or the material has no density.
    pub metal: Option<f64>,
    /// The throat at which a fillet is as strong as the tube's wall, m; `None` for a butt weld, and where the wall, its
    /// strength, or the metal (aluminium) does not allow one to be given.
    pub full_strength_throat: Option<f64>,
}

/// Every weld of the frame, joint by joint in the order of the tubes.
///
/// Mass as [`weld::metal`] has it; the throat of full strength with γ_M2 of `[basis]`, not below 1.25.
pub fn weld_list(model: &Model) -> Vec<WeldItem> {
    joined(model).welds.iter().map(|end| item(model, end)).collect()
}

fn item(model: &Model, end: &WeldedEnd) -> WeldItem {
    let tube = &model.tubes()[end.tube];
    let made = model.weld(end.tube);
    let length = outline_of(&model.sections()[tube.section], end).map(|outline| outline.line(end.angle).length);
    let density = model.materials()[tube.material].density;
    let metal = match (made.throat, length) {
        (Some(throat), Some(length)) if density > 0.0 => Some(weld::metal(throat, length, density)),
        _ => None,
    };
    WeldItem {
        tube: end.tube,
        at_to: end.at_to,
        joint: end.joint,
        host: end.host,
        kind: made.kind,
        angle: end.angle,
        throat: made.throat,
        throat_given: made.given,
        length,
        metal,
        full_strength_throat: Inputs::of(model, end).ok().and_then(|inputs| inputs.full_strength_throat),
    }
}
