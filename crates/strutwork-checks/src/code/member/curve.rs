//! Buckling curves, and the reduction factor of a slenderness.

/// Buckling curve of Table 6.2.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Curve {
    /// Hot finished hollow sections of steel from 460 MPa on.
    A0,
    /// Hot finished hollow sections.
    A,
    /// Used by no section here; the table has it.
    B,
    /// Cold formed hollow sections, and solid sections.
    C,
    /// Used by no section here; the table has it.
    D,
}

impl Curve {
    /// The curve of a hollow section that was finished hot or formed cold, by its yield strength in Pa; any axis.
    ///
    /// # Source
    /// EN 1993-1-1:2005 Table 6.2 (read in handbooks; S460 from memory).
    pub fn of_tube(is_hot_finished: bool, yield_stress: f64) -> Self {
        // A hair low, for 460 MPa that was computed.
        match (is_hot_finished, yield_stress >= 460e6 * (1.0 - 1e-9)) {
            (true, true) => Self::A0,
            (true, false) => Self::A,
            (false, _) => Self::C,
        }
    }

    /// Imperfection factor α of Table 6.1.
    pub const fn imperfection(self) -> f64 {
        match self {
            Self::A0 => 0.13,
            Self::A => 0.21,
            Self::B => 0.34,
            Self::C => 0.49,
            Self::D => 0.76,
        }
    }

    /// Its letter.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::A0 => "a0",
            Self::A => "a",
            Self::B => "b",
            Self::C => "c",
            Self::D => "d",
        }
    }
}

/// Φ and χ of a slenderness λ̄.
///
/// ```text
/// Φ = 0.5 [1 + α (λ̄ − 0.2) + λ̄²],  χ = 1/(Φ + √(Φ² − λ̄²)) ≤ 1
/// ```
///
/// # Source
/// EN 1993-1-1:2005 6.3.1.2 (read).
pub fn reduction(curve: Curve, slenderness: f64) -> [f64; 2] {
    let phi = 0.5 * (1.0 + curve.imperfection() * (slenderness - 0.2) + slenderness * slenderness);
    let root = (phi * phi - slenderness * slenderness).max(0.0).sqrt();
    [phi, (1.0 / (phi + root)).min(1.0)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn up_to_a_slenderness_of_one_fifth_nothing_is_lost() {
        for curve in [Curve::A0, Curve::A, Curve::B, Curve::C, Curve::D] {
            assert_eq!(reduction(curve, 0.0)[1], 1.0);
            assert!((reduction(curve, 0.2)[1] - 1.0).abs() < 1e-12);
            assert!(reduction(curve, 0.21)[1] < 1.0);
        }
    }

    /// λ̄ = 1: curve a 0.6656, b 0.5970, c 0.5399, d 0.4671 (values that design tables print; worked out from the formula).
    #[test]
    fn values_at_a_slenderness_of_one() {
        let printed =
            [(Curve::A0, 0.7253), (Curve::A, 0.6656), (Curve::B, 0.5970), (Curve::C, 0.5399), (Curve::D, 0.4671)];
        for (curve, value) in printed {
            assert!((reduction(curve, 1.0)[1] - value).abs() < 0.6e-4, "{}", curve.letter());
        }
    }

    #[test]
    fn very_slender_members_tend_to_euler() {
        let chi = reduction(Curve::C, 100.0)[1];
        assert!((chi * 1e4 - 1.0).abs() < 0.01, "{chi}");
    }

    #[test]
    fn curves_by_route_and_strength() {
        assert_eq!(Curve::of_tube(false, 235e6), Curve::C);
        assert_eq!(Curve::of_tube(false, 700e6), Curve::C);
        assert_eq!(Curve::of_tube(true, 355e6), Curve::A);
        assert_eq!(Curve::of_tube(true, 460e6), Curve::A0);
    }
}
