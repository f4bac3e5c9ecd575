//! The mechanics of every elastic piece, ready for use: tubes, panels, and the bushes of bodies.

mod bush;
mod sheet;
mod tube;

use rayon::prelude::*;
use strutwork_element::Panel;
use strutwork_model::ids::Id;
use strutwork_model::{Model, PanelId, TubeId};

pub(crate) use bush::Bush;
pub(crate) use sheet::{Sheet, displacements};
pub use tube::Element;

/// The sides of a panel that its buckling goes by, m, the longer first: mean lengths of opposite edges; of a triangle its
/// longest edge and the height on it.
pub fn panel_sides(model: &Model, panel: PanelId) -> [f64; 2] {
    Sheet::of(model, panel).panel.sides()
}

/// Every elastic piece's mechanics, in the order of the model.
#[derive(Debug, Clone)]
pub struct Elements {
    tubes: Vec<Element>,
    bushes: Vec<Bush>,
    sheets: Vec<Sheet>,
}

impl Elements {
    /// The mechanics of everything elastic in the model.
    pub fn of(model: &Model) -> Self {
        let ids: Vec<TubeId> = model.tubes().ids().collect();
        let tubes = ids.par_iter().with_min_len(64).map(|&id| Element::of(model, id)).collect();
        let bushes = model.mounts().ids().filter_map(|id| Bush::of(model, id)).collect();
        let sheets = model.panels().ids().map(|id| Sheet::of(model, id)).collect();
        Self { tubes, bushes, sheets }
    }

    /// One tube's.
    pub fn get(&self, tube: TubeId) -> &Element {
        &self.tubes[tube.index()]
    }

    /// All tubes, in order.
    pub fn tubes(&self) -> &[Element] {
        &self.tubes
    }

    /// One panel's.
    pub fn panel(&self, panel: PanelId) -> &Panel {
        &self.sheets[panel.index()].panel
    }

    /// All panels, in order.
    pub(crate) fn sheets(&self) -> &[Sheet] {
        &self.sheets
    }

    /// Mounts with a spring in at least one freedom, in order.
    pub(crate) fn bushes(&self) -> &[Bush] {
        &self.bushes
    }
}
