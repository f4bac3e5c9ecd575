//! Which freedom of which joint or body is which equation, and which follow from others.
//!
//! Joints and bodies are numbered in one row as *nodes*: the joints in model order, then the bodies. Every freedom of a
//! node is an equation, or held fixed, or tied: a joint's to its body by a rigid bolt, a body's to its own other freedoms
//! where a support holds a joint that is bolted to it.

mod conditions;
mod tie;

use nalgebra::{Matrix6, Vector6};
use strutwork_model::ids::Id;
use strutwork_model::model::{Bond, Hold, Support};
use strutwork_model::{BodyId, Dof, JointId, Model};

use crate::error::Node;
use crate::rigid;
pub(crate) use conditions::{Conditions, Misfit};
pub(crate) use tie::{Mounted, Tie};

/// No equation: the freedom is held fixed.
const HELD: u32 = u32::MAX;
/// No equation: the freedom follows from others.
const TIED: u32 = u32::MAX - 1;

/// The equations of the free freedoms, node by node.
#[derive(Debug, Clone, PartialEq)]
pub struct Numbering {
    /// One entry a node and freedom.
    equations: Vec<[u32; 6]>,
    /// Node and freedom of each equation.
    freedoms: Vec<(u32, Dof)>,
    /// How many of the nodes are joints; the rest are bodies.
    joints: usize,
    /// One entry a node; none at all without bodies.
    ties: Vec<Option<Box<Tie>>>,
    /// Joints with a rigid bond, in the order of the mounts.
    mounted: Vec<Mounted>,
    /// Bodies that supports hold through their joints, in order.
    conditions: Vec<Conditions>,
}

impl Numbering {
    /// Numbers the freedoms that neither these supports hold fixed (a spring leaves its freedom free) nor rigid bolts tie.
    pub fn of(model: &Model, supports: &[Support]) -> Self {
        let joints = model.joints().len();
        let nodes = joints + model.bodies().len();
        let mut equations = vec![[0; 6]; nodes];
        for support in supports {
            for dof in Dof::ALL {
                if support.holds[dof] == Hold::Fixed {
                    equations[support.joint.index()][dof.index()] = HELD;
                }
            }
        }
        let mounted = mounted(model);
        let mut conditions = Vec::new();
        for body in joints..nodes {
            let held = held_through(&mounted, body, &equations);
            if !held.is_empty() {
                conditions.push(Conditions::of(body, held));
            }
        }
        let ties = ties(nodes, joints, &mounted, &conditions);
        for mount in &mounted {
            for dof in (0..6).filter(|dof| mount.rigid[*dof]) {
                equations[mount.joint][dof] = TIED;
            }
        }
        for condition in &conditions {
            for dof in (0..6).filter(|dof| condition.dependent[*dof]) {
                equations[condition.body][dof] = TIED;
            }
        }
        let mut freedoms = Vec::with_capacity(6 * nodes);
        for (node, row) in equations.iter_mut().enumerate() {
            for dof in Dof::ALL {
                if row[dof.index()] < TIED {
                    row[dof.index()] = freedoms.len() as u32;
                    freedoms.push((node as u32, dof));
                }
            }
        }
        Self { equations, freedoms, joints, ties, mounted, conditions }
    }

    /// How many equations there are.
    pub fn len(&self) -> usize {
        self.freedoms.len()
    }

    /// Whether every freedom is held.
    pub fn is_empty(&self) -> bool {
        self.freedoms.is_empty()
    }

    /// How many nodes there are: joints and bodies.
    pub fn nodes(&self) -> usize {
        self.equations.len()
    }

    /// Which joint or body a node is.
    pub fn node(&self, node: usize) -> Node {
        if node < self.joints { Node::Joint(JointId::new(node)) } else { Node::Body(BodyId::new(node - self.joints)) }
    }

    /// The body of a node; the first body for a node that is a joint.
    pub(crate) fn body_of(&self, node: usize) -> BodyId {
        BodyId::new(node.saturating_sub(self.joints))
    }

    /// The node of a body.
    pub(crate) fn body(&self, body: BodyId) -> usize {
        self.joints + body.index()
    }

    /// The equation of a node's freedom; `None` where it is held fixed or tied.
    pub fn equation(&self, node: usize, dof: Dof) -> Option<usize> {
        let equation = self.equations[node][dof.index()];
        (equation < TIED).then_some(equation as usize)
    }

    /// How many equations a node has.
    pub fn count(&self, node: usize) -> usize {
        self.equations[node].iter().filter(|equation| **equation < TIED).count()
    }

    /// A node's equations: freedom and equation, consecutive.
    pub fn free(&self, node: usize) -> impl Iterator<Item = (usize, usize)> + '_ {
        self.equations[node]
            .iter()
            .enumerate()
            .filter(|(_, equation)| **equation < TIED)
            .map(|(dof, equation)| (dof, *equation as usize))
    }

    /// The first equation of a node that has all six and follows from nothing else.
    pub(crate) fn first_of_six(&self, node: usize) -> Option<usize> {
        let all = self.equations[node].iter().all(|equation| *equation < TIED);
        (all && self.tie(node).is_none()).then(|| self.equations[node][0] as usize)
    }

    /// Node and freedom of an equation.
    pub fn freedom(&self, equation: usize) -> (usize, Dof) {
        let (node, dof) = self.freedoms[equation];
        (node as usize, dof)
    }

    /// What a node's movement follows from besides its own equations.
    pub(crate) fn tie(&self, node: usize) -> Option<&Tie> {
        self.ties.get(node)?.as_deref()
    }

    /// Joints with a rigid bond, in the order of the mounts.
    pub(crate) fn mounted(&self) -> &[Mounted] {
        &self.mounted
    }

    /// Bodies that supports hold through their joints, in order.
    pub(crate) fn conditions(&self) -> &[Conditions] {
        &self.conditions
    }

    /// A node's own equations of a vector over the equations; 0 where it has none.
    pub(crate) fn own_values(&self, node: usize, vector: &[f64]) -> [f64; 6] {
        self.equations[node].map(|equation| if equation < TIED { vector[equation as usize] } else { 0.0 })
    }

    /// Displacements of a node, from a solution over the equations; what supports prescribe is not in it.
    pub fn values(&self, node: usize, solution: &[f64]) -> [f64; 6] {
        let own = self.own_values(node, solution);
        let Some(tie) = self.tie(node) else { return own };
        let host = Vector6::from(self.own_values(tie.host, solution));
        (Vector6::from(own) + tie.map * host).into()
    }

    /// The same, each equation's value asked for.
    pub(crate) fn values_of(&self, node: usize, value: impl Fn(usize) -> f64) -> [f64; 6] {
        let own = |node: usize| {
            self.equations[node].map(|equation| if equation < TIED { value(equation as usize) } else { 0.0 })
        };
        let Some(tie) = self.tie(node) else { return own(node) };
        (Vector6::from(own(node)) + tie.map * Vector6::from(own(tie.host))).into()
    }

    /// Adds forces at a node to the equations that move it, times a factor.
    pub(crate) fn gather(&self, node: usize, forces: &[f64; 6], times: f64, right: &mut [f64]) {
        for (dof, equation) in self.free(node) {
            right[equation] += times * forces[dof];
        }
        if let Some(tie) = self.tie(node) {
            let passed = tie.map.tr_mul(&Vector6::from(*forces));
            for (dof, equation) in self.free(tie.host) {
                right[equation] += times * passed[dof];
            }
        }
    }

    /// What movements prescribed at held freedoms do to each node that they move, by themselves.
    ///
    /// # Errors
    /// The worst misfit of a body whose joints cannot be moved like this without straining it.
    pub(crate) fn prescribed(&self, settlements: &[(JointId, [f64; 6])]) -> Result<Vec<(usize, [f64; 6])>, Misfit> {
        let mut moved: Vec<(usize, [f64; 6])> =
            settlements.iter().map(|(joint, values)| (joint.index(), *values)).collect();
        for condition in &self.conditions {
            let body = condition.moved(settlements)?;
            if body == [0.0; 6] {
                continue;
            }
            moved.push((condition.body, body));
            for mount in self.mounted.iter().filter(|mount| mount.body == condition.body) {
                let carried = rigid::carried(&body, mount.arm);
                let place = moved.iter().position(|(node, _)| *node == mount.joint).unwrap_or_else(|| {
                    moved.push((mount.joint, [0.0; 6]));
                    moved.len() - 1
                });
                for dof in (0..6).filter(|dof| mount.rigid[*dof]) {
                    moved[place].1[dof] = carried[dof];
                }
            }
        }
        Ok(moved)
    }
}

/// The rigid bonds of the model's mounts.
fn mounted(model: &Model) -> Vec<Mounted> {
    let joints = model.joints().len();
    model
        .mounts()
        .iter()
        .map(|mount| Mounted {
            joint: mount.joint.index(),
            body: joints + mount.body.index(),
            rigid: mount.bonds.0.map(|bond| bond == Bond::Rigid),
            arm: rigid::arm(model.bodies()[mount.body].at, model.joints()[mount.joint].at),
        })
        .filter(|mount| mount.rigid.contains(&true))
        .collect()
}

/// Freedoms of a body's joints that are held fixed and tied to it: joint, freedom, and the joint's arm.
fn held_through(mounted: &[Mounted], body: usize, equations: &[[u32; 6]]) -> Vec<(usize, Dof, [f64; 3])> {
    mounted
        .iter()
        .filter(|mount| mount.body == body)
        .flat_map(|mount| {
            let held = |dof: &Dof| mount.rigid[dof.index()] && equations[mount.joint][dof.index()] == HELD;
            Dof::ALL.into_iter().filter(held).map(|dof| (mount.joint, dof, mount.arm))
        })
        .collect()
}

/// The tie of every node; none at all where no bond is rigid.
fn ties(nodes: usize, joints: usize, mounted: &[Mounted], conditions: &[Conditions]) -> Vec<Option<Box<Tie>>> {
    if mounted.is_empty() {
        return Vec::new();
    }
    let mut ties: Vec<Option<Box<Tie>>> = vec![None; nodes];
    // How a body moves with its own equations.
    let mut moves = vec![Matrix6::identity(); nodes - joints];
    for condition in conditions {
        let own = Matrix6::from_diagonal(&Vector6::from(condition.dependent.map(|tied| if tied { 0.0 } else { 1.0 })));
        moves[condition.body - joints] = own + condition.map;
        ties[condition.body] = Some(Box::new(Tie { host: condition.body, map: condition.map }));
    }
    for mount in mounted {
        let mut map = rigid::matrix(mount.arm) * moves[mount.body - joints];
        for dof in (0..6).filter(|dof| !mount.rigid[*dof]) {
            map.row_mut(dof).fill(0.0);
        }
        ties[mount.joint] = Some(Box::new(Tie { host: mount.body, map }));
    }
    ties
}
