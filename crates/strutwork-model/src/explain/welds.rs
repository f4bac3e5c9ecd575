//! Pages of the welds.

use super::{Page, page};
use crate::codes;

pub(super) const PAGES: &[Page] = &[
    page(
        codes::WELD_GROUP,
        "a weld for a group that is not there",
        "The name in [welds.groups.NAME] is a text that stands under `group` in tubes.csv. No tube has it, so the weld would belong to nothing.",
        "[welds.groups.brace] where the group is called `braces`",
        "Correct the name.",
    ),
    page(
        codes::WELD_THROAT,
        "a throat that is zero or negative",
        "The throat of a fillet weld is the height of the triangle that fits into it, 0.7 of its leg, in mm.",
        "throat_mm = 0",
        "Write a value greater than 0, or take the key out: then the wall of the tube is taken.",
    ),
    page(
        codes::BUTT_THROAT,
        "a butt weld with a throat",
        "A butt weld is taken as one of full penetration, as strong as the weaker part. A throat would mean one of partial penetration, which is not covered.",
        "kind = \"butt\" and throat_mm = 1.5 in one table",
        "Take the throat out, or write kind = \"fillet\" and the throat that is certain to be there.",
    ),
    page(
        codes::ODD_THROAT,
        "a throat that does not fit the wall",
        "The throat is more than one and a half times the wall of a tube that it is welded round, which burns through or is another unit, or it is less than 1 mm, which no one can measure on a tube. It is used as written.",
        "throat_mm = 3 for tube of 1.5 mm wall",
        "Write the throat, not the leg (throat = 0.7 leg), in mm; give groups of thinner tube their own table.",
    ),
];
