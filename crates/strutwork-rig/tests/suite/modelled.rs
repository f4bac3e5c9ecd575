//! Sheets beside a model that is loaded as the rig loads the frame.

use strutwork_model::Model;
use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::model::{RigRole, RigSheet};
use strutwork_model::units::to_nm_per_deg;
use strutwork_rig::{NotModelled, Standing, codes, judge, modelled};
use strutwork_testkit::rig::{Plan, PlannedStation};

const TOML: &str = include_str!("../../../../tests/suite/_base/rig/model.toml");
const JOINTS: &str = include_str!("../../../../tests/suite/_base/rig/joints.csv");
const TUBES: &str = include_str!("../../../../tests/suite/_base/rig/tubes.csv");

/// The box of the end-to-end suite.
fn frame() -> Model {
    read(TOML, JOINTS, TUBES)
}

fn read(toml: &str, joints: &str, tubes: &str) -> Model {
    let file = |name: &str, text: &str| InputFile::new(name, text.as_bytes());
    let files = InputFiles(vec![file("model.toml", toml), file("joints.csv", joints), file("tubes.csv", tubes)]);
    strutwork_model::read_model(&files).expect("a model").value
}

const ROLES: [RigRole; 5] = [RigRole::Held, RigRole::Read, RigRole::Read, RigRole::Read, RigRole::Loaded];

fn plan(ratio: f64, seed: u64) -> Plan {
    let names = ["rear", "seat", "door", "dash", "front"];
    let station = |place: usize| PlannedStation {
        name: names[place],
        x: 0.5 * place as f64,
        spacing: 0.65,
        role: ROLES[place],
        twist: 0.0,
    };
    let mut plan = Plan { stations: (0..5).map(station).collect(), ..Plan::plain(1.0, seed) };
    let twists = modelled(&frame(), &plan.sheet()).expect("the model's twist").rigid;
    for (station, twist) in plan.stations.iter_mut().zip(twists) {
        station.twist = twist.expect("a twist") / ratio;
    }
    plan.sink = [0.05 * plan.stations[4].twist, 0.0];
    plan
}

#[test]
fn the_model_twists_as_its_own_measure_says() {
    let (model, sheet) = (frame(), plan(1.0, 1).sheet());
    let of = modelled(&model, &sheet).expect("the model's twist");
    let twists: Vec<f64> = of.rigid.iter().flatten().copied().collect();
    assert!(twists[0].abs() < 1e-15 && twists.windows(2).all(|pair| pair[0] < pair[1]), "{twists:?}");
    // Held at the rear pair and at one more pair, the frame between them cannot twist, and beyond them it does as before.
    let two = RigSheet {
        stations: sheet
            .stations
            .iter()
            .cloned()
            .map(|mut of| {
                if of.name == "seat" {
                    of.role = RigRole::Held;
                }
                of
            })
            .collect(),
        ..sheet.clone()
    };
    let held = modelled(&model, &two).expect("the model's twist").rigid;
    assert!(held[1].expect("a twist").abs() < 1e-12);
    assert!(held[4].expect("a twist") < twists[4] - 0.5 * twists[1]);
    // Read from the other end, the stiffness is the same.
    let back = RigSheet {
        stations: sheet
            .stations
            .iter()
            .cloned()
            .enumerate()
            .map(|(place, mut of)| {
                of.role = ROLES[4 - place];
                of
            })
            .collect(),
        ..sheet
    };
    let other = modelled(&model, &back).expect("the model's twist").rigid[0].expect("a twist");
    assert!((other.abs() / twists[4] - 1.0).abs() < 1e-9, "{other} {}", twists[4]);
}

#[test]
fn the_ratio_is_found_and_stands_where_it_should() {
    let model = frame();
    let of = modelled(&model, &plan(1.0, 0).sheet()).expect("the model's twist");
    for (ratio, standing) in [(0.95, Standing::Within), (0.70, Standing::Softer), (1.10, Standing::Stiffer)] {
        let mut within = 0;
        for seed in 0..40 {
            let sheet = plan(ratio, 900 + seed).sheet();
            let judged = judge(&sheet, Some(&of));
            let against = judged.against.expect("a comparison");
            assert_eq!(against.standing, standing, "{ratio}: {}", against.ratio);
            assert!((against.ratio / ratio - 1.0).abs() < 0.01, "{} is not {ratio}", against.ratio);
            within += usize::from(against.interval[0] <= ratio && ratio <= against.interval[1]);
            let strangers: Vec<_> = judged
                .remarks
                .iter()
                .filter(|remark| ![codes::AGREES, codes::DIFFERS].contains(&remark.code))
                .collect();
            assert!(strangers.is_empty(), "{strangers:#?}");
        }
        assert!(within >= 38, "{ratio}: {within} of 40");
    }
}

#[test]
fn a_soft_bay_is_named_and_no_other() {
    for seed in 0..20 {
        let mut plan = plan(0.95, 1900 + seed);
        let soft = 0.6 * (plan.stations[3].twist - plan.stations[2].twist);
        plan.stations.iter_mut().skip(3).for_each(|station| station.twist += soft);
        let sheet = plan.sheet();
        let judged = judge(&sheet, Some(&modelled(&frame(), &sheet).expect("the model's twist")));
        let bays: Vec<&str> = judged
            .remarks
            .iter()
            .filter(|remark| remark.code == codes::BAY)
            .map(|remark| remark.subject.as_str())
            .collect();
        assert_eq!(bays, ["door to dash"], "{:#?}", judged.remarks);
    }
}

#[test]
fn units_of_the_whole_sheet_are_named_and_nothing_is_converted() {
    type Fault = fn(&mut RigSheet);
    let faults: [(&str, Fault); 3] = [
        ("kgf·m", |sheet| sheet.steps.iter_mut().for_each(|step| step.couple /= 9.806_65)),
        ("inches", |sheet| scale(sheet, 1.0 / 25.4)),
        ("hundredths", |sheet| scale(sheet, 100.0)),
    ];
    for (words, fault) in faults {
        for seed in 0..10 {
            let mut sheet = plan(0.9, 77 + seed).sheet();
            fault(&mut sheet);
            let of = modelled(&frame(), &sheet).expect("the model's twist");
            let judged = judge(&sheet, Some(&of));
            assert!(judged.size_in_doubt, "{words}: {:#?}", judged.remarks);
            assert!(
                judged.remarks.iter().any(|remark| remark.message.contains(words)),
                "{words}: {:#?}",
                judged.remarks
            );
            assert!(judged.verdict[1].contains("do not use this figure"));
        }
    }
}

fn scale(sheet: &mut RigSheet, by: f64) {
    for reading in &mut sheet.readings {
        (reading.left, reading.right) = (reading.left.map(|value| value * by), reading.right.map(|value| value * by));
    }
}

#[test]
fn a_spacing_from_the_centre_line_is_named() {
    for seed in 0..10 {
        let mut sheet = plan(0.95, 400 + seed).sheet();
        sheet.stations[2].spacing /= 2.0;
        let judged = judge(&sheet, Some(&modelled(&frame(), &sheet).expect("the model's twist")));
        let told = judged.remarks.iter().find(|remark| remark.code == codes::SPACING).expect("it is named");
        assert!(
            told.subject == "door" && told.message.contains("a spacing of 650 mm in the place of 325 mm"),
            "{told:#?}"
        );
        assert!(to_nm_per_deg(judged.stiffness.expect("a stiffness").stiffness) > 100.0);
    }
}

/// A pair of dials on the pivot's post reads what the rig yields in front: the sink is taken between it and the held pair, and the
/// stiffness is stated as without it.
#[test]
fn a_pair_on_the_pivots_post_holds_nothing() {
    let model = frame();
    let mut plan = plan(0.95, 31);
    let truth = 1.0 / plan.stations[4].twist;
    plan.stations.push(PlannedStation { name: "post", x: 2.05, spacing: 0.5, role: RigRole::Held, twist: 0.0 });
    // The bed twists along: what the rig yields grows from the rear to the front.
    plan.sink = [0.03 / truth, 0.02 / truth];
    let sheet = plan.sheet();
    let of = modelled(&model, &sheet).expect("the model's twist");
    assert_eq!(of.rigid[5], None);
    let judged = judge(&sheet, Some(&of));
    assert_eq!(judged.between, Some([4, 0]));
    let [low, high] = judged.stiffness.expect("a stiffness").interval;
    assert!(low < truth && truth < high, "{low} to {high}, {truth}");
    let against = judged.against.expect("a comparison");
    assert!((against.ratio / 0.95 - 1.0).abs() < 0.01, "{}", against.ratio);
}

/// Where nothing is called loaded the model is loaded where the sheet is: at the station that turns most, which lies between two
/// others here.
#[test]
fn the_model_is_loaded_at_the_station_that_turns_most() {
    let model = frame();
    let mut named = plan(1.0, 3);
    named.stations[3].role = RigRole::Loaded;
    named.stations[4].role = RigRole::Read;
    let of = modelled(&model, &named.sheet()).expect("the model's twist");
    // Of what overhangs the model says nothing: it is read a little less.
    let beyond = of.rigid[3].map(|twist| 0.97 * twist);
    for (station, twist) in named.stations.iter_mut().zip(&of.rigid) {
        station.twist = twist.or(beyond).expect("a twist");
    }
    let mut unnamed = named.clone();
    unnamed.stations[3].role = RigRole::Read;
    let sheet = unnamed.sheet();
    let own = modelled(&model, &sheet).expect("the model's twist");
    assert_eq!((own.loaded, &own.rigid), (3, &of.rigid));
    assert!(own.how.contains("a couple at dash"), "{}", own.how);
    let judged = judge(&sheet, Some(&own));
    assert_eq!(judged.between, Some([3, 0]));
    assert!(judged.remarks.iter().any(|remark| remark.code == codes::ROLES), "{:#?}", judged.remarks);
    let against = judged.against.expect("a comparison");
    assert!((against.ratio - 1.0).abs() < 0.01, "{}", against.ratio);
}

/// A frame ten times softer twists ten times as much, some 100 N·m/deg, and no arc tangent makes it stiffer.
#[test]
fn the_twist_of_a_soft_frame_is_as_linear_as_its_stiffness() {
    let sheet = plan(1.0, 4).sheet();
    let of = |e: f64, g: f64| {
        let own = format!("e_mpa = {e}\ng_mpa = {g}\nyield_mpa = 235\nultimate_mpa = 360\ndensity_kg_m3 = 7850");
        modelled(&read(&TOML.replace("grade = \"S235JRH\"", &own), JOINTS, TUBES), &sheet).expect("the twist").rigid[4]
    };
    let (stiff, soft) = (of(210_000.0, 81_000.0).expect("a twist"), of(21_000.0, 8100.0).expect("a twist"));
    assert!((soft / stiff / 10.0 - 1.0).abs() < 1e-7, "{}", soft / stiff);
}

/// Two joints of one side are no pair: where none lies across, the station's joints have to be named.
#[test]
fn two_joints_of_one_side_are_no_pair() {
    let joints = JOINTS
        .replace("front-low-R,2000,-350,0", "front-low-R,2000,-350,20")
        .replace("front-top-R,2000,-350,300", "front-top-R,2000,-350,280\ninner,2000,150,0\n");
    let tubes = format!("{TUBES}inner,front-low-L,inner,rail,mild\n");
    let found = modelled(&read(TOML, &joints, &tubes), &plan(1.0, 5).sheet());
    let Err(NotModelled::NoPair { role, station }) = &found else { panic!("{found:?}") };
    assert_eq!((*role, station.as_str()), ("loaded", "front"));
}

/// Joints that are named and lie above each other take no couple.
#[test]
fn joints_above_each_other_are_named_with_their_station() {
    let model = frame();
    let mut sheet = plan(1.0, 6).sheet();
    let joint = |name: &str| model.joints().iter_with_id().find(|(_, joint)| joint.name == name).expect("the joint").0;
    for pair in [["front-low-L", "front-top-L"], ["front-low-R", "front-low-L"]] {
        sheet.stations[4].joints = Some(pair.map(joint));
        let told = modelled(&model, &sheet).expect_err("no pair").to_string();
        assert!(told.contains("of station `front` are no left and right pair") && told.contains(pair[0]), "{told}");
    }
}

/// A frame without mass cannot be balanced: what is missing is said, not another name of joints.
#[test]
fn a_frame_without_density_says_what_it_lacks() {
    let own = "e_mpa = 210000\ng_mpa = 81000\nyield_mpa = 235\nultimate_mpa = 360";
    let model = read(&TOML.replace("grade = \"S235JRH\"", own), JOINTS, TUBES);
    let why = modelled(&model, &plan(1.0, 7).sheet()).expect_err("no mass");
    assert!(matches!(why, NotModelled::Loads(_)) && why.remedy().contains("density"), "{why}: {}", why.remedy());
}
