//! A response as a weighted sum of movements.

use strutwork_element::Vec12;
use strutwork_loads::LoadCases;
use strutwork_loads::case::Measure;
use strutwork_model::model::Point;
use strutwork_model::{BodyId, Dof, IndexVec, JointId, Model, TubeId};
use strutwork_solve::{CaseResult, Elements};

use super::SensitivityFault;

/// What is differentiated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Response {
    /// The torsional stiffness that a case measures, N·m/rad.
    Twist {
        /// The case, by its place.
        case: usize,
    },
    /// One component of a joint's movement, m or rad, global axes.
    Movement {
        /// The case, by its place.
        case: usize,
        /// The joint.
        joint: JointId,
        /// The component.
        dof: Dof,
    },
    /// By how much a tube's two ends move apart, m; times EA/L it is the mean axial force of a tube that no temperature acts on.
    Stretch {
        /// The case, by its place.
        case: usize,
        /// The tube.
        tube: TubeId,
    },
    /// A weighted sum of the forces on a tube's own ends, local axes: what a stress at a station is made of.
    Forces {
        /// The case, by its place.
        case: usize,
        /// The tube.
        tube: TubeId,
        /// Weights of the twelve end forces.
        weights: [f64; 12],
    },
}

impl Response {
    /// The case that it is read from, by its place.
    pub fn case(&self) -> usize {
        match *self {
            Self::Twist { case }
            | Self::Movement { case, .. }
            | Self::Stretch { case, .. }
            | Self::Forces { case, .. } => case,
        }
    }
}

/// A response as a weighted sum of movements of joints and bodies.
#[derive(Debug, Clone, PartialEq)]
pub struct Functional {
    /// The case that it is read from, by its place.
    pub case: usize,
    /// Weights at joints, as forces and moments: ux … rz.
    pub joints: Vec<(JointId, [f64; 6])>,
    /// Weights at bodies, about their reference points.
    pub bodies: Vec<(BodyId, [f64; 6])>,
    /// The couple, N·m, where the sum is a twist and a stiffness is wanted.
    pub couple: Option<f64>,
    /// Tubes whose end forces are summed, the weights of the forces, and the loads on their own ends that this makes.
    pub(super) inside: Vec<(TubeId, Vec12, Vec12)>,
}

impl Functional {
    /// The weighted sum that belongs to a response.
    ///
    /// # Errors
    /// [`SensitivityFault`].
    pub fn of(
        model: &Model,
        elements: &Elements,
        cases: &LoadCases,
        response: &Response,
    ) -> Result<Self, SensitivityFault> {
        let place = response.case();
        let case = cases.0.get(place).ok_or(SensitivityFault::NoCase { case: place })?;
        let mut functional =
            Self { case: place, joints: Vec::new(), bodies: Vec::new(), couple: None, inside: Vec::new() };
        match *response {
            Response::Twist { .. } => {
                let twist = case.measures.iter().find_map(|measure| match *measure {
                    Measure::Twist { front, rear, couple } => Some((front, rear, couple)),
                    Measure::Movement { .. } => None,
                });
                let Some((front, rear, couple)) = twist else {
                    return Err(SensitivityFault::NoTwist { case: case.name.clone() });
                };
                for ([left, right], sign) in [(front, 1.0), (rear, -1.0)] {
                    let slope = sign / (left.at(model)[1] - right.at(model)[1]);
                    functional.rise(model, left, slope);
                    functional.rise(model, right, -slope);
                }
                functional.couple = Some(couple);
            }
            Response::Movement { joint, dof, .. } => {
                if case.free {
                    let what = "the movement of a joint of a free frame: what is free of rigid motion depends on where the \
                                mass is; ask for a twist, or hold the frame";
                    return Err(SensitivityFault::Outside { what: what.to_owned() });
                }
                let mut weights = [0.0; 6];
                weights[dof.index()] = 1.0;
                functional.joints.push((joint, weights));
            }
            Response::Stretch { tube, .. } => functional.stretch(model, elements, tube)?,
            Response::Forces { tube, weights, .. } => functional.forces(model, elements, tube, weights),
        }
        Ok(functional)
    }

    /// A weighted sum of the axial forces of all tubes at their `from` ends, tension positive.
    pub(super) fn axial_forces(
        model: &Model,
        elements: &Elements,
        case: usize,
        weights: &IndexVec<TubeId, f64>,
    ) -> Self {
        let mut functional = Self { case, joints: Vec::new(), bodies: Vec::new(), couple: None, inside: Vec::new() };
        for (tube, weight) in weights.iter_with_id().filter(|(_, weight)| **weight != 0.0) {
            let mut twelve = [0.0; 12];
            twelve[0] = -weight;
            functional.forces(model, elements, tube, twelve);
        }
        functional
    }

    /// The rise of a place, times a factor.
    fn rise(&mut self, model: &Model, point: Point, times: f64) {
        match point {
            Point::Joint(joint) => self.joints.push((joint, [0.0, 0.0, times, 0.0, 0.0, 0.0])),
            Point::OnBody { body, at } => {
                let about = model.bodies()[body].at;
                let (x, y) = (at[0] - about[0], at[1] - about[1]);
                self.bodies.push((body, [0.0, 0.0, times, times * y, -times * x, 0.0]));
            }
        }
    }

    /// How far the ends of a tube move apart, along its axis.
    fn stretch(&mut self, model: &Model, elements: &Elements, id: TubeId) -> Result<(), SensitivityFault> {
        let tube = &model.tubes()[id];
        let slides = [(&tube.release_from, &tube.end_from), (&tube.release_to, &tube.end_to)]
            .iter()
            .any(|(released, end)| released[Dof::Ux] || end.springs[Dof::Ux].is_some());
        if slides {
            let what = format!("the axial force of tube {}, an end of which slides along it", tube.name);
            return Err(SensitivityFault::Outside { what });
        }
        let axis = elements.get(id).axes.rotation.row(0).transpose();
        for (joint, end, sign) in [(tube.from, &tube.end_from, -1.0), (tube.to, &tube.end_to, 1.0)] {
            let force = axis * sign;
            let moment = nalgebra::Vector3::from(end.offset).cross(&force);
            self.joints.push((joint, [force.x, force.y, force.z, moment.x, moment.y, moment.z]));
        }
        Ok(())
    }

    /// Forces k v on the ends of a tube: as a sum of movements, the loads k g of the weights g.
    fn forces(&mut self, model: &Model, elements: &Elements, id: TubeId, weights: [f64; 12]) {
        let (tube, element) = (&model.tubes()[id], elements.get(id));
        let weights = Vec12::from(weights);
        let acting = element.beam.stiffness() * weights;
        let at_joints = element.joined.as_ref().map_or(acting, |joined| joined.joint_loads(&acting));
        let global = element.axes.vec_to_global(&at_joints);
        for (end, joint) in [tube.from, tube.to].into_iter().enumerate() {
            self.joints.push((joint, std::array::from_fn(|dof| global[6 * end + dof])));
        }
        self.inside.push((id, weights, acting));
    }

    /// The weighted sum in a case; of end forces the part that comes of the joints' movement.
    pub fn value(&self, result: &CaseResult) -> f64 {
        let dot = |weights: &[f64; 6], moved: &[f64; 6]| -> f64 { weights.iter().zip(moved).map(|(w, u)| w * u).sum() };
        let of_joints: f64 =
            self.joints.iter().map(|(joint, weights)| dot(weights, &result.displacements[*joint])).sum();
        let of_bodies: f64 = self.bodies.iter().map(|(body, weights)| dot(weights, &result.bodies[*body])).sum();
        of_joints + of_bodies
    }

    /// The response that belongs to a weighted sum: the stiffness of a twist, else the sum itself.
    pub fn response_value(&self, sum: f64) -> f64 {
        self.couple.map_or(sum, |couple| (couple / sum).abs())
    }

    /// Change of the response with the weighted sum.
    pub fn factor(&self, sum: f64) -> f64 {
        self.couple.map_or(1.0, |couple| -(couple / sum).abs() / sum)
    }
}
