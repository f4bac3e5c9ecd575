//! Faults of a twist rig's sheet and of what the scales say, each by spoiling a good folder in one place.

use strutwork_model::{InputFile, InputFiles, codes};

use crate::faults::Case;
use crate::folder::{change, folder};
use crate::vehicle::{vehicle, with};

const READINGS: &str = "station,step,x_mm,spacing_mm,role,couple_nm,direction,cycle,left_mm,right_mm
rear,0,0,700,held,0,loading,1,0,0
front,0,1000,650,loaded,,loading,1,0,0
rear,1,,,,200,loading,1,0.01,0
front,1,,,,,loading,1,0.5,-0.5
";

const TABLES: &str = r#"[rig]
held = "rear pair"
loaded = "front pair"
resolution_mm = 0.01
between = ["front", "rear"]
[rig.stations.front]
joints = ["A", "B"]
[options]"#;

/// A folder with the sheet of a rig.
fn rig() -> InputFiles {
    let mut files = folder();
    files.0.push(InputFile::new("rig.csv", READINGS));
    change(&mut files, "model.toml", "[options]", TABLES);
    files
}

fn rows(from: &str, to: &str) -> InputFiles {
    let mut files = rig();
    change(&mut files, "rig.csv", from, to);
    files
}

fn table(from: &str, to: &str) -> InputFiles {
    let mut files = rig();
    change(&mut files, "model.toml", from, to);
    files
}

/// A vehicle of which parts were weighed.
fn parts(row: &str) -> InputFiles {
    let mut files = vehicle();
    files.0.push(InputFile::new("weighed.csv", format!("part,kg,tolerance_kg\nbattery,41,\n{row}\n")));
    files
}

pub(crate) fn cases() -> Vec<Case> {
    let mut without_readings = rig();
    without_readings.0.retain(|file| file.name != "rig.csv");
    vec![
        (codes::RIG_WITHOUT_READINGS, ("model.toml", 3, 2, 3), "no readings", without_readings),
        (codes::RIG_STATION_PLACE, ("rig.csv", 2, 1, 4), "`x_mm`", rows("rear,0,0,700", "rear,0,,700")),
        (codes::RIG_DISAGREES, ("rig.csv", 4, 9, 3), "`spacing_mm`", rows("rear,1,,,", "rear,1,,710,")),
        (codes::RIG_SPACING, ("rig.csv", 3, 14, 1), "0 mm apart", rows("1000,650", "1000,0")),
        (codes::RIG_COUPLE, ("rig.csv", 4, 6, 1), "couple", rows("rear,1,,,,200", "rear,1,,,,")),
        (codes::RIG_NUMBER, ("rig.csv", 5, 7, 3), "whole number", rows("front,1,", "front,1.5,")),
        (codes::RIG_READ_TWICE, ("rig.csv", 5, 6, 1), "twice", rows("front,1,,,,,", "rear,1,,,,,")),
        (
            codes::RIG_UNKNOWN_STATION,
            ("model.toml", 8, 15, 4),
            "`front`",
            table("rig.stations.front", "rig.stations.frnt"),
        ),
        (codes::RIG_JOINTS, ("model.toml", 8, 15, 5), "joints", table(r#"joints = ["A", "B"]"#, r#"joints = ["A"]"#)),
        (
            codes::RIG_SIZE,
            ("model.toml", 6, 17, 5),
            "0 or more",
            table("resolution_mm = 0.01", "resolution_mm = -0.01"),
        ),
        (codes::WEIGHED_UNKNOWN, ("weighed.csv", 3, 1, 5), "`motor`", parts("moter,100,")),
        (codes::WEIGHED_UNKNOWN, ("weighed.csv", 3, 1, 8), "`tube: BC`", parts("tube: BX,2,")),
        (codes::WEIGHED_UNKNOWN, ("weighed.csv", 3, 1, 7), "write a name of masses.csv", parts("group:x,2,")),
        (codes::WEIGHED_NOT_POSITIVE, ("weighed.csv", 3, 11, 1), "`motor`: `tolerance_kg` is 0", parts("motor,100,0")),
        (
            codes::WEIGHED_NOT_POSITIVE,
            ("model.toml", 40, 16, 2),
            "[weighed]: `tolerance_kg` is -1",
            with("model.toml", "frame_kg = 20.5", "frame_kg = 20.5\ntolerance_kg = -1"),
        ),
        (
            codes::RAISED,
            ("model.toml", 40, 13, 3),
            "lower_axle_kg",
            with("model.toml", "frame_kg = 20.5", "frame_kg = 20.5\nraised_mm = 400"),
        ),
    ]
}

#[test]
fn the_good_sheet_is_good() {
    let read = crate::folder::model(&rig());
    assert_eq!(read.warnings, []);
    let sheet = read.value.rig().expect("readings");
    assert_eq!(sheet.stations.len(), 2);
}
