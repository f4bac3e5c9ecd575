//! Pieces of stiffness that are more than a tube from one joint to another: tubes at joints that are bolted to bodies,
//! panels, and the bushes of bodies.

use nalgebra::DMatrix;
use strutwork_element::Mat12;

use crate::elements::{Element, Elements};
use crate::numbering::Numbering;

/// A piece of stiffness over all equations that its nodes' movements follow from.
#[derive(Debug, Clone)]
pub(crate) struct Coupled {
    /// Which one.
    piece: Piece,
    /// Nodes whose equations it couples, ascending.
    pub(super) nodes: Vec<usize>,
}

/// A piece, by its place among its kind.
#[derive(Debug, Clone, Copy)]
enum Piece {
    Tube(usize),
    Sheet(usize),
    Bush(usize),
}

impl Coupled {
    /// All coupled pieces: tubes in order, then panels, then bushes.
    pub(super) fn all(elements: &Elements, numbering: &Numbering) -> Vec<Self> {
        let tubes = elements.tubes().iter().enumerate().filter(|(_, element)| !plain(element, numbering));
        let sheets = elements.sheets().iter().enumerate();
        let bushes = elements.bushes().iter().enumerate();
        tubes
            .map(|(place, tube)| Self::of(Piece::Tube(place), &tube.joints, numbering))
            .chain(sheets.map(|(place, sheet)| Self::of(Piece::Sheet(place), &sheet.corners, numbering)))
            .chain(bushes.map(|(place, bush)| Self::of(Piece::Bush(place), &bush.nodes, numbering)))
            .collect()
    }

    /// A tube, whatever its joints are tied to.
    pub(crate) fn tube(place: usize, element: &Element, numbering: &Numbering) -> Self {
        Self::of(Piece::Tube(place), &element.joints, numbering)
    }

    /// Nodes whose equations it couples, ascending.
    pub(crate) fn nodes(&self) -> &[usize] {
        &self.nodes
    }

    /// Whether it is a panel.
    pub(crate) fn is_sheet(&self) -> bool {
        matches!(self.piece, Piece::Sheet(_))
    }

    /// Whether it is a bush.
    pub(crate) fn is_bush(&self) -> bool {
        matches!(self.piece, Piece::Bush(_))
    }

    fn of(piece: Piece, moved: &[usize], numbering: &Numbering) -> Self {
        let mut nodes: Vec<usize> =
            moved.iter().flat_map(|&node| [Some(node), numbering.tie(node).map(|tie| tie.host)]).flatten().collect();
        nodes.retain(|node| numbering.count(*node) > 0);
        nodes.sort_unstable();
        nodes.dedup();
        Self { piece, nodes }
    }

    /// Its stiffness over all six freedoms of each of [`Self::nodes`]; rows without an equation mean nothing.
    pub(crate) fn stiffness(&self, elements: &Elements, numbering: &Numbering) -> DMatrix<f64> {
        match self.piece {
            Piece::Tube(place) => {
                let element = &elements.tubes()[place];
                self.spread_tube(element, &element.global_stiffness(), numbering)
            }
            Piece::Sheet(place) => {
                let sheet = &elements.sheets()[place];
                self.spread(&sheet.corners, &sheet.matrix(), numbering)
            }
            Piece::Bush(place) => {
                let bush = &elements.bushes()[place];
                self.spread(&bush.nodes, &bush.matrix(), numbering)
            }
        }
    }

    /// The tube that it is, by its place; `None` for a panel or a bush.
    pub(super) fn tube_place(&self) -> Option<usize> {
        match self.piece {
            Piece::Tube(place) => Some(place),
            Piece::Sheet(_) | Piece::Bush(_) => None,
        }
    }

    /// Any matrix over a tube's two joints, over all six freedoms of each of [`Self::nodes`].
    pub(crate) fn spread_tube(&self, element: &Element, k: &Mat12, numbering: &Numbering) -> DMatrix<f64> {
        self.spread(&element.joints, &DMatrix::from_fn(12, 12, |i, j| k[(i, j)]), numbering)
    }

    /// Tᵀ k T, with the moved nodes' displacements = T · equations.
    fn spread(&self, moved: &[usize], k: &DMatrix<f64>, numbering: &Numbering) -> DMatrix<f64> {
        let place = |node: usize| self.nodes.iter().position(|other| *other == node);
        let mut t = DMatrix::zeros(6 * moved.len(), 6 * self.nodes.len());
        for (row, &node) in moved.iter().enumerate() {
            if let Some(column) = place(node) {
                for (dof, _) in numbering.free(node) {
                    t[(6 * row + dof, 6 * column + dof)] += 1.0;
                }
            }
            if let Some(tie) = numbering.tie(node)
                && let Some(column) = place(tie.host)
            {
                let mut view = t.view_mut((6 * row, 6 * column), (6, 6));
                view += tie.map;
            }
        }
        t.tr_mul(&(k * &t))
    }
}

/// Whether both joints of a tube stand for themselves.
pub(crate) fn plain(element: &Element, numbering: &Numbering) -> bool {
    element.joints.iter().all(|joint| numbering.tie(*joint).is_none())
}
