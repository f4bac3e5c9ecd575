//! A motion that the links leave free, told as a fabricator would see it.

use std::fmt;

use nalgebra::{Vector3, Vector6};
use strutwork_model::units::{DEG, to_mm};

/// A turn counts as none where no point within reach moves by this share of the motion through it.
const NO_TURN: f64 = 1e-6;

/// A motion of an upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Motion {
    /// About an axis.
    Turn {
        /// Unit vector along the axis, global axes.
        axis: [f64; 3],
        /// A point of the axis, the nearest to the contact point, m.
        through: [f64; 3],
        /// How far it slides along the axis as it turns, m/rad; 0 for a pure turn.
        pitch: f64,
    },
    /// Along a direction, without turning.
    Slide {
        /// Unit vector, global axes.
        direction: [f64; 3],
    },
}

impl Motion {
    /// From a motion that does no work on the links: movement of a point, then turn times `reach`.
    pub(super) fn of(motion: &Vector6<f64>, reach: f64, point: Vector3<f64>) -> Self {
        let (slide, turn) = (motion.fixed_rows::<3>(0).into_owned(), motion.fixed_rows::<3>(3) / reach);
        if turn.norm() * reach <= NO_TURN * motion.norm() {
            return Self::Slide { direction: facing(slide).into() };
        }
        let axis = facing(turn);
        let through = point + turn.cross(&slide) / turn.norm_squared();
        let pitch = turn.dot(&slide) / turn.norm_squared();
        let pitch = if pitch.abs() <= NO_TURN * reach { 0.0 } else { pitch };
        Self::Turn { axis: axis.into(), through: through.into(), pitch }
    }
}

/// The unit vector of a direction, its greatest component positive: an axis has no sense.
fn facing(direction: Vector3<f64>) -> Vector3<f64> {
    let unit = direction.try_normalize(0.0).unwrap_or_default();
    if unit[unit.iamax()] < 0.0 { -unit } else { unit }
}

/// A direction in words: `x`, `y`, `z`, or its components.
fn along(direction: [f64; 3]) -> String {
    let named = ["x", "y", "z"].into_iter().zip(direction).find(|(_, part)| part.abs() > 1.0 - 1e-6);
    match named {
        Some((name, _)) => name.to_owned(),
        None => {
            // No negative zero in front of a reader.
            let [x, y, z] = direction.map(|part| (part * 1e3).round() / 1e3 + 0.0);
            format!("the direction ({x:.3}, {y:.3}, {z:.3})")
        }
    }
}

impl fmt::Display for Motion {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match *self {
            Self::Slide { direction } => write!(f, "slide along {}", along(direction)),
            Self::Turn { axis, through, pitch } => {
                let [x, y, z] = through.map(|metres| (to_mm(metres) * 10.0).round() / 10.0 + 0.0);
                write!(f, "turn about the axis along {} through ({x:.1}, {y:.1}, {z:.1}) mm", along(axis))?;
                if pitch == 0.0 {
                    return Ok(());
                }
                write!(f, " while it slides along it by {:.3} mm for each degree", to_mm(pitch * DEG))
            }
        }
    }
}
