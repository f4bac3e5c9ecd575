//! What one tube's section does to a response.

use strutwork_element::beam::SpanLoad;
use strutwork_element::{Beam, Vec12};
use strutwork_loads::LoadCase;
use strutwork_loads::case::Nature;
use strutwork_model::units::STANDARD_GRAVITY;
use strutwork_model::{Model, TubeId};
use strutwork_solve::results::TubeResult;
use strutwork_solve::{CaseResult, Element};

/// Change of a response with a section's properties, all else kept: by A (m²), Iy, Iz and J (m⁴).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct SectionRate {
    /// By A.
    pub area: f64,
    /// By Iy.
    pub iy: f64,
    /// By Iz.
    pub iz: f64,
    /// By J.
    pub j: f64,
}

impl SectionRate {
    /// Times a factor.
    #[must_use]
    pub fn scaled(self, factor: f64) -> Self {
        Self { area: self.area * factor, iy: self.iy * factor, iz: self.iz * factor, j: self.j * factor }
    }

    /// Both together.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self { area: self.area + other.area, iy: self.iy + other.iy, iz: self.iz + other.iz, j: self.j + other.j }
    }

    /// In the order A, Iy, Iz, J.
    pub fn values(self) -> [f64; 4] {
        [self.area, self.iy, self.iz, self.j]
    }

    /// Change along a change of all four properties.
    pub fn along(self, change: [f64; 4]) -> f64 {
        self.values().iter().zip(change).map(|(rate, change)| rate * change).sum()
    }
}

/// Whether a case carries the tubes' own weight as the options of the load files have it.
pub(super) struct SelfWeight(bool);

impl SelfWeight {
    pub(super) fn of(model: &Model, case: &LoadCase) -> Self {
        Self(case.nature == Nature::Plain && !case.free && model.options().self_weight)
    }
}

/// λᵀ (df/dp − dk/dp u) of one tube, for p = A, Iy, Iz, J; `ends`: movements of its own ends, of the case itself and the adjoint
/// ones.
///
/// k is linear in the four properties, so that each derivative is the stiffness of a tube that has that property alone, 1.
pub(super) fn rate(
    model: &Model,
    element: &Element,
    case: &LoadCase,
    id: TubeId,
    weight: &SelfWeight,
    ends: [Vec12; 2],
) -> SectionRate {
    let [q, l] = ends.map(|ends| element.beam.deformations(&ends));
    let parts = unit_beams(&element.beam).map(|unit| {
        let stiffness = l.dot(&(unit.deformation_stiffness() * q));
        let loads: f64 = heating(model, case, id).map(|load| ends[1].dot(&unit.end_loads(&load))).sum();
        loads - stiffness
    });
    let mut rate = SectionRate { area: parts[0], iy: parts[1], iz: parts[2], j: parts[3] };
    if weight.0 {
        let density = model.materials()[model.tubes()[id].material].density;
        let pull = element.axes.to_local([0.0, 0.0, -density * STANDARD_GRAVITY]);
        rate.area += ends[1].dot(&element.beam.end_loads(&SpanLoad::Line { from: pull, to: pull }));
    }
    rate
}

/// Displacements of a tube's own ends, local axes.
pub(super) fn own_ends(result: &TubeResult) -> Vec12 {
    Vec12::from(result.end_displacements)
}

/// Displacements of a tube's own ends, local axes, when `acting` acts on them beside what the joints do.
pub(super) fn loaded_ends(element: &Element, model: &Model, id: TubeId, result: &CaseResult, acting: &Vec12) -> Vec12 {
    let tube = &model.tubes()[id];
    let moved = result.displacements[tube.from].iter().chain(&result.displacements[tube.to]).copied();
    let local = element.axes.vec_to_local(&Vec12::from_iterator(moved));
    element.joined.as_ref().map_or(local, |joined| joined.own_ends(&local, acting).0)
}

/// The same tube with one property alone, 1, for A, Iy, Iz and J.
pub(super) fn unit_beams(beam: &Beam) -> [Beam; 4] {
    let none = Beam { area: 0.0, iy: 0.0, iz: 0.0, j: 0.0, ..*beam };
    [Beam { area: 1.0, ..none }, Beam { iy: 1.0, ..none }, Beam { iz: 1.0, ..none }, Beam { j: 1.0, ..none }]
}

/// What temperatures do to a tube: the loads that grow with its section.
fn heating<'a>(model: &'a Model, case: &'a LoadCase, id: TubeId) -> impl Iterator<Item = SpanLoad> + 'a {
    let expansion = model.materials()[model.tubes()[id].material].expansion.unwrap_or(0.0);
    case.temperatures.iter().filter(move |load| load.tube == id).map(move |load| SpanLoad::Free {
        strain: expansion * load.rise,
        strain_y: expansion * load.gradient_y,
        strain_z: expansion * load.gradient_z,
    })
}
