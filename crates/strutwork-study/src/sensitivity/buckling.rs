//! Derivatives of buckling load factors.

use strutwork_element::Vec12;
use strutwork_loads::{LoadCases, carried_inertia};
use strutwork_model::{IndexVec, Model, TubeId};
use strutwork_solve::{BucklingWanted, Elements, Pieces, buckling, solve_cases};

use super::functional::Functional;
use super::tube::unit_beams;
use super::vibration::own_ends;
use super::{SectionRate, SensitivityFault, rates_of};

/// The lowest positive load factor of a case and how each tube's section changes it.
#[derive(Debug, Clone, PartialEq)]
pub struct BucklingRates {
    /// The load factor: the case's loads times this.
    pub factor: f64,
    /// Derivatives for every tube, by m² and m⁴.
    pub tubes: IndexVec<TubeId, SectionRate>,
}

/// Derivatives of the lowest positive load factor of a case, by its place among the cases, with the tubes in as many pieces as
/// said.
///
/// ```text
/// (K + λ K_g(N)) φ = 0,   W = −φᵀ K_g φ:      dλ/dx = (φᵀ dK/dx φ + λ Σ (φᵀ K_g(1) φ) dN/dx) / W
/// ```
///
/// N are the axial forces of the tubes: how they change with a section is found by one adjoint solution for all tubes together.
///
/// # Units and shapes
/// By area in 1/m², by second moments and the torsion constant in 1/m⁴.
///
/// # Assumes
/// The load factor stands alone: of equal ones no single mode has a derivative. Loads follow the section as
/// [`section_rates`](super::section_rates) says, and along a tube the axial force changes evenly. At sprung ends the change of
/// the slip with the section is left out of the share of K_g.
///
/// # Errors
/// [`SensitivityFault`], also where nothing buckles.
///
/// # Source
/// Rates of an eigenvalue: Fox & Kapoor (1968), AIAA Journal 6(12), p. 2426 (from memory), with K_g in the place of the mass;
/// the term of the forces is derived.
pub fn buckling_rates(
    model: &Model,
    cases: &LoadCases,
    case: usize,
    pieces: Pieces,
) -> Result<BucklingRates, SensitivityFault> {
    let acting = cases.0.get(case).ok_or(SensitivityFault::NoCase { case })?;
    let carried = carried_inertia(model).map_err(SensitivityFault::Loads)?;
    let results = solve_cases(model, cases).map_err(SensitivityFault::Solve)?;
    let wanted = BucklingWanted { count: 1, pieces };
    let result = &results.cases[case];
    let found = buckling(model, &acting.supports, &carried, result, wanted).map_err(SensitivityFault::Solve)?;
    let Some(mode) = found.positive.first() else {
        return Err(SensitivityFault::Outside { what: format!("a load case that buckles nothing, `{}`", acting.name) });
    };
    let fine = model.subdivided_at(&found.cuts);
    let elements = Elements::of(&fine.model);
    let mut stiffness: IndexVec<TubeId, SectionRate> = model.tubes().ids().map(|_| SectionRate::default()).collect();
    let mut pressed: IndexVec<TubeId, f64> = model.tubes().ids().map(|_| 0.0).collect();
    let mut work = 0.0;
    for (piece, &(tube, [start, end])) in fine.pieces.iter_with_id() {
        let row = &fine.model.tubes()[piece];
        let ends = mode.joints[row.from].iter().chain(&mode.joints[row.to]).copied();
        let element = elements.get(piece);
        let own = own_ends(element, &Vec12::from_iterator(ends));
        let q = element.beam.deformations(&own);
        let [area, iy, iz, j] = unit_beams(&element.beam).map(|unit| q.dot(&(unit.deformation_stiffness() * q)));
        stiffness[tube] = stiffness[tube].plus(SectionRate { area, iy, iz, j });
        let by_force = |from: f64, to: f64| own.dot(&(element.beam.geometric_stiffness(from, to) * own));
        pressed[tube] += by_force(1.0, 1.0);
        let [from, to] = strutwork_solve::buckling::axial_at(&result.tubes[tube], [start, end]);
        work -= by_force(from, to);
    }
    let forces = Functional::axial_forces(model, &Elements::of(model), case, &pressed);
    let of_forces = rates_of(model, cases, &[forces])?.found.remove(0).tubes;
    let rate = |tube: TubeId| stiffness[tube].plus(of_forces[tube].scaled(mode.factor)).scaled(1.0 / work);
    Ok(BucklingRates { factor: mode.factor, tubes: model.tubes().ids().map(rate).collect() })
}
