//! Displacements of everything that moves.

use nalgebra::Vector6;
use strutwork_model::ids::Id;
use strutwork_model::model::Point;
use strutwork_model::{BodyId, IndexVec, JointId, Model};

use crate::numbering::Numbering;
use crate::rigid;

/// Displacements of joints and of the bodies' reference points: m, rad, global axes.
#[derive(Debug, Clone)]
pub(crate) struct Movement {
    /// Of the joints.
    pub joints: IndexVec<JointId, [f64; 6]>,
    /// Of the bodies.
    pub bodies: IndexVec<BodyId, [f64; 6]>,
}

impl Movement {
    /// From a solution over the equations and what is prescribed at nodes.
    pub(crate) fn of(model: &Model, numbering: &Numbering, solution: &[f64], prescribed: &[(usize, [f64; 6])]) -> Self {
        let mut nodes: Vec<[f64; 6]> = (0..numbering.nodes()).map(|node| numbering.values(node, solution)).collect();
        for (node, values) in prescribed {
            nodes[*node] = (Vector6::from(nodes[*node]) + Vector6::from(*values)).into();
        }
        let bodies = nodes.split_off(model.joints().len());
        Self { joints: nodes.into_iter().collect(), bodies: bodies.into_iter().collect() }
    }

    /// Of a node: the joints, then the bodies.
    pub(crate) fn node(&self, node: usize) -> &[f64; 6] {
        match node.checked_sub(self.joints.len()) {
            None => &self.joints[JointId::new(node)],
            Some(body) => &self.bodies[BodyId::new(body)],
        }
    }

    /// Of a node, to be changed.
    pub(crate) fn node_mut(&mut self, node: usize) -> &mut [f64; 6] {
        match node.checked_sub(self.joints.len()) {
            None => &mut self.joints[JointId::new(node)],
            Some(body) => &mut self.bodies[BodyId::new(body)],
        }
    }

    /// Of a place that moves with the frame.
    pub(crate) fn at(&self, model: &Model, point: Point) -> [f64; 6] {
        match point {
            Point::Joint(joint) => self.joints[joint],
            Point::OnBody { body, at } => rigid::carried(&self.bodies[body], rigid::arm(model.bodies()[body].at, at)),
        }
    }
}
