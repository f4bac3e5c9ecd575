//! A judgement on a result: what was found, against which limit, by which clause.

use strutwork_model::{Code, JointId, Severity, TubeId};

/// What a finding is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Subject {
    /// The frame as a whole.
    Frame,
    /// A joint.
    Joint(JointId),
    /// A tube.
    Tube(TubeId),
}

/// One judgement. `Severity::Error` means that a limit is exceeded.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Stable code: `T…` trust, `D…` design, `L…` loads.
    pub code: Code,
    /// Note: passed, or good to know; warning: look at it; error: exceeds its limit.
    pub severity: Severity,
    /// The case; empty where it holds for all.
    pub case: String,
    /// What it is about.
    pub subject: Subject,
    /// The value, in `unit`.
    pub value: f64,
    /// The limit, in `unit`; `None` where there is none.
    pub limit: Option<f64>,
    /// The door unit of value and limit; empty for a ratio.
    pub unit: &'static str,
    /// Value over limit; `None` where there is no limit.
    pub utilisation: Option<f64>,
    /// Clause or rule that the limit comes from.
    pub clause: String,
    /// In the fabricator's words.
    pub message: String,
}
