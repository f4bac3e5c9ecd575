//! Which tubes are made of one piece of stock.

use strutwork_model::ids::Id;
use strutwork_model::model::{Section, Shape};
use strutwork_model::{Model, TubeId};

use super::Sharing;

/// Tubes that are cut from one piece of stock, and so share its sizes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    /// For readers: a tube's name, `SECTION, bar 2`, or a section's name.
    pub name: String,
    pub section: Section,
    pub tubes: Vec<TubeId>,
}

/// The pieces that a frame is cut from, and the names of sections that have no wall and do not vary.
pub(super) fn pieces(model: &Model, sharing: Sharing) -> (Vec<Piece>, Vec<String>) {
    let mut pieces: Vec<(Piece, usize, usize, f64)> = Vec::new();
    let mut fixed: Vec<String> = Vec::new();
    for (id, tube) in model.tubes().iter_with_id() {
        let section = &model.sections()[tube.section];
        if !matches!(section.shape, Shape::Hollow { .. } | Shape::Round { .. }) {
            if !fixed.contains(&section.name) {
                fixed.push(section.name.clone());
            }
            continue;
        }
        let (kind, material) = (tube.section.index(), tube.material.index());
        let length = model.length(id);
        let same = |piece: &&mut (Piece, usize, usize, f64)| piece.1 == kind && piece.2 == material;
        let room = match sharing {
            Sharing::Tube => None,
            Sharing::Bar { .. } => pieces.iter_mut().find(|piece| same(piece) && piece.3 >= length),
            Sharing::Section => pieces.iter_mut().find(same),
        };
        if let Some(piece) = room {
            piece.0.tubes.push(id);
            piece.3 -= length;
            continue;
        }
        let bars = pieces.iter().filter(|piece| piece.1 == kind && piece.2 == material).count();
        let name = match sharing {
            Sharing::Tube => tube.name.clone(),
            Sharing::Bar { .. } => format!("{}, bar {}", section.name, bars + 1),
            Sharing::Section => section.name.clone(),
        };
        let left = match sharing {
            Sharing::Bar { length: whole } => whole - length,
            Sharing::Tube | Sharing::Section => f64::INFINITY,
        };
        pieces.push((Piece { name, section: section.clone(), tubes: vec![id] }, kind, material, left));
    }
    (pieces.into_iter().map(|piece| piece.0).collect(), fixed)
}

/// A section with its wall and outsides changed, as shares of their tolerances; corners keep their ratio to the wall.
pub(super) fn changed(section: &Section, wall_by: f64, by: [f64; 2]) -> Option<Section> {
    let shape = match section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => Shape::Hollow {
            height: height + by[0],
            width: width + by[1],
            wall: wall * (1.0 + wall_by),
            outer_radius: outer_radius * (1.0 + wall_by),
        },
        Shape::Round { diameter, wall } => Shape::Round { diameter: diameter + by[0], wall: wall * (1.0 + wall_by) },
        Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => return None,
    };
    Section::from_shape(section.name.clone(), shape).ok()
}
