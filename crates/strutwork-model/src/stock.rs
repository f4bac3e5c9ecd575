//! The built-in list of stock tube sizes. What a stockholder has is for the user to find out.

use crate::model::Section;
use crate::model::section::SectionError;
use crate::units::MM;

/// The shape of a stock tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StockShape {
    /// Square hollow.
    Square,
    /// Rectangular hollow.
    Rectangular,
    /// Circular hollow.
    Round,
}

/// A size that tube is sold in, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockSize {
    /// Its shape.
    pub shape: StockShape,
    /// Along local z; the diameter of a round tube.
    pub height_mm: f64,
    /// Along local y; the diameter of a round tube.
    pub width_mm: f64,
    /// Wall.
    pub wall_mm: f64,
    /// Where the size is listed.
    pub source: &'static str,
    /// Whether the list was read; `false`: from memory.
    pub verified: bool,
}

impl StockSize {
    /// Its name, as `stock = "…"` in `model.toml` takes it: `square 30x2`, `rectangular 40x20x2`, `round 42.4x2.5`.
    pub fn name(&self) -> String {
        let (height, width, wall) = (self.height_mm, self.width_mm, self.wall_mm);
        match self.shape {
            StockShape::Square => format!("square {height}x{wall}"),
            StockShape::Rectangular => format!("rectangular {height}x{width}x{wall}"),
            StockShape::Round => format!("round {height}x{wall}"),
        }
    }

    /// The section of this size, with the corner radii of EN 10219-2.
    ///
    /// # Errors
    /// None for the built-in list; [`SectionError`] for sizes of the caller's own that make no tube.
    pub fn section(&self, name: impl Into<String>) -> Result<Section, SectionError> {
        match self.shape {
            StockShape::Round => Section::round(name, self.height_mm * MM, self.wall_mm * MM),
            StockShape::Square | StockShape::Rectangular => {
                Section::hollow(name, self.height_mm * MM, self.width_mm * MM, self.wall_mm * MM, None)
            }
        }
    }
}

/// The stock size that a text names: `square 30x2`, `Square 30 × 30 × 2 mm`, `rectangular 40x20x2`, `round 42.4x2.5`.
pub fn find(text: &str) -> Option<StockSize> {
    let text = text.trim().to_lowercase();
    let (word, sizes) = text.split_once(' ')?;
    let sizes: Vec<f64> =
        sizes.trim_end_matches("mm").split(['x', '×']).map(|size| size.trim().parse().ok()).collect::<Option<_>>()?;
    let (shape, [height, width, wall]) = match (word, sizes.as_slice()) {
        ("square", &[side, wall]) => (StockShape::Square, [side, side, wall]),
        ("square", &[height, width, wall]) => (StockShape::Square, [height, width, wall]),
        ("rectangular", &[height, width, wall]) => (StockShape::Rectangular, [height, width, wall]),
        ("round", &[diameter, wall]) => (StockShape::Round, [diameter, diameter, wall]),
        _ => return None,
    };
    all().find(|size| size.shape == shape && [size.height_mm, size.width_mm, size.wall_mm] == [height, width, wall])
}

/// Sizes of one shape with one source.
struct Listed {
    shape: StockShape,
    source: &'static str,
    verified: bool,
    /// Height, width, walls.
    sizes: &'static [(f64, f64, &'static [f64])],
}

const LISTS: &[Listed] = &[
    Listed {
        shape: StockShape::Square,
        source: "EN 10305-5 or gauge sizes, thinner than EN 10219-2 lists (from memory)",
        verified: false,
        sizes: &[
            (19.05, 19.05, &[1.626]),
            (20.0, 20.0, &[1.5]),
            (25.0, 25.0, &[1.5]),
            (25.4, 25.4, &[1.626]),
            (30.0, 30.0, &[1.5]),
            (32.0, 32.0, &[1.5]),
            (38.1, 38.1, &[1.626]),
            (40.0, 40.0, &[1.5]),
            (50.0, 50.0, &[1.5]),
            (60.0, 60.0, &[1.5]),
        ],
    },
    Listed {
        shape: StockShape::Square,
        source: "RoyMech, table \"Square Hollow Sections – Cold Formed BS EN 10219:1997\" (read)",
        verified: true,
        sizes: &[
            (20.0, 20.0, &[2.0, 2.5]),
            (25.0, 25.0, &[2.0, 2.5, 3.0]),
            (30.0, 30.0, &[2.0, 2.5, 3.0]),
            (40.0, 40.0, &[2.0, 2.5, 3.0, 4.0]),
            (50.0, 50.0, &[2.0, 2.5, 3.0, 4.0, 5.0]),
            (60.0, 60.0, &[2.0, 3.0, 4.0, 5.0]),
        ],
    },
    Listed {
        shape: StockShape::Rectangular,
        source: "steel trade table \"Rectangular structural hollow sections EN 10219:2006\" (read in part)",
        verified: true,
        sizes: &[
            (40.0, 20.0, &[2.0, 3.0]),
            (40.0, 30.0, &[2.5, 3.0]),
            (50.0, 30.0, &[2.0, 2.5, 4.0]),
            (60.0, 40.0, &[2.0, 3.0]),
        ],
    },
    Listed {
        shape: StockShape::Round,
        source: "tube catalogue \"Circular hollow sections – cold formed\" (read in part)",
        verified: true,
        sizes: &[
            (21.3, 21.3, &[2.0, 2.5]),
            (26.9, 26.9, &[2.0, 3.0]),
            (33.7, 33.7, &[2.5, 3.0]),
            (42.4, 42.4, &[2.0, 2.5, 4.0]),
            (48.3, 48.3, &[2.0, 2.5, 3.0, 5.0]),
            (60.3, 60.3, &[2.0, 2.5, 4.0, 5.0]),
        ],
    },
    Listed {
        shape: StockShape::Round,
        source: "FIA Appendix J article 253, cold-drawn seamless tube of safety cages (quotations of it were read)",
        verified: true,
        sizes: &[(38.0, 38.0, &[2.5]), (40.0, 40.0, &[2.0]), (45.0, 45.0, &[2.5]), (50.0, 50.0, &[2.0])],
    },
];

/// Every stock size, list by list, each from small to large.
pub fn all() -> impl Iterator<Item = StockSize> {
    LISTS.iter().flat_map(|list| {
        list.sizes.iter().flat_map(move |&(height_mm, width_mm, walls)| {
            walls.iter().map(move |&wall_mm| StockSize {
                shape: list.shape,
                height_mm,
                width_mm,
                wall_mm,
                source: list.source,
                verified: list.verified,
            })
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_size_makes_a_section_and_is_found_by_its_name() {
        let mut count = 0;
        for size in all() {
            let section = size.section("s").expect("a tube");
            assert!(section.area > 0.0);
            assert_eq!(find(&size.name()), Some(size), "{}", size.name());
            count += 1;
        }
        assert_eq!(count, 61);
    }

    #[test]
    fn names_may_be_written_loosely() {
        let found = find("Square 30 × 30 × 2 mm").expect("in the list");
        assert_eq!(found.name(), "square 30x2");
        assert_eq!(find("square 31x2"), None);
        assert_eq!(find("round"), None);
    }
}
