//! What was measured on the real frame: the twist rig, the parts on the scales.

use super::Kind::{Flag, Number, Tables, Text, Texts};
use super::{Column, KeyTable, Table, key, may, need};
use crate::files;

const NOTE: Column = may("note", "a remark; not used");

/// `rig.csv`.
pub const RIG_SHEET: Table = Table {
    file: files::RIG,
    needed: false,
    about: "Readings of a twist rig, one row for each station in each step, as they come off the clipboard, in the order in \
            which they were taken. A station is a left and a right dial at one x. What holds for a whole station (x, spacing, \
            role) or a whole step (couple, or weight and arm) may stand in one of its rows or in all. Readings are of the dials: \
            nothing is subtracted, zeroed or turned round before. The first step of a cycle is its zero: load the preload that \
            takes the play out (some 10 % of the greatest couple: common practice, no source) and read everything.",
    columns: &[
        need("station", "its name, the same in every row of it"),
        need("step", "number of the step within its cycle and direction, from 0"),
        need("left_mm", "reading of the left dial (+y side); empty: not read"),
        need("right_mm", "reading of the right dial (−y side); empty: not read"),
        may("x_mm", "where the station is along the frame, in the model's axes; once for a station"),
        may("spacing_mm", "distance between its two dials along y; once for a station"),
        may(
            "role",
            "`held`: a pair at a point that is held (the rig's sink), `loaded`: the pair where the couple acts; empty: a pair between; once for a station",
        ),
        may(
            "couple_nm",
            "the couple of the step, positive where it raises the left side at the loaded station; once for a step; or weight and arm",
        ),
        may(
            "weight_kg",
            "what hangs on the arm: couple = kg · 9.80665 m/s² · arm; `weights_hang` of [rig] says on which side",
        ),
        may("arm_mm", "from the pivot to where the weight hangs; where two arms pull, their sum"),
        may("direction", "`loading` or `unloading`; empty: from the couples"),
        may("cycle", "number of the cycle, from 1; empty: 1"),
        NOTE,
    ],
    example: "station,x_mm,spacing_mm,role,cycle,direction,step,couple_nm,left_mm,right_mm\n\
              rear,300,900,held,1,loading,0,150,0.00,0.00\n\
              front,2400,900,loaded,1,loading,0,,0.00,0.00\n\
              rear,,,,1,loading,1,600,0.03,-0.02\n\
              front,,,,1,loading,1,,0.82,-0.79\n",
};

/// `weighed.csv`.
pub const WEIGHED_PARTS: Table = Table {
    file: files::WEIGHED,
    needed: false,
    about: "Parts on the scales, one row a part, to hold against what the model says they weigh. The whole vehicle, the bare \
            frame and the corners stand under [weighed] in model.toml.",
    columns: &[
        need("part", "a name of masses.csv, or `group: NAME` (its tubes), `tube: NAME`, `panel: NAME`"),
        need("kg", "what the scales say"),
        may("tolerance_kg", "how far the scales may be out either way; empty: `tolerance_kg` of [weighed]"),
        NOTE,
    ],
    example: "part,kg,tolerance_kg\ndriver,81.5,0.5\ngroup: lower-rails,8.42,0.05\n",
};

/// `[rig]`.
pub const RIG: KeyTable = KeyTable {
    heading: "[rig]",
    about: "How the readings of rig.csv were taken. A stiffness without what was held, where the couple acted and what was \
            fitted means nothing: the report prints all three.",
    keys: &[
        key("held", Text, "what was held where, and how; printed"),
        key("loaded", Text, "how and where the couple was applied; printed"),
        key("fitted", Text, "what was on the frame: bare, with module, with skins; printed"),
        key("panels_fitted", Flag, "whether the model's panels were on the frame; default true"),
        key(
            "dials",
            Text,
            "`up` (default): a reading grows when the frame rises; `down`: when it sinks, as with a plunger that points up",
        ),
        key(
            "weights_hang",
            Text,
            "`right` (default): weights hang on the right of the loaded station, which raises its left side; `left`: the other way round",
        ),
        key("resolution_mm", Number, "smallest step of a dial; default 0.01"),
        key(
            "repeatability_mm",
            Number,
            "how far two readings of one state differ; default 0.01 (own choice: read one state twice)",
        ),
        key(
            "couple_tolerance_percent",
            Number,
            "how well the couple is known, either way: weights and arm; default 1 (own choice)",
        ),
        key(
            "spacing_tolerance_mm",
            Number,
            "how well the distance between two dials is known, either way; default 1 (own choice)",
        ),
        key(
            "settling_cycles",
            Number,
            "how many cycles at the beginning only settle the frame and are left out; default: by rule, as long as the zero \
             comes back worse than in a later cycle",
        ),
        key(
            "between",
            Texts,
            "the two stations between which K is stated; default: the loaded one and the nearest held one",
        ),
        key("stations", Tables, "`[rig.stations.NAME]`"),
    ],
};

/// `[rig.stations.NAME]`.
pub const RIG_STATION: KeyTable = KeyTable {
    heading: "[rig.stations.NAME]",
    about: "Where a station of rig.csv is on the model. Without it: the spring joints of [vehicle] for the loaded and the held \
            stations near them, else the widest left and right pair of joints within 100 mm along x.",
    keys: &[key("joints", Texts, "its left and its right joint: `[\"LEFT\", \"RIGHT\"]`")],
};
