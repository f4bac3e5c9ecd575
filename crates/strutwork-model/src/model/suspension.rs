//! What stands between a wheel and the frame.

use super::Carrier;

/// What stands between a wheel's contact patch and the frame.
#[derive(Debug, Clone, PartialEq)]
pub enum Suspension {
    /// Wheel, upright and links are one rigid piece with what carries it: the wheel's force reaches it statically
    /// equivalent. Never [`Carrier::Upright`].
    Rigid(Carrier),
    /// The upright is held by links whose forces follow from its equilibrium: six unknown forces in all.
    Linked(Vec<Link>),
}

/// A link between upright and frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
    /// Its name, unique within its corner.
    pub name: String,
    /// Which forces it can carry.
    pub kind: LinkKind,
    /// Its end on the upright, m, global axes.
    pub upright: [f64; 3],
    /// Its end on the frame, m, global axes.
    pub chassis: [f64; 3],
    /// What takes its force on the frame's side. Never [`Carrier::Upright`].
    pub carrier: Carrier,
}

/// Which forces a link can carry between upright and frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LinkKind {
    /// One, along its two ends: wishbone legs, track rod, pushrod.
    Link,
    /// One, along its two ends, and it is the spring: its force is reported against the wheel's load.
    Spring,
    /// Three at its end on the frame: the spring force along its two ends, and two across (a strut, whose tube is part of
    /// the upright).
    Strut,
    /// Three at its end on the frame, in any direction: a ball joint (a trailing arm's pivot, the arm being the upright).
    Pivot,
    /// Two at its end on the frame, across the line of its two ends: a pivot that can slide along that line.
    Guide,
}

impl LinkKind {
    /// All, in order.
    pub const ALL: [Self; 5] = [Self::Link, Self::Spring, Self::Strut, Self::Pivot, Self::Guide];

    /// Its word in files: `link`, `spring`, `strut`, `pivot`, `guide`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Link => "link",
            Self::Spring => "spring",
            Self::Strut => "strut",
            Self::Pivot => "pivot",
            Self::Guide => "guide",
        }
    }

    /// How many unknown forces it brings.
    pub const fn unknowns(self) -> usize {
        match self {
            Self::Link | Self::Spring => 1,
            Self::Strut | Self::Pivot => 3,
            Self::Guide => 2,
        }
    }
}

/// What belongs to both wheels of one axle.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Axle {
    /// Radius of the loaded tyre: height of the wheel's centre above the contact patch, m; `None` where not given.
    pub wheel_radius: Option<f64>,
    /// Whether the brakes sit on the frame's side of the drive shafts, so that their torque does not act on the upright.
    pub inboard_brakes: bool,
    /// What takes the reaction of the drive shafts' torque (final drive, inboard brakes). `None`: torque of brakes and
    /// drive is taken to react on the corner. Never [`Carrier::Upright`].
    pub shaft_reaction: Option<Carrier>,
    /// Roll stiffness of springs, bars and tyres at this axle, N·m/rad; `None` where not given.
    pub roll_stiffness: Option<f64>,
}
