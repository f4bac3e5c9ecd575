//! Writes the synthetic rig sheets of the demo car and of the test suite, from fixed seeds.
//!
//!     cargo run -p strutwork-rig --example sheets
//!
//! Each starts from the model's own twist under the rig's load: what is planted is how much softer the frame is, a soft bay, how
//! the rig yields, noise of the dials, a loop, a slip, and what somebody with a clipboard gets wrong.

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use strutwork_model::model::{RigRole, RigSheet, RigWords};
use strutwork_model::{InputFile, InputFiles, Model, read_model};
use strutwork_rig::modelled;
use strutwork_testkit::rig::{Plan, PlannedSlip, PlannedStation, rig_csv};

type Fault = fn(&mut RigSheet);
/// A folder, how the frame and the rig are, what is written down wrong.
type Planted = (&'static str, fn(&mut Plan), Fault);

/// A station of a sheet: name, x and spacing in mm, role.
type At = (&'static str, f64, f64, RigRole);

const BOX: [At; 5] = [
    ("rear", 0.0, 700.0, RigRole::Held),
    ("seat", 500.0, 640.0, RigRole::Read),
    ("door", 1000.0, 640.0, RigRole::Read),
    ("dash", 1500.0, 640.0, RigRole::Read),
    ("front", 2000.0, 700.0, RigRole::Loaded),
];

const CAR: [At; 6] = [
    ("rear-springs", 300.0, 600.0, RigRole::Held),
    ("seat-back", 600.0, 1000.0, RigRole::Read),
    ("scuttle", 1230.0, 1000.0, RigRole::Read),
    ("firewall", 1680.0, 800.0, RigRole::Read),
    ("engine", 1960.0, 620.0, RigRole::Read),
    ("front-springs", 2400.0, 540.0, RigRole::Loaded),
];

fn main() -> Result<(), Box<dyn Error>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let car = model(&root.join("demo-models/trials-car"))?;
    let mut plan = plan(&car, &CAR, 0.93, 2026)?;
    // The scuttle gives more than drawn: half as much again between scuttle and firewall.
    let soft = (plan.stations[3].twist - plan.stations[2].twist) * 0.5;
    plan.stations.iter_mut().skip(3).for_each(|station| station.twist += soft);
    plan.couples = (0..8).map(|step| 200.0 + 250.0 * f64::from(step)).collect();
    plan.hysteresis = 0.025;
    plan.slip = Some(PlannedSlip { cycle: 3, step: 5, from_x: 1.2, by: 0.012_f64.to_radians() });
    let heading = "# SYNTHETIC: no car was ever on a rig. Written by `cargo run -p strutwork-rig --example sheets` from a fixed seed: the model's own\n\
                   # twist made softer by 7 %, a soft bay, a rig that yields, dials that scatter by 0.01 mm, a loop, and a slip. Invented\n\
                   # to show what a sheet looks like and what is found in one.\n";
    fs::write(root.join("demo-models/trials-car/rig.csv"), format!("{heading}{}", rig_csv(&plan.sheet())))?;

    let box_frame = model(&root.join("tests/suite/_base/rig"))?;
    for (name, change, fault) in SUITE {
        let mut plan = self::plan(&box_frame, &BOX, 0.95, 7)?;
        change(&mut plan);
        let mut sheet = plan.sheet();
        fault(&mut sheet);
        let folder: PathBuf = root.join("tests/suite/evidence").join(name);
        fs::create_dir_all(&folder)?;
        let heading = "# Synthetic: written by `cargo run -p strutwork-rig --example sheets`.\n";
        fs::write(folder.join("rig.csv"), format!("{heading}{}", rig_csv(&sheet)))?;
    }
    Ok(())
}

fn model(folder: &Path) -> Result<Model, Box<dyn Error>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        // The sheet that is there already must not be in the way of the one to come.
        if path.is_file() && name != "rig.csv" {
            files.push(InputFile { name, bytes: fs::read(&path)? });
        }
    }
    files.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(read_model(&InputFiles(files))?.value)
}

/// A rig on which the model's own twist is read, the frame softer by `ratio`.
fn plan(model: &Model, stations: &[At], ratio: f64, seed: u64) -> Result<Plan, Box<dyn Error>> {
    let mut plan = Plan::plain(1.0, seed);
    plan.stations = stations
        .iter()
        .map(|&(name, x, spacing, role)| PlannedStation { name, x: x / 1e3, spacing: spacing / 1e3, role, twist: 0.0 })
        .collect();
    let empty = RigSheet { words: RigWords::default(), ..plan.sheet() };
    let twists = modelled(model, &empty)?.rigid;
    for (station, twist) in plan.stations.iter_mut().zip(&twists) {
        station.twist = twist.ok_or("the model says nothing of a station")? / ratio;
    }
    plan.sink = [0.04 * plan.stations[plan.stations.len() - 1].twist, 0.0];
    Ok(plan)
}

fn none(_: &mut RigSheet) {}
fn plain(_: &mut Plan) {}

/// Stations of the box by place.
const SEAT: usize = 1;
const DOOR: usize = 2;
const DASH: usize = 3;
const FRONT: usize = 4;

fn dials(sheet: &mut RigSheet, station: usize, change: impl Fn(usize, [f64; 2]) -> [f64; 2]) {
    for reading in sheet.readings.iter_mut().filter(|reading| reading.station == station) {
        if let (Some(left), Some(right)) = (reading.left, reading.right) {
            let [left, right] = change(reading.step, [left, right]);
            (reading.left, reading.right) = (Some(left), Some(right));
        }
    }
}

/// Folders of `tests/suite/evidence/`: how the frame and the rig are, and what is written down wrong.
const SUITE: [Planted; 11] = [
    ("sound", plain, none),
    ("signs", plain, |sheet| {
        dials(sheet, DOOR, |_, [left, right]| [left, -right]);
        dials(sheet, DASH, |_, [left, right]| [right, left]);
    }),
    ("exchanged", plain, |sheet| {
        for reading in &mut sheet.readings {
            reading.station = [0, 1, FRONT, 3, DOOR][reading.station];
        }
    }),
    ("units", plain, |sheet| {
        dials(sheet, FRONT, |_, [left, right]| [left / 25.4, right]);
        sheet.stations[DASH].spacing /= 10.0;
        sheet.steps[4].couple /= 9.806_65;
    }),
    ("clipboard", plain, |sheet| {
        dials(sheet, FRONT, |step, [left, right]| [if step == 20 { left * 10.0 } else { left }, right]);
        dials(sheet, DASH, |step, [left, right]| [left, if (5..11).contains(&step) { 0.42e-3 } else { right }]);
        sheet.readings.retain(|reading| !(reading.station == DOOR && reading.step == 9));
    }),
    (
        "too_few",
        |plan| {
            plan.couples = vec![150.0, 900.0];
            plan.cycles = 1;
        },
        none,
    ),
    ("unnamed", plain, |sheet| {
        sheet.stations.iter_mut().for_each(|station| {
            station.role = RigRole::Read;
            station.x += 5.0;
        });
        sheet.steps.iter_mut().for_each(|step| step.couple = -step.couple);
    }),
    (
        "bolted",
        |plan| {
            plan.hysteresis = 0.06;
            plan.slip = Some(PlannedSlip { cycle: 2, step: 4, from_x: 0.9, by: 0.03_f64.to_radians() });
        },
        |sheet| {
            // The first cycle beds the frame in.
            dials(sheet, FRONT, |step, [left, right]| {
                let by = 0.06e-3 * (step as f64).min(12.0);
                [left + by, right - by]
            });
        },
    ),
    (
        "bent",
        |plan| plan.sink[0] *= 5.0,
        |sheet| {
            let steps = sheet.steps.clone();
            dials(sheet, FRONT, |step, [left, right]| {
                let by = 4.0e-3 * (steps[step].couple / 1500.0).powi(2);
                // A hand on the frame, now on one side and now on the other.
                let knock = 0.2e-3 * f64::from([1_i8, -1, -1, 1, 1, 1, -1, 1, -1, -1, 1, -1, 0][step % 13]);
                [left + by + knock, right - by - knock]
            });
        },
    ),
    (
        "soft_bay",
        |plan| {
            let soft = 0.9 * (plan.stations[DASH].twist - plan.stations[DOOR].twist);
            plan.stations.iter_mut().skip(DASH).for_each(|station| station.twist += soft);
        },
        none,
    ),
    (
        "odd_station",
        |plan| {
            let by = 0.45 * (plan.stations[DOOR].twist - plan.stations[SEAT].twist);
            plan.stations[DOOR].twist += by;
        },
        none,
    ),
];
