//! The tables of `model.toml` for fatigue and for limits on movement.

use super::Kind::{Number, Tables, Text, Texts};
use super::{KeyTable, key};

/// `[fatigue]`.
pub const FATIGUE: KeyTable = KeyTable {
    heading: "[fatigue]",
    about: "How the ends of the tubes are screened for cracks under repeated loads: stress ranges from pairs of cases, held \
            against EN 1993-1-9 and added up. It is a ranking of weld ends, not a life: walls under 4 mm are outside the \
            tests that the detail categories rest on. Without pairs nothing is screened, and the report says so.",
    keys: &[
        key(
            "category_mpa",
            Number,
            "detail category, the stress range for 2 million cycles: 36, 40, 45, 50, 56, 63, 71, 80, 90, 100, 112, 125, 140 or \
             160; default 36, rectangular hollow sections fillet-welded end to end through a plate (EN 1993-1-9 Table 8.6, \
             from memory)",
        ),
        key(
            "curve",
            Text,
            "`member` (default), slope 3 and from 5 million cycles 5, or `node-joint`, slope 5, for categories of Table 8.7",
        ),
        key(
            "moment_factor",
            Number,
            "factor on every stress range, at least 1; default 1, as bending at the joints is in the model; where tubes are \
             released at their ends EN 1993-1-9 Table 4.2 has factors of 1.3 to 2.2 (from memory)",
        ),
        key("groups", Tables, "`[fatigue.groups.NAME]`"),
        key("pairs", Tables, "`[fatigue.pairs.NAME]`"),
    ],
};

/// `[fatigue.groups.NAME]`.
pub const FATIGUE_GROUP: KeyTable = KeyTable {
    heading: "[fatigue.groups.NAME]",
    about: "The detail of the tubes of one group of tubes.csv, in place of that of [fatigue].",
    keys: &[
        key("category_mpa", Number, "detail category; default: that of [fatigue]"),
        key("curve", Text, "`member` or `node-joint`; default: that of [fatigue]"),
    ],
};

/// `[fatigue.pairs.NAME]`.
pub const FATIGUE_PAIR: KeyTable = KeyTable {
    heading: "[fatigue.pairs.NAME]",
    about: "Two load cases that the frame goes between, and how often. Loads count as they are in the cases, without the \
            margin of the basis. The damage of all pairs adds up.",
    keys: &[
        key("from", Text, "name of a case"),
        key("to", Text, "name of another case, or `none`: unloaded"),
        key("cycles", Number, "how often it goes there and back"),
        key("share", Number, "share of the range between the two cases, such as 0.5 for half of it; default 1"),
        key("source", Text, "where the cycles come from; printed"),
        key("note", Text, "a note of your own; printed"),
    ],
};

/// `[limits.NAME]`.
pub const LIMIT: KeyTable = KeyTable {
    heading: "[limits.NAME]",
    about: "A limit of your own on movement: a joint against where it stood (`joint`), a joint against another (`joint` with \
            `relative_to`), or the distance of two joints (`between`), as of a door opening. Loads count as they are in the \
            cases, without the margin of the basis. In a case that nothing holds, a joint's own movement is counted free of \
            the frame's movement as a whole: `relative_to` or `between` say more there.",
    keys: &[
        key("joint", Text, "the joint that moves; this or `between`"),
        key("relative_to", Text, "another joint, whose movement is taken off"),
        key("between", Texts, "two joints: the change of the distance between them"),
        key("direction", Text, "with `joint`: `x`, `y`, `z` or `total` (default)"),
        key("most_mm", Number, "the most that it may move either way; needed"),
        key("cases", Texts, "the cases in which it holds; default all"),
        key("source", Text, "where the limit comes from; printed"),
        key("note", Text, "a note of your own; printed"),
    ],
};
