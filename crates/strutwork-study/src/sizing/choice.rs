//! What may be chosen: sizes from a list, or an area or a wall between bounds.

use strutwork_model::model::{Section, Shape};
use strutwork_model::spec::SectionEntry;
use strutwork_model::stock::StockSize;
use strutwork_model::units::to_mm;

/// A size that tubes may take.
#[derive(Debug, Clone, PartialEq)]
pub struct Size {
    /// Its name, as the stock list or the user has it.
    pub name: String,
    /// What it is.
    pub section: Section,
    /// Its price a metre, in the user's own money; `None` where only the mass counts.
    pub price_per_m: Option<f64>,
}

impl Size {
    /// A section as a size, by its label.
    pub fn new(section: Section) -> Self {
        Self { name: section.label.clone(), section, price_per_m: None }
    }

    /// A size of the built-in stock list.
    ///
    /// # Errors
    /// As [`StockSize::section`].
    pub fn stock(size: &StockSize) -> Result<Self, strutwork_model::model::section::SectionError> {
        Ok(Self { name: size.name(), section: size.section(size.name())?, price_per_m: None })
    }

    /// With a price a metre.
    #[must_use]
    pub fn priced(self, price_per_m: f64) -> Self {
        Self { price_per_m: Some(price_per_m), ..self }
    }
}

/// What the tubes of one variable may become.
#[derive(Debug, Clone, PartialEq)]
pub enum Choice {
    /// One of these sizes.
    List(Vec<Size>),
    /// Any area between two bounds, m²; all else as `like` has it. For pin-jointed bars.
    Area {
        /// Smallest, m², above 0.
        least: f64,
        /// Largest, m².
        most: f64,
        /// What gives Iy, Iz and J.
        like: Section,
    },
    /// Any wall between two bounds, m; the outside as `like` has it.
    Wall {
        /// Thinnest, m, above 0.
        least: f64,
        /// Thickest, m.
        most: f64,
        /// A hollow section.
        like: Section,
    },
}

/// How the stress in the tubes of a variable is limited beside the limits of the whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxialLimit {
    /// Greatest mean tension, Pa.
    pub tension: f64,
    /// Greatest mean compression, Pa, > 0.
    pub compression: f64,
}

/// Tubes that take one size together.
#[derive(Debug, Clone, PartialEq)]
pub struct Variable {
    /// Its name, unique: mostly that of a group.
    pub name: String,
    /// The tubes, by name.
    pub tubes: Vec<String>,
    /// What they may become.
    pub choice: Choice,
    /// Whether they may be left out altogether. Lists only.
    pub optional: bool,
    /// Limit on their mean axial stress in every case.
    pub axial: Option<AxialLimit>,
}

impl Variable {
    /// A variable that must be there, without a stress limit of its own.
    pub fn new(name: impl Into<String>, tubes: Vec<String>, choice: Choice) -> Self {
        Self { name: name.into(), tubes, choice, optional: false, axial: None }
    }

    /// That may be left out.
    #[must_use]
    pub fn optional(self) -> Self {
        Self { optional: true, ..self }
    }

    /// With a limit on the mean axial stress, Pa.
    #[must_use]
    pub fn within(self, tension: f64, compression: f64) -> Self {
        Self { axial: Some(AxialLimit { tension, compression }), ..self }
    }
}

/// A section as `model.toml` has it.
pub(crate) fn entry(name: &str, section: &Section) -> SectionEntry {
    let mm = |size: f64| Some(to_mm(size).into());
    let bare = SectionEntry { name: name.into(), ..SectionEntry::default() };
    match section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => SectionEntry {
            shape: Some("rectangular".into()),
            height_mm: mm(height),
            width_mm: mm(width),
            wall_mm: mm(wall),
            outer_radius_mm: mm(outer_radius),
            ..bare
        },
        Shape::Round { diameter, wall } => {
            SectionEntry { shape: Some("round".into()), diameter_mm: mm(diameter), wall_mm: mm(wall), ..bare }
        }
        Shape::SolidRound { diameter } => {
            SectionEntry { shape: Some("solid-round".into()), diameter_mm: mm(diameter), ..bare }
        }
        Shape::Flat { height, width } => {
            SectionEntry { shape: Some("flat".into()), height_mm: mm(height), width_mm: mm(width), ..bare }
        }
        Shape::Properties => {
            let fourth = |value: f64| Some((value * 1e12).into());
            SectionEntry {
                shape: Some("properties".into()),
                area_mm2: Some((section.area * 1e6).into()),
                iy_mm4: fourth(section.iy),
                iz_mm4: fourth(section.iz),
                j_mm4: fourth(section.j),
                ..bare
            }
        }
    }
}
