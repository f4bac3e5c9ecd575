//! Pages of bolts and what they clamp.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::BOLT_SIZE,
        "a size of bolt that is not in the list",
        "A bolt is checked by its thread, so its size must be one that is known. M and the diameter mean coarse pitch.",
        "[bolts.through] with size = \"10 mm\"",
        "Write a size of the list, such as \"M10\", \"M10x1.25\" or \"7/16 UNF\"; or leave the key out: the bolt is not checked then, and that is said.",
    ),
    page(
        codes::BOLT_CLASS,
        "a property class that is not in the list",
        "The property class stands on the bolt's head and gives its strength. Inch bolts have grades of their own: take the class whose strength theirs reaches.",
        "[bolts.through] with grade = \"S\"",
        "Write a class of the list, such as \"8.8\"; or leave the key out: the bolt is not checked then, and that is said.",
    ),
    page(
        codes::BOLT_VALUE,
        "a value of a bolt that is zero or negative",
        "Sizes, preload and slip factor of a bolt are greater than 0.",
        "[bolts.through] with preload_n = 0",
        "Write a value greater than 0, or leave the key out.",
    ),
    page(
        codes::SHEAR_PLANES,
        "a number of shear planes other than 1 or 2",
        "A bolt through a lap is cut in one plane; between two plates, as in a fork, in two.",
        "[bolts.through] with shear_planes = 3",
        "Write 1 or 2.",
    ),
    page(
        codes::BOLT_HOLE,
        "a hole that the bolt does not go through",
        "The hole is smaller than the bolt.",
        "[bolts.through] with size = \"M10\" and hole_mm = 9",
        "Write the diameter of the hole, or leave the key out: then it is 1 or 2 mm larger than the bolt.",
    ),
    page(
        codes::BOLT_EDGE,
        "an edge that the hole breaks",
        "The distance from the middle of the hole to the edge is not more than half of the hole: there is no material left.",
        "[bolts.through] with size = \"M10\" and edge_mm = 5",
        "Measure from the middle of the hole. For bearing it should be 1.2 of the hole at least.",
    ),
    page(
        codes::SLEEVE_BORE,
        "a sleeve that the bolt does not go through",
        "The sleeve's outer diameter less twice its wall is its bore. The bolt must pass through it.",
        "size = \"M10\", sleeve_outer_mm = 14 and sleeve_wall_mm = 2.5: a bore of 9 mm",
        "Correct outer diameter and wall. A sleeve for an M10 bolt is about 16 × 2.5 or larger.",
    ),
    page(
        codes::ODD_BOLT,
        "a value of a bolt that looks like another unit",
        "The value is possible, but rarely meant. It is used as written.",
        "[bolts.through] with preload_n = 25, which is 2.5 kg",
        "Lengths are in mm, forces in N, the slip factor is a plain number between 0.1 and 0.6.",
    ),
];
