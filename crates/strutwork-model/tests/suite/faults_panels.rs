//! Faults of panels, fixings, ends of tubes and soft joints, each by spoiling a good folder in one place.

use strutwork_model::{InputFiles, codes};

use crate::faults::Case;
use crate::folder::change;
use crate::panels::with;

fn panels(from: &str, to: &str) -> InputFiles {
    with("panels.csv", from, to)
}

fn toml(from: &str, to: &str) -> InputFiles {
    with("model.toml", from, to)
}

fn tubes(from: &str, to: &str) -> InputFiles {
    with("tubes.csv", from, to)
}

/// The good folder with a joint moved.
fn joint(from: &str, to: &str) -> InputFiles {
    with("joints.csv", from, to)
}

pub(crate) fn cases() -> Vec<Case> {
    [of_panels(), of_shapes(), of_fixings(), of_ends()].into_iter().flatten().collect()
}

fn of_panels() -> Vec<Case> {
    vec![
        (codes::UNKNOWN_FIXING, ("panels.csv", 2, 24, 5), "`rivets`", panels("rivets", "rivet ")),
        (codes::UNKNOWN_MATERIAL, ("panels.csv", 2, 14, 5), "panel `side`", panels("sheet", "sheer")),
        (codes::UNKNOWN_JOINT, ("panels.csv", 2, 10, 1), "panel `side`", panels("A B C D", "A B Q D")),
        (codes::JOINT_LISTED_TWICE, ("panels.csv", 2, 12, 1), "once", panels("A B C D", "A B C A")),
        (codes::DUPLICATE_NAME, ("panels.csv", 3, 1, 4), "two panels", panels("wing", "side")),
        (codes::EMPTY_NAME, ("panels.csv", 3, 1, 1), "a panel has no name", panels("wing", "")),
        (codes::PANEL_CORNERS, ("panels.csv", 3, 6, 1), "2 corners", panels("wing,A B C", "wing,A B")),
        (codes::PANEL_CORNERS, ("panels.csv", 3, 1, 4), "0 corners", panels("wing,A B C", "wing,")),
        (codes::PANEL_THICKNESS, ("panels.csv", 2, 20, 3), "greater than 0", panels("1.0", "0.0")),
        (codes::ODD_THICKNESS, ("panels.csv", 2, 20, 5), "0.001 mm", panels("1.0", "0.001")),
        (codes::BLANK_CELL, ("panels.csv", 2, 20, 1), "empty", panels("1.0", "")),
        (codes::NOT_FINITE, ("panels.csv", 2, 20, 3), "finite", panels("1.0", "inf")),
        (codes::WRONG_UNIT, ("panels.csv", 1, 23, 11), "multiply metres", panels("thickness_mm", "thickness_m ")),
        (codes::GRADE_WALL, ("panels.csv", 2, 20, 2), "up to 12.5 mm", panels("1.0", "13")),
        (
            codes::DOUBLED_PANEL,
            ("panels.csv", 3, 1, 5),
            "`side` and `again`",
            panels("wing", "again,C B A D,sheet,1.0,,\nwing"),
        ),
        (codes::BARE_EDGE, ("panels.csv", 2, 6, 1), "between `B` and `C`", {
            let mut files = tubes("BC,B,C,rail,mild,,,\n", "");
            change(&mut files, "panels.csv", "wing,A B C,", "wing,A C D,");
            change(&mut files, "tube_loads.csv", "BC", "AB");
            change(&mut files, "temperatures.csv", "BC", "AB");
            files
        }),
        (codes::NO_DENSITY, ("model.toml", 11, 12, 5), "7850", {
            toml("grade = \"5251-H22 sheet\"", "e_mpa = 70000\ng_mpa = 26300")
        }),
    ]
}

fn of_shapes() -> Vec<Case> {
    vec![
        (codes::PANEL_SHAPE, ("panels.csv", 2, 6, 1), "write `A B C D`", panels("A B C D", "A C B D")),
        (codes::PANEL_SHAPE, ("panels.csv", 2, 8, 1), "`B` of panel `side`", joint("B,1000,0,0", "B,300,0,500")),
        (codes::PANEL_AREA, ("panels.csv", 3, 6, 1), "one line", {
            let mut files = joint("D,0,0,800", "D,0,0,800\nE,500,0,0");
            change(&mut files, "tubes.csv", "AB,A,B,rail,mild,,20,", "AE,A,E,rail,mild,,,\nAB,E,B,rail,mild,,,");
            change(&mut files, "panels.csv", "wing,A B C", "wing,A E B");
            files
        }),
        (codes::PANEL_WARPED, ("panels.csv", 2, 6, 1), "1/21 of the shorter", joint("D,0,0,800", "D,0,120,800")),
        (codes::PANEL_WARPED, ("panels.csv", 2, 6, 1), "two triangles", joint("D,0,0,800", "D,0,270,800")),
    ]
}

fn of_fixings() -> Vec<Case> {
    vec![
        (codes::MISSING_KEY, ("model.toml", 13, 10, 6), "no `kind`", toml("kind = \"fasteners\"\n", "")),
        (codes::UNKNOWN_WORD, ("model.toml", 14, 8, 10), "`fasteners`", toml("\"fasteners\"", "\"fastener\"")),
        (codes::MISSING_KEY, ("model.toml", 13, 10, 6), "pitch_mm = …", toml("pitch_mm = 50\n", "")),
        (codes::KEYS_DISAGREE, ("model.toml", 18, 12, 2), "no `width_mm`", {
            toml("strength_n = 1800", "strength_n = 1800\nwidth_mm = 20")
        }),
        (codes::FIXING_VALUE, ("model.toml", 15, 12, 1), "greater than 0", toml("pitch_mm = 50", "pitch_mm = 0")),
        (codes::FIXING_VALUE, ("model.toml", 23, 13, 2), "`shear_mpa` is -2", toml("shear_mpa = 2", "shear_mpa = -2")),
        (codes::ODD_FIXING, ("model.toml", 16, 18, 6), "check the unit", toml("0.3\n", "0.0003\n")),
        (codes::UNKNOWN_KEY, ("model.toml", 17, 1, 10), "`strength_n`", toml("strength_n", "strenght_n")),
        (
            codes::UNUSED,
            ("model.toml", 13, 10, 4),
            "no panel uses",
            toml(
                "[fixings.rivets]",
                "[fixings.idle]\nkind = \"fasteners\"\npitch_mm = 40\nslip_mm_per_kn = 1\n[fixings.rivets]",
            ),
        ),
    ]
}

fn of_ends() -> Vec<Case> {
    vec![
        (
            codes::SPRING_AND_RELEASE,
            ("tubes.csv", 2, 22, 4),
            "`ry` is released at `from`",
            tubes("AB,A,B,rail,mild,,20,", "AB,A,B,rail,mild,ry,,2000"),
        ),
        (
            codes::END_SPRING,
            ("tubes.csv", 3, 20, 1),
            "release_from",
            tubes("BC,B,C,rail,mild,,,", "BC,B,C,rail,mild,,,0"),
        ),
        (codes::END_SPRING, ("tubes.csv", 3, 20, 2), "is -1", tubes("BC,B,C,rail,mild,,,", "BC,B,C,rail,mild,,,-1")),
        (codes::OFFSET_TOO_LONG, ("tubes.csv", 2, 19, 3), "600.0 mm long", tubes(",20,", ",600,")),
        (codes::OFFSET_TOO_LONG, ("tubes.csv", 2, 19, 4), "between its ends", tubes(",20,", ",2500,")),
        (codes::NOT_A_NUMBER, ("tubes.csv", 2, 19, 3), "`200`", tubes(",20,", ",2o0,")),
        (codes::SOFT_LIMIT, ("model.toml", 27, 17, 2), "0.85", toml("narrower_than = 0.8", "narrower_than = 85")),
        (codes::UNKNOWN_WORD, ("model.toml", 26, 7, 6), "`band`", toml("\"band\"", "\"bend\"")),
    ]
}
