//! The small vehicle with everything that a real one has: linked corners, a bolted module, skins, places. Invented.

use crate::{Folder, buggy};

/// The [`buggy`] with linked front corners (double wishbones, masses on the uprights), a rear module bolted to four joints
/// that carries the rear corners, the motor and inboard brakes, a floor panel, places, and weighed values: invented, and
/// lopsided on purpose.
///
/// # Units and shapes
/// Body `rear module` on `RL RR RLT RRT`; panel `floor` of material `mild` between `RL RR FR FL`; links `upper front`,
/// `upper rear`, `lower front`, `lower rear`, `track rod`, `spring` at each front corner; masses `hub left`, `hub right` on
/// the uprights, `motor` on the body with its own inertia; places `belt inner`, `belt outer` (group `driver`), `eye`, `jack`.
pub fn linked_buggy() -> Folder {
    let text = |name: &str| String::from_utf8_lossy(buggy().files().get(name).expect("in the buggy")).into_owned();
    let (first, corners) = MODEL.split_once("---\n").expect("two parts");
    let base = text("model.toml");
    let (vehicle, _) = base.split_once("[vehicle.corners.front-left]").expect("corners");
    let vehicle = vehicle.replace("front_roll_share = 0.42\n", "");
    Folder::default()
        .with("model.toml", format!("{vehicle}{first}{corners}"))
        .with("joints.csv", text("joints.csv"))
        .with("tubes.csv", text("tubes.csv"))
        .with("masses.csv", MASSES)
        .with("bodies.csv", BODIES)
        .with("suspension.csv", links("left", 1) + &links("right", -1))
        .with("panels.csv", "panel,joints,material,thickness_mm\nfloor,RL RR FR FL,mild,0.8\n")
}

const MODEL: &str = "\
[vehicle.corners.rear-left]
body = \"rear module\"
[vehicle.corners.rear-right]
body = \"rear module\"
[vehicle.axles.front]
wheel_radius_mm = 260.0
roll_stiffness_nm_per_deg = 310.0
[vehicle.axles.rear]
wheel_radius_mm = 270.0
brakes = \"inboard\"
shaft_body = \"rear module\"
roll_stiffness_nm_per_deg = 250.0
---
[places.\"belt inner\"]
role = \"lap-belt\"
joints = [\"RL\", \"FL\"]
at_mm = [500.0, 100.0, 30.0]
group = \"driver\"
[places.\"belt outer\"]
role = \"lap-belt\"
joints = [\"RLT\"]
group = \"driver\"
[places.eye]
role = \"towing-eye\"
joints = [\"FL\", \"FR\"]
[places.jack]
role = \"jack\"
body = \"rear module\"
at_mm = [50.0, 300.0, -50.0]
[weighed]
frame_kg = 40.0
vehicle_kg = 260.0
[weighed.corners_kg]
front-left = 62.0
front-right = 60.0
rear-left = 70.0
rear-right = 66.0
";

const MASSES: &str = "\
mass,kg,x_mm,y_mm,z_mm,joints,ixx_kg_m2,iyy_kg_m2,izz_kg_m2
driver,80,700,150,250,RL RR RLT,3,4,2
battery,45,1200,-200,100,FL FR RR,,,
motor,60,150,10,150,body: rear module,1.5,2,2.5
hub left,14,1800,560,20,upright: front-left,0.3,0.5,0.3
hub right,15,1795,-560,25,upright: front-right,0.3,0.5,0.3
";

const BODIES: &str = "\
body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,axis
rear module,RL,,,,y
rear module,RR,,,,y
rear module,RLT,,,,
rear module,RRT,20000,20000,15000,x
";

/// A double wishbone; `side` is +1 on the left.
fn links(name: &str, side: i32) -> String {
    let letter = if side > 0 { "L" } else { "R" };
    let rows = [
        ("upper front", "T", [1800, 545, 130], [1900, 370, 110], "link"),
        ("upper rear", "T", [1800, 545, 130], [1690, 370, 105], "link"),
        ("lower front", "", [1805, 570, -110], [1920, 400, -60], "link"),
        ("lower rear", "", [1805, 570, -110], [1660, 395, -65], "link"),
        ("track rod", "", [1910, 550, -20], [1890, 385, -10], "link"),
        ("spring", "T", [1805, 540, -90], [1790, 385, 330], "spring"),
    ];
    let head = if side > 0 {
        "corner,link,joints,upright_x_mm,upright_y_mm,upright_z_mm,chassis_x_mm,chassis_y_mm,chassis_z_mm,kind\n"
    } else {
        ""
    };
    let lines = rows.map(|(link, top, [ux, uy, uz], [cx, cy, cz], kind)| {
        format!("front-{name},{link},F{letter}{top},{ux},{},{uz},{cx},{},{cz},{kind}\n", side * uy, side * cy)
    });
    format!("{head}{}", lines.concat())
}
