//! What the check of a bolt is asked with: the bolt, what acts on it, what it goes through.

use super::{Face, Ply};

/// A bolt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bolt {
    /// d, m.
    pub diameter: f64,
    /// d_0, m.
    pub hole: f64,
    /// A_s, m².
    pub stress_area: f64,
    /// s, across the flats of head and nut, m.
    pub flats: f64,
    /// e, across their points, m.
    pub points: f64,
    /// f_yb, Pa.
    pub yield_stress: f64,
    /// f_ub, Pa.
    pub ultimate: f64,
    /// α_v where the thread is in the shear plane.
    pub thread_in_shear: f64,
    /// Whether the shank, not the thread, is in every shear plane.
    pub shank_in_shear: bool,
    /// Planes that share the shear force, 1 or 2.
    pub planes: u8,
    /// Whether its head is countersunk.
    pub countersunk: bool,
    /// Whether its thread is made to inch standards.
    pub inch: bool,
    /// Whether EN 1993-1-8 Table 3.1 has its class.
    pub class_in_code: bool,
}

/// What acts on a bolt, margin included, N, each ≥ 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Acting {
    /// The bolt's axis is known.
    Split {
        /// F_t,Ed along it, taken as tension whichever way it acts.
        tension: f64,
        /// F_v,Ed across it.
        shear: f64,
    },
    /// The bolt's axis is not known: F_Ed acts in its worst direction.
    Whole(f64),
}

/// What a bolt goes through on the frame's side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Through {
    /// Not known, and why.
    Unknown(&'static str),
    /// Both walls of a tube.
    Walls(Ply, Face),
    /// A sleeve that is welded into both walls of a tube.
    Sleeve(Sleeve, Ply, Face),
    /// A plate.
    Plate(Ply),
}

/// A sleeve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sleeve {
    /// D_s, outside, m.
    pub outer: f64,
    /// t_s, m.
    pub wall: f64,
    /// f_y, Pa.
    pub yield_stress: f64,
}
