//! What every check of steel starts from: strength, partial factors, and the verdict it ends with.

/// Factors that strengths are divided by.
///
/// # Source
/// EN 1993-1-1 6.1 and EN 1993-1-8 Table 2.1: recommended 1.00, 1.00, 1.25, 1.00 (from memory; γ_M2 = 1.25 read in several
/// design guides).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Partial {
    /// γ_M0: cross-sections.
    pub m0: f64,
    /// γ_M1: members against buckling.
    pub m1: f64,
    /// γ_M2: fracture, bolts, welds.
    pub m2: f64,
    /// γ_M5: joints of hollow sections.
    pub m5: f64,
}

impl Partial {
    /// All 1.
    pub const NONE: Self = Self { m0: 1.0, m1: 1.0, m2: 1.0, m5: 1.0 };

    /// The recommended values.
    pub const RECOMMENDED: Self = Self { m0: 1.0, m1: 1.0, m2: 1.25, m5: 1.0 };
}

/// What a check says of one place in one case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// Value over limit: above 1 the limit is exceeded. Where nothing can be carried it is [`super::profile::MOST`].
    pub utilisation: f64,
    /// The clause that governs.
    pub clause: &'static str,
    /// Why the clause does not cover this; then it is no pass.
    pub outside: Option<&'static str>,
}

impl Verdict {
    /// Nothing acts.
    pub const NONE: Self = Self { utilisation: 0.0, clause: "", outside: None };

    /// A verdict that the clause covers.
    pub fn of(utilisation: f64, clause: &'static str) -> Self {
        Self { utilisation, clause, outside: None }
    }

    /// The one with the greater utilisation; the first of equals.
    #[must_use]
    pub fn worse(self, other: Self) -> Self {
        if other.utilisation > self.utilisation { other } else { self }
    }
}
