//! Freedoms that nothing stiffens are held by springs of a usual size, so that the rest can be factored.

use strutwork_model::ids::Id;

use crate::assembly::System;
use crate::numbering::Numbering;
use crate::results::LeftOut;

/// The middle of the diagonal, for translations and for rotations: what a grounded freedom is given.
pub(crate) fn typical_stiffness(system: &System, numbering: &Numbering) -> [f64; 2] {
    let mut kinds = [Vec::new(), Vec::new()];
    for (equation, value) in system.diagonal().into_iter().enumerate() {
        if value > 0.0 {
            kinds[usize::from(numbering.freedom(equation).1.is_rotation())].push(value);
        }
    }
    kinds.map(|mut values| {
        values.sort_by(f64::total_cmp);
        values.get(values.len() / 2).copied().unwrap_or(1.0)
    })
}

/// Holds a left-out freedom with a stiffness along its own direction: exact, as nothing else acts along it.
pub(crate) fn ground(system: &mut System, numbering: &Numbering, left: &LeftOut, typical: [f64; 2]) {
    let free: Vec<(usize, usize)> = numbering.free(left.joint.index()).collect();
    let direction: Vec<f64> = free.iter().map(|(dof, _)| left.direction[*dof]).collect();
    system.add_node_block(free[0].1, &direction, typical[usize::from(left.dof.is_rotation())]);
}
