//! The tables of `model.toml` that say how the tubes are welded.

use super::Kind::{Number, Tables, Text};
use super::{KeyTable, key};

/// `[welds]`.
pub const WELDS: KeyTable = KeyTable {
    heading: "[welds]",
    about: "How the ends of tubes are welded to what they end at, all round, and how the welds are judged. Without this table: \
            TIG fillet welds as thick as the wall of the tube that ends there, judged by the directional method. A tube that \
            runs through a joint in two straight pieces of one section and material has no weld of its own there.",
    keys: &[
        key(
            "kind",
            Text,
            "`fillet` (default), or `butt`: a butt weld of full penetration; partial penetration is not covered",
        ),
        key(
            "throat_mm",
            Number,
            "throat of fillet welds (0.7 of the leg); default: the wall of the tube that ends there, which is an assumption",
        ),
        key(
            "method",
            Text,
            "`directional` (default) or `simplified`, EN 1993-1-8 4.5.3.2 and 4.5.3.3; the calculation shows both",
        ),
        key(
            "process",
            Text,
            "`tig` (default) or `mig`: decides how far the zone beside a weld reaches, and what aluminium keeps there",
        ),
        key("groups", Tables, "`[welds.groups.NAME]`"),
    ],
};

/// `[welds.groups.NAME]`.
pub const WELD_GROUP: KeyTable = KeyTable {
    heading: "[welds.groups.NAME]",
    about: "What is different for the tubes of one group: NAME is a text under `group` in tubes.csv.",
    keys: &[key("kind", Text, "`fillet` or `butt`"), key("throat_mm", Number, "throat of their fillet welds")],
};
