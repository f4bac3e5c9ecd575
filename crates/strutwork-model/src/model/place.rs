//! Places of the vehicle at which a case acts: belt and seat anchorages, hoops, towing eye, jacking points.

use super::Carrier;
use crate::ids::{PanelId, TubeId};

/// A place at which a standard case acts: a table `[places.NAME]`.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// Its name, unique.
    pub name: String,
    /// What it is for.
    pub role: Role,
    /// Places that act together, such as the anchorages of one seat; empty for none.
    pub group: String,
    /// What takes the force. Never [`Carrier::Upright`].
    pub carrier: Carrier,
    /// Where the force acts, m, global axes; the mean of its joints where not given.
    pub at: [f64; 3],
    /// Mass that counts at this place, kg, such as a seat's; `None` where not given.
    pub mass: Option<f64>,
}

/// What a place is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// A lower anchorage of a belt.
    LapBelt,
    /// An upper anchorage of a belt.
    ShoulderBelt,
    /// Where a seat is fixed.
    Seat,
    /// The top of the main roll hoop.
    MainHoop,
    /// The top of the front roll hoop.
    FrontHoop,
    /// A towing eye.
    TowingEye,
    /// A jacking point.
    Jack,
}

impl Role {
    /// All, in order.
    pub const ALL: [Self; 7] =
        [Self::LapBelt, Self::ShoulderBelt, Self::Seat, Self::MainHoop, Self::FrontHoop, Self::TowingEye, Self::Jack];

    /// Its word in files.
    pub const fn word(self) -> &'static str {
        match self {
            Self::LapBelt => "lap-belt",
            Self::ShoulderBelt => "shoulder-belt",
            Self::Seat => "seat",
            Self::MainHoop => "main-hoop",
            Self::FrontHoop => "front-hoop",
            Self::TowingEye => "towing-eye",
            Self::Jack => "jack",
        }
    }

    /// The role with this word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }
}

/// What the scales say, to compare with what the model weighs.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// The bare frame, kg.
    pub frame: Option<f64>,
    /// The whole vehicle as described by the masses, kg.
    pub vehicle: Option<f64>,
    /// Each wheel, kg, in the order of [`Wheel::ALL`](super::Wheel::ALL).
    pub corners: [Option<f64>; 4],
    /// How far the scales may be out either way, kg.
    pub tolerance: f64,
    /// The weighing with one axle raised.
    pub raised: Option<Raised>,
    /// Parts on the scales, in input order.
    pub parts: Vec<WeighedPart>,
}

/// A weighing with one axle raised, for the height of the centre of gravity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Raised {
    /// The axle that was raised: 0 front, 1 rear.
    pub axle: usize,
    /// How far its wheels stood above those of the other axle, m.
    pub by: f64,
    /// What the wheels of the other, lower axle weighed together then, kg.
    pub lower: f64,
}

/// A part on the scales: a row of `weighed.csv`.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedPart {
    /// What it is in the model.
    pub what: Weighable,
    /// Its name as written.
    pub name: String,
    /// What the scales say, kg.
    pub kg: f64,
    /// How far the scales may be out either way, kg.
    pub tolerance: f64,
    /// The line of the file; 0 where it comes from elsewhere.
    pub line: usize,
}

/// A part of the model that can be weighed by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighable {
    /// A mass of `masses.csv`, by its row.
    Mass(usize),
    /// All tubes of a group; the first of them stands for it.
    Group(TubeId),
    /// One tube.
    Tube(TubeId),
    /// A panel.
    Panel(PanelId),
}
