//! Links that do not hold their upright: why, and what to do.

use std::fmt;

use super::Motion;

/// Why the links of a corner do not hold its upright.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum UprightFault {
    /// More unknown forces than a free body has equations.
    TooMany {
        /// How many.
        unknowns: usize,
    },
    /// A motion that no link resists.
    Free {
        /// How many unknown forces there are.
        unknowns: usize,
        /// How many independent motions are free.
        motions: usize,
        /// One of them.
        motion: Motion,
    },
    /// A motion that the links hardly resist.
    Hardly {
        /// The link forces that a unit force makes.
        amplified: f64,
        /// The greatest that is accepted.
        limit: f64,
        /// The motion.
        motion: Motion,
    },
}

impl fmt::Display for UprightFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooMany { unknowns } => write!(
                f,
                "is held by {unknowns} unknown forces, and statics gives six equations: the forces do not follow from it"
            ),
            Self::Free { unknowns, motions, motion } => {
                write!(f, "is not held by its links: it can {motion}")?;
                if *unknowns < 6 {
                    write!(f, "; they bring {unknowns} unknown forces, and it takes six")?;
                }
                if *motions > 1 {
                    write!(f, "; this is one of {motions} motions that are free")?;
                }
                Ok(())
            }
            Self::Hardly { amplified, limit, motion } => write!(
                f,
                "is hardly held by its links: it can almost {motion}, and a unit force there makes link forces of \
                 {amplified:.0} times it, where at most {limit:.0} is accepted"
            ),
        }
    }
}

impl UprightFault {
    /// What to do about it.
    pub const fn help(&self) -> &'static str {
        match self {
            Self::TooMany { .. } => {
                "take links out, or give them other kinds, until their forces number six: link and spring bring 1, guide 2, \
                 strut and pivot 3"
            }
            Self::Free { motion: Motion::Turn { .. }, .. } | Self::Hardly { motion: Motion::Turn { .. }, .. } => {
                "check the links' hard points in suspension.csv: one link must pull past that axis, neither through it nor \
                 along it"
            }
            Self::Free { motion: Motion::Slide { .. }, .. } | Self::Hardly { motion: Motion::Slide { .. }, .. } => {
                "check the links' hard points in suspension.csv: one link must pull along that direction"
            }
        }
    }
}
