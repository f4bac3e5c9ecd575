//! The arithmetic of twist fixtures, by hand: figures of the trade's notes, and a rig of two bars by closed form.

use strutwork_model::model::{RigReading, RigRole, RigSheet, RigStation, RigStep, RigWords};
use strutwork_model::units::to_nm_per_deg;
use strutwork_rig::judge;

/// Two stations, five loads, exact dials.
fn sheet(twist_of: impl Fn(f64) -> f64, spacing: f64, couples: &[f64], sink: f64) -> RigSheet {
    let station =
        |name: &str, x: f64, role| RigStation { name: name.to_owned(), x, spacing, role, joints: None, line: 0 };
    let mut readings = Vec::new();
    for (step, couple) in couples.iter().enumerate() {
        for (station, twist) in [(0, sink * couple), (1, twist_of(*couple) + sink * couple)] {
            let half = twist.tan() * spacing / 2.0;
            readings.push(RigReading { station, step, left: Some(half), right: Some(-half), line: 0 });
        }
    }
    RigSheet {
        stations: vec![station("rear", 0.0, RigRole::Held), station("front", 2.0, RigRole::Loaded)],
        steps: couples
            .iter()
            .enumerate()
            .map(|(number, couple)| RigStep {
                cycle: 1,
                number: number as u32,
                unloading: false,
                couple: *couple,
                line: 0,
            })
            .collect(),
        readings,
        dials_down: false,
        resolution: 1e-8,
        repeatability: 0.0,
        couple_tolerance: 0.0,
        spacing_tolerance: 0.0,
        settling_cycles: None,
        between: None,
        panels_fitted: true,
        words: RigWords::default(),
    }
}

/// 1500 N·m on 3000 N·m/deg twist by 0.5°, which over 1 m is 8.7 mm between the dials (derived).
#[test]
fn half_a_degree_is_8_7_mm_over_a_metre() {
    let stiffness = 3000.0_f64.to_degrees();
    let sheet = sheet(|couple| couple / stiffness, 1.0, &[0.0, 375.0, 750.0, 1125.0, 1500.0], 0.0);
    let top = sheet.readings[9];
    let between = top.left.unwrap_or_default() - top.right.unwrap_or_default();
    assert!((between * 1e3 - 8.7).abs() < 0.05, "{between}");
    let measured = judge(&sheet, None).stiffness.expect("a stiffness");
    assert!((to_nm_per_deg(measured.stiffness) - 3000.0).abs() < 1e-3, "{}", to_nm_per_deg(measured.stiffness));
}

/// Shafts in series: 1/K = 1/K₁ + 1/K₂; a rig that yields by a third of the frame's twist is taken off to the last digit.
#[test]
fn shafts_in_series_and_a_rig_that_yields() {
    let (first, second) = (2000.0_f64.to_degrees(), 6000.0_f64.to_degrees());
    let series = |couple: f64| couple / first + couple / second;
    let sheet = sheet(series, 0.7, &[100.0, 400.0, 700.0, 1000.0, 1300.0], series(1.0) / 3.0);
    let judged = judge(&sheet, None);
    let measured = judged.stiffness.expect("a stiffness");
    assert!((to_nm_per_deg(measured.stiffness) / 1500.0 - 1.0).abs() < 1e-5, "{}", to_nm_per_deg(measured.stiffness));
    assert!((judged.sink.expect("a sink") - 0.25).abs() < 1e-4);
}

/// The slope of the line, not its end: a zero that was read 0.2 mm too high on both sides moves no stiffness.
#[test]
fn a_wrong_zero_of_the_sheet_moves_no_stiffness() {
    let stiffness = 3000.0_f64.to_degrees();
    let mut sheet = sheet(|couple| couple / stiffness, 1.0, &[150.0, 450.0, 750.0, 1050.0, 1350.0, 1650.0], 0.0);
    for reading in sheet.readings.iter_mut().filter(|reading| reading.station == 1) {
        reading.left = reading.left.map(|value| value + 0.2e-3);
    }
    let measured = judge(&sheet, None).stiffness.expect("a stiffness");
    assert!((to_nm_per_deg(measured.stiffness) - 3000.0).abs() < 0.1, "{}", to_nm_per_deg(measured.stiffness));
}
