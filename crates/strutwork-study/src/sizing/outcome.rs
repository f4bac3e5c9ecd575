//! What a search found.

use strutwork_solve::reanalysis::Work;

use super::limits::LimitUse;

/// What one variable took.
#[derive(Debug, Clone, PartialEq)]
pub struct Chosen {
    /// The variable.
    pub variable: String,
    /// The size's name, `left out`, or its area or wall with the unit.
    pub size: String,
    /// A, mm²; 0 for what is left out.
    pub area_mm2: f64,
    /// The wall, mm; `None` where it has none.
    pub wall_mm: Option<f64>,
}

/// A design that keeps to all limits.
#[derive(Debug, Clone, PartialEq)]
pub struct SizedDesign {
    /// One a variable, in their order.
    pub chosen: Vec<Chosen>,
    /// Mass of all tubes, kg.
    pub mass_kg: f64,
    /// Price of the tubes that were chosen; `None` where mass is the aim.
    pub price: Option<f64>,
    /// How near it comes to each limit, nearest first.
    pub limits: Vec<LimitUse>,
    /// Checks whose clause does not cover their item: they are no pass.
    pub outside_scope: usize,
}

impl SizedDesign {
    /// The limits that it reaches within a hundredth.
    pub fn active(&self) -> impl Iterator<Item = &LimitUse> {
        self.limits.iter().filter(|limit| limit.utilisation >= 0.99)
    }
}

/// How sure it is that nothing better is there.
#[derive(Debug, Clone, PartialEq)]
pub enum Proof {
    /// Every choice that is cheaper was tried and breaks a limit.
    Proven {
        /// How many there were.
        cheaper: usize,
    },
    /// Sizes between bounds: a minimum among its neighbours. No such search can see every corner.
    Local {
        /// Change of the sizes in the last step, as a share.
        last_change: f64,
    },
    /// The best that was found: cheaper choices were left untried.
    BestFound {
        /// The least that any choice between the sizes of the lists reached, in the unit of the aim: a local minimum, so a
        /// measure of the gap and not a bound. `None` where it was not found.
        relaxed: Option<f64>,
    },
    /// No choice that was tried keeps to the limits.
    NothingKept {
        /// The limit that was broken least badly at the best design tried, in words; or why no frame could be solved.
        nearest: String,
    },
}

/// Work done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
    /// Frames solved in the search.
    pub solutions: usize,
    /// Symbolic analyses that all frames of the search share.
    pub analyses: u64,
    /// How those frames were solved.
    pub work: Work,
    /// Sets of derivatives.
    pub derivatives: usize,
    /// Adjoint and own right-hand sides that the derivatives took.
    pub derivative_solves: u64,
    /// Steps of the search between the sizes.
    pub relaxed_steps: usize,
}

impl Effort {
    /// With what was counted while solving.
    pub(super) fn counted(self, frame: &super::frame::Frame<'_>) -> Self {
        let (prepared, work) = frame.work();
        Self { analyses: prepared.symbolic_analyses, work, ..self }
    }
}

/// What a search found.
#[derive(Debug, Clone, PartialEq)]
pub struct SizingOutcome {
    /// The best design; `None` where none keeps to the limits.
    pub best: Option<SizedDesign>,
    /// The next best that were found, best first.
    pub runners_up: Vec<SizedDesign>,
    /// How sure it is.
    pub proof: Proof,
    /// How it was found, a sentence a step.
    pub how: Vec<String>,
    /// Work done.
    pub effort: Effort,
}
