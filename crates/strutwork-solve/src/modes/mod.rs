//! Natural modes: K φ = ω² M φ, the lowest, with a count that none was missed.

mod confined;
mod curves;
mod family;
mod masses;
mod name;
mod ready;
mod recover;
mod rigid;
mod shift;

use strutwork_loads::CarriedInertia;
use strutwork_model::model::Support;
use strutwork_model::{IndexVec, JointId, Model, TubeId};

use crate::error::SolveError;
use crate::results::CaseResult;
pub use curves::{BentPiece, bent_pieces};
pub use family::Shape;
pub(crate) use masses::Masses;
pub use masses::TubeMass;
pub use name::ModeName;
use ready::ready;
pub use shift::{FrequencyShift, ShiftedMode, frequency_shift};

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
    /// Modes of frequency 0: six of a frame that nothing holds, fewer of one that is held in part.
    pub rigid: usize,
    /// The elastic ones, lowest first.
    pub modes: Vec<Mode>,
    /// That none was missed.
    pub proof: ModeCount,
    /// Mass and inertia about the joints' middle that takes part: Rᵀ M R of the six rigid motions, kg, kg·m, kg·m².
    pub whole: [[f64; 6]; 6],
    /// What it took, with all that the same frame was asked for before.
    pub work: ModeWork,
}

/// Work done, counted, so that a lost reuse shows without a stopwatch.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct ModeWork {
    /// Factorisations of the stiffness.
    pub factorisations: u64,
    /// Counts of modes: each factors the stiffness less the mass at one frequency.
    pub counts: u64,
    /// Steps of the iteration: each solves once with the factor.
    pub solves: u64,
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

/// The lowest natural modes of a frame with these supports; with none, or too few, it has rigid ones besides.
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
    ready(model, supports, None, wanted.pieces, |frame| Ok(frame.modes(carried, wanted.count, wanted.mass)?.modes))
}

/// The lowest natural modes of one frame with each of several loads of masses, in their order: its stiffness is factored once.
///
/// Where only the frequencies of the frame as a whole are wanted, as a study does that tries many frames, one piece to a tube is
/// enough and costs a small part of four: the frequencies come out slightly too high.
///
/// # Errors
/// As [`natural_modes`].
pub fn natural_modes_of_each(
    model: &Model,
    supports: &[Support],
    each: &[&[CarriedInertia]],
    wanted: ModesWanted,
) -> Result<Vec<Modes>, SolveError> {
    ready(model, supports, None, wanted.pieces, |frame| {
        each.iter().map(|carried| Ok(frame.modes(carried, wanted.count, wanted.mass)?.modes)).collect()
    })
}

/// The lowest natural modes of a frame about a state of load: compression softens a frame, tension stiffens it.
///
/// ```text
/// (K + K_g) φ = ω² M φ,   K_g as [`crate::buckling()`] has it from the case's axial forces
/// ```
///
/// `supports` are those of the case. A free frame vibrates square to its rigid motions by mass, and the loads turn with it.
///
/// # Assumes
/// As [`natural_modes`] and [`crate::buckling()`]: small vibrations about the state that the linear case gives.
///
/// # Errors
/// As [`natural_modes`]; [`SolveError::Buckled`] where the case buckles the frame, which then has no vibrations to ask for.
///
/// # Source
/// Przemieniecki (1968), Theory of Matrix Structural Analysis, McGraw-Hill, ch. 15 (from memory).
pub fn natural_modes_under(
    model: &Model,
    supports: &[Support],
    carried: &[CarriedInertia],
    under: &CaseResult,
    wanted: ModesWanted,
) -> Result<Modes, SolveError> {
    let under = Some(under);
    ready(model, supports, under, wanted.pieces, |frame| Ok(frame.modes(carried, wanted.count, wanted.mass)?.modes))
}
