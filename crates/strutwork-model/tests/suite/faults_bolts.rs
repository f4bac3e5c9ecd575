//! Faults of bolts and of what they clamp, each by spoiling a good vehicle in one place.

use strutwork_model::codes;

use crate::bolts::with;
use crate::faults::Case;

pub(crate) fn cases() -> Vec<Case> {
    [of_the_bolt(), of_what_it_clamps()].into_iter().flatten().collect()
}

fn of_the_bolt() -> Vec<Case> {
    vec![
        (codes::BOLT_SIZE, ("model.toml", 19, 8, 12), "did you mean `M10 × 1.25`", with("M10 x 1.25", "M10 x 1,25")),
        (codes::BOLT_SIZE, ("model.toml", 19, 8, 5), "7/16 UNF", with("\"M10 x 1.25\"", "\"big\"")),
        (codes::BOLT_CLASS, ("model.toml", 20, 9, 3), "known are 4.6", with("\"10.9\"", "\"S\"")),
        (codes::UNKNOWN_WORD, ("model.toml", 22, 15, 7), "`shank`", with("\"shank\"", "\"shnak\"")),
        (codes::SHEAR_PLANES, ("model.toml", 23, 16, 1), "1, or 2", with("shear_planes = 2", "shear_planes = 3")),
        (codes::BOLT_HOLE, ("model.toml", 28, 11, 1), "10 mm does not go", with("hole_mm = 10.5", "hole_mm = 9")),
        (codes::BOLT_EDGE, ("model.toml", 27, 11, 1), "10.5 mm breaks", with("edge_mm = 18", "edge_mm = 5")),
        (codes::BOLT_VALUE, ("model.toml", 29, 13, 1), "greater than 0", with("preload_n = 30000", "preload_n = 0")),
        (codes::BOLT_VALUE, ("model.toml", 30, 12, 4), "`friction`", with("friction = 0.2", "friction = -0.2")),
        (codes::ODD_BOLT, ("model.toml", 30, 12, 2), "0.08 to 0.6", with("friction = 0.2", "friction = 20")),
        (codes::WRONG_KIND, ("model.toml", 31, 15, 3), "without quotes", with("sunk = true", "sunk = \"y\"")),
        (codes::WRONG_UNIT, ("model.toml", 29, 1, 10), "newtons", with("preload_n ", "preload_kn")),
    ]
}

fn of_what_it_clamps() -> Vec<Case> {
    vec![
        (codes::UNKNOWN_WORD, ("model.toml", 35, 10, 8), "`sleeve`", with("\"sleeve\"", "\"sleave\"")),
        (
            codes::KEYS_DISAGREE,
            ("model.toml", 25, 12, 1),
            "clamps = \"plate\"",
            with("clamps = \"plate\"\nplate_mm = 4\nplate_material = \"mild\"", "clamps = \"tube\"\nplate_mm = 4"),
        ),
        (codes::MISSING_KEY, ("model.toml", 24, 10, 7), "`plate_mm", with("plate_mm = 4\n", "")),
        (codes::MISSING_KEY, ("model.toml", 35, 10, 8), "`sleeve_wall_mm", with("sleeve_wall_mm = 3\n", "")),
        (
            codes::KEYS_DISAGREE,
            ("model.toml", 38, 11, 2),
            "bore of the sleeve",
            with("wall_mm = 3\n", "wall_mm = 3\nhole_mm = 12\n"),
        ),
        (
            codes::BOLT_EDGE,
            ("model.toml", 38, 11, 1),
            "18.0 mm breaks",
            with("wall_mm = 3\n", "wall_mm = 3\nedge_mm = 9\n"),
        ),
        (codes::SLEEVE_BORE, ("model.toml", 37, 18, 1), "10.0 mm", with("wall_mm = 3\n", "wall_mm = 4\n")),
        (codes::UNKNOWN_MATERIAL, ("model.toml", 26, 18, 6), "`mild`", with("ial = \"mild\"", "ial = \"mlid\"")),
        (codes::BOLT_VALUE, ("model.toml", 25, 12, 2), "`plate_mm`", with("plate_mm = 4", "plate_mm = -4")),
        (codes::ODD_BOLT, ("model.toml", 25, 12, 5), "1 to 40", with("plate_mm = 4", "plate_mm = 0.004")),
        (codes::NOT_FINITE, ("model.toml", 25, 12, 3), "finite", with("plate_mm = 4", "plate_mm = inf")),
    ]
}
