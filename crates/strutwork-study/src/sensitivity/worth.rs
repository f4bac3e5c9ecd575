//! What each tube and each group of a frame is worth for its torsional stiffness, as one answer.

use strutwork_loads::LoadCases;
use strutwork_model::units::to_nm_per_deg;
use strutwork_model::{IndexVec, Model, TubeId};

use crate::exact::measures_twist;

use super::{Rank, Response, SensitivityFault, energy_shares, ranking, ranking_of_groups, section_rates};

/// What each tube and each group is worth for the torsional stiffness that one case measures.
#[derive(Debug, Clone, PartialEq)]
pub struct Worth {
    /// The case that measures it.
    pub case: String,
    /// The stiffness, N·m/deg.
    pub stiffness_nm_per_deg: f64,
    /// Every tube with a wall, the cheapest stiffness first.
    pub tubes: Vec<Rank>,
    /// Every group with walls, likewise; tubes without a group by themselves.
    pub groups: Vec<Rank>,
    /// Grams for each N·m/deg, tube by tube; `None` where more wall brings no stiffness, and for a tube without a wall.
    pub grams: IndexVec<TubeId, Option<f64>>,
    /// Share of the tubes' strain energy in that case, tube by tube, 0 to 1.
    pub energy: IndexVec<TubeId, f64>,
}

impl Worth {
    /// By the first case that measures a twist; `None` where none does.
    ///
    /// That case is solved once more, by itself.
    ///
    /// # Errors
    /// [`SensitivityFault`] where it cannot be solved.
    pub fn of(model: &Model, cases: &LoadCases) -> Result<Option<Self>, SensitivityFault> {
        let Some(case) = cases.0.iter().find(|case| measures_twist(case)) else { return Ok(None) };
        let alone = LoadCases(vec![case.clone()]);
        let found = section_rates(model, &alone, &[Response::Twist { case: 0 }])?;
        let (Some(rates), Some(result)) = (found.responses.first(), found.results.cases.first()) else {
            return Ok(None);
        };
        let tubes = ranking(model, rates);
        let mut grams: IndexVec<TubeId, Option<f64>> = model.tubes().iter().map(|_| None).collect();
        for rank in &tubes {
            if let Some(tube) = model.tube_named(&rank.name) {
                grams[tube] = rank.grams_per_nm_per_deg;
            }
        }
        Ok(Some(Self {
            case: case.name.clone(),
            stiffness_nm_per_deg: to_nm_per_deg(rates.value),
            groups: ranking_of_groups(model, rates),
            tubes,
            grams,
            energy: energy_shares(model, result),
        }))
    }
}
