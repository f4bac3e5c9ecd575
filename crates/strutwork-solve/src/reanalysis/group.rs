//! The cases of a family that are held alike: their equations, and what is prepared for solving them.

use strutwork_loads::LoadCase;
use strutwork_model::Model;

use super::blocks::Blocks;
use super::lanes::{Case, Solution};
use super::pieces::{Pieces, fixed_system};
use super::update::Kept;
use crate::analysis::case::Held;
use crate::analysis::ground::typical_stiffness;
use crate::analysis::{self, Prepared};
use crate::assembly::{Pattern, System};
use crate::counters::Counters;
use crate::elements::Elements;
use crate::error::SolveError;
use crate::linear::Symbolic;
use crate::mechanism;
use crate::numbering::Numbering;
use crate::registers::{Registers, lanes};

/// Floating-point operations of a factorisation from which on a frame is factored by itself: its factor, eight times over,
/// would be far larger than the processor's memory at hand.
const LARGE: f64 = 5e8;

/// Cases that are held alike.
pub(super) struct Group {
    /// Which of the family's cases.
    pub(super) members: Vec<usize>,
    pub(super) held: Held,
    pub(super) numbering: Numbering,
    pub(super) pattern: Pattern,
    pub(super) loads: Prepared,
    pub(super) way: Way,
    /// Solutions of the family itself, case after case.
    pub(super) base: Vec<Vec<f64>>,
    /// Whether the right-hand sides follow from the stiffness of tubes as well: temperatures, prescribed movements, and loads
    /// on tubes whose ends give.
    pub(super) loads_follow: bool,
    /// Operations of factoring and solving a variant anew.
    pub(super) flops: f64,
    /// Of each node its first equation, if it has all six and follows from nothing else, and its first row in lanes.
    pub(super) firsts: Vec<(Option<usize>, Option<usize>)>,
    /// What updates need, where it was asked for.
    pub(super) kept: Option<Kept>,
}

/// How variants of a group are solved.
pub(super) enum Way {
    /// Side by side.
    Lanes(Box<Lanes>),
    /// Each by itself, on one analysis.
    Whole(Box<Symbolic>),
    /// Each through all steps.
    Singly,
}

/// What is prepared for solving side by side.
pub(super) struct Lanes {
    pub(super) blocks: Blocks,
    pub(super) pieces: Pieces,
    /// Among the rows of a solution that of each equation.
    row_of: Vec<u32>,
    /// Variants that are solved together.
    lanes: usize,
}

impl Group {
    /// Prepares the cases `members` of `cases`.
    pub(super) fn of(
        model: &Model,
        elements: &Elements,
        cases: &[&LoadCase],
        members: Vec<usize>,
        counters: &mut Counters,
    ) -> Result<Self, SolveError> {
        let held = Held::of(model, elements, cases[0]);
        let numbering = Numbering::of(model, held.supports());
        let loads = analysis::prepare(model, elements, &numbering, held.supports(), cases)?;
        let (base, _, trust) =
            analysis::solve_prepared(model, elements, &numbering, held.supports(), cases, &loads, counters)?;
        let pattern = Pattern::of(elements, &numbering);
        let sites = crate::rigid::places(model);
        let mut flops = 0.0;
        let way = if numbering.is_empty() {
            Way::Singly
        } else {
            let system = System::assemble(elements, &numbering, &pattern, held.supports());
            let left_out = mechanism::unstiffened(elements, &numbering, &system);
            let blocks = Blocks::of(&pattern, &numbering, &sites);
            counters.symbolic_analyses += 1;
            flops = blocks.factor_flops() + cases.len() as f64 * blocks.solve_flops();
            if left_out.len() < trust.left_out.len() {
                // Joints turn together without resistance: what holds them is made for each stiffness anew.
                Way::Singly
            } else if blocks.factor_flops() > LARGE && left_out.is_empty() {
                Way::Whole(Box::new(Symbolic::analyse(&pattern, &numbering, &sites)))
            } else {
                let typical = typical_stiffness(&system, &numbering);
                let fixed = fixed_system(elements, &numbering, &pattern, held.supports(), &left_out, typical);
                let pieces = Pieces::of(&blocks, elements, &numbering, &pattern, &fixed);
                Way::Lanes(Box::new(Lanes::of(blocks, pieces, &numbering)))
            }
        };
        let given = |element: &crate::elements::Element| element.joined.is_some();
        let some_give = elements.tubes().iter().any(given);
        let loads_follow = cases.iter().any(|case| {
            !case.temperatures.is_empty()
                || !case.settlements.is_empty()
                || some_give && !(case.tube_loads.is_empty() && case.tube_point_loads.is_empty())
        });
        let firsts = (0..numbering.nodes())
            .map(|node| {
                let places = if let Way::Lanes(lanes) = &way { lanes.blocks.places.as_slice() } else { &[] };
                let row = places.get(node).copied().flatten().filter(|_| numbering.tie(node).is_none());
                (numbering.first_of_six(node), row.map(|place| 6 * place as usize))
            })
            .collect();
        Ok(Self { firsts, members, held, numbering, pattern, loads, way, base, loads_follow, flops, kept: None })
    }

    /// The way in lanes, where it is taken.
    pub(super) fn lanes(&self) -> Option<&Lanes> {
        if let Way::Lanes(lanes) = &self.way { Some(lanes) } else { None }
    }
}

impl Lanes {
    fn of(blocks: Blocks, pieces: Pieces, numbering: &Numbering) -> Self {
        let place = |node: usize| blocks.places[node].expect("bug: a node with an equation has a place");
        let row_of = (0..numbering.len()).map(|equation| {
            let (node, dof) = numbering.freedom(equation);
            6 * place(node) + dof.index() as u32
        });
        Self { row_of: row_of.collect(), blocks, pieces, lanes: lanes() }
    }

    /// The solution of a case in a lane, of `cases`.
    pub(super) fn solution<'b>(
        &self,
        registers: &'b Registers,
        lane: usize,
        case: usize,
        cases: usize,
    ) -> Solution<'b> {
        let case = Case::of(case, cases, self.rows());
        Solution { registers: registers.all(), lanes: self.lanes, lane, case }
    }

    /// Rows of a solution: six a place.
    pub(super) fn rows(&self) -> usize {
        6 * self.blocks.nodes.len()
    }

    /// Where an equation stands among the rows.
    pub(super) fn row(&self, equation: usize) -> usize {
        self.row_of[equation] as usize
    }

    /// Right-hand sides over the equations, case after case, in the order of the registers.
    pub(super) fn ordered(&self, rights: &[Vec<f64>]) -> Vec<f64> {
        let rows = self.rows();
        let mut ordered = vec![0.0; rights.len() * rows];
        for (index, right) in rights.iter().enumerate() {
            let case = Case::of(index, rights.len(), rows);
            for (equation, value) in right.iter().enumerate() {
                ordered[case.register(self.row(equation))] = *value;
            }
        }
        ordered
    }
}
