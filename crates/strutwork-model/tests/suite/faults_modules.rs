//! Faults of bodies, links, places, weights and inertia, each by spoiling a good vehicle in one place.

use strutwork_model::{InputFiles, codes};

use crate::faults::Case;
use crate::folder::{change, folder};
use crate::vehicle::{vehicle, with, without};

fn bodies(from: &str, to: &str) -> InputFiles {
    with("bodies.csv", from, to)
}

fn links(from: &str, to: &str) -> InputFiles {
    with("suspension.csv", from, to)
}

fn masses(from: &str, to: &str) -> InputFiles {
    with("masses.csv", from, to)
}

fn loads(from: &str, to: &str) -> InputFiles {
    with("loads.csv", from, to)
}

fn toml(from: &str, to: &str) -> InputFiles {
    with("model.toml", from, to)
}

/// The plain folder, without a vehicle, with a mass on an upright.
fn upright_without_vehicle() -> InputFiles {
    let mut files = folder();
    change(&mut files, "masses.csv", "A B", "upright: front-left");
    files
}

pub(crate) fn cases() -> Vec<Case> {
    [of_bodies(), of_carriers(), of_links(), of_the_vehicle()].into_iter().flatten().collect()
}

fn of_bodies() -> Vec<Case> {
    vec![
        (
            codes::UNKNOWN_BODY,
            ("masses.csv", 3, 19, 16),
            "`drive unit`",
            masses("body: drive unit", "body: drive-unit"),
        ),
        (codes::UNKNOWN_BODY, ("loads.csv", 3, 7, 10), "bodies.csv", loads("body: module", "body: boot")),
        (codes::UNKNOWN_BODY, ("suspension.csv", 3, 23, 10), "`module`", links("body: module", "body:modul")),
        (
            codes::UNKNOWN_BODY,
            ("model.toml", 36, 8, 8),
            "`module`",
            toml("eye\"\nbody = \"module\"", "eye\"\nbody = \"Module\""),
        ),
        (codes::UNKNOWN_BOLT, ("bodies.csv", 2, 14, 2), "M10", bodies("M10", "M1")),
        (codes::UNKNOWN_JOINT, ("bodies.csv", 2, 8, 1), "body `module`", bodies("module,A", "module,Q")),
        (codes::EMPTY_NAME, ("bodies.csv", 4, 1, 1), "a body has no name", {
            let mut files = bodies("drive unit", "");
            change(&mut files, "masses.csv", "body: drive unit", "A");
            files
        }),
        (
            codes::UNUSED,
            ("model.toml", 18, 8, 2),
            "no row of bodies.csv",
            toml("[bolts.M10]", "[bolts.M8]\n[bolts.M10]"),
        ),
        (codes::DOUBLED_BOLT, ("bodies.csv", 3, 8, 1), "twice, first on line 2", bodies("module,B", "module,A")),
        (
            codes::RIGID_TO_TWO,
            ("bodies.csv", 4, 12, 1),
            "`module` and `drive unit`",
            bodies("drive unit,C,900", "drive unit,A,rigid"),
        ),
        (
            codes::MOUNT_HOLDS_NOTHING,
            ("bodies.csv", 3, 8, 1),
            "given nothing",
            bodies("rigid,free,rigid", "free,free,free"),
        ),
        (codes::MOUNT_STIFFNESS, ("bodies.csv", 4, 14, 1), "`free`", bodies("900", "0")),
        (codes::MOUNT_STIFFNESS, ("bodies.csv", 4, 27, 4), "krz_nm_per_deg", bodies("100", "-100")),
        (codes::UNKNOWN_WORD, ("bodies.csv", 3, 10, 5), "`rigid`, `free`", bodies("rigid", "stiff")),
        (codes::NOT_A_NUMBER, ("bodies.csv", 4, 14, 3), "`900`", bodies("900", "9o0")),
        (codes::WRONG_UNIT, ("bodies.csv", 1, 48, 14), "divide", bodies("krz_nm_per_deg", "krz_nm_per_rad")),
        (codes::UNKNOWN_WORD, ("bodies.csv", 3, 32, 3), "three numbers separated by blanks", bodies("0 3 4", "0 3")),
        (codes::NO_DIRECTION, ("bodies.csv", 3, 32, 5), "points nowhere", bodies("0 3 4", "0 0 0")),
        (codes::NO_DIRECTION, ("model.toml", 21, 8, 9), "`x`, `y`, `z`", toml("axis = \"y\"", "axis = [0, 0, 0]")),
        (codes::UNKNOWN_WORD, ("model.toml", 21, 8, 6), "not a direction", toml("axis = \"y\"", "axis = \"left\"")),
        (codes::LOOSE_JOINT, ("joints.csv", 6, 1, 1), "no body bolts to it", {
            with("joints.csv", "C,500,0,800", "C,500,0,800\nD,0,0,-400")
        }),
    ]
}

fn of_carriers() -> Vec<Case> {
    vec![
        (codes::UPRIGHT_NOT_LINKED, ("masses.csv", 4, 26, 19), "suspension.csv", masses("front-left", "rear-right")),
        (codes::UPRIGHT_NOT_LINKED, ("masses.csv", 2, 22, 19), "no links", upright_without_vehicle()),
        (codes::UNKNOWN_WORD, ("masses.csv", 4, 26, 18), "`front-left`", masses("front-left", "frontleft")),
        (codes::MASS_NOT_CARRIED, ("masses.csv", 4, 1, 8), "body: NAME", masses("upright: front-left", "")),
        (codes::NO_CARRIER, ("suspension.csv", 6, 12, 9), "body: NAME", links("track rod,A", "track rod,")),
        (
            codes::NO_CARRIER,
            ("suspension.csv", 6, 22, 17),
            "wheel's side",
            links("track rod,A", "track rod,upright:rear-left"),
        ),
        (
            codes::NO_CARRIER,
            ("model.toml", 29, 9, 4),
            "takes the force",
            toml("joints = [\"A\", \"B\"]\ngroup", "group"),
        ),
        (
            codes::UNKNOWN_JOINT,
            ("model.toml", 31, 16, 3),
            "place `belt`",
            toml("joints = [\"A\", \"B\"]\ngroup", "joints = [\"A\", \"X\"]\ngroup"),
        ),
        (codes::JOINT_LISTED_TWICE, ("suspension.csv", 4, 26, 1), "once", links("A B", "A A")),
        (
            codes::KEYS_DISAGREE,
            ("model.toml", 37, 8, 8),
            "keep the one",
            toml("body = \"module\"\nat_mm", "joints = [\"A\"]\nbody = \"module\"\nat_mm"),
        ),
        (codes::POINT_MISSING, ("suspension.csv", 3, 12, 10), "on a body", links("1000,300,100,link", ",,,link")),
        (codes::POINT_MISSING, ("suspension.csv", 4, 12, 11), "several joints", links("1300,320,350", ",,")),
        (codes::POINT_MISSING, ("suspension.csv", 2, 12, 11), "given in part", links("1300,300,100", "1300,,100")),
        (codes::POINT_MISSING, ("model.toml", 34, 9, 3), "at_mm", toml("at_mm = [1500, 0, 200]\n", "")),
        (codes::POINT_MISSING, ("loads.csv", 4, 7, 12), "given in part", loads("600,100,", "600,,")),
        (codes::POINT_MISSING, ("loads.csv", 2, 24, 1), "they are for bodies", loads("0,0,0,,,", "0,0,0,5,,")),
        (
            codes::DUPLICATE_ROW,
            ("loads.csv", 4, 1, 5),
            "stands twice",
            loads("10,20,30,1,2,3,600,100,-200", "0,0,-500,1,2,3,,,"),
        ),
        (codes::MASS_INERTIA, ("masses.csv", 3, 36, 2), "0 or more", masses(",4,3.5", ",-4,3.5")),
        (codes::MASS_INERTIA, ("masses.csv", 3, 36, 1), "the other two together", {
            let mut files = masses("izz_kg_m2", "izz_kg_m2,iyy_kg_m2");
            for (from, to) in [("A B,,", "A B,,,"), ("4,3.5", "9,3.5,4"), ("front-left,,", "front-left,,,")] {
                change(&mut files, "masses.csv", from, to);
            }
            files
        }),
    ]
}

fn of_links() -> Vec<Case> {
    let mut all_wrong = vehicle();
    let file = all_wrong.0.iter_mut().find(|file| file.name == "suspension.csv").expect("there");
    let text = String::from_utf8(file.bytes.clone()).expect("text");
    file.bytes =
        text.lines().take(2).map(|line| line.replace("front-left", "fl") + "\n").collect::<String>().into_bytes();
    vec![
        (codes::UNKNOWN_WORD, ("suspension.csv", 2, 1, 9), "`front-left`", links("front-left,", "frontleft,")),
        (codes::UNKNOWN_WORD, ("suspension.csv", 2, 1, 2), "front-left, front-right", all_wrong),
        (codes::UNKNOWN_WORD, ("suspension.csv", 7, 37, 6), "`spring`", links(",,,spring", ",,,sprung")),
        (codes::EMPTY_NAME, ("suspension.csv", 6, 12, 1), "a link has no name", links("track rod", "")),
        (codes::DUPLICATE_NAME, ("suspension.csv", 3, 12, 11), "first on line 2", links("lower rear", "lower front")),
        (
            codes::LINKED_AND_CARRIED,
            ("model.toml", 10, 11, 3),
            "out of suspension.csv",
            toml("front-left]\n", "front-left]\njoints = [\"A\"]\n"),
        ),
        (
            codes::LINK_COUNT,
            ("suspension.csv", 2, 1, 10),
            "5 unknown forces",
            links("front-left,track rod,A,1100,640,200,,,,\n", ""),
        ),
        (
            codes::LINK_COUNT,
            ("suspension.csv", 2, 1, 10),
            "one force is missing, so",
            links("front-left,track rod,A,1100,640,200,,,,\n", ""),
        ),
        (codes::LINK_COUNT, ("suspension.csv", 2, 1, 10), "no row is a `spring` or a `strut`", {
            let mut files = links("front-left,spring,C,1200,600,160,,,,spring\n", "");
            change(&mut files, "model.toml", "front-left]\n", "front-left]\nspring_joint = \"A\"\n");
            files
        }),
        (
            codes::LINK_COUNT,
            ("suspension.csv", 2, 1, 10),
            "one force is too many",
            links("front-left,track rod", "front-left,bar,A,1,2,3,,,,\nfront-left,track rod"),
        ),
        (
            codes::LINK_COUNT,
            ("suspension.csv", 2, 1, 10),
            "5 × link (1 each), 1 × strut (3 each)",
            links(",,,spring", ",,,strut"),
        ),
        (
            codes::LINK_OF_NO_LENGTH,
            ("suspension.csv", 7, 12, 6),
            "no direction",
            links("C,1200,600,160", "C,500,0,800"),
        ),
        (codes::MISSING_KEY, ("model.toml", 9, 18, 10), "kind", links("160,,,,spring", "160,,,,link")),
        (codes::NO_VEHICLE, ("suspension.csv", 0, 0, 0), "no vehicle", {
            let mut files = folder();
            let suspension = with("masses.csv", "", "").get("suspension.csv").expect("there").to_vec();
            files.0.push(strutwork_model::InputFile::new("suspension.csv", suspension));
            change(&mut files, "suspension.csv", "body: module", "A");
            files
        }),
        (codes::CORNER_NOT_CARRIED, ("model.toml", 9, 18, 10), "its links to suspension.csv", {
            let mut files = without("suspension.csv");
            change(&mut files, "masses.csv", "upright: front-left", "A");
            files
        }),
    ]
}

fn of_the_vehicle() -> Vec<Case> {
    vec![
        (codes::UNKNOWN_WORD, ("model.toml", 24, 10, 9), "`inboard`", toml("\"inboard\"", "\"in-bord\"")),
        (
            codes::MISSING_KEY,
            ("model.toml", 24, 10, 9),
            "takes their torque",
            toml("shaft_joints = [\"A\", \"B\"]\n", ""),
        ),
        (codes::MISSING_KEY, ("model.toml", 22, 16, 5), "wheel's centre", toml("wheel_radius_mm = 300\n", "")),
        (codes::VEHICLE_SIZE, ("model.toml", 23, 19, 1), "front axle", toml("radius_mm = 300", "radius_mm = 0")),
        (codes::UNKNOWN_KEY, ("model.toml", 27, 16, 4), "`rear`", toml("axles.rear", "axles.raer")),
        (codes::ROLL_SHARES_DISAGREE, ("model.toml", 8, 20, 4), "0.550", toml("share = 0.55", "share = 0.56")),
        (codes::MISSING_KEY, ("model.toml", 3, 2, 7), "roll_stiffness_nm_per_deg", {
            let mut files = toml("front_roll_share = 0.55\n", "");
            change(&mut files, "model.toml", "roll_stiffness_nm_per_deg = 330\n", "");
            files
        }),
        (codes::MISSING_KEY, ("model.toml", 29, 9, 4), "no `role`", toml("role = \"lap-belt\"\n", "")),
        (codes::UNKNOWN_WORD, ("model.toml", 30, 8, 9), "`lap-belt`", toml("\"lap-belt\"", "\"lapbelt\"")),
        (codes::MASS_NOT_POSITIVE, ("model.toml", 33, 11, 2), "leave it out", toml("mass_kg = 15", "mass_kg = -1")),
        (codes::WEIGHED_NOT_POSITIVE, ("model.toml", 39, 12, 1), "`frame_kg`", toml("20.5", "0")),
        (
            codes::WEIGHED_NOT_POSITIVE,
            ("model.toml", 41, 13, 3),
            "`rear-left`",
            toml("rear-left = 60", "rear-left = -60"),
        ),
        (codes::WRONG_UNIT, ("model.toml", 39, 1, 8), "pounds", toml("frame_kg", "frame_lb")),
    ]
}
