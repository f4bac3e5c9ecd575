//! Natural modes: K φ = ω² M φ, the lowest, with a count that none was missed.

mod family;
mod masses;
mod name;
mod recover;
mod rigid;

use strutwork_loads::CarriedInertia;
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, JointId, Model, TubeId};

use crate::eigen::{Counted, Held, Pair, Pencil, RigidPart, counted_pairs};
use crate::error::SolveError;
use crate::linear::Factored;
pub use family::Shape;
pub(crate) use masses::Masses;
pub use masses::TubeMass;
pub use name::ModeName;

/// What is wanted of natural modes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModesWanted {
    /// How many besides the rigid ones; where the last has others of its frequency, these are given too.
    pub count: usize,
    /// Pieces that each tube is divided into.
    pub pieces: usize,
    /// How the mass of tubes is given to joints.
    pub mass: TubeMass,
}

impl Default for ModesWanted {
    /// Ten modes, tubes in four pieces, consistent mass.
    fn default() -> Self {
        Self { count: 10, pieces: 4, mass: TubeMass::Consistent }
    }
}

/// Natural modes of a frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Modes {
    /// Modes of frequency 0: six of a frame that nothing holds.
    pub rigid: usize,
    /// The elastic ones, lowest first.
    pub modes: Vec<Mode>,
    /// That none was missed.
    pub proof: ModeCount,
    /// Mass and inertia about the joints' middle that takes part: Rᵀ M R of the six rigid motions, kg, kg·m, kg·m².
    pub whole: [[f64; 6]; 6],
}

/// Modes counted by the signs of pivots, against those that were found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ModeCount {
    /// Hz.
    pub below: f64,
    /// Counted, the rigid ones among them; `None` where the count met a zero pivot.
    pub counted: Option<usize>,
    /// Found, likewise.
    pub found: usize,
}

impl ModeCount {
    /// Whether the count shows that none was missed.
    pub fn complete(&self) -> bool {
        self.counted == Some(self.found)
    }

    /// In words: `12 modes below 84.3 Hz counted, 12 found`.
    pub fn words(&self) -> String {
        match self.counted {
            Some(counted) => {
                let modes = if counted == 1 { "mode" } else { "modes" };
                format!("{counted} {modes} below {:.1} Hz counted, {} found", self.below, self.found)
            }
            None => format!("{} modes found below {:.1} Hz; the count met a zero pivot", self.found, self.below),
        }
    }
}

/// One natural mode, scaled to a generalised mass φᵀMφ of 1 kg.
#[derive(Debug, Clone, PartialEq)]
pub struct Mode {
    /// Hz.
    pub frequency: f64,
    /// What it looks like.
    pub name: ModeName,
    /// Movement of the joints of the subdivided frame, the frame's own first: m, rad for √(1 kg).
    pub joints: IndexVec<JointId, [f64; 6]>,
    /// Movement of the bodies.
    pub bodies: Vec<[f64; 6]>,
    /// Participation φᵀ M R of the six unit rigid motions about the joints' middle: √kg, √kg·m.
    pub participation: [f64; 6],
    /// Share of the strain energy in each tube; panels and bushes hold the rest.
    pub energy: IndexVec<TubeId, f64>,
    /// What is left of the equation, over its size.
    pub residual: f64,
}

impl Mode {
    /// Effective mass (kg) and inertia (kg·m²) for each of the six directions: the squares of [`Self::participation`].
    pub fn effective(&self) -> [f64; 6] {
        self.participation.map(|part| part * part)
    }

    /// The tube with most of the strain energy, and its share.
    pub fn most_strained(&self) -> Option<(TubeId, f64)> {
        let shares = self.energy.iter_with_id().map(|(tube, share)| (tube, *share));
        shares.reduce(|best, other| if other.1 > best.1 { other } else { best })
    }
}

/// The lowest natural modes of a frame with these supports; with none it is free.
///
/// # Assumes
/// Small vibrations about the unloaded frame, without damping. Masses are carried as their inertia is in load cases: a mass
/// on several joints moves as their weighted mean, one on an upright as its links move it.
///
/// # Errors
/// [`SolveError::Mechanism`] where the frame can move without resistance (beyond the rigid motions of a free frame).
pub fn natural_modes(
    model: &Model,
    supports: &[Support],
    carried: &[CarriedInertia],
    wanted: ModesWanted,
) -> Result<Modes, SolveError> {
    let fine = model.subdivided(wanted.pieces);
    let held = Held::of(&fine.model, supports);
    let factored = held.factor(model, &fine, supports, "natural modes")?;
    let masses = Masses::of(&fine.model, &held, carried, wanted.mass);
    let rigid = RigidPart::of(&held.rigid, |x| masses.multiply(x));
    let vibrating = Vibrating { held: &held, factored: &factored, masses: &masses, rigid: &rigid };
    let (found, proof) = search(&vibrating, wanted.count);
    let mut modes: Vec<Mode> = found.iter().map(|pair| recover::mode(&fine, &held, &masses, pair)).collect();
    name::name(model, &fine, !held.rigid.is_empty(), &mut modes);
    Ok(Modes { rigid: held.rigid.len(), modes, proof, whole: recover::whole(&fine.model, &held, &masses) })
}

/// The lowest modes, until the count agrees.
fn search(vibrating: &Vibrating<'_>, wanted: usize) -> (Vec<Pair>, ModeCount) {
    let (held, rigid) = (vibrating.held, vibrating.held.rigid.len());
    let (found, counted) = counted_pairs(vibrating, wanted, rigid, |square| vibrating.masses.modes_below(held, square));
    let none = ModeCount { below: 0.0, counted: None, found: rigid };
    let proof = counted.map_or(none, |Counted { below, counted, found }| ModeCount {
        below: below.sqrt() / std::f64::consts::TAU,
        counted,
        found,
    });
    (found, proof)
}

/// K⁻¹ M, in the inner product of M; for a free frame without the rigid motions.
struct Vibrating<'a> {
    held: &'a Held,
    factored: &'a Factored<'a>,
    masses: &'a Masses,
    rigid: &'a RigidPart,
}

impl Pencil for Vibrating<'_> {
    fn len(&self) -> usize {
        self.held.numbering.len()
    }

    fn operate(&self, x: &[f64]) -> Vec<f64> {
        let mut u = self.masses.multiply(x);
        self.rigid.balance(&mut u);
        self.factored.solve(&mut u, 1);
        self.rigid.take_out(&mut u);
        u
    }

    fn weigh(&self, x: &[f64]) -> Vec<f64> {
        self.masses.multiply(x)
    }
}
