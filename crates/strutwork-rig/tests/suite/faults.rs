//! Planted faults: each is named, at its place, and nothing else is.

use strutwork_model::Code;
use strutwork_model::model::{RigRole, RigSheet};
use strutwork_rig::{Judgement, codes, judge};
use strutwork_testkit::rig::{Plan, Random};

const STIFFNESS: f64 = 3000.0 * 180.0 / std::f64::consts::PI;
/// Seeds that each fault is planted with.
const SEEDS: u64 = 20;

/// Stations by place.
const REAR: usize = 0;
const DOOR: usize = 2;
const DASH: usize = 3;
const FRONT: usize = 4;

/// Plants a fault in clean sheets and judges them.
fn planted(plan: impl Fn(Plan) -> Plan, fault: impl Fn(&mut RigSheet, &mut Random)) -> Vec<Judgement> {
    (0..SEEDS)
        .map(|seed| {
            let mut sheet = plan(Plan::plain(STIFFNESS, 7000 + seed)).sheet();
            fault(&mut sheet, &mut Random(seed));
            judge(&sheet, None)
        })
        .collect()
}

/// Every judgement says the code once, of the subject, with the words; and no other code.
fn only(judged: &[Judgement], code: Code, subject: &str, words: &str) {
    for judgement in judged {
        let told: Vec<String> = judgement
            .remarks
            .iter()
            .map(|remark| format!("{} {}: {}", remark.code, remark.subject, remark.message))
            .collect();
        let [one] = judgement.remarks.as_slice() else { panic!("not one remark: {told:#?}") };
        assert!(one.code == code && one.subject == subject && one.message.contains(words), "{told:#?}");
    }
}

fn stiffness_is_found(judged: &[Judgement]) {
    for judgement in judged {
        let [low, high] = judgement.stiffness.as_ref().expect("a stiffness").interval;
        assert!(low <= STIFFNESS && STIFFNESS <= high, "{low} to {high}: {:#?}", judgement.remarks);
    }
}

fn dial(sheet: &mut RigSheet, station: usize, right: bool, change: impl Fn(usize, f64) -> f64) {
    for reading in sheet.readings.iter_mut().filter(|reading| reading.station == station) {
        let value = if right { &mut reading.right } else { &mut reading.left };
        *value = value.map(|value| change(reading.step, value));
    }
}

fn same(plan: Plan) -> Plan {
    plan
}

#[test]
fn a_dial_that_counts_the_other_way() {
    for (station, name) in [(DOOR, "door"), (FRONT, "front")] {
        let judged = planted(same, |sheet, _| dial(sheet, station, true, |_, value| -value));
        only(&judged, codes::DIAL_SIGN, name, "the right dial alone");
        stiffness_is_found(&judged);
        assert!(judged.iter().all(|judgement| judgement.assumed == [station]));
    }
}

#[test]
fn left_and_right_exchanged() {
    for (station, name) in [(DOOR, "door"), (DASH, "dash"), (FRONT, "front")] {
        let judged = planted(same, |sheet, _| {
            for reading in sheet.readings.iter_mut().filter(|reading| reading.station == station) {
                std::mem::swap(&mut reading.left, &mut reading.right);
            }
        });
        only(&judged, codes::SIDES_SWAPPED, name, "turns against all others");
        stiffness_is_found(&judged);
    }
}

#[test]
fn left_and_right_of_the_held_pair_exchanged() {
    let yields = |plan: Plan| Plan { sink: [0.1 / STIFFNESS, 0.0], ..plan };
    let judged = planted(yields, |sheet, _| {
        for reading in sheet.readings.iter_mut().filter(|reading| reading.station == REAR) {
            std::mem::swap(&mut reading.left, &mut reading.right);
        }
    });
    only(&judged, codes::SIDES_SWAPPED, "rear", "the held pair rear turns against the couple");
    stiffness_is_found(&judged);
}

#[test]
fn the_whole_sheet_the_other_way_round() {
    let judged = planted(same, |sheet, _| sheet.steps.iter_mut().for_each(|step| step.couple = -step.couple));
    only(&judged, codes::AGAINST_COUPLE, "", "twists against its couple");
    stiffness_is_found(&judged);
}

#[test]
fn two_stations_exchanged() {
    let judged = planted(same, |sheet, _| {
        for reading in &mut sheet.readings {
            reading.station = match reading.station {
                DOOR => FRONT,
                FRONT => DOOR,
                other => other,
            };
        }
    });
    only(&judged, codes::STATIONS_SWAPPED, "door and front", "goes back and forth");
    stiffness_is_found(&judged);
}

#[test]
fn a_dial_in_inches_and_one_in_hundredths() {
    let judged = planted(same, |sheet, _| dial(sheet, FRONT, false, |_, value| value / 25.4));
    only(&judged, codes::DIAL_UNIT, "front", "inches written as mm");
    stiffness_is_found(&judged);
    let judged = planted(same, |sheet, _| dial(sheet, DASH, true, |_, value| value * 100.0));
    only(&judged, codes::DIAL_UNIT, "dash", "hundredths of a millimetre written as mm");
    let both = planted(same, |sheet, _| {
        dial(sheet, DOOR, true, |_, value| value * 100.0);
        dial(sheet, DOOR, false, |_, value| value * 100.0);
    });
    only(&both, codes::DIAL_UNIT, "door", "both its dials: hundredths of a millimetre");
}

#[test]
fn a_spacing_in_centimetres() {
    let judged = planted(same, |sheet, _| sheet.stations[DASH].spacing /= 10.0);
    only(&judged, codes::SPACING, "dash", "its spacing is 100 mm: centimetres written as mm");
    stiffness_is_found(&judged);
}

#[test]
fn the_couple_of_one_step_mistyped() {
    let judged = planted(same, |sheet, _| {
        let step =
            sheet.steps.iter_mut().find(|step| step.cycle == 2 && step.number == 4 && !step.unloading).expect("it");
        step.couple /= 9.806_65;
    });
    only(&judged, codes::COUPLE_UNIT, "", "9.81 times as much: kgf·m");
    stiffness_is_found(&judged);
}

#[test]
fn a_slip_of_the_pen() {
    for factor in [10.0, 0.1, -1.0] {
        let judged = planted(same, |sheet, random| {
            // Anywhere but at the very small readings, where a lost point does not show.
            let number = 4 + (random.even() * 3.0) as u32;
            let step = sheet.steps.iter().position(|step| step.cycle == 2 && step.number == number);
            dial(sheet, FRONT, true, |at, value| if Some(at) == step { value * factor } else { value });
        });
        only(&judged, codes::OUTLIER, "front", "The reading is left out");
        stiffness_is_found(&judged);
    }
    let turned =
        planted(same, |sheet, _| dial(sheet, DOOR, false, |at, value| if at == 17 { value + 1e-3 } else { value }));
    only(&turned, codes::OUTLIER, "door", "off by 1 mm, whole turns of the pointer");
}

#[test]
fn two_rows_in_each_others_place() {
    let judged = planted(same, |sheet, _| {
        for reading in sheet.readings.iter_mut().filter(|reading| reading.step == 5) {
            reading.station = match reading.station {
                DOOR => FRONT,
                FRONT => DOOR,
                other => other,
            };
        }
    });
    only(&judged, codes::STATIONS_SWAPPED, "door and front", "stand in each other's place");
    stiffness_is_found(&judged);
}

#[test]
fn a_stuck_dial() {
    let judged = planted(same, |sheet, _| {
        let held = sheet
            .readings
            .iter()
            .find(|reading| reading.station == DASH && reading.step == 14)
            .and_then(|reading| reading.left);
        dial(sheet, DASH, false, |step, value| if (14..19).contains(&step) { held.unwrap_or_default() } else { value });
    });
    only(&judged, codes::STUCK, "dash", "the left dial of station dash stands at");
    stiffness_is_found(&judged);
}

#[test]
fn readings_that_are_missing() {
    let judged = planted(same, |sheet, _| {
        for reading in sheet.readings.iter_mut().filter(|reading| reading.station == FRONT && reading.step == 9) {
            reading.left = None;
        }
        sheet.readings.retain(|reading| !(reading.station == FRONT && reading.step == 20));
    });
    only(&judged, codes::MISSING, "front", "left dial empty");
    stiffness_is_found(&judged);
    assert!(judged.iter().all(|judgement| judgement.remarks[0].message.contains("no row")));
}

#[test]
fn too_few_steps() {
    let few = |plan: Plan| Plan { couples: vec![100.0, 700.0, 1300.0], ..plan };
    only(&planted(few, |_, _| {}), codes::TOO_FEW, "", "3 different couples");
    let two = |plan: Plan| Plan { couples: vec![100.0, 1300.0], cycles: 1, ..plan };
    for judgement in planted(two, |_, _| {}) {
        assert!(
            judgement
                .remarks
                .iter()
                .any(|remark| remark.code == codes::TOO_FEW && remark.message.contains("too few for a line"))
        );
    }
}

#[test]
fn nothing_held_nothing_loaded() {
    let judged = planted(same, |sheet, _| sheet.stations[REAR].role = RigRole::Read);
    only(&judged, codes::ROLES, "held", "no station has the role `held`");
    stiffness_is_found(&judged);
    let judged = planted(same, |sheet, _| sheet.stations[FRONT].role = RigRole::Read);
    only(&judged, codes::ROLES, "loaded", "the one that turns most");
    stiffness_is_found(&judged);
}

#[test]
fn a_dial_whose_foot_moves() {
    let judged = planted(same, |sheet, _| {
        dial(sheet, DOOR, false, |step, value| if (16..20).contains(&step) { value + 0.4e-3 } else { value })
    });
    only(&judged, codes::SLIP, "door", "the left dial of station door alone jumps");
}

#[test]
fn loop_zero_bend_and_sink() {
    let wide = |plan: Plan| Plan { hysteresis: 0.08, ..plan };
    let judged = planted(wide, |_, _| {});
    only(&judged, codes::HYSTERESIS, "", "hysteresis: the loop");
    for judgement in &judged {
        let of = judgement.hysteresis.expect("a loop");
        // A parabola of width w: two thirds of w are its mean; energy over that above no couple.
        assert!((of.width - 0.08).abs() < 0.012, "{of:?}");
        assert!(of.energy > 0.02 && of.energy < 0.16, "{of:?}");
    }
    let bends = planted(same, |sheet, _| {
        let steps = sheet.steps.clone();
        for station in [FRONT] {
            for right in [false, true] {
                let bend = |step: usize| 0.15 * (steps[step].couple / 1500.0).powi(2) * 1500.0 / STIFFNESS * 0.4;
                dial(sheet, station, right, |step, value| value + if right { -bend(step) } else { bend(step) });
            }
        }
    });
    for judgement in &bends {
        assert!(
            judgement.remarks.iter().any(|remark| remark.code == codes::CURVED && remark.message.contains("softer")),
            "{:#?}",
            judgement.remarks
        );
    }
    let yields = |plan: Plan| Plan { sink: [0.2 / STIFFNESS, 0.0], ..plan };
    let judged = planted(yields, |_, _| {});
    only(&judged, codes::SINK, "", "the rig yields");
    stiffness_is_found(&judged);
    let creeps = planted(same, |sheet, _| {
        for right in [false, true] {
            dial(sheet, FRONT, right, |step, value| {
                let by = 1e-5 * step as f64;
                value + if right { -by } else { by }
            });
        }
    });
    for judgement in &creeps {
        assert!(judgement.remarks.iter().any(|remark| remark.code == codes::ZERO), "{:#?}", judgement.remarks);
    }
}

#[test]
fn a_first_cycle_that_settles_is_left_out() {
    let judged = planted(same, |sheet, _| {
        for right in [false, true] {
            // In the first cycle the frame keeps a part of what it twists.
            dial(sheet, FRONT, right, |step, value| {
                let by = 0.05e-3 * (step as f64).min(12.0);
                value + if right { -by } else { by }
            });
        }
    });
    for judgement in &judged {
        let codes: Vec<Code> = judgement.remarks.iter().map(|remark| remark.code).collect();
        assert!(codes.contains(&codes::SETTLING) && codes.contains(&codes::ZERO), "{:#?}", judgement.remarks);
        assert!(!judgement.cycles[0].kept && judgement.cycles[1].kept);
    }
    stiffness_is_found(&judged);
}

#[test]
fn scatter_beyond_the_dials() {
    let noisy = |plan: Plan| Plan { noise: 0.1e-3, ..plan };
    for judgement in planted(noisy, |sheet, _| sheet.repeatability = 0.01e-3) {
        assert!(judgement.remarks.iter().any(|remark| remark.code == codes::SCATTER), "{:#?}", judgement.remarks);
    }
}

#[test]
fn no_stiffness_without_readings() {
    let judged = planted(same, |sheet, _| sheet.readings.retain(|reading| reading.station != FRONT));
    for judgement in judged {
        assert!(judgement.stiffness.is_none());
        assert!(judgement.remarks.iter().any(|remark| remark.code == codes::NO_STIFFNESS));
        assert!(judgement.verdict[0].contains("no torsional stiffness"));
    }
}
