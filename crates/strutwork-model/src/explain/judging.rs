//! Pages of the basis of the checks, buckling lengths and switched-off checks.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::GAMMA_BELOW_ONE,
        "a partial factor below 1",
        "A partial factor divides the strength. Below 1 it would make the frame stronger than its material.",
        "[basis] with gamma_m0 = { value = 0.9, source = \"…\" }",
        "Write 1 or more, as the national annex says.",
    ),
    page(
        codes::TWO_MARGINS,
        "margins of two bases at once",
        "The basis `vehicle` has its margin in yield_margin, the basis `eurocode` in partial factors on strength and factors on loads. Both together would hide how much margin there is.",
        "[basis] kind = \"eurocode\" and [options] yield_margin = 1.5",
        "Choose one basis and take the other's margin out.",
    ),
    page(
        codes::UNKNOWN_CHECK,
        "a check that cannot be switched off",
        "The table [checks.CODE] takes codes of design checks (D…). Checks of trust (T…), and D002, which says what is not checked, are always made.",
        "[checks.D999]",
        "Correct the code; `strutwork explain` lists them all.",
    ),
    page(
        codes::NO_REASON,
        "a check switched off without a reason",
        "A reader must see why something was not checked.",
        "[checks.D023] with off = true alone",
        "Add reason = \"…\": it is printed with the findings and in the report.",
    ),
    page(
        codes::BUCKLING_LENGTH,
        "a buckling length that is zero, negative or given twice",
        "A tube's buckling length about an axis is greater than 0, and is given as a length in mm or as a factor on the tube's own length, not both.",
        "buckling_y_mm = 0",
        "Write one of the two, or leave both cells empty for the tube's own length.",
    ),
    page(
        codes::ODD_BUCKLING_LENGTH,
        "a buckling length that looks like another unit",
        "The buckling length is less than a quarter of the tube's length or more than ten times it. It is used as written.",
        "buckling_y_mm = 0.6 for a tube of 600 mm",
        "Write lengths in mm, factors as plain numbers (0.9).",
    ),
    page(
        codes::MEMBER_GROUP,
        "a group of members that is not there, or stands twice",
        "The lists `braces` and `chords` of [members] hold texts that stand under `group` in tubes.csv. A group is one or the other, as the two have different buckling lengths.",
        "braces = [\"diagonal\"] where the group is called `diagonals`",
        "Correct the name, or take it out of one list.",
    ),
    page(
        codes::SLENDERNESS_LIMIT,
        "a limit of slenderness that is zero or negative",
        "The limit is a buckling length over a radius of gyration, both in the same unit.",
        "slenderness_limit = 0",
        "Write a number greater than 0, such as 180.",
    ),
];
