//! A vehicle for the tests, invented: a box frame with linked front corners, a bolted rear module, skins, and what the scales
//! say.

use strutwork_loads::build::CaseBuilder;
use strutwork_loads::case::Nature;
use strutwork_loads::wheels::Ride;
use strutwork_loads::{LoadCase, LoadCases};
use strutwork_model::Model;
use strutwork_model::model::Wheel;
use strutwork_testkit::Folder;

use crate::fixture::Finished;

const MODEL: &str = r#"title = "rolling box"
outside = ["Doors."]
[materials.mild]
grade = "S235JRH"
[materials.sheet]
e_mpa = 70000.0
g_mpa = 26300.0
density_kg_m3 = 2700.0
[sections.rail]
shape = "square"
width_mm = 30.0
wall_mm = 2.0
[fixings.rivets]
kind = "fasteners"
pitch_mm = 50.0
slip_mm_per_kn = 0.3
strength_n = 1800.0
source = "a source of the test"
[fixings.glue]
kind = "bond"
thickness_mm = 2.0
width_mm = 20.0
shear_mpa = 2.0
[bolts.M10]
size = "M10"
grade = "8.8"
[weighed]
frame_kg = 21.0
vehicle_kg = 140.0
[weighed.corners_kg]
front-left = 40.0
[vehicle]
front_brake_share = 0.6
[vehicle.corners.front-left]
contact_mm = [900.0, 520.0, -150.0]
[vehicle.corners.front-right]
contact_mm = [900.0, -520.0, -150.0]
[vehicle.corners.rear-left]
contact_mm = [0.0, 520.0, -150.0]
body = "module"
[vehicle.corners.rear-right]
contact_mm = [0.0, -520.0, -150.0]
body = "module"
[vehicle.axles.front]
wheel_radius_mm = 250.0
roll_stiffness_nm_per_deg = 120.0
[vehicle.axles.rear]
wheel_radius_mm = 250.0
roll_stiffness_nm_per_deg = 100.0
[places.eye]
role = "towing-eye"
joints = ["front-low-L"]
"#;

/// The folder of the vehicle.
pub(crate) fn folder() -> Folder {
    let mut joints = String::from("joint,x_mm,y_mm,z_mm\n");
    for (end, x) in [("rear", 0), ("front", 1000)] {
        for (side, y) in [("L", 200), ("R", -200)] {
            for (level, z) in [("low", 0), ("top", 300)] {
                joints.push_str(&format!("{end}-{level}-{side},{x},{y},{z}\n"));
            }
        }
    }
    let mut tubes = String::from("tube,from,to,section,material,group\n");
    let mut add = |from: String, to: String, group: &str| {
        tubes.push_str(&format!("{from}>{to},{from},{to},rail,mild,{group}\n"));
    };
    for side in ["L", "R"] {
        for level in ["low", "top"] {
            add(format!("rear-{level}-{side}"), format!("front-{level}-{side}"), "rail");
        }
        add(format!("rear-low-{side}"), format!("front-top-{side}"), "brace");
        for end in ["rear", "front"] {
            add(format!("{end}-low-{side}"), format!("{end}-top-{side}"), "post");
        }
    }
    for end in ["rear", "front"] {
        for level in ["low", "top"] {
            add(format!("{end}-{level}-L"), format!("{end}-{level}-R"), "cross");
        }
        add(format!("{end}-low-L"), format!("{end}-top-R"), "brace");
    }
    let mut links = String::from("corner,link,joints,upright_x_mm,upright_y_mm,upright_z_mm,kind\n");
    for (corner, side, y) in [("front-left", "L", 1), ("front-right", "R", -1)] {
        for (link, joint, x, across, z, kind) in [
            ("lower front", "front-low", 900, 500, 20, ""),
            ("lower rear", "rear-low", 890, 500, 20, ""),
            ("upper front", "front-top", 900, 480, 250, ""),
            ("upper rear", "rear-top", 890, 480, 250, ""),
            ("track rod", "front-low", 960, 500, 60, ""),
            ("damper", "front-top", 895, 450, 30, "spring"),
        ] {
            links.push_str(&format!("{corner},{link},{joint}-{side},{x},{},{z},{kind}\n", y * across));
        }
    }
    Folder::default()
        .with("model.toml", MODEL)
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with("suspension.csv", links)
        .with(
            "bodies.csv",
            "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,bolt,axis\nmodule,rear-low-L,,,,M10,x\n\
             module,rear-low-R,,,,M10,x\nmodule,rear-top-L,,,,M10,x\nmodule,rear-top-R,900,900,1200,,\n",
        )
        .with(
            "panels.csv",
            "panel,joints,material,thickness_mm,fixing\n\
             floor,rear-low-L front-low-L front-low-R rear-low-R,sheet,0.3,rivets\n\
             nose,front-low-L front-low-R front-top-R,sheet,1,glue\n",
        )
        .with(
            "masses.csv",
            "mass,kg,x_mm,y_mm,z_mm,joints\ndriver,70,450,0,200,rear-low-L rear-low-R front-low-L front-low-R\n\
             drive,25,0,0,100,body: module\nwheel left,10,900,500,100,upright: front-left\n\
             wheel right,10,900,-500,100,upright: front-right\n",
        )
}

/// The same with braces of 15 mm, narrow beside the rails of 30 mm.
pub(crate) fn narrow_braces() -> Folder {
    let files = folder().files();
    let tubes = files.0.into_iter().find(|file| file.name == "tubes.csv").unwrap();
    let tubes = String::from_utf8(tubes.bytes).unwrap().replace("rail,mild,brace", "slim,mild,brace");
    folder()
        .and("model.toml", "[sections.slim]\nshape = \"square\"\nwidth_mm = 15.0\nwall_mm = 1.5\n")
        .with("tubes.csv", tubes)
}

/// One case on the free vehicle.
fn case(model: &Model, name: &str, nature: Nature, act: impl FnOnce(&mut CaseBuilder<&Model>)) -> LoadCase {
    let mut builder = CaseBuilder::new(model, name, name, nature).unwrap();
    act(&mut builder);
    builder.finish().unwrap()
}

/// The vehicle at rest, over a bump, twisted, and pushed over.
#[track_caller]
pub(crate) fn vehicle() -> Finished {
    vehicle_with(folder())
}

/// The same cases on another folder.
#[track_caller]
pub(crate) fn vehicle_with(folder: Folder) -> Finished {
    let model = folder.model();
    let stand = |builder: &mut CaseBuilder<&Model>, times: [f64; 4]| {
        builder.gravity(1.0).unwrap();
        let loads = builder.wheel_loads(&Ride::REST).unwrap();
        for wheel in Wheel::ALL {
            let load = loads[wheel as usize] * times[wheel as usize];
            builder.wheel_force(wheel, [0.0, 0.0, load]).unwrap();
        }
    };
    let cases = LoadCases(vec![
        case(&model, "rest", Nature::Physical, |builder| stand(builder, [1.0; 4])),
        case(&model, "bump", Nature::Physical, |builder| {
            builder.factor("bump_times", 12.0, "×", "recalled, from memory").unwrap();
            stand(builder, [12.0, 1.0, 1.0, 1.0]);
        }),
        case(&model, "twist", Nature::Notional, |builder| builder.twist_axles(3000.0).unwrap()),
        case(&model, "push", Nature::Ultimate, |builder| {
            let joint = builder.joint("front-top-L").unwrap();
            builder.joint_load(joint, [0.0, -9000.0, 0.0], [0.0; 3]).unwrap();
        }),
    ]);
    Finished::of(model, cases)
}
