//! Pages of sections and materials.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::SIZE_NOT_POSITIVE,
        "a size that is zero or negative",
        "Every size and property of a section must be greater than 0.",
        "wall_mm = 0",
        "Write the size. For a tube that only pulls and pushes give small second moments and release its ends.",
    ),
    page(
        codes::WALL_TOO_THICK,
        "a wall that leaves no hole",
        "Twice the wall is as much as the outside size or more. Wall and width were perhaps swapped.",
        "width_mm = 30, wall_mm = 20",
        "Correct the sizes; for a bar without a hole use the shape solid-round or flat.",
    ),
    page(
        codes::CORNER_RADIUS,
        "a corner radius that does not fit",
        "The outer radius of a corner lies between 0 and half the smaller side. For a very thick wall the standard's own radius (2 to 3 walls) does not fit.",
        "width_mm = 20, wall_mm = 2, outer_radius_mm = 15",
        "Measure the outside radius of the corner and give it in mm.",
    ),
    page(
        codes::ODD_SECTION,
        "a section size that looks like another unit",
        "A tube less than 3 mm or more than 1 m across, a wall under 0.2 mm, or a corner radius that no tube of this wall has. It is used as written, in mm.",
        "width_mm = 0.03",
        "Write mm.",
    ),
    page(
        codes::UNKNOWN_GAUGE,
        "a gauge that is not in the list",
        "A wall as text is a standard wire gauge from 8 to 22 swg, or a size in mm. Other gauges of the same number are other sizes.",
        "wall = \"16 gauge\"",
        "wall = \"16 swg\" (1.626 mm), or measure it: wall_mm = 1.5. Much tube sold as 16 gauge has 1.5 mm.",
    ),
    page(
        codes::UNKNOWN_STOCK,
        "a stock size that is not in the list",
        "The built-in list holds sizes that a source lists.",
        "stock = \"square 31x2\"",
        "Give the shape and its sizes instead; any size may be used so.",
    ),
    page(
        codes::MATERIAL_VALUE,
        "a material value that cannot be",
        "A stiffness or strength is zero or negative, the yield strength is above the ultimate one, or the metal is stronger beside a weld than away from it.",
        "yield_mpa = 360, ultimate_mpa = 235",
        "Correct the values; the two strengths are often swapped.",
    ),
    page(
        codes::ODD_MATERIAL,
        "a material value that looks like another unit",
        "E outside 1000 to 1 000 000 MPa, a density outside 500 to 25 000 kg/m³, or a G that does not belong to E. It is used as written.",
        "e_mpa = 210",
        "Steel: e_mpa = 210000, g_mpa = 81000, density_kg_m3 = 7850.",
    ),
    page(
        codes::GRADE_WALL,
        "a wall outside the grade's range",
        "A grade guarantees its strengths up to a thickness; thicker tube of the same grade is weaker or comes from another table.",
        "grade = \"6005A-T6\" and a wall of 8 mm",
        "Give yield_mpa and ultimate_mpa for the thickness, with their source.",
    ),
];
