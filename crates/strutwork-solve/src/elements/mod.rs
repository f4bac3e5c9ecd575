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

use crate::reanalysis::TubeStiffness;

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

    /// Gives a tube another stiffness.
    pub(crate) fn change_tube(&mut self, tube: usize, stiffness: &TubeStiffness) {
        self.tubes[tube].change(stiffness);
    }

    /// Makes a panel so many times as stiff.
    pub(crate) fn change_panel(&mut self, panel: PanelId, times: f64) {
        let sheet = &mut self.sheets[panel.index()];
        sheet.panel = sheet.panel.times(times);
    }

    /// Puts a tube back as it is in others of the same model.
    pub(crate) fn put_back_tube(&mut self, tube: usize, from: &Self) {
        self.tubes[tube].clone_from(&from.tubes[tube]);
    }

    /// Puts a panel back as it is in others of the same model.
    pub(crate) fn put_back_panel(&mut self, panel: PanelId, from: &Self) {
        self.sheets[panel.index()].clone_from(&from.sheets[panel.index()]);
    }

    /// The same without tubes that have no stiffness: they are not there, and reach no joint. Tubes are no longer in the
    /// order of the model.
    pub(crate) fn standing(&self) -> Self {
        let there = |element: &&Element| element.beam.area > 0.0;
        Self { tubes: self.tubes.iter().filter(there).cloned().collect(), ..self.clone() }
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
