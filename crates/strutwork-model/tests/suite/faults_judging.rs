//! Faults of basis, member rules, buckling lengths and switched-off checks, each by spoiling a good folder in one place.

use strutwork_model::{InputFiles, codes};

use crate::faults::Case;
use crate::judging::with;

fn toml(from: &str, to: &str) -> InputFiles {
    with("model.toml", from, to)
}

fn tubes(from: &str, to: &str) -> InputFiles {
    with("tubes.csv", from, to)
}

pub(crate) fn cases() -> Vec<Case> {
    vec![
        (codes::UNKNOWN_WORD, ("model.toml", 6, 8, 10), "`eurocode`", {
            let mut files = toml("\"eurocode\"", "\"eurocodd\"");
            crate::folder::change(&mut files, "model.toml", "gamma_m1 = { value = 1.1, source = \"DE annex\" }\n", "");
            files
        }),
        (codes::UNKNOWN_WORD, ("model.toml", 17, 9, 12), "hot-finished", toml("\"hot-finished\"", "\"hot-rolled\"")),
        (codes::GAMMA_BELOW_ONE, ("model.toml", 7, 22, 3), "1 or more", toml("1.1", "0.9")),
        (codes::MISSING_KEY, ("model.toml", 7, 1, 8), "no `value`", toml("value = 1.1, ", "")),
        (codes::NO_SOURCE, ("model.toml", 7, 36, 2), "annex", toml("\"DE annex\"", "\"\"")),
        (codes::TWO_MARGINS, ("model.toml", 7, 1, 8), "`eurocode`", toml("kind = \"eurocode\"", "kind = \"vehicle\"")),
        (codes::TWO_MARGINS, ("model.toml", 5, 16, 3), "take `yield_margin` out", {
            toml("self_weight = true", "self_weight = true\nyield_margin = 1.5")
        }),
        (codes::UNKNOWN_CHECK, ("model.toml", 13, 9, 4), "these can", toml("checks.D023", "checks.D002")),
        (codes::NO_REASON, ("model.toml", 13, 9, 4), "reason = ", toml("reason = \"ties only\"\n", "")),
        (codes::NO_REASON, ("model.toml", 15, 10, 3), "reason = ", toml("\"ties only\"", "\" \"")),
        (codes::MEMBER_GROUP, ("model.toml", 9, 11, 7), "`struts`", toml("\"struts\"", "\"strut\"")),
        (codes::MEMBER_GROUP, ("model.toml", 10, 11, 8), "among the chords", toml("\"rails\"", "\"struts\"")),
        (codes::WRONG_KIND, ("model.toml", 12, 8, 6), "true", toml("sway = true", "sway = \"true\"")),
        (codes::SLENDERNESS_LIMIT, ("model.toml", 11, 21, 1), "180", toml("150", "0")),
        (codes::BUCKLING_LENGTH, ("tubes.csv", 3, 26, 2), "greater than 0", tubes("750", "-1")),
        (codes::BUCKLING_LENGTH, ("tubes.csv", 3, 30, 3), "keep one", tubes("buckling_y_mm", "buckling_z_mm")),
        (codes::ODD_BUCKLING_LENGTH, ("tubes.csv", 3, 26, 4), "as if 1 mm", tubes("750", "0.75")),
        (codes::NOT_FINITE, ("tubes.csv", 3, 26, 3), "finite", tubes("750", "inf")),
        (codes::KEYS_DISAGREE, ("model.toml", 17, 9, 14), "no `route`", {
            toml("shape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0", "shape = \"solid-round\"\ndiameter_mm = 15")
        }),
    ]
}
