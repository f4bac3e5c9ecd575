//! A small correct model folder, and ways to spoil it.

use strutwork_model::{Faults, InputFile, InputFiles, Model, Warned, read_model};

const FILES: [(&str, &str); 9] = [
    (
        "model.toml",
        r#"title = "Triangle"
revision = "A"
[options]
self_weight = true
[sections.rail]
shape = "square"
width_mm = 30.0
wall_mm = 2.0
[materials.mild]
grade = "S235JRH"
[factors.bump]
value = 2.5
source = "own choice, for this test"
"#,
    ),
    ("joints.csv", "# a comment\njoint,x_mm,y_mm,z_mm\nA,0,0,0\nB,1000,0,0\nC,500,0,800\n"),
    ("tubes.csv", "tube,from,to,section,material\nAB,A,B,rail,mild\nBC,B,C,rail,mild\nCA,C,A,rail,mild\n"),
    (
        "supports.csv",
        "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,free,fixed\nB,free,fixed,12.5,free,100,free\n",
    ),
    ("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nbrake,C,1000,0,0,0,0,0\nsnow,C,0,0,-500,0,0,20\n"),
    ("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m,wz_to_n_per_m\nsnow,BC,global,0,0,-50,-100\n"),
    ("tube_point_loads.csv", "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nbrake,AB,local,0.25,0,0,-10,0,0,0\n"),
    ("temperatures.csv", "case,tube,rise_k,gradient_z_k_per_m\nsun,BC,30,100\n"),
    ("settlements.csv", "case,joint,ux_mm,uy_mm,uz_mm,rx_deg,ry_deg,rz_deg\nsink,A,,,-5,,,\n"),
];

const MASSES: &str = "mass,kg,x_mm,y_mm,z_mm,joints,note\nbattery,40,500,0,100,A B,\"under, the floor\"\n";

const VEHICLE: &str = r#"[vehicle]
wheelbase_mm = 2400
track_front_mm = 1400
track_rear_mm = 1420
front_axle_x_mm = 1200
front_roll_share = 0.55
[vehicle.corners.front-left]
joints = ["A"]
[vehicle.corners.front-right]
joints = ["A", "B"]
spring_joint = "B"
[vehicle.corners.rear-left]
joints = ["C"]
[vehicle.corners.rear-right]
joints = ["C"]
contact_mm = [-1200, -710.4, 0]
[options]"#;

/// The whole folder.
pub(crate) fn folder() -> InputFiles {
    let all = FILES.iter().copied().chain([("masses.csv", MASSES)]);
    InputFiles(all.map(|(name, text)| InputFile::new(name, text)).collect())
}

/// The folder with a piece of one file replaced.
pub(crate) fn with(name: &str, from: &str, to: &str) -> InputFiles {
    let mut files = folder();
    change(&mut files, name, from, to);
    files
}

/// Replaces a piece of a file that must be there.
pub(crate) fn change(files: &mut InputFiles, name: &str, from: &str, to: &str) {
    let file = files.0.iter_mut().find(|file| file.name == name).expect("a file of the folder");
    let text = String::from_utf8(std::mem::take(&mut file.bytes)).expect("text");
    assert!(text.contains(from), "`{from}` is not in {name}");
    file.bytes = text.replacen(from, to, 1).into_bytes();
}

/// The folder with one file replaced or added.
pub(crate) fn file(name: &str, bytes: impl Into<Vec<u8>>) -> InputFiles {
    let mut files = folder();
    files.0.retain(|file| file.name != name);
    files.0.push(InputFile::new(name, bytes));
    files
}

/// The folder without one file.
pub(crate) fn without(name: &str) -> InputFiles {
    let mut files = folder();
    files.0.retain(|file| file.name != name);
    files
}

/// The folder with a vehicle in `model.toml`.
pub(crate) fn toml_with_vehicle() -> InputFiles {
    with("model.toml", "[options]", VEHICLE)
}

/// The model of a folder that must be right.
pub(crate) fn model(files: &InputFiles) -> Warned<Model> {
    read_model(files).unwrap_or_else(|Faults(faults)| panic!("{}", Faults(faults)))
}
