//! How far sizes and places may be off, and how they vary within that.

use strutwork_model::units::MM;

use super::BandFault;

/// How far sizes and places may be off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerances {
    /// Wall, as a share either way. EN 10219-2 allows 0.10 for walls up to 5 mm.
    ///
    /// # Source
    /// EN 10219-2:2006, as the Blue Book of Steel for Life prints it (tolerances, cold-formed square and rectangular hollow
    /// sections: t ≤ 5 mm ± 10 %, above ± 0.5 mm); the standard itself was not at hand.
    pub wall: f64,
    /// Height, width, diameter.
    pub outside: OutsideTolerance,
    /// Each coordinate of each joint, m either way: what a jig and a tape reach (common practice, no source).
    pub joints: f64,
    /// How values lie within their tolerance.
    pub spread: Spread,
    /// Which tubes vary together.
    pub sharing: Sharing,
    /// Draws whose cross-section is off by more than this share are drawn again: EN 10219-2 allows a length 0.06 of its mass.
    /// `None` lets the wall go to its own tolerance on all sides at once.
    ///
    /// # Source
    /// As [`Tolerances::wall`].
    pub mass: Option<f64>,
}

impl Default for Tolerances {
    /// Walls and outsides after EN 10219-2, joints ± 2 mm, evenly spread, each bar of 6 m by itself.
    fn default() -> Self {
        Self {
            wall: 0.10,
            outside: OutsideTolerance::En10219,
            joints: 2.0 * MM,
            spread: Spread::Even,
            sharing: Sharing::Bar { length: 6.0 },
            mass: None,
        }
    }
}

/// How far the outside of a tube may be off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutsideTolerance {
    /// Not at all.
    None,
    /// EN 10219-2: sides below 100 mm and diameters ± 1 %, at least ± 0.5 mm; sides to 200 mm ± 0.8 %; above ± 0.6 %.
    ///
    /// # Source
    /// As [`Tolerances::wall`]; those of diameters from memory.
    En10219,
}

impl OutsideTolerance {
    /// Either way, m.
    pub(super) fn of(self, size: f64, round: bool) -> f64 {
        match self {
            Self::None => 0.0,
            Self::En10219 if round || size < 100.0 * MM => (0.01 * size).max(0.5 * MM),
            Self::En10219 if size <= 200.0 * MM => 0.008 * size,
            Self::En10219 => 0.006 * size,
        }
    }
}

/// How values lie within their tolerance.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spread {
    /// Evenly: the most that a mill and a shop within their tolerances can scatter without leaning to one side.
    Even,
    /// As a bell: normal with the tolerance at two standard deviations, what lies beyond drawn again.
    Bell,
}

impl Spread {
    /// Variance of a value with the tolerance ± 1.
    ///
    /// Even: 1/3. Bell: σ² (1 − 2·2 φ(2)/(2 Φ(2) − 1)) with σ = 1/2.
    pub(super) fn variance(self) -> f64 {
        match self {
            Self::Even => 1.0 / 3.0,
            Self::Bell => {
                // φ(2) and Φ(2), to all digits of f64.
                let (density, below) = (0.053_990_966_513_188_06, 0.977_249_868_051_820_8);
                0.25 * (1.0 - 4.0 * density / (2.0 * below - 1.0))
            }
        }
    }
}

/// Which tubes vary together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Sharing {
    /// Each tube by itself.
    Tube,
    /// Tubes cut from one bar: those of one section and material, in the order of the model, each from the first bar that is still
    /// long enough.
    Bar {
        /// m.
        length: f64,
    },
    /// All tubes of one section and material, as from one delivery.
    Section,
}

impl Tolerances {
    /// Whether they say sense.
    pub(super) fn check(&self) -> Result<(), BandFault> {
        let within = |what, value: f64, most: f64, range| {
            let good = (0.0..=most).contains(&value);
            if good { Ok(()) } else { Err(BandFault::OutOfRange { what, value, range }) }
        };
        within("the tolerance of walls", self.wall, 0.5, "0 to 0.5, a share of the wall")?;
        within("the tolerance of joints", self.joints, 0.1, "0 to 0.1 m")?;
        if let Some(mass) = self.mass
            && !(mass > 0.0 && mass <= 1.0)
        {
            let range = "above 0, to 1, a share of the mass";
            return Err(BandFault::OutOfRange { what: "the tolerance of mass", value: mass, range });
        }
        if let Sharing::Bar { length } = self.sharing
            && !(length > 0.0 && length.is_finite())
        {
            return Err(BandFault::OutOfRange { what: "the length of a bar", value: length, range: "above 0 m" });
        }
        Ok(())
    }
}
