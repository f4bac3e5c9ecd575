//! The tables of `model.toml` that say how the frame is judged.

use super::Kind::{Flag, Number, Tables, Text, Texts};
use super::{KeyTable, key};

/// `[basis]`.
pub const BASIS: KeyTable = KeyTable {
    heading: "[basis]",
    about: "Where the margin between loads and strength comes from; the report prints it with every factor. `vehicle`: \
            dynamic factors in the cases, `yield_margin` on strength for service cases, plastic or ultimate resistance for \
            ultimate cases (belts, hoops, towing). `eurocode`: partial factors on strength, and γ_F on \
            the loads of service cases that are derived from the vehicle; cases of loads.csv are taken as design values; \
            `yield_margin` is then not used.",
    keys: &[
        key("kind", Text, "`vehicle` (default) or `eurocode`"),
        key(
            "gamma_f",
            Tables,
            "γ_F on the loads of derived service cases, `{ value = 1.5, source = \"…\" }`; default 1.50; eurocode only",
        ),
        key(
            "gamma_m0",
            Tables,
            "γ_M0 for cross-sections, `{ value = 1.05, source = \"…\" }`; default 1.00; eurocode only",
        ),
        key("gamma_m1", Tables, "γ_M1 for members against buckling; default 1.00; eurocode only"),
        key("gamma_m2", Tables, "γ_M2 for fracture, bolts and welds; default 1.25; eurocode only"),
        key("gamma_m5", Tables, "γ_M5 for joints of hollow sections; default 1.00; eurocode only"),
        key("gamma_mf", Tables, "γ_Mf for fatigue; default 1.35; either basis"),
    ],
};

/// `[basis.gamma_m0]` and its like.
pub const GAMMA: KeyTable = KeyTable {
    heading: "[basis.gamma_m0]",
    about: "A partial factor of your own, mostly that of a national annex; the others likewise. Both keys are needed.",
    keys: &[key("value", Number, "at least 1"), key("source", Text, "where it comes from; printed in the report")],
};

/// `[members]`.
pub const MEMBERS: KeyTable = KeyTable {
    heading: "[members]",
    about: "How tubes are judged against buckling. A tube's buckling length is its own length, unless its group stands \
            here, or tubes.csv gives another. The two rules are those of EN 1993-1-1 BB.1.3 for lattices of hollow \
            sections (from memory): ask whether your frame is one.",
    keys: &[
        key("braces", Texts, "groups whose tubes are braces, welded to the chords all round: 0.75 of the length"),
        key("chords", Texts, "groups whose tubes are chords, held in both planes at their joints: 0.9 of the length"),
        key(
            "slenderness_limit",
            Number,
            "buckling length over radius of gyration that no tube in compression should exceed; default 180",
        ),
        key(
            "sway",
            Flag,
            "true: the frame is not braced, so that the ends of tubes may shift sideways as they buckle: moment factors \
             C_m = 0.9 (EN 1993-1-1 Table B.3, from memory) instead of those of each tube's own moments; default false. \
             Give such tubes buckling lengths above their own length as well",
        ),
    ],
};

/// `[checks.CODE]`.
pub const CHECK: KeyTable = KeyTable {
    heading: "[checks.D023]",
    about: "A check by its code (`strutwork explain`), to switch it off. Findings and report say that it is off, and why.",
    keys: &[key("off", Flag, "true: not made"), key("reason", Text, "why; needed, and printed")],
};
