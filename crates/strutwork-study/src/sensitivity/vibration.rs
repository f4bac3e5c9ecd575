//! Derivatives of natural frequencies.

use nalgebra::SVector;
use strutwork_element::beam::LineMass;
use strutwork_element::{Beam, Vec12};
use strutwork_loads::carried_inertia;
use strutwork_model::{IndexVec, Model, TubeId};
use strutwork_solve::{Element, Elements, ModesWanted, natural_modes};

use super::tube::unit_beams;
use super::{SectionRate, SensitivityFault};

/// A natural frequency and how each tube's section changes it.
#[derive(Debug, Clone, PartialEq)]
pub struct FrequencyRates {
    /// Hz.
    pub frequency: f64,
    /// Derivatives for every tube, Hz by m² and m⁴.
    pub tubes: IndexVec<TubeId, SectionRate>,
}

/// The lowest elastic frequencies of a frame on its own supports, and their derivatives.
///
/// ```text
/// dω²/dx = φᵀ (dK/dx − ω² dM/dx) φ,   φᵀ M φ = 1
/// ```
///
/// # Assumes
/// Each frequency stands alone: of equal ones no single mode has a derivative. At sprung ends the change of the slip with the
/// section is left out of the mass's share.
///
/// # Errors
/// [`SensitivityFault`].
///
/// # Source
/// Fox & Kapoor (1968), Rates of change of eigenvalues and eigenvectors, AIAA Journal 6(12), p. 2426 (from memory).
pub fn frequency_rates(model: &Model, count: usize) -> Result<Vec<FrequencyRates>, SensitivityFault> {
    let carried = carried_inertia(model).map_err(SensitivityFault::Loads)?;
    let wanted = ModesWanted { count, ..ModesWanted::default() };
    let modes = natural_modes(model, model.supports(), &carried, wanted).map_err(SensitivityFault::Solve)?;
    let fine = model.subdivided(wanted.pieces);
    let elements = Elements::of(&fine.model);
    let rates = modes.modes.iter().take(count).map(|mode| {
        let square = (std::f64::consts::TAU * mode.frequency).powi(2);
        let mut tubes: IndexVec<TubeId, SectionRate> = model.tubes().ids().map(|_| SectionRate::default()).collect();
        for (piece, (tube, _)) in fine.pieces.iter_with_id() {
            let row = &fine.model.tubes()[piece];
            let ends = mode.joints[row.from].iter().chain(&mode.joints[row.to]).copied();
            let element = elements.get(piece);
            let own = own_ends(element, &Vec12::from_iterator(ends));
            let density = fine.model.materials()[row.material].density;
            // df = dω² / 8π² f
            let to_hertz = 1.0 / (2.0 * std::f64::consts::TAU.powi(2) * mode.frequency);
            tubes[*tube] = tubes[*tube].plus(rate(&element.beam, &own, density, square).scaled(to_hertz));
        }
        FrequencyRates { frequency: mode.frequency, tubes }
    });
    Ok(rates.collect())
}

/// That of the lowest elastic frequency.
///
/// # Errors
/// [`SensitivityFault`], also where the frame has no elastic mode.
pub fn frequency_rate(model: &Model) -> Result<FrequencyRates, SensitivityFault> {
    let none = || SensitivityFault::Outside { what: "a frame without an elastic mode".to_owned() };
    frequency_rates(model, 1)?.into_iter().next().ok_or_else(none)
}

/// Movement of a tube's own ends, local axes, from that of its joints.
pub(super) fn own_ends(element: &Element, joints: &Vec12) -> Vec12 {
    let local = element.axes.vec_to_local(joints);
    element.joined.as_ref().map_or(local, |joined| joined.own_ends(&local, &SVector::zeros()).0)
}

/// φᵀ (dk − ω² dm) φ of one piece.
fn rate(beam: &Beam, own: &Vec12, density: f64, square: f64) -> SectionRate {
    let q = beam.deformations(own);
    let [area, iy, iz, j] = unit_beams(beam).map(|unit| q.dot(&(unit.deformation_stiffness() * q)));
    let weighed = |mass: f64, polar: f64| square * own.dot(&(beam.mass(LineMass { mass, polar }) * own));
    let polar = weighed(0.0, density);
    SectionRate { area: area - weighed(density, 0.0), iy: iy - polar, iz: iz - polar, j }
}
