//! Freedoms that follow from those of a body.

use nalgebra::Matrix6;

/// How a node moves with a body: u = own equations + `map` · the body's own equations.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Tie {
    /// The body's node.
    pub host: usize,
    /// Rows of the node's tied freedoms over the body's equations; all other rows are nil.
    pub map: Matrix6<f64>,
}

/// A joint that a bolt ties to a body in at least one freedom.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mounted {
    /// The joint.
    pub joint: usize,
    /// The body's node.
    pub body: usize,
    /// Which freedoms are tied.
    pub rigid: [bool; 6],
    /// From the body's reference point to the joint, m.
    pub arm: [f64; 3],
}
