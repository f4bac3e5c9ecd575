//! Mass against stiffness: the lightest frame for each of several stiffnesses.

use strutwork_model::units::to_nm_per_deg;

use super::{Proof, SizedDesign, SizingFault, Task, size};

/// A design on the front, or on its way there.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontPoint {
    /// The stiffness that was asked for, N·m/deg.
    pub asked_nm_per_deg: f64,
    /// Its mass, kg.
    pub mass_kg: f64,
    /// What it reaches, N·m/deg.
    pub stiffness_nm_per_deg: f64,
    /// The design.
    pub design: SizedDesign,
    /// How sure it is that nothing lighter is there.
    pub proof: Proof,
}

/// The lightest designs for each of these torsional stiffnesses of a case, N·m/rad, all other limits of the task kept; those that another
/// beats in mass and stiffness are left out. By mass. A stiffness that no choice reaches gives no point.
///
/// # Errors
/// [`SizingFault`].
pub fn front(task: &mut Task<'_>, case: &str, stiffnesses: &[f64]) -> Result<Vec<FrontPoint>, SizingFault> {
    let others: Vec<(String, f64)> = task.limits.stiffness.iter().filter(|(known, _)| known != case).cloned().collect();
    let mut points = Vec::new();
    for &least in stiffnesses {
        task.limits.stiffness = others.clone();
        task.limits.stiffness.push((case.to_owned(), least));
        let outcome = size(task)?;
        let Some(design) = outcome.best else { continue };
        let reached = design.limits.iter().find(|limit| limit.unit == "N·m/deg" && limit.case == case);
        points.push(FrontPoint {
            asked_nm_per_deg: to_nm_per_deg(least),
            mass_kg: design.mass_kg,
            stiffness_nm_per_deg: reached.map_or(f64::NAN, |limit| limit.value),
            design,
            proof: outcome.proof,
        });
    }
    Ok(undominated(points))
}

/// Points that no other beats in both mass and stiffness, by mass.
fn undominated(mut points: Vec<FrontPoint>) -> Vec<FrontPoint> {
    points.sort_by(|a, b| {
        a.mass_kg.total_cmp(&b.mass_kg).then(b.stiffness_nm_per_deg.total_cmp(&a.stiffness_nm_per_deg))
    });
    let mut stiffest = f64::NEG_INFINITY;
    points.retain(|point| {
        let better = point.stiffness_nm_per_deg > stiffest;
        stiffest = stiffest.max(point.stiffness_nm_per_deg);
        better
    });
    points
}
