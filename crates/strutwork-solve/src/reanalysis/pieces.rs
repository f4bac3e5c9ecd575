//! The stiffness of a family, taken apart into what a variant may change (values) and what it may not (shapes).
//!
//! A tube's stiffness is linear in a few values, K = Σ vᵢ Kᵢ: EA/L, GJ/L, EIy/L and EIz/L for one that is joined rigidly, and
//! the entries of the stiffness over its deformations for one with releases or springs. A panel's is a multiple of one matrix.

use nalgebra::{DMatrix, SMatrix};
use strutwork_element::{Beam, Mat12, Vec12};
use strutwork_model::Dof;
use strutwork_model::ids::Id;
use strutwork_model::model::Hold;

use super::blocks::Blocks;
use super::ends::{EndLaw, TubeLaw};
use super::variant::TubeStiffness;
use crate::analysis::ground::ground;
use crate::assembly::{Coupled, Pattern, System, plain};
use crate::elements::{Element, Elements};
use crate::numbering::Numbering;
use crate::results::LeftOut;

/// No block.
pub(super) const NONE: u32 = u32::MAX;

/// Outer products of a tube's axes, column by column: `yz[j][i]` is 6/L·yᵢzⱼ, the shears with 12/L².
#[derive(Debug, Clone, Copy)]
pub(super) struct Geometry {
    pub(super) xx: [[f64; 3]; 3],
    pub(super) yy: [[f64; 3]; 3],
    pub(super) zz: [[f64; 3]; 3],
    pub(super) yy_shear: [[f64; 3]; 3],
    pub(super) zz_shear: [[f64; 3]; 3],
    pub(super) yz: [[f64; 3]; 3],
}

/// One end of a rigidly joined tube, at a place.
#[derive(Debug, Clone, Copy)]
pub(super) struct TubeEnd {
    /// Its [`Geometry`].
    pub(super) tube: u32,
    /// Its first value.
    pub(super) value: u32,
    /// +1 at end 1, −1 at end 2.
    pub(super) sign: f64,
    /// The block that it shares with the other end, where that is eliminated later.
    pub(super) other: u32,
    /// Whether it is the first to write to the diagonal block, and to that other: nothing fixed stands there.
    pub(super) begins: [bool; 2],
}

/// What a piece of any other kind adds to one block.
#[derive(Debug, Clone, Copy)]
pub(super) struct Share {
    pub(super) block: u32,
    /// First value, and how many.
    pub(super) value: u32,
    pub(super) count: u32,
    /// First of as many shapes.
    pub(super) shape: u32,
}

/// All pieces of a family over its blocks.
#[derive(Debug)]
pub(super) struct Pieces {
    /// For each block, column by column, its place in `fixed`, or [`NONE`].
    pub(super) fixed_of: Vec<u32>,
    /// For each block whether nothing adds to it: it is fill alone.
    pub(super) bare: Vec<bool>,
    /// For each block, column by column, whether it needs no filling: it is bare, or a tube begins it.
    pub(super) begun: Vec<bool>,
    /// What no variant changes: blocks, column after column.
    pub(super) fixed: Vec<[f64; 36]>,
    pub(super) geometry: Vec<Geometry>,
    /// Tube ends of each place: `ends[end_starts[p]..end_starts[p + 1]]`.
    pub(super) ends: Vec<TubeEnd>,
    pub(super) end_starts: Vec<usize>,
    pub(super) shares: Vec<Share>,
    pub(super) share_starts: Vec<usize>,
    pub(super) shapes: Vec<[f64; 36]>,
    /// The values of the family itself.
    pub(super) values: Vec<f64>,
    /// For each tube its law and its first value.
    laws: Vec<(TubeLaw, u32)>,
    /// For each panel its value.
    panels: Vec<u32>,
}

impl Pieces {
    /// The pieces of a model; `grounded` freedoms are held by springs of the `typical` size.
    pub(super) fn of(
        blocks: &Blocks,
        elements: &Elements,
        numbering: &Numbering,
        pattern: &Pattern,
        fixed: &System,
    ) -> Self {
        let places = blocks.nodes.len();
        let mut pieces = Self {
            fixed_of: vec![NONE; blocks.blocks.len()],
            bare: Vec::new(),
            begun: Vec::new(),
            fixed: Vec::new(),
            geometry: Vec::new(),
            ends: Vec::new(),
            end_starts: vec![0],
            shares: Vec::new(),
            share_starts: vec![0],
            shapes: Vec::new(),
            values: Vec::new(),
            laws: Vec::new(),
            panels: Vec::new(),
        };
        let mut ends: Vec<Vec<TubeEnd>> = vec![Vec::new(); places];
        let mut shares: Vec<Vec<Share>> = vec![Vec::new(); places];
        for (tube, element) in elements.tubes().iter().enumerate() {
            let value = pieces.values.len() as u32;
            pieces.laws.push((TubeLaw::of(element), value));
            pieces.values.extend(pieces.tube_values(tube, &TubeStiffness::of(&element.beam)));
            let full = |node: &usize| matches!(numbering.count(*node), 0 | 6);
            if element.joined.is_none() && plain(element, numbering) && element.joints.iter().all(full) {
                pieces.add_plain(blocks, element, value, &mut ends);
            } else {
                let piece = Coupled::tube(tube, element, numbering);
                let shapes = pieces.shapes_of(tube, element);
                let shapes = shapes.iter().map(|shape| piece.spread_tube(element, shape, numbering));
                pieces.add_shapes(blocks, piece.nodes(), &shapes.collect::<Vec<_>>(), value, &mut shares);
            }
        }
        for piece in pattern.coupled().iter().filter(|piece| piece.is_sheet()) {
            let value = pieces.values.len() as u32;
            pieces.panels.push(value);
            pieces.values.push(1.0);
            let shape = piece.stiffness(elements, numbering);
            pieces.add_shapes(blocks, piece.nodes(), &[shape], value, &mut shares);
        }
        for list in ends {
            pieces.ends.extend(list);
            pieces.end_starts.push(pieces.ends.len());
        }
        for list in shares {
            pieces.shares.extend(list);
            pieces.share_starts.push(pieces.shares.len());
        }
        pieces.add_fixed(blocks, numbering, fixed);
        let mut touched = vec![false; blocks.count];
        let others = pieces.ends.iter().map(|end| end.other).filter(|other| *other != NONE);
        for block in others.chain(pieces.shares.iter().map(|share| share.block)) {
            touched[block as usize] = true;
        }
        pieces.bare = (blocks.blocks.iter().zip(&pieces.fixed_of))
            .map(|(block, fixed)| *fixed == NONE && !touched[block.at as usize])
            .collect();
        for place in 0..places {
            // The diagonal block is never fill: it is read as it stands.
            pieces.bare[blocks.columns[place]] = false;
        }
        pieces.begin(blocks);
        pieces
    }

    /// Finds the blocks whose first number is a tube's.
    fn begin(&mut self, blocks: &Blocks) {
        self.begun = self.bare.clone();
        for place in 0..blocks.nodes.len() {
            let list = blocks.column(place);
            for end in &mut self.ends[self.end_starts[place]..self.end_starts[place + 1]] {
                for (begins, at) in end.begins.iter_mut().zip([list[0].at, end.other]) {
                    let Some(rank) = list.iter().position(|block| block.at == at) else { continue };
                    let rank = blocks.columns[place] + rank;
                    *begins = self.fixed_of[rank] == NONE && !self.begun[rank];
                    self.begun[rank] |= *begins;
                }
            }
        }
    }

    /// The values of a tube of this stiffness, up to eight, in order.
    pub(super) fn tube_values(&self, tube: usize, stiffness: &TubeStiffness) -> impl Iterator<Item = f64> + use<> {
        let (values, count) = self.laws[tube].0.values(stiffness);
        values.into_iter().take(count)
    }

    /// One over the length of a rigidly joined tube: each of its values is its stiffness times that.
    pub(super) fn rigid(&self, tube: usize) -> Option<f64> {
        if let TubeLaw::Rigid { per_length } = &self.laws[tube].0 { Some(*per_length) } else { None }
    }

    /// The first value of a tube.
    pub(super) fn first_value(&self, tube: usize) -> usize {
        self.laws[tube].1 as usize
    }

    /// The value of a panel: its stiffness over that of the family.
    pub(super) fn panel_value(&self, panel: usize) -> usize {
        self.panels[panel] as usize
    }

    fn add_plain(&mut self, blocks: &Blocks, element: &Element, value: u32, ends: &mut [Vec<TubeEnd>]) {
        let tube = self.geometry.len() as u32;
        self.geometry.push(Geometry::of(element));
        let places = element.joints.map(|joint| blocks.places[joint]);
        for (end, place) in places.into_iter().enumerate() {
            let Some(own) = place else { continue };
            let later = places[1 - end].filter(|other| *other > own);
            let other = later.map_or(NONE, |other| block_at(blocks, own as usize, other as usize));
            ends[own as usize].push(TubeEnd {
                tube,
                value,
                sign: if end == 0 { 1.0 } else { -1.0 },
                other,
                begins: [false; 2],
            });
        }
    }

    /// Matrices over the joints, global axes, one a value.
    fn shapes_of(&self, tube: usize, element: &Element) -> Vec<Mat12> {
        match &self.laws[tube].0 {
            TubeLaw::Rigid { .. } => {
                let length = element.axes.length;
                let none = Beam { youngs: 1.0, shear: 1.0, area: 0.0, iy: 0.0, iz: 0.0, j: 0.0, length };
                let beams = [
                    Beam { area: length, ..none },
                    Beam { j: length, ..none },
                    Beam { iy: length, ..none },
                    Beam { iz: length, ..none },
                ];
                beams.iter().map(|beam| element.axes.mat_to_global(&beam.stiffness())).collect()
            }
            TubeLaw::Joined(_) => {
                let mut deformations = SMatrix::<f64, 6, 12>::zeros();
                for i in 0..12 {
                    let mut unit = Vec12::zeros();
                    unit[i] = 1.0;
                    deformations.set_column(i, &element.deformation(&unit).0);
                }
                let shape = |(i, j): &(usize, usize)| {
                    let (a, b) = (deformations.row(*i), deformations.row(*j));
                    if i == j { a.transpose() * b } else { a.transpose() * b + b.transpose() * a }
                };
                EndLaw::ENTRIES.iter().map(shape).collect()
            }
        }
    }

    /// Adds matrices over all six freedoms of these nodes, one a value.
    fn add_shapes(
        &mut self,
        blocks: &Blocks,
        nodes: &[usize],
        shapes: &[DMatrix<f64>],
        value: u32,
        shares: &mut [Vec<Share>],
    ) {
        for (a, &first) in nodes.iter().enumerate() {
            for (b, &second) in nodes.iter().enumerate() {
                let (Some(column), Some(row)) = (blocks.places[first], blocks.places[second]) else { continue };
                if row < column {
                    continue;
                }
                let shape = self.shapes.len() as u32;
                let entries =
                    |matrix: &DMatrix<f64>| std::array::from_fn(|place| matrix[(6 * b + place % 6, 6 * a + place / 6)]);
                self.shapes.extend(shapes.iter().map(entries));
                let block = block_at(blocks, column as usize, row as usize);
                shares[column as usize].push(Share { block, value, count: shapes.len() as u32, shape });
            }
        }
    }

    /// Takes over what no variant changes, with a one on the diagonal of every freedom without an equation.
    fn add_fixed(&mut self, blocks: &Blocks, numbering: &Numbering, system: &System) {
        let mut add = |column: (usize, usize), row: (usize, usize), value: f64| {
            // The lower triangle of the equations need not be that of the places.
            let (column, row) = if row.0 < column.0 { (row, column) } else { (column, row) };
            let rank = blocks.columns[column.0] + blocks.rank(column.0, row.0);
            if self.fixed_of[rank] == NONE {
                self.fixed_of[rank] = self.fixed.len() as u32;
                self.fixed.push([0.0; 36]);
            }
            let block = &mut self.fixed[self.fixed_of[rank] as usize];
            block[6 * column.1 + row.1] += value;
            if column.0 == row.0 && column.1 != row.1 {
                block[6 * row.1 + column.1] += value;
            }
        };
        for (place, &node) in blocks.nodes.iter().enumerate() {
            for dof in Dof::ALL.into_iter().filter(|dof| numbering.equation(node, *dof).is_none()) {
                add((place, dof.index()), (place, dof.index()), 1.0);
            }
        }
        let slot = |equation: usize| {
            let (node, dof) = numbering.freedom(equation);
            (blocks.places[node].expect("bug: a node with an equation has a place") as usize, dof.index())
        };
        for (row, column, value) in system.stiffness().triplet_iter().filter(|(_, _, value)| **value != 0.0) {
            add(slot(column), slot(row), *value);
        }
    }
}

/// What no variant changes, over the equations: bushes, springs of supports, and what holds freedoms that nothing stiffens.
pub(super) fn fixed_system(
    elements: &Elements,
    numbering: &Numbering,
    pattern: &Pattern,
    supports: &[strutwork_model::model::Support],
    grounded: &[LeftOut],
    typical: [f64; 2],
) -> System {
    let mut system = System::empty(pattern);
    for piece in pattern.coupled().iter().filter(|piece| piece.is_bush()) {
        system.add_piece(numbering, piece.nodes(), &piece.stiffness(elements, numbering));
    }
    for support in supports {
        for dof in Dof::ALL {
            if let Hold::Spring(stiffness) = support.holds[dof] {
                system.add_support_spring(numbering, support.joint.index(), dof, stiffness);
            }
        }
    }
    for left in grounded {
        ground(&mut system, numbering, left, typical);
    }
    system
}

fn block_at(blocks: &Blocks, column: usize, row: usize) -> u32 {
    blocks.column(column)[blocks.rank(column, row)].at
}

impl Geometry {
    fn of(element: &Element) -> Self {
        let (r, l) = (&element.axes.rotation, element.axes.length);
        let outer = |a: usize, b: usize, times: f64| {
            std::array::from_fn(|j| std::array::from_fn(|i| times * r[(a, i)] * r[(b, j)]))
        };
        let shear = 12.0 / (l * l);
        Self {
            xx: outer(0, 0, 1.0),
            yy: outer(1, 1, 1.0),
            zz: outer(2, 2, 1.0),
            yy_shear: outer(1, 1, shear),
            zz_shear: outer(2, 2, shear),
            yz: outer(1, 2, 6.0 / l),
        }
    }
}
