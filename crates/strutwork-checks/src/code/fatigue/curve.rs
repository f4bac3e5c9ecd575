//! The S–N curves for direct stress.

/// Cycles that a detail category is named for.
const AT_CATEGORY: f64 = 2e6;
/// Where the slope changes from 3 to 5.
const AT_KNEE: f64 = 5e6;
/// Where the curve ends: ranges below do no damage.
const AT_CUT_OFF: f64 = 1e8;

/// The kinds of S–N curves for direct stress.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Curve {
    /// Slope 3 to 5 million cycles, then 5.
    Member,
    /// Slope 5 throughout: node joints of lattice girders, Table 8.7.
    NodeJoint,
}

impl Curve {
    /// N_R, cycles to failure under a constant stress range; infinite below the cut-off limit.
    ///
    /// ```text
    /// Member:     N_R = 2·10⁶ (Δσ_C/Δσ)³                Δσ ≥ Δσ_D = (2/5)^(1/3) Δσ_C = 0.737 Δσ_C
    ///             N_R = 5·10⁶ (Δσ_D/Δσ)⁵                Δσ ≥ Δσ_L = (5/100)^(1/5) Δσ_D = 0.549 Δσ_D
    /// NodeJoint:  N_R = 2·10⁶ (Δσ_C/Δσ)⁵                Δσ ≥ Δσ_L = (2/100)^(1/5) Δσ_C = 0.457 Δσ_C
    /// ```
    ///
    /// # Units and shapes
    /// Category (Δσ_C, divided by γ_Mf) and range in one unit.
    ///
    /// # Assumes
    /// The knee and the cut-off of variable ranges, also where all ranges are alike, for which the standard lets ranges
    /// below Δσ_D count nothing.
    ///
    /// # Source
    /// EN 1993-1-9:2005, 7.1(2) and (3), Table 8.7 (from memory).
    pub fn cycles_to_failure(self, category: f64, range: f64) -> f64 {
        let knee = self.knee(category);
        if range < self.cut_off(category) {
            f64::INFINITY
        } else if self == Self::NodeJoint {
            AT_CATEGORY * (category / range).powi(5)
        } else if range < knee {
            AT_KNEE * (knee / range).powi(5)
        } else {
            AT_CATEGORY * (category / range).powi(3)
        }
    }

    /// Δσ_D, where the slope changes; of node joints, whose slope does not, Δσ_C.
    pub fn knee(self, category: f64) -> f64 {
        match self {
            Self::Member => category * (AT_CATEGORY / AT_KNEE).cbrt(),
            Self::NodeJoint => category,
        }
    }

    /// Δσ_L, below which a range does no damage.
    pub fn cut_off(self, category: f64) -> f64 {
        match self {
            Self::Member => self.knee(category) * (AT_KNEE / AT_CUT_OFF).powf(0.2),
            Self::NodeJoint => category * (AT_CATEGORY / AT_CUT_OFF).powf(0.2),
        }
    }
}
