//! Faults of fatigue pairs and limits on movement, each by spoiling a good folder in one place.

use strutwork_model::codes;

use crate::faults::Case;
use crate::screening::with;

pub(crate) fn cases() -> Vec<Case> {
    [of_fatigue(), of_limits()].into_iter().flatten().collect()
}

fn of_fatigue() -> Vec<Case> {
    vec![
        (codes::FATIGUE_PAIR, ("model.toml", 19, 6, 7), "nothing changes", with("\"snow\"", "\"brake\"")),
        (codes::FATIGUE_PAIR, ("model.toml", 19, 6, 2), "`to` names no case", with("\"snow\"", "\"\"")),
        (codes::FATIGUE_PAIR, ("model.toml", 12, 8, 6), "swap", {
            with("from = \"brake\"\nto = \"none\"", "from = \"none\"\nto = \"brake\"")
        }),
        (codes::MISSING_KEY, ("model.toml", 11, 16, 11), "no `to`", with("to = \"none\"\n", "")),
        (codes::MISSING_KEY, ("model.toml", 11, 16, 11), "no `from`", with("from = \"brake\"\n", "")),
        (codes::MISSING_KEY, ("model.toml", 17, 16, 6), "no `cycles`", with("cycles = 400\n", "")),
        (codes::FATIGUE_CYCLES, ("model.toml", 20, 10, 1), "greater than 0", with("400", "0")),
        (codes::FATIGUE_CYCLES, ("model.toml", 15, 9, 4), "`share` is -0.5", with("0.5", "-0.5")),
        (codes::NOT_FINITE, ("model.toml", 20, 10, 3), "finite", with("400", "inf")),
        (codes::ODD_CYCLES, ("model.toml", 20, 10, 4), "life", with("400", "1e12")),
        (codes::FATIGUE_CATEGORY, ("model.toml", 6, 16, 2), "one of: 36, 40", with("56", "57")),
        (codes::FATIGUE_CATEGORY, ("model.toml", 9, 16, 2), "one of: 36, 40", with("71", "70")),
        (codes::UNKNOWN_WORD, ("model.toml", 10, 9, 10), "`node-joint`", with("node-joint", "nodejont")),
        (codes::FATIGUE_GROUP, ("model.toml", 8, 17, 5), "`struts`", with("groups.struts", "groups.strut")),
        (codes::MOMENT_FACTOR, ("model.toml", 7, 17, 3), "1 or more", with("1.5", "0.5")),
        (codes::UNKNOWN_KEY, ("model.toml", 7, 1, 12), "`moment_factor`", with("moment_factor", "momentfactor")),
        (codes::UNKNOWN_KEY, ("model.toml", 20, 1, 5), "`cycles`", with("cycles = 400", "cycle = 400\ncycles = 400")),
        (codes::UNUSED, ("model.toml", 5, 2, 7), "no pair", {
            let pairs = "[fatigue.pairs.stop-and-go]\nfrom = \"brake\"\nto = \"none\"\ncycles = 2e5\nshare = 0.5\n\
                         source = \"invented\"\n[fatigue.pairs.winter]\nfrom = \"brake\"\nto = \"snow\"\ncycles = 400\n\
                         note = \"rough\"\n";
            with(pairs, "")
        }),
    ]
}

fn of_limits() -> Vec<Case> {
    vec![
        (codes::LIMIT_KIND, ("model.toml", 23, 9, 3), "take one of them out", {
            with("between = [\"A\", \"C\"]", "joint = \"B\"\nbetween = [\"A\", \"C\"]")
        }),
        (codes::LIMIT_KIND, ("model.toml", 24, 13, 3), "no `direction`", {
            with("between = [\"A\", \"C\"]", "between = [\"A\", \"C\"]\ndirection = \"x\"")
        }),
        (codes::LIMIT_KIND, ("model.toml", 23, 12, 3), "3 joints", with("[\"A\", \"C\"]", "[\"A\", \"B\", \"C\"]")),
        (codes::LIMIT_KIND, ("model.toml", 22, 9, 4), "neither", with("between = [\"A\", \"C\"]\n", "")),
        (codes::UNKNOWN_JOINT, ("model.toml", 23, 17, 3), "limit `door`", with("[\"A\", \"C\"]", "[\"A\", \"D\"]")),
        (codes::UNKNOWN_JOINT, ("model.toml", 26, 9, 3), "limit `tip`", with("joint = \"C\"", "joint = \"D\"")),
        (
            codes::UNKNOWN_JOINT,
            ("model.toml", 33, 15, 3),
            "limit `pick-up`",
            with("relative_to = \"B\"", "relative_to = \"b\""),
        ),
        (codes::JOINT_LISTED_TWICE, ("model.toml", 23, 17, 3), "two joints", with("[\"A\", \"C\"]", "[\"A\", \"A\"]")),
        (codes::JOINT_LISTED_TWICE, ("model.toml", 33, 15, 3), "two joints", {
            with("relative_to = \"B\"", "relative_to = \"C\"")
        }),
        (codes::UNKNOWN_WORD, ("model.toml", 27, 13, 6), "`total`", with("\"z\"", "\"totl\"")),
        (codes::MISSING_KEY, ("model.toml", 22, 9, 4), "no `most_mm`", with("most_mm = 2\n", "")),
        (codes::LIMIT_SIZE, ("model.toml", 28, 11, 2), "greater than 0", with("5.5", "-1")),
        (codes::ODD_LIMIT, ("model.toml", 28, 11, 6), "write mm", with("5.5", "0.0055")),
        (codes::NOT_FINITE, ("model.toml", 28, 11, 3), "finite", with("5.5", "inf")),
        (codes::EMPTY_NAME, ("model.toml", 29, 10, 3), "name of a load case", with("[\"snow\"]", "[\" \"]")),
    ]
}
