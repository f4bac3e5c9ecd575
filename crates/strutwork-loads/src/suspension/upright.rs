//! Equilibrium of one upright: six unknown forces from six equations.

use nalgebra::{Matrix6, Vector3, Vector6};
use strutwork_model::model::{Link, LinkKind, Wheel};

use super::{Motion, UprightFault};
use crate::case::LinkForce;
use crate::error::LoadError;

/// How many equations a free body has, and so how many unknown forces its links may bring.
const EQUATIONS: usize = 6;

/// A motion counts as free where the links resist it with less than this share of a unit force.
const FREE: f64 = 1e-9;

/// The greatest link force that a unit force on the upright may make: with more, the links hold it in a dead centre at
/// which a rounded coordinate decides the forces.
const AMPLIFIED: f64 = 1000.0;

/// An upright whose six unknown link forces follow from its equilibrium.
#[derive(Debug, Clone, PartialEq)]
pub struct Upright {
    wheel: Wheel,
    unknowns: Vec<Unknown>,
    /// Unknown forces from what acts, forces and moments about the contact point.
    inverse: Matrix6<f64>,
    equations: Matrix6<f64>,
    links: usize,
}

/// One unknown force of a link.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Unknown {
    link: usize,
    /// Unit vector of the force on the upright; along the link from upright to chassis where `axial`, so that tension is
    /// positive.
    direction: Vector3<f64>,
    /// Whether it acts along the link.
    axial: bool,
    /// Where it acts: the link's chassis end, m.
    at: Vector3<f64>,
}

impl Upright {
    /// The upright of a corner with this contact point, m, held by these links.
    ///
    /// With unit forces u_k at p_k on the upright and what acts on it, F and M about the contact point c:
    /// ```text
    /// Σ x_k u_k = −F,   Σ x_k (p_k − c) × u_k = −M
    /// ```
    ///
    /// # Errors
    /// [`LoadError::Upright`] where the unknown forces are not six, do not hold the upright, or hardly do.
    ///
    /// # Source
    /// Equilibrium of a free body (derived); two-force links, see W. F. Milliken and D. L. Milliken, Race Car Vehicle
    /// Dynamics, SAE 1995 (from memory).
    pub fn of(wheel: Wheel, contact: [f64; 3], links: &[Link]) -> Result<Self, LoadError> {
        let unknowns: Vec<Unknown> = links.iter().enumerate().flat_map(|(place, link)| expand(place, link)).collect();
        let fault = |fault| LoadError::Upright { wheel: wheel.name(), fault };
        if unknowns.len() > EQUATIONS {
            return Err(fault(UprightFault::TooMany { unknowns: unknowns.len() }));
        }
        let contact = Vector3::from(contact);
        let arms = || unknowns.iter().map(|unknown| unknown.at - contact);
        let size = arms().map(|arm| arm.norm()).fold(0.0, f64::max);
        // Moments over the greatest arm, so that they weigh as forces do.
        let scale = if size > 0.0 { size } else { 1.0 };
        let mut scaled = Matrix6::zeros();
        for (column, (unknown, arm)) in unknowns.iter().zip(arms()).enumerate() {
            scaled.fixed_view_mut::<3, 1>(0, column).copy_from(&unknown.direction);
            scaled.fixed_view_mut::<3, 1>(3, column).copy_from(&(arm.cross(&unknown.direction) / scale));
        }
        if let Some(value) = scaled.iter().find(|value| !value.is_finite()) {
            return Err(LoadError::NotFinite {
                what: format!("the geometry of the {} suspension", wheel.name()),
                value: *value,
            });
        }
        let resisted = scaled.svd(true, false);
        let least = resisted.singular_values[5];
        if least * AMPLIFIED < 1.0 {
            let motion = resisted.u.map(|u| u.column(5).into_owned()).unwrap_or_default();
            let motion = Motion::of(&motion, scale, contact);
            return Err(fault(if least > FREE {
                UprightFault::Hardly { amplified: 1.0 / least, limit: AMPLIFIED, motion }
            } else {
                let free = resisted.singular_values.iter().filter(|&&value| value <= FREE).count();
                UprightFault::Free { unknowns: unknowns.len(), motions: free, motion }
            }));
        }
        let mut equations = scaled;
        equations.fixed_rows_mut::<3>(3).scale_mut(scale);
        let Some(inverse) = equations.try_inverse() else {
            let motion = Motion::of(&Vector6::zeros(), scale, contact);
            return Err(fault(UprightFault::Free { unknowns: unknowns.len(), motions: 1, motion }));
        };
        Ok(Self { wheel, unknowns, inverse, equations, links: links.len() })
    }

    /// Forces of the links under what acts on the upright, N and N·m about the contact point, in the order of the links.
    pub fn link_forces(&self, acting: &[f64; 6]) -> Vec<LinkForce> {
        let right = -Vector6::from(*acting);
        let first = self.inverse * right;
        // One step of refinement: exact to rounding whatever the inverse lost.
        let values = first + self.inverse * (right - self.equations * first);
        let mut forces: Vec<LinkForce> = (0..self.links)
            .map(|link| LinkForce { wheel: self.wheel, link, axial: None, on_frame: [0.0; 3] })
            .collect();
        for (unknown, value) in self.unknowns.iter().zip(values.iter()) {
            let force = &mut forces[unknown.link];
            if unknown.axial {
                force.axial = Some(*value);
            }
            for (sum, part) in force.on_frame.iter_mut().zip(unknown.direction.iter()) {
                *sum -= value * part;
            }
        }
        forces
    }
}

/// The unknown forces that a link brings.
fn expand(place: usize, link: &Link) -> Vec<Unknown> {
    let at = Vector3::from(link.chassis);
    let along = (at - Vector3::from(link.upright)).try_normalize(0.0).unwrap_or_default();
    let unknown = |direction, axial| Unknown { link: place, direction, axial, at };
    let across = || across(&along).map(|direction| unknown(direction, false));
    match link.kind {
        LinkKind::Link | LinkKind::Spring => vec![unknown(along, true)],
        LinkKind::Strut => [unknown(along, true)].into_iter().chain(across()).collect(),
        LinkKind::Pivot => [Vector3::x(), Vector3::y(), Vector3::z()].map(|axis| unknown(axis, false)).to_vec(),
        LinkKind::Guide => across().to_vec(),
    }
}

/// Two unit vectors across a direction.
fn across(along: &Vector3<f64>) -> [Vector3<f64>; 2] {
    let axis = [Vector3::x(), Vector3::y(), Vector3::z()][along.iamin()];
    let first = along.cross(&axis).try_normalize(0.0).unwrap_or_default();
    [first, along.cross(&first)]
}
