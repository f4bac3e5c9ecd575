//! Pages of fatigue pairs and limits on movement.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::FATIGUE_PAIR,
        "a fatigue pair that names no two cases",
        "A pair says between which two load cases the stress goes to and fro. `to` may be `none`, the unloaded frame.",
        "from = \"twist\" and to = \"twist\"",
        "Name two cases, or one and `none`. Whether cases of these names exist shows when they have been derived (D050).",
    ),
    page(
        codes::FATIGUE_CYCLES,
        "cycles, or a share of a range, of zero or less",
        "A pair that never happens does nothing, and a range is never negative.",
        "cycles = 0",
        "Write how often the frame goes there and back, or take the pair out.",
    ),
    page(
        codes::ODD_CYCLES,
        "cycles that no frame meets",
        "More than ten thousand million cycles: a shaft may see them, a frame does not. They are used as written.",
        "cycles = 1e12",
        "Write how often in the life of the frame.",
    ),
    page(
        codes::FATIGUE_CATEGORY,
        "a detail category that the standard does not have",
        "EN 1993-1-9 sorts welded details into fourteen categories, named by the stress range in MPa that they bear 2 million times.",
        "category_mpa = 37",
        "Look the detail up in the tables of the standard; where in doubt take 36, the lowest.",
    ),
    page(
        codes::FATIGUE_GROUP,
        "a group with a detail that no tube has",
        "The table [fatigue.groups.NAME] takes a text that stands under `group` in tubes.csv.",
        "[fatigue.groups.diagonal] where the group is called `diagonals`",
        "Correct the name.",
    ),
    page(
        codes::MOMENT_FACTOR,
        "a factor below 1 on stress ranges",
        "The factor stands for bending at joints that the model leaves out, so it can only make ranges greater.",
        "moment_factor = 0.8",
        "Write 1 where the tubes are welded in the model, or the factor of EN 1993-1-9 Table 4.2 where they are released.",
    ),
    page(
        codes::LIMIT_KIND,
        "a limit on movement of no kind, or of two",
        "A limit is on a joint (`joint`, perhaps with `relative_to` and `direction`) or on the distance of two joints (`between`).",
        "joint = \"A\" and between = [\"A\", \"B\"]",
        "Keep one of the two, and name two joints under `between`.",
    ),
    page(
        codes::LIMIT_SIZE,
        "a limit on movement of zero or less",
        "Everything moves a little under load. The limit holds either way, so it has no sign.",
        "most_mm = 0",
        "Write the most that it may move, in mm.",
    ),
    page(
        codes::ODD_LIMIT,
        "a limit on movement that looks like another unit",
        "Less than a twentieth of a millimetre, or more than half a metre. It is used as written.",
        "most_mm = 0.003",
        "Write mm.",
    ),
];
