//! The tables of `model.toml`, key by key.

use super::Kind::{Flag, Number, Point, Tables, Text, Texts};
use super::{
    BASIS, BOLT, CHECK, FATIGUE, FATIGUE_GROUP, FATIGUE_PAIR, GAMMA, KeyTable, LIMIT, MEMBERS, RIG, RIG_STATION,
    WELD_GROUP, WELDS, key,
};

/// Every table of `model.toml`.
pub const KEY_TABLES: &[&KeyTable] = &[
    &TOP,
    &REVISION,
    &OPTIONS,
    &SECTION,
    &MATERIAL,
    &FIXING,
    &SOFT_JOINTS,
    &BOLT,
    &VEHICLE,
    &CORNER,
    &AXLE,
    &PLACE,
    &WEIGHED,
    &WEIGHED_CORNERS,
    &RIG,
    &RIG_STATION,
    &FACTOR,
    &BASIS,
    &GAMMA,
    &MEMBERS,
    &CHECK,
    &WELDS,
    &WELD_GROUP,
    &FATIGUE,
    &FATIGUE_GROUP,
    &FATIGUE_PAIR,
    &LIMIT,
];

/// The top of the file.
pub const TOP: KeyTable = KeyTable {
    heading: "",
    about: "Stands at the top, before the first table.",
    keys: &[
        key("title", Text, "the model's title, on every page of the report"),
        key("revision", Text, "revision, as you count"),
        key("revisions", Tables, "`[revisions.NAME]`"),
        key("author", Text, "who made the model"),
        key("notes", Texts, "notes and assumptions, printed in the report"),
        key("outside", Texts, "what is outside the model, printed in the report"),
        key("options", Tables, "`[options]`"),
        key("sections", Tables, "`[sections.NAME]`"),
        key("materials", Tables, "`[materials.NAME]`"),
        key("fixings", Tables, "`[fixings.NAME]`"),
        key("soft_joints", Tables, "`[soft_joints]`"),
        key("bolts", Tables, "`[bolts.NAME]`"),
        key("vehicle", Tables, "`[vehicle]`"),
        key("places", Tables, "`[places.NAME]`"),
        key("weighed", Tables, "`[weighed]`"),
        key("rig", Tables, "`[rig]`"),
        key("factors", Tables, "`[factors.NAME]`"),
        key("basis", Tables, "`[basis]`"),
        key("members", Tables, "`[members]`"),
        key("checks", Tables, "`[checks.CODE]`"),
        key("welds", Tables, "`[welds]`"),
        key("fatigue", Tables, "`[fatigue]`"),
        key("limits", Tables, "`[limits.NAME]`"),
    ],
};

/// `[revisions.NAME]`.
pub const REVISION: KeyTable = KeyTable {
    heading: "[revisions.NAME]",
    about: "What was done in a revision, for the title block of the report; NAME is the revision, in quotes where it holds a dot \
            or a blank. What really differs from an older run, `strutwork compare` finds, and `run --since` puts it into the \
            report.",
    keys: &[
        key("date", Text, "when: `2026-01-31`"),
        key("by", Text, "who"),
        key("note", Texts, "what was done and why"),
    ],
};

/// `[options]`.
pub const OPTIONS: KeyTable = KeyTable {
    heading: "[options]",
    about: "How the model is worked on.",
    keys: &[
        key("self_weight", Flag, "gravity on tubes and masses in every case of the load files; default false"),
        key("standard_cases", Flag, "whether the standard load cases are run for a vehicle; default true"),
        key(
            "yield_margin",
            Number,
            "factor on strength for service cases, at least 1; default 1.5; only with the basis `vehicle`",
        ),
        key(
            "inertia_relief",
            Flag,
            "whether cases of the load files are balanced by the frame's own inertia, held by nothing; default true for a vehicle without supports.csv, else false",
        ),
    ],
};

/// `[sections.NAME]`.
pub const SECTION: KeyTable = KeyTable {
    heading: "[sections.NAME]",
    about: "A section that tubes name: a stock size, or a shape with its sizes, or its properties. Height lies along the \
            tube's z, width along its y.",
    keys: &[
        key(
            "stock",
            Text,
            "a size of the built-in list (`strutwork reference --stock`): `square 30x2`; replaces all other keys but `route`",
        ),
        key("shape", Text, "`square`, `rectangular`, `round`, `solid-round`, `flat` or `properties`"),
        key("height_mm", Number, "rectangular and flat"),
        key("width_mm", Number, "square, rectangular and flat"),
        key("diameter_mm", Number, "round and solid-round, outside"),
        key("wall_mm", Number, "square, rectangular and round"),
        key("wall", Text, "in place of `wall_mm`: `16 swg` or `1.5 mm`"),
        key(
            "outer_radius_mm",
            Number,
            "outer corner radius of square and rectangular; default after EN 10219-2; 0 for sharp corners",
        ),
        key(
            "route",
            Text,
            "hollow sections: `cold-formed` (default) or `hot-finished`, which decides on the buckling curve",
        ),
        key("area_mm2", Number, "properties: A"),
        key("iy_mm4", Number, "properties: second moment for bending in the tube's x–z plane"),
        key("iz_mm4", Number, "properties: second moment for bending in the tube's x–y plane"),
        key("j_mm4", Number, "properties: torsion constant"),
    ],
};

/// `[materials.NAME]`.
pub const MATERIAL: KeyTable = KeyTable {
    heading: "[materials.NAME]",
    about: "A material that tubes and panels name: a grade, or your own values, or a grade with some values replaced.",
    keys: &[
        key("grade", Text, "a grade of the built-in list (`strutwork reference --grades`)"),
        key("e_mpa", Number, "Young's modulus; needed without a grade"),
        key("g_mpa", Number, "shear modulus; needed without a grade"),
        key("density_kg_m3", Number, "needed wherever weight or inertia counts"),
        key("yield_mpa", Number, "yield or 0.2 % proof strength; together with `ultimate_mpa`"),
        key("ultimate_mpa", Number, "ultimate strength"),
        key("thermal_per_k", Number, "coefficient of expansion"),
        key("haz_yield_mpa", Number, "yield or proof strength beside a weld; together with `haz_ultimate_mpa`"),
        key("haz_ultimate_mpa", Number, "ultimate strength beside a weld"),
        key(
            "shear_strength_mpa",
            Number,
            "shear strength in the plane of a sheet, where it does not yield like a metal",
        ),
        key("source", Text, "where your own values come from; printed in the report"),
    ],
};

/// `[fixings.NAME]`.
pub const FIXING: KeyTable = KeyTable {
    heading: "[fixings.NAME]",
    about: "How edges of panels are fixed to the tubes: a line of adhesive, or rivets or screws. The fixing mostly governs \
            how much of a skin's stiffness counts. Examples with their sources: `strutwork reference --fixings`.",
    keys: &[
        key("kind", Text, "`bond` or `fasteners`; needed"),
        key("thickness_mm", Number, "bond: thickness of the adhesive, needed"),
        key("width_mm", Number, "bond: width of the line, needed"),
        key("shear_mpa", Number, "bond: shear modulus of the adhesive, needed"),
        key("strength_mpa", Number, "bond: its shear strength, to judge it by"),
        key("pitch_mm", Number, "fasteners: from one to the next along the edge, needed"),
        key("slip_mm_per_kn", Number, "fasteners: slip of one under its shear load, needed"),
        key("strength_n", Number, "fasteners: shear strength of one, to judge it by"),
        key("source", Text, "where the values come from; printed in the report"),
    ],
};

/// `[soft_joints]`.
pub const SOFT_JOINTS: KeyTable = KeyTable {
    heading: "[soft_joints]",
    about: "A narrow tube welded to the face of a wider hollow one bends that face: its end is less than rigid. The rule \
            gives such ends springs of an estimated stiffness (an order of magnitude, derived here, not from a standard).",
    keys: &[
        key(
            "use",
            Text,
            "`off`; `band`, a second run with the springs beside the rigid one, to give the band in which the torsional stiffness lies; or `always`. Default: band for a vehicle, else off",
        ),
        key(
            "narrower_than",
            Number,
            "the rule acts where the tube is narrower than this share of the face that it meets, 0 to 1; default 0.85",
        ),
    ],
};

/// `[vehicle]`.
pub const VEHICLE: KeyTable = KeyTable {
    heading: "[vehicle]",
    about: "The frame belongs to a vehicle on four wheels: makes the standard load cases.",
    keys: &[
        key("wheelbase_mm", Number, "distance between the axles"),
        key("track_front_mm", Number, "distance between the front contact patches"),
        key("track_rear_mm", Number, "distance between the rear contact patches"),
        key("front_axle_x_mm", Number, "x of the front axle"),
        key("ground_z_mm", Number, "z of the ground; default 0"),
        key("centre_y_mm", Number, "y of the vehicle's centre plane; default 0"),
        key(
            "front_roll_share",
            Number,
            "the front axle's share of the roll stiffness, 0 to 1; may be left out where both axles give `roll_stiffness_nm_per_deg`",
        ),
        key(
            "front_brake_share",
            Number,
            "the front axle's share of the braking force, 0 to 1; default: as the axle loads under braking",
        ),
        key("front_drive_share", Number, "the front axle's share of the driving force, 0 to 1; default 0, rear drive"),
        key(
            "cg_height_mm",
            Number,
            "height of the centre of gravity above the ground, where known better than from the masses",
        ),
        key("corners", Tables, "`[vehicle.corners.front-left]` …"),
        key("axles", Tables, "`[vehicle.axles.front]`, `[vehicle.axles.rear]`"),
    ],
};

/// `[vehicle.corners.WHEEL]`.
pub const CORNER: KeyTable = KeyTable {
    heading: "[vehicle.corners.front-left]",
    about: "One of `front-left`, `front-right`, `rear-left`, `rear-right`. What takes the wheel's force: `joints`, `body`, \
            or its links in suspension.csv (then neither of the two, and the table may be left out).",
    keys: &[
        key(
            "contact_mm",
            Point,
            "the centre of the contact patch; default from wheelbase, track, front_axle_x_mm and ground_z_mm",
        ),
        key("joints", Texts, "the joints that take the wheel's force, shared statically equivalent"),
        key("body", Text, "the body that takes it"),
        key(
            "spring_joint",
            Text,
            "where twist is applied, held and read; default: the first of `joints`; on a body, the contact point; linked, the frame's end of the link whose kind is spring or strut",
        ),
    ],
};

/// `[vehicle.axles.AXLE]`.
pub const AXLE: KeyTable = KeyTable {
    heading: "[vehicle.axles.front]",
    about: "`front` or `rear`. All keys may be left out.",
    keys: &[
        key(
            "wheel_radius_mm",
            Number,
            "height of the wheel's centre above the contact patch, loaded; needed with a shaft",
        ),
        key(
            "brakes",
            Text,
            "`outboard`, on the upright (default), or `inboard`, on the frame's side of the drive shafts",
        ),
        key(
            "shaft_joints",
            Texts,
            "the joints that take the reaction of the drive shafts' torque (final drive, inboard brakes)",
        ),
        key("shaft_body", Text, "the body that takes it, in place of joints"),
        key("roll_stiffness_nm_per_deg", Number, "roll stiffness of springs, bars and tyres at this axle"),
    ],
};

/// `[places.NAME]`.
pub const PLACE: KeyTable = KeyTable {
    heading: "[places.NAME]",
    about: "A place at which standard cases act: anchorages of belts and seats, hoops, towing eyes, jacking points.",
    keys: &[
        key(
            "role",
            Text,
            "`lap-belt`, `shoulder-belt`, `seat`, `main-hoop`, `front-hoop`, `towing-eye` or `jack`; needed",
        ),
        key("joints", Texts, "the joints that take the force; this or `body`"),
        key("body", Text, "the body that takes it"),
        key("at_mm", Point, "where the force acts; default: the mean of the joints; needed with `body`"),
        key("group", Text, "places that act together, such as the anchorages of one seat, share a text"),
        key("mass_kg", Number, "mass that counts at this place, such as a seat's"),
    ],
};

/// `[weighed]`.
pub const WEIGHED: KeyTable = KeyTable {
    heading: "[weighed]",
    about: "What the scales say, to compare with the model.",
    keys: &[
        key("frame_kg", Number, "the bare frame"),
        key("vehicle_kg", Number, "the whole vehicle as described by masses.csv"),
        key("corners_kg", Tables, "`[weighed.corners_kg]`"),
        key(
            "tolerance_kg",
            Number,
            "how far the scales may be out either way; default 0.5 (own choice: state that of your scales)",
        ),
        key(
            "raised_axle",
            Text,
            "`front` or `rear`: the axle that was raised to find the height of the centre of gravity",
        ),
        key(
            "raised_mm",
            Number,
            "how far its wheels stood above those of the other axle; suspension locked, brakes off",
        ),
        key("lower_axle_kg", Number, "what the two wheels of the other, lower axle weighed together then"),
    ],
};

/// `[weighed.corners_kg]`.
pub const WEIGHED_CORNERS: KeyTable = KeyTable {
    heading: "[weighed.corners_kg]",
    about: "Each wheel on its own scale.",
    keys: &[
        key("front-left", Number, "kg"),
        key("front-right", Number, "kg"),
        key("rear-left", Number, "kg"),
        key("rear-right", Number, "kg"),
    ],
};

/// `[factors.NAME]`.
pub const FACTOR: KeyTable = KeyTable {
    heading: "[factors.NAME]",
    about: "A factor of your own in place of one of a case script. Both keys are needed.",
    keys: &[
        key("value", Number, "its value, in the unit that the script asks for"),
        key("source", Text, "where it comes from, if only: own choice, and why; printed in the report"),
    ],
};
