//! What one variant changes against the family.

use strutwork_element::Beam;
use strutwork_model::PanelId;
use strutwork_model::model::{Material, Section};

/// What a tube's section and material are worth: all that its stiffness needs besides its ends.
///
/// # Units and shapes
/// EA in N; GJ, EIy, EIz in N·m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeStiffness {
    /// E·A.
    pub ea: f64,
    /// G·J.
    pub gj: f64,
    /// E·Iy.
    pub eiy: f64,
    /// E·Iz.
    pub eiz: f64,
}

impl TubeStiffness {
    /// Of a tube that is not there.
    pub const NONE: Self = Self { ea: 0.0, gj: 0.0, eiy: 0.0, eiz: 0.0 };

    /// Of a section in a material.
    pub fn new(section: &Section, material: &Material) -> Self {
        Self {
            ea: material.youngs * section.area,
            gj: material.shear * section.j,
            eiy: material.youngs * section.iy,
            eiz: material.youngs * section.iz,
        }
    }

    pub(super) fn of(beam: &Beam) -> Self {
        Self {
            ea: beam.youngs * beam.area,
            gj: beam.shear * beam.j,
            eiy: beam.youngs * beam.iy,
            eiz: beam.youngs * beam.iz,
        }
    }
}

/// Tubes that change together, as [`Family::tubes`](super::Family::tubes) numbered them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct TubeSet(pub(super) usize);

/// One variant: what it changes. A tube that is named twice is as it was named last.
#[derive(Debug, Clone, Default)]
pub struct Variant {
    pub(super) tubes: Vec<(TubeSet, TubeStiffness)>,
    pub(super) panels: Vec<(PanelId, f64)>,
    pub(super) rights: Option<super::Rights>,
}

impl Variant {
    /// The family itself.
    pub fn new() -> Self {
        Self::default()
    }

    /// With these tubes of another section or material.
    #[must_use]
    pub fn with(mut self, tubes: TubeSet, stiffness: TubeStiffness) -> Self {
        self.tubes.push((tubes, stiffness));
        self
    }

    /// Without these tubes. Their weight is in the load cases still: give others if that matters.
    #[must_use]
    pub fn without(self, tubes: TubeSet) -> Self {
        self.with(tubes, TubeStiffness::NONE)
    }

    /// With a panel so many times as stiff as in the family's model, ≥ 0: the ratio of
    /// [`Panel::effective_shear`](strutwork_element::Panel::effective_shear).
    #[must_use]
    pub fn with_panel(mut self, panel: PanelId, times: f64) -> Self {
        self.panels.push((panel, times));
        self
    }

    /// Under other loads than the family's.
    #[must_use]
    pub fn under(mut self, rights: super::Rights) -> Self {
        self.rights = Some(rights);
        self
    }
}
