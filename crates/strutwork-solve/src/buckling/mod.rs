//! Linear buckling: (K + λ K_g) φ = 0 for the axial forces of a case, with a count that no load factor was missed.

mod forces;
mod length;

use strutwork_loads::CarriedInertia;
use strutwork_model::ids::Id;
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, JointId, Model, Subdivided, TubeId};

use crate::assembly::System;
use crate::eigen::{Held, Pair, Pencil, RigidPart, counted_pairs, pairs};
use crate::error::SolveError;
use crate::linear::Factored;
use crate::modes::{Masses, TubeMass, energy};
use crate::results::CaseResult;
use forces::Axial;
pub use length::EffectiveLength;

/// What is wanted of buckling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BucklingWanted {
    /// How many load factors of each sign; where the last has others equal to it, these are given too.
    pub count: usize,
    /// Pieces that each tube is divided into: one cubic piece puts a pinned tube's own load 21.6 % too high, two 0.75 %, four
    /// 0.05 %; whole frames less.
    pub pieces: usize,
}

impl Default for BucklingWanted {
    /// Three of each sign, tubes in four pieces.
    fn default() -> Self {
        Self { count: 3, pieces: 4 }
    }
}

/// Load factors at which a case's axial forces would buckle the frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Buckling {
    /// The case.
    pub case: String,
    /// Positive load factors, smallest first: the case's loads times this.
    pub positive: Vec<BucklingMode>,
    /// Negative ones, nearest to 0 first: the case's loads turned round.
    pub negative: Vec<BucklingMode>,
    /// Positive load factors up to the last found: counted by the signs of pivots and found; `None` for a free frame, whose
    /// balance by inertia the count does not see.
    pub proof: Option<[usize; 2]>,
}

/// One way of buckling.
#[derive(Debug, Clone, PartialEq)]
pub struct BucklingMode {
    /// λ: the case's loads times this. Above 1 there is a margin; what lies between 0 and 1 has buckled.
    pub factor: f64,
    /// Movement of the joints of the subdivided frame, the frame's own first; the largest displacement is 1.
    pub joints: IndexVec<JointId, [f64; 6]>,
    /// Movement of the bodies, in the same measure.
    pub bodies: Vec<[f64; 6]>,
    /// Share of the strain energy in each tube: the tubes with much of it bow, the others hold them.
    pub energy: IndexVec<TubeId, f64>,
    /// What is left of the equation, over its size.
    pub residual: f64,
}

impl BucklingMode {
    /// Tubes with their shares of the strain energy, most first; of equal shares the first tube first.
    pub fn bowing(&self) -> Vec<(TubeId, f64)> {
        let mut tubes: Vec<(TubeId, f64)> = self.energy.iter_with_id().map(|(tube, share)| (tube, *share)).collect();
        tubes.sort_by(|a, b| b.1.total_cmp(&a.1));
        tubes
    }
}

impl Buckling {
    /// The proof of the count in words: `3 load factors up to 2.31 counted, 3 found`; `None` without one.
    pub fn proof_words(&self) -> Option<String> {
        let [counted, found] = self.proof?;
        let last = self.positive.last()?;
        let factors = if counted == 1 { "load factor" } else { "load factors" };
        Some(format!("{counted} {factors} up to {:.4} counted, {found} found", last.factor))
    }
}

/// The lowest load factors of a case, from its solved axial forces.
///
/// ```text
/// (K + λ K_g) φ = 0,   K_g from N/L (6/5, L/10, …) of every piece of every tube, N as the linear case has it
/// ```
///
/// # Assumes
/// Forces grow in proportion and keep their directions; the frame is straight before; small displacements before buckling.
/// A free frame (no supports) is balanced by the inertia of its masses, before and after: `carried` is needed for it.
///
/// # Errors
/// [`SolveError::Mechanism`] where the frame can move without resistance.
///
/// # Source
/// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, ch. 15 (from memory).
pub fn buckling(
    model: &Model,
    supports: &[Support],
    carried: &[CarriedInertia],
    result: &CaseResult,
    wanted: BucklingWanted,
) -> Result<Buckling, SolveError> {
    let fine = model.subdivided(wanted.pieces);
    let held = Held::of(&fine.model, supports);
    let factored = held.factor(model, &fine, supports, &result.name)?;
    let axial = Axial::of(&fine, result);
    if axial.is_nothing() {
        return Ok(Buckling { case: result.name.clone(), positive: Vec::new(), negative: Vec::new(), proof: None });
    }
    let geometric = of_axial(&held, &axial);
    // Only the balance of a free frame asks for masses.
    let masses = (!held.rigid.is_empty()).then(|| Masses::of(&fine.model, &held, carried, TubeMass::Consistent));
    let rigid = masses.map_or_else(RigidPart::none, |masses| RigidPart::of(&held.rigid, |x| masses.multiply(x)));
    let pressed = Pressed { held: &held, factored: &factored, geometric: &geometric, rigid: &rigid };
    let (positive, proof) = search(&pressed, wanted.count);
    let negative = pairs(&pressed, &[], wanted.count, 3, |theta| theta < 0.0);
    let mode = |pair: &Pair| mode(&fine, &held, pair);
    Ok(Buckling {
        case: result.name.clone(),
        positive: positive.iter().map(mode).collect(),
        negative: negative.iter().map(mode).collect(),
        proof,
    })
}

/// K_g of a case's axial forces on a divided frame.
pub(crate) fn axial_stiffness(fine: &Subdivided, held: &Held, result: &CaseResult) -> System {
    of_axial(held, &Axial::of(fine, result))
}

fn of_axial(held: &Held, axial: &Axial) -> System {
    System::of_tubes(&held.elements, &held.numbering, &held.pattern, |place, element| {
        let [from, to] = axial.ends(TubeId::new(place));
        let own = element.beam.geometric_stiffness(from, to);
        element.axes.mat_to_global(&element.joined.as_ref().map_or(own, |joined| joined.condense(&own)))
    })
}

/// The lowest positive load factors, until the count agrees; a free frame has no count.
fn search(pressed: &Pressed<'_>, wanted: usize) -> (Vec<Pair>, Option<[usize; 2]>) {
    if !pressed.held.rigid.is_empty() {
        // The count does not see the balance by inertia: a second search from elsewhere takes its place.
        let positive = |theta: f64| theta > 0.0;
        let mut found = pairs(pressed, &[], wanted, 1, positive);
        found.extend(pairs(pressed, &found, 1, 100, positive));
        found.sort_by(|a, b| b.theta.total_cmp(&a.theta));
        found.truncate(wanted);
        return (found, None);
    }
    let count = |factor: f64| {
        let mut loaded = pressed.held.stiffness.clone();
        loaded.add_multiple(factor, pressed.geometric);
        Some(pressed.held.symbolic.signs(loaded.stiffness()).ok()?.negative())
    };
    let (found, outcome) = counted_pairs(pressed, wanted, 0, count);
    (found, outcome.and_then(|outcome| Some([outcome.counted?, outcome.found])))
}

/// The way of buckling of a pair.
fn mode(fine: &Subdivided, held: &Held, pair: &Pair) -> BucklingMode {
    let moved = |node: usize| held.numbering.values(node, &pair.vector);
    let joints: IndexVec<JointId, [f64; 6]> = fine.model.joints().ids().map(|joint| moved(joint.index())).collect();
    // φᵀKφ = 1.
    let shares = energy(fine, held, &joints, 0.5);
    let largest = joints
        .iter()
        .flat_map(|values| values[..3].to_vec())
        .fold(0.0_f64, |best, value| if value.abs() > best.abs() * (1.0 + 1e-6) { value } else { best });
    let scale = if largest == 0.0 { 1.0 } else { 1.0 / largest };
    let scaled = |values: [f64; 6]| values.map(|value| value * scale);
    let bodies = (joints.len()..held.numbering.nodes()).map(|node| scaled(moved(node))).collect();
    BucklingMode {
        factor: 1.0 / pair.theta,
        joints: joints.iter().map(|values| scaled(*values)).collect(),
        bodies,
        energy: shares,
        residual: pair.residual,
    }
}

/// −K⁻¹ K_g, in the inner product of K.
struct Pressed<'a> {
    held: &'a Held,
    factored: &'a Factored<'a>,
    geometric: &'a System,
    rigid: &'a RigidPart,
}

impl Pencil for Pressed<'_> {
    fn len(&self) -> usize {
        self.held.numbering.len()
    }

    fn operate(&self, x: &[f64]) -> Vec<f64> {
        let mut u = self.geometric.multiply(x);
        u.iter_mut().for_each(|value| *value = -*value);
        self.rigid.balance(&mut u);
        self.factored.solve(&mut u, 1);
        self.rigid.take_out(&mut u);
        u
    }

    fn weigh(&self, x: &[f64]) -> Vec<f64> {
        self.held.stiffness.multiply(x)
    }
}
