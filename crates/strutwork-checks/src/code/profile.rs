//! A cross-section as the formulas for steel take it, and the forces in it.

use crate::calculation::{Sink, Unit};

/// Outside sizes and wall, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Form {
    /// Square or rectangular hollow section.
    Rectangular {
        /// h, along z.
        height: f64,
        /// b, along y.
        width: f64,
        /// t.
        wall: f64,
    },
    /// Circular hollow section.
    Round {
        /// d.
        diameter: f64,
        /// t.
        wall: f64,
    },
    /// Solid round bar.
    SolidRound {
        /// d.
        diameter: f64,
    },
    /// Solid flat bar.
    Flat {
        /// h, along z.
        height: f64,
        /// b, along y.
        width: f64,
    },
}

impl Form {
    /// Whether bending about y and z acts as one moment, and both shears as one force: round sections.
    pub const fn is_round(self) -> bool {
        matches!(self, Self::Round { .. } | Self::SolidRound { .. })
    }

    /// Whether it is a tube.
    pub const fn is_hollow(self) -> bool {
        matches!(self, Self::Rectangular { .. } | Self::Round { .. })
    }
}

/// A cross-section and its steel; pairs stand for the axes y and z.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profile {
    /// Sizes.
    pub form: Form,
    /// A, m².
    pub area: f64,
    /// I_y and I_z, m⁴.
    pub second: [f64; 2],
    /// W_el,y and W_el,z, m³.
    pub elastic: [f64; 2],
    /// W_pl,y and W_pl,z, m³.
    pub plastic: [f64; 2],
    /// W_t: greatest shear stress of a torque is T/W_t, m³.
    pub torsion: f64,
    /// A_v for shear forces along y and along z, m²; for solid bars that of the greatest elastic stress.
    pub shear: [f64; 2],
    /// f_y, Pa.
    pub yield_stress: f64,
    /// E, Pa.
    pub youngs: f64,
}

impl Profile {
    /// ε = √(235 MPa / f_y).
    pub fn epsilon(&self) -> f64 {
        (235e6 / self.yield_stress).sqrt()
    }

    /// i_y and i_z = √(I/A), m.
    pub fn radii(&self) -> [f64; 2] {
        self.second.map(|second| (second / self.area).sqrt())
    }

    /// Writes the sizes.
    pub(super) fn write_sizes(&self, sink: &mut impl Sink) {
        match self.form {
            Form::Rectangular { height, width, wall } => {
                sink.given("h", height, Unit::MM, "outside, along z");
                sink.given("b", width, Unit::MM, "outside, along y");
                sink.given("t", wall, Unit::MM, "wall");
            }
            Form::Round { diameter, wall } => {
                sink.given("d", diameter, Unit::MM, "outside");
                sink.given("t", wall, Unit::MM, "wall");
            }
            Form::SolidRound { diameter } => sink.given("d", diameter, Unit::MM, "solid round bar"),
            Form::Flat { height, width } => {
                sink.given("h", height, Unit::MM, "flat bar, along z");
                sink.given("b", width, Unit::MM, "flat bar, along y");
            }
        }
    }

    /// Writes f_y.
    pub(super) fn write_strength(&self, sink: &mut impl Sink) {
        sink.given("f_y", self.yield_stress, Unit::MPA, "yield strength of the material away from welds");
    }
}

/// Section forces at one place, N and N·m: N is positive in tension, the others enter by their magnitude.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Forces {
    /// N.
    pub n: f64,
    /// M_y and M_z.
    pub moment: [f64; 2],
    /// V_y and V_z.
    pub shear: [f64; 2],
    /// T.
    pub torque: f64,
}

impl Forces {
    /// The forces that are held against a strength: each times `margin`, and of all but N the magnitude.
    pub fn with_margin(self, margin: f64, why: &str, sink: &mut impl Sink) -> Self {
        let acting = Self {
            n: margin * self.n,
            moment: self.moment.map(|moment| margin * moment.abs()),
            shear: self.shear.map(|shear| margin * shear.abs()),
            torque: margin * self.torque.abs(),
        };
        if sink.writes() {
            sink.given("margin", margin, Unit::ONE, why);
            sink.given("N", self.n, Unit::N, "from the analysis; tension is positive");
            let with = [("margin", margin, Unit::ONE), ("N", self.n, Unit::N)];
            sink.step("N_Ed", "margin · N", &with, acting.n, Unit::N, "");
            let others = [
                ("M_y", self.moment[0], "M_y,Ed", acting.moment[0], Unit::NM),
                ("M_z", self.moment[1], "M_z,Ed", acting.moment[1], Unit::NM),
                ("V_y", self.shear[0], "V_y,Ed", acting.shear[0], Unit::N),
                ("V_z", self.shear[1], "V_z,Ed", acting.shear[1], Unit::N),
                ("T", self.torque, "T_Ed", acting.torque, Unit::NM),
            ];
            for (symbol, value, design, result, unit) in others {
                sink.given(symbol, value, unit, "from the analysis");
                let with = [("margin", margin, Unit::ONE), (symbol, value, unit)];
                sink.step(design, &format!("margin · |{symbol}|"), &with, result, unit, "");
            }
        }
        acting
    }
}

/// Ratios above this are told as this: over a thousand times its limit no number tells more, and findings stay finite.
pub const MOST: f64 = 1000.0;

/// What acts over what can be carried, at most [`MOST`]; nothing acting is nothing.
#[inline]
pub(super) fn share(acting: f64, resistance: f64) -> f64 {
    if acting <= 0.0 {
        0.0
    } else if resistance <= 0.0 {
        MOST
    } else {
        (acting / resistance).min(MOST)
    }
}
