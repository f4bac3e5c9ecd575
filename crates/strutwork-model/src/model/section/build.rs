//! The ways to make a section: each checks that the sizes make a tube.

use super::{Section, Shape, hollow, round, solid};
use crate::units::to_mm;

/// Why sizes make no section.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SectionError {
    /// A size is zero, negative or not a number.
    #[error("the {size} must be greater than 0")]
    NotPositive {
        /// `width`, `wall`, …
        size: &'static str,
    },
    /// The wall leaves no hole.
    #[error("a wall of {} mm leaves no hole in {} mm", mm(*.wall), mm(*.outside))]
    WallTooThick {
        /// m.
        wall: f64,
        /// The smaller outside size, m.
        outside: f64,
    },
    /// The corner radius is negative or more than half the smaller side.
    #[error("an outer corner radius of {} mm does not fit: 0 to {} mm", mm(*.radius), mm(*.most))]
    CornerRadius {
        /// m.
        radius: f64,
        /// m.
        most: f64,
    },
}

impl Section {
    /// A square or rectangular hollow section: height along local z, width along local y.
    ///
    /// # Units and shapes
    /// m. `outer_radius`: `None` for that of EN 10219-2 ([`super::standard_outer_radius`]), 0 for a sharp-cornered
    /// idealisation. The inner radius is the outer less the wall, at least 0.
    ///
    /// # Errors
    /// [`SectionError`] where the sizes make no tube.
    ///
    /// # Source
    /// EN 10219-2 Annex B (from memory).
    ///
    /// # Example
    /// ```
    /// use strutwork_model::model::Section;
    /// let rail = Section::hollow("rail", 0.030, 0.030, 0.002, None)?;
    /// assert_eq!((rail.area * 1e6 * 10.0).round() / 10.0, 213.7);
    /// # Ok::<(), strutwork_model::model::section::SectionError>(())
    /// ```
    pub fn hollow(
        name: impl Into<String>,
        height: f64,
        width: f64,
        wall: f64,
        outer_radius: Option<f64>,
    ) -> Result<Self, SectionError> {
        let radius = outer_radius.unwrap_or_else(|| hollow::standard_outer_radius(wall));
        Self::from_shape(name, Shape::Hollow { height, width, wall, outer_radius: radius })
    }

    /// A circular hollow section.
    ///
    /// # Units and shapes
    /// m.
    ///
    /// # Errors
    /// [`SectionError`] where the sizes make no tube.
    pub fn round(name: impl Into<String>, diameter: f64, wall: f64) -> Result<Self, SectionError> {
        Self::from_shape(name, Shape::Round { diameter, wall })
    }

    /// A section of this shape.
    ///
    /// # Units and shapes
    /// m.
    ///
    /// # Errors
    /// [`SectionError`] where the sizes make no section. A shape of [`Shape::Properties`] says no sizes: it is refused as a
    /// section without area ([`Section::properties`] makes one).
    pub fn from_shape(name: impl Into<String>, shape: Shape) -> Result<Self, SectionError> {
        let name = name.into();
        match shape {
            Shape::Hollow { height, width, wall, outer_radius } => {
                positive(&[("height", height), ("width", width), ("wall", wall)])?;
                let side = height.min(width);
                wall_fits(wall, side)?;
                // A hair wide, for sizes that were divided by 1000.
                if !(0.0..=side / 2.0 * (1.0 + 1e-9)).contains(&outer_radius) {
                    return Err(SectionError::CornerRadius { radius: outer_radius, most: side / 2.0 });
                }
                Ok(hollow::section(name, height, width, wall, outer_radius))
            }
            Shape::Round { diameter, wall } => {
                positive(&[("diameter", diameter), ("wall", wall)])?;
                wall_fits(wall, diameter)?;
                Ok(round::tube(name, diameter, wall))
            }
            Shape::SolidRound { diameter } => {
                positive(&[("diameter", diameter)])?;
                Ok(round::bar(name, diameter))
            }
            Shape::Flat { height, width } => {
                positive(&[("height", height), ("width", width)])?;
                Ok(solid::flat(name, height, width))
            }
            Shape::Properties => Err(SectionError::NotPositive { size: "area" }),
        }
    }

    /// A section of which only the properties are known: checks that need more say so.
    ///
    /// # Units and shapes
    /// A in m²; Iy, Iz, J in m⁴; all greater than 0.
    ///
    /// # Errors
    /// [`SectionError::NotPositive`].
    pub fn properties(name: impl Into<String>, area: f64, iy: f64, iz: f64, j: f64) -> Result<Self, SectionError> {
        positive(&[("area", area), ("second moment Iy", iy), ("second moment Iz", iz), ("torsion constant J", j)])?;
        Ok(solid::properties(name.into(), [area, iy, iz, j]))
    }

    /// The largest outside size across the tube, m; `None` for a section given by its properties.
    pub fn depth(&self) -> Option<f64> {
        match self.shape {
            Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => Some(height.max(width)),
            Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => Some(diameter),
            Shape::Properties => None,
        }
    }

    /// The thickness that strength and welds depend on, m: the wall, or the smaller side of a solid bar.
    pub fn thickness(&self) -> Option<f64> {
        match self.shape {
            Shape::Hollow { wall, .. } | Shape::Round { wall, .. } => Some(wall),
            Shape::SolidRound { diameter } => Some(diameter),
            Shape::Flat { height, width } => Some(height.min(width)),
            Shape::Properties => None,
        }
    }
}

fn positive(sizes: &[(&'static str, f64)]) -> Result<(), SectionError> {
    match sizes.iter().find(|(_, size)| !(*size > 0.0 && size.is_finite())) {
        Some(&(size, _)) => Err(SectionError::NotPositive { size }),
        None => Ok(()),
    }
}

fn wall_fits(wall: f64, outside: f64) -> Result<(), SectionError> {
    if wall < outside / 2.0 { Ok(()) } else { Err(SectionError::WallTooThick { wall, outside }) }
}

/// The four sharp outer corners, (y, z) in m.
pub(super) fn corners(height: f64, width: f64) -> Vec<[f64; 2]> {
    let (y, z) = (width / 2.0, height / 2.0);
    vec![[y, z], [-y, z], [-y, -z], [y, -z]]
}

/// Metres as millimetres without the dust of the division.
pub(super) fn mm(metres: f64) -> f64 {
    (to_mm(metres) * 1e6).round() / 1e6
}
