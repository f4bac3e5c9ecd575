//! How the tubes bend in a shape: what a picture needs.

use strutwork_element::{LocalAxes, Vec12};
use strutwork_model::ids::Id;
use strutwork_model::{IndexVec, JointId, Subdivided, TubeId};

use crate::elements::Elements;

/// A piece of a tube in a shape: between its ends it is a cubic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentPiece {
    /// The tube of the whole frame.
    pub tube: TubeId,
    /// Where it starts and ends along the tube, 0 to 1.
    pub along: [f64; 2],
    /// The piece's own ends at rest, m.
    pub ends: [[f64; 3]; 2],
    /// Movement of these ends, global axes, in the measure of the shape.
    pub moved: [[f64; 3]; 2],
    /// Change of the movement along the piece at its ends times the piece's length, global axes: what the cubic leaves by.
    pub slopes: [[f64; 3]; 2],
}

/// The pieces of all tubes in order, from the movement of the joints of the divided frame; releases, end springs and offsets
/// are followed.
pub fn bent_pieces(fine: &Subdivided, joints: &IndexVec<JointId, [f64; 6]>) -> Vec<BentPiece> {
    let elements = Elements::of(&fine.model);
    let none = Vec12::zeros();
    let each = fine.pieces.iter_with_id().zip(elements.tubes());
    each.map(|((piece, (tube, along)), element)| {
        let [a, b] = element.joints.map(|joint| joints[JointId::new(joint)]);
        let (own, _) = element.own_ends(&Vec12::from_iterator(a.into_iter().chain(b)), &none);
        let axes: &LocalAxes = &element.axes;
        let length = axes.length;
        let global = |local: [f64; 3]| {
            std::array::from_fn(|axis| (0..3).map(|k| axes.rotation[(k, axis)] * local[k]).sum::<f64>())
        };
        // dv/dx = θz, dw/dx = −θy; along the tube the movement runs evenly.
        let stretch = own[6] - own[0];
        BentPiece {
            tube: *tube,
            along: *along,
            ends: fine.model.tube_ends(piece),
            moved: [0, 6].map(|end| global([own[end], own[end + 1], own[end + 2]])),
            slopes: [0, 6].map(|end| global([stretch, own[end + 5] * length, -own[end + 4] * length])),
        }
    })
    .collect()
}
