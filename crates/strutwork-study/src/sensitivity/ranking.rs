//! What each tube and each group is worth: grams for stiffness, and where the strain energy is.

use std::collections::BTreeMap;

use strutwork_model::units::NM_PER_DEG;
use strutwork_model::{IndexVec, Model, TubeId};
use strutwork_solve::{CaseResult, Elements};

use super::gauge::wall_rate;
use super::tube::own_ends;
use super::{Response, ResponseRates};

/// What a millimetre of wall on a tube, or on all tubes of a group, costs and brings.
#[derive(Debug, Clone, PartialEq)]
pub struct Rank {
    /// The tube's or the group's name.
    pub name: String,
    /// The tubes whose wall it is, in model order; at least one.
    pub tubes: Vec<TubeId>,
    /// What it weighs now, kg.
    pub mass_kg: f64,
    /// More mass for each millimetre of wall, g/mm.
    pub mass_g_per_mm: f64,
    /// More stiffness for each millimetre of wall, N·m/deg a mm.
    pub stiffness_nm_per_deg_per_mm: f64,
    /// More stiffness for each square millimetre of cross-section, all else kept, N·m/deg a mm².
    pub stiffness_nm_per_deg_per_mm2: f64,
    /// The price of stiffness here, g for each N·m/deg; `None` where more wall brings none.
    pub grams_per_nm_per_deg: Option<f64>,
}

/// Every tube with a wall, the cheapest stiffness first; of equals in model order. Tubes where more wall brings no stiffness come
/// last.
///
/// # Errors
/// None; an empty list for a response that is no stiffness.
pub fn ranking(model: &Model, rates: &ResponseRates) -> Vec<Rank> {
    let tubes = model.tubes().iter_with_id().map(|(id, tube)| (tube.name.clone(), vec![id]));
    ranked(model, rates, tubes.collect())
}

/// Likewise every group of tubes, all of it changed together; tubes without a group by themselves.
pub fn ranking_of_groups(model: &Model, rates: &ResponseRates) -> Vec<Rank> {
    let mut groups: Vec<(String, Vec<TubeId>)> = Vec::new();
    // Groups alone: a tube by itself may be called like one.
    let mut places: BTreeMap<&str, usize> = BTreeMap::new();
    for (id, tube) in model.tubes().iter_with_id() {
        if tube.group.is_empty() {
            groups.push((tube.name.clone(), vec![id]));
            continue;
        }
        let place = *places.entry(&tube.group).or_insert(groups.len());
        match groups.get_mut(place) {
            Some((_, tubes)) => tubes.push(id),
            None => groups.push((tube.group.clone(), vec![id])),
        }
    }
    ranked(model, rates, groups)
}

fn ranked(model: &Model, rates: &ResponseRates, lists: Vec<(String, Vec<TubeId>)>) -> Vec<Rank> {
    if !matches!(rates.response, Response::Twist { .. }) {
        return Vec::new();
    }
    let mut ranks: Vec<Rank> = lists.into_iter().filter_map(|(name, tubes)| rank(model, rates, name, tubes)).collect();
    ranks.sort_by(|a, b| {
        let price = |rank: &Rank| rank.grams_per_nm_per_deg.unwrap_or(f64::INFINITY);
        price(a).total_cmp(&price(b))
    });
    ranks
}

/// `None` where one of the tubes has no wall.
fn rank(model: &Model, rates: &ResponseRates, name: String, tubes: Vec<TubeId>) -> Option<Rank> {
    let (mut mass, mut heavier, mut stiffer, mut by_area) = (0.0, 0.0, 0.0, 0.0);
    for &tube in &tubes {
        let row = &model.tubes()[tube];
        let wall = wall_rate(&model.sections()[row.section])?;
        mass += model.tube_mass(tube);
        heavier += model.length(tube) * model.materials()[row.material].density * wall.properties[0];
        stiffer += rates.tubes[tube].along(wall.properties);
        by_area += rates.tubes[tube].area;
    }
    // kg/m is g/mm; N·m/rad a metre of wall is a thousandth of that a millimetre.
    let stiffer = stiffer / NM_PER_DEG / 1e3;
    Some(Rank {
        name,
        tubes,
        mass_kg: mass,
        mass_g_per_mm: heavier,
        stiffness_nm_per_deg_per_mm: stiffer,
        stiffness_nm_per_deg_per_mm2: by_area / NM_PER_DEG / 1e6,
        grams_per_nm_per_deg: (stiffer > 0.0).then(|| heavier / stiffer),
    })
}

/// Share of the tubes' strain energy that each tube holds in a case, 0 to 1; all 0 where nothing is strained.
///
/// What springs at ends, panels and bushes hold is left out. Where temperatures or loads between the ends act, it is the energy of
/// the ends' movement alone.
pub fn energy_shares(model: &Model, result: &CaseResult) -> IndexVec<TubeId, f64> {
    let elements = Elements::of(model);
    let energies: Vec<f64> = model
        .tubes()
        .ids()
        .map(|id| {
            let beam = &elements.get(id).beam;
            let q = beam.deformations(&own_ends(&result.tubes[id]));
            q.dot(&(beam.deformation_stiffness() * q)) / 2.0
        })
        .collect();
    let total: f64 = energies.iter().sum();
    energies.into_iter().map(|energy| if total > 0.0 { energy / total } else { 0.0 }).collect()
}
