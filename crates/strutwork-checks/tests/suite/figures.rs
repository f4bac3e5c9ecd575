//! Figures of a vehicle's frame: stiffness, band, mass for stiffness, share of roll couple.

use strutwork_checks::{Figures, figures};
use strutwork_loads::case::Nature;
use strutwork_loads::{CaseBuilder, LoadCases};
use strutwork_model::Model;
use strutwork_solve::solve_cases;
use strutwork_testkit::{Folder, assert_close, buggy};

/// The figures of a model in pure torsion.
fn of(folder: &Folder) -> (Model, Figures) {
    let model = folder.model();
    let mut case = CaseBuilder::new(&model, "twist", "", Nature::Notional).unwrap();
    case.twist_axles(1000.0).unwrap();
    case.balance().unwrap();
    let cases = LoadCases(vec![case.finish().unwrap()]);
    let results = solve_cases(&model, &cases).unwrap();
    let figures = figures(&model, &cases, &results).unwrap().expect("a twist was measured");
    (model, figures)
}

#[test]
fn mass_over_stiffness_is_just_that() {
    let (model, figures) = of(&buggy().and("model.toml", "[soft_joints]\nuse = \"off\"\n"));
    let mass: f64 = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
    let degree = std::f64::consts::PI / 180.0;
    assert_close("grams", figures.grams_per_nm_per_deg(), mass * 1000.0 / (figures.stiffness * degree), 1e-12);
    assert_eq!(figures.band, None);
    assert_eq!(figures.chassis_share, None, "the fixture gives no roll stiffness");
}

#[test]
fn soft_joints_make_a_softer_frame_and_a_band() {
    let narrow = buggy().and("model.toml", "[soft_joints]\nuse = \"band\"\nnarrower_than = 0.9\n");
    let (model, figures) = of(&narrow);
    let band = figures.band.expect("the fixture's braces are narrower than its rails");
    assert_eq!(band.ends, model.soft_ends().len());
    assert!(band.soft < band.rigid, "{band:?}");
    assert_close("the rigid end is the run's own", band.rigid, figures.stiffness, 0.0);
    let (_, always) = of(&buggy().and("model.toml", "[soft_joints]\nuse = \"always\"\nnarrower_than = 0.9\n"));
    assert_eq!(always.band, None);
}

/// K_c/(K_c + K_s) with K_s = K_f·K_r/(K_f + K_r).
#[test]
fn the_chassis_share_sets_the_frame_beside_the_axles() {
    let axles = "[vehicle.axles.front]\nroll_stiffness_nm_per_deg = 600.0\n[vehicle.axles.rear]\nroll_stiffness_nm_per_deg = 400.0\n";
    let text = String::from_utf8(buggy().files().get("model.toml").unwrap().to_vec()).unwrap();
    let without_share: Vec<&str> = text.lines().filter(|line| !line.starts_with("front_roll_share")).collect();
    let folder = buggy().with("model.toml", without_share.join("\n") + "\n").and("model.toml", axles);
    let (_, figures) = of(&folder);
    let share = figures.chassis_share.expect("both axles give their roll stiffness");
    let degree = std::f64::consts::PI / 180.0;
    assert_close("in series", share.in_series * degree, 240.0, 1e-12);
    assert_close("share", share.share, figures.stiffness / (figures.stiffness + share.in_series), 1e-12);
}
