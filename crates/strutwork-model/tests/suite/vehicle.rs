//! A vehicle with everything on it: a body on bolts and bushes, a linked corner, places, weights.

use strutwork_model::InputFiles;

use crate::folder::{change, toml_with_vehicle};

const BODIES: &str = "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,krz_nm_per_deg,bolt,axis,note
module,A,,,,,M10,,\"left, low\"
module,B,rigid,free,rigid,,M10,0 3 4,
drive unit,C,900,450,1500,100,,,
";

const SUSPENSION: &str =
    "corner,link,joints,upright_x_mm,upright_y_mm,upright_z_mm,chassis_x_mm,chassis_y_mm,chassis_z_mm,kind
front-left,lower front,A,1200,650,150,1300,300,100,
front-left,lower rear,body: module,1200,650,150,1000,300,100,link
front-left,upper front,A B,1190,620,400,1300,320,350,
front-left,upper rear,A,1190,620,400,1000,320,350,
front-left,track rod,A,1100,640,200,,,,
front-left,spring,C,1200,600,160,,,,spring
";

const MASSES: &str = "mass,kg,x_mm,y_mm,z_mm,joints,ixx_kg_m2,izz_kg_m2
battery,40,500,0,100,A B,,
motor,110,0,0,300,body: drive unit,4,3.5
wheel FL,22,1200,700,300,upright: front-left,,
";

const LOADS: &str = "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm,x_mm,y_mm,z_mm
brake,C,1000,0,0,0,0,0,,,
brake,body: module,0,0,-500,1,2,3,,,
brake,body: module,10,20,30,1,2,3,600,100,-200
";

const TABLES: &str = r#"[bolts.M10]
size = "M10"
grade = "8.8"
axis = "y"
[vehicle.axles.front]
wheel_radius_mm = 300
brakes = "inboard"
shaft_joints = ["A", "B"]
roll_stiffness_nm_per_deg = 330
[vehicle.axles.rear]
roll_stiffness_nm_per_deg = 270
[places.belt]
role = "lap-belt"
joints = ["A", "B"]
group = "driver"
mass_kg = 15
[places.eye]
role = "towing-eye"
body = "module"
at_mm = [1500, 0, 200]
[weighed]
frame_kg = 20.5
[weighed.corners_kg]
rear-left = 60
[options]"#;

/// The whole folder.
pub(crate) fn vehicle() -> InputFiles {
    let mut files = toml_with_vehicle();
    change(&mut files, "model.toml", "[options]", TABLES);
    change(&mut files, "model.toml", "front-left]\njoints = [\"A\"]\n", "front-left]\n");
    change(&mut files, "model.toml", "rear-left]\njoints = [\"C\"]", "rear-left]\nbody = \"module\"");
    files.0.retain(|file| file.name != "masses.csv" && file.name != "loads.csv");
    let more = [("bodies.csv", BODIES), ("suspension.csv", SUSPENSION), ("masses.csv", MASSES), ("loads.csv", LOADS)];
    files.0.extend(more.map(|(name, text)| strutwork_model::InputFile::new(name, text)));
    files
}

/// The folder with a piece of one file replaced.
pub(crate) fn with(name: &str, from: &str, to: &str) -> InputFiles {
    let mut files = vehicle();
    change(&mut files, name, from, to);
    files
}

/// The folder without one file.
pub(crate) fn without(name: &str) -> InputFiles {
    let mut files = vehicle();
    files.0.retain(|file| file.name != name);
    files
}
