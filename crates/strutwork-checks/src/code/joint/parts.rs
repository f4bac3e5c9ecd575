//! What a joint is made of, as the formulas take it.

/// Outside sizes of a hollow section, seen from the plane of chord and brace, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outline {
    /// Square or rectangular.
    Rectangular {
        /// h, in the plane.
        depth: f64,
        /// b, across the plane.
        width: f64,
    },
    /// Circular.
    Round {
        /// d.
        diameter: f64,
    },
}

impl Outline {
    /// h: in the plane; the diameter of a round one.
    pub const fn depth(self) -> f64 {
        match self {
            Self::Rectangular { depth, .. } => depth,
            Self::Round { diameter } => diameter,
        }
    }

    /// b: across the plane; the diameter of a round one.
    pub const fn width(self) -> f64 {
        match self {
            Self::Rectangular { width, .. } => width,
            Self::Round { diameter } => diameter,
        }
    }

    /// Whether it is circular.
    pub const fn is_round(self) -> bool {
        matches!(self, Self::Round { .. })
    }

    /// Whether it is square, to a micrometre.
    pub fn is_square(self) -> bool {
        !self.is_round() && (self.depth() - self.width()).abs() < 1e-6
    }
}

/// The tube that runs through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chord {
    /// Sizes.
    pub outline: Outline,
    /// t₀, m.
    pub wall: f64,
    /// f_y0, Pa.
    pub yield_stress: f64,
    /// E, Pa.
    pub youngs: f64,
    /// A₀, m².
    pub area: f64,
    /// Imperfection factor α of the buckling curve of its side walls: 0.21 hot finished, 0.49 cold formed.
    pub imperfection: f64,
    /// n or n_p: greatest compressive stress in the chord at the joint over f_y0; 0 where nothing is compressed.
    pub stress_ratio: f64,
}

/// The tube that is welded on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brace {
    /// Sizes.
    pub outline: Outline,
    /// t₁, m.
    pub wall: f64,
    /// f_y1, Pa.
    pub yield_stress: f64,
    /// A₁, m².
    pub area: f64,
    /// Plastic moduli for bending in the plane and out of it, m³.
    pub plastic: [f64; 2],
    /// Elastic moduli likewise, m³.
    pub elastic: [f64; 2],
    /// θ between brace and chord, rad, 0 < θ ≤ π/2.
    pub angle: f64,
    /// Whether its force is compression.
    pub compressed: bool,
}

impl Brace {
    /// Plastic resistance of its section to axial force, A₁ f_y1, N: what the efficiency of a joint is measured by.
    pub fn squash(&self) -> f64 {
        self.area * self.yield_stress
    }

    /// The same tube seen as the other's partner.
    pub const fn as_partner(&self) -> Partner {
        Partner {
            outline: self.outline,
            wall: self.wall,
            yield_stress: self.yield_stress,
            area: self.area,
            angle: self.angle,
        }
    }
}

/// The other brace of a K or N joint: it pulls where the brace pushes, and pushes where that pulls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Partner {
    /// Sizes.
    pub outline: Outline,
    /// m.
    pub wall: f64,
    /// Pa.
    pub yield_stress: f64,
    /// m².
    pub area: f64,
    /// θ, rad.
    pub angle: f64,
}

/// How the brace's force is balanced.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Kind {
    /// By shear in the chord: a T joint at 90°, else a Y joint.
    Y,
    /// By a brace on the chord's other side.
    X,
    /// By a brace beside it with a gap between them.
    Gap {
        /// The other.
        partner: Partner,
        /// g between the toes on the chord's face, m; below 0 where they overlap by less than the code's 25 %.
        gap: f64,
        /// e, how far beyond the chord's axis the axes of both braces cross, m; infinite where they do not cross.
        eccentricity: f64,
    },
    /// By a brace beside it that it laps onto, or that laps onto it.
    Overlap {
        /// The other.
        partner: Partner,
        /// Overlap as a share of the overlapping brace's footprint, λ_ov/100.
        share: f64,
        /// Whether this brace is the one on top (i); the other one (j) runs through to the chord.
        on_top: bool,
        /// As for a gap.
        eccentricity: f64,
    },
}

impl Kind {
    /// The letter of the joint for a brace at this angle, rad: T or Y, X, K or N (one of both within 1° of square).
    pub fn letter(self, angle: f64) -> &'static str {
        let square = |angle: f64| angle.to_degrees() > 89.0;
        match self {
            Self::Y if square(angle) => "T",
            Self::Y => "Y",
            Self::X => "X",
            Self::Gap { partner, .. } | Self::Overlap { partner, .. } => {
                if square(angle) || square(partner.angle) {
                    "N"
                } else {
                    "K"
                }
            }
        }
    }

    /// In words: `K gap`, `T`, …
    pub fn word(self, angle: f64) -> &'static str {
        match (self, self.letter(angle)) {
            (Self::Gap { .. }, "N") => "N gap",
            (Self::Gap { .. }, _) => "K gap",
            (Self::Overlap { .. }, "N") => "N overlap",
            (Self::Overlap { .. }, _) => "K overlap",
            (Self::Y | Self::X, letter) => letter,
        }
    }

    /// The clause that the joint is judged by, with the tables of its resistances.
    pub const fn clause(self, chord: Outline, brace: Outline) -> &'static str {
        match (chord.is_round(), brace.is_round(), self) {
            (true, true, Self::Y | Self::X) => "EN 1993-1-8 7.4.2, Tables 7.2 and 7.5 (T, Y, X joint)",
            (true, true, Self::Gap { .. }) => "EN 1993-1-8 7.4.2, Tables 7.2 and 7.5 (K, N joint with a gap)",
            (true, true, Self::Overlap { .. }) => "EN 1993-1-8 7.4.2, Tables 7.2 and 7.5 (K, N joint with overlap)",
            (true, false, _) => "EN 1993-1-8 7.4.2, Table 7.3 (rectangular brace on a round chord)",
            (false, _, Self::Y | Self::X) => "EN 1993-1-8 7.5.2, Tables 7.10, 7.11 and 7.14 (T, Y, X joint)",
            (false, _, Self::Gap { .. }) => "EN 1993-1-8 7.5.2, Tables 7.10, 7.12 and 7.14 (K, N joint with a gap)",
            (false, _, Self::Overlap { .. }) => "EN 1993-1-8 7.5.2, Tables 7.10 and 7.14 (K, N joint with overlap)",
        }
    }

    /// The other brace of a K or N joint.
    pub const fn partner(self) -> Option<Partner> {
        match self {
            Self::Gap { partner, .. } | Self::Overlap { partner, .. } => Some(partner),
            Self::Y | Self::X => None,
        }
    }
}
