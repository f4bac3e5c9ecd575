//! The mass sheet, by hand.

use strutwork_model::Model;
use strutwork_model::files::{InputFile, InputFiles};
use strutwork_rig::{MassSheet, codes, mass_sheet};

const MODEL: &str = include_str!("../../../../tests/suite/_base/linked/model.toml");

/// The linked cart of the end-to-end suite with another `[weighed]`.
fn sheet(weighed: &str, parts: &str) -> MassSheet {
    sheet_with("", "", weighed, parts)
}

/// The same with something else in model.toml.
fn sheet_with(from: &str, to: &str, weighed: &str, parts: &str) -> MassSheet {
    let toml = format!("{}{weighed}", &MODEL[..MODEL.find("[weighed]").expect("the table")]);
    assert!(toml.contains(from), "{from}");
    let toml = if from.is_empty() { toml } else { toml.replacen(from, to, 1) };
    let file = |name: &str, text: &str| InputFile::new(name, text.as_bytes());
    let mut files = vec![
        file("model.toml", &toml),
        file("joints.csv", include_str!("../../../../tests/suite/_base/linked/joints.csv")),
        file("tubes.csv", include_str!("../../../../tests/suite/_base/linked/tubes.csv")),
        file("masses.csv", include_str!("../../../../tests/suite/_base/linked/masses.csv")),
        file("bodies.csv", include_str!("../../../../tests/suite/_base/linked/bodies.csv")),
        file("suspension.csv", include_str!("../../../../tests/suite/_base/linked/suspension.csv")),
    ];
    if !parts.is_empty() {
        files.push(file("weighed.csv", parts));
    }
    of_files(files)
}

fn of_files(files: Vec<InputFile>) -> MassSheet {
    let model: Model = strutwork_model::read_model(&InputFiles(files)).expect("a model").value;
    mass_sheet(&model)
}

/// The box of the end-to-end suite, which has no vehicle, of another material.
fn box_of(material: &str, weighed: &str, parts: &str) -> MassSheet {
    let toml = include_str!("../../../../tests/suite/_base/rig/model.toml").replace("grade = \"S235JRH\"", material);
    let file = |name: &str, text: &str| InputFile::new(name, text.as_bytes());
    of_files(vec![
        file("model.toml", &format!("{toml}\n{weighed}")),
        file("joints.csv", include_str!("../../../../tests/suite/_base/rig/joints.csv")),
        file("tubes.csv", include_str!("../../../../tests/suite/_base/rig/tubes.csv")),
        file("weighed.csv", parts),
    ])
}

fn said(sheet: &MassSheet) -> Vec<&'static str> {
    sheet.remarks.iter().map(|remark| remark.code.0).collect()
}

/// The cart weighs 118.22 kg: 27.34 kg on each front wheel, 31.77 kg on each rear one.
const CORNERS: &str =
    "[weighed.corners_kg]\nfront-left = 27.3\nfront-right = 27.4\nrear-left = 31.8\nrear-right = 31.7\n";

#[test]
fn corners_that_fit_say_nothing_and_give_the_centre() {
    let sheet = sheet(&format!("[weighed]\nvehicle_kg = 118.5\n{CORNERS}"), "");
    assert!(said(&sheet).is_empty(), "{:#?}", sheet.remarks);
    let centre = sheet.centre.expect("a centre");
    // 54.7 kg at x = 1.6 m of 118.2 kg; y: (27.3 + 31.8 − 27.4 − 31.7) · 0.5 m = 0.
    assert!((centre.at[0] - 54.7 * 1.6 / 118.2).abs() < 1e-12, "{centre:?}");
    assert!(centre.at[1].abs() < 1e-12);
    // ±0.5 kg: √Σ(0.5/118.2)² · 2 · 0.5/√3 = 0.0085 · 0.577 m.
    assert!((centre.uncertainty[1] - 2.0 * (0.5 / 118.2) * 2.0 * 0.5 / 3.0_f64.sqrt()).abs() < 1e-12, "{centre:?}");
}

/// Σ W r / Σ W: 54 of 118 kg stand 1600 mm ahead of the others, and 60 kg 500 mm to the left, 58 kg to the right.
#[test]
fn the_centre_of_corners_that_lean() {
    let corners = "[weighed.corners_kg]\nfront-left = 28\nfront-right = 26\nrear-left = 32\nrear-right = 32\n";
    let [x, y] = sheet(&format!("[weighed]\n{corners}"), "").centre.expect("a centre").at;
    assert!((x - 54.0 * 1.6 / 118.0).abs() < 1e-12 && (y - 2.0 * 0.5 / 118.0).abs() < 1e-12, "{x} {y}");
}

#[test]
fn the_height_of_the_centre_by_hand() {
    // 1.6 m of wheelbase, rear raised by 0.8 m: tan θ = 0.8/√(1.6² − 0.8²) = 0.57735. The model's centre is 0.3348 m above the
    // ground and the wheels' centres are at 0.25 m: ΔW = 118.2 · 0.57735 · 0.0848/1.6 = 3.6 kg go to the front.
    let weighed = format!(
        "[weighed]\ntolerance_kg = 0.1\nraised_axle = \"rear\"\nraised_mm = 800\nlower_axle_kg = 58.3\n{CORNERS}"
    );
    let sheet = sheet(&weighed, "");
    let height = sheet.height.expect("a height");
    assert!((height.tilt.to_degrees() - 30.0).abs() < 1e-9);
    assert!((height.shifted - 3.6).abs() < 1e-9);
    assert!((height.height - (0.25 + 3.6 * 1.6 / (118.2 * 0.577_350_269))).abs() < 1e-9, "{height:?}");
    assert!((height.height - height.model).abs() < 0.005 && said(&sheet).is_empty(), "{height:?} {:#?}", sheet.remarks);
}

/// Where the user gives the height of the centre of gravity, cases use it: the scales are held against it.
#[test]
fn the_height_is_held_against_the_one_that_is_given() {
    let weighed = format!(
        "[weighed]\ntolerance_kg = 0.1\nraised_axle = \"rear\"\nraised_mm = 800\nlower_axle_kg = 58.3\n{CORNERS}"
    );
    let sheet = sheet_with("[vehicle]\n", "[vehicle]\ncg_height_mm = 450\n", &weighed, "");
    assert_eq!(sheet.height.expect("a height").model, 0.45);
    assert_eq!(said(&sheet), [codes::CENTRE_DIFFERS.0]);
    assert!(sheet.remarks[0].message.contains("450 mm in the model"), "{}", sheet.remarks[0].message);
    assert!(sheet.remarks[0].remedy.contains("`cg_height_mm`"), "{}", sheet.remarks[0].remedy);
}

/// What the model's wheels carry is not known: the corners are not held against it, and all else is.
#[test]
fn corners_that_cannot_be_held_against_the_model_hide_no_part() {
    let sheet = box_of("grade = \"S235JRH\"", &format!("[weighed]\n{CORNERS}"), "part,kg\ntube: rear-post-L,6\n");
    assert_eq!(said(&sheet), [codes::PART_DIFFERS.0, codes::CORNERS_UNHELD.0]);
    assert_eq!(sheet.parts.len(), 1);
    assert!((sheet.corners.expect("a sum") - 118.2).abs() < 1e-9 && sheet.cross.is_none() && sheet.centre.is_none());
    let one = box_of("grade = \"S235JRH\"", "[weighed.corners_kg]\nrear-left = 30\n", "part,kg\n");
    assert_eq!(said(&one), [codes::CORNERS_UNHELD.0]);
    let told = &sheet.remarks[1];
    assert!(told.place == ("model.toml", 0) && told.message.contains("the model has no vehicle"), "{told:#?}");
    assert!(told.remedy.starts_with("add the [vehicle] table"), "{}", told.remedy);
}

/// What weighs nothing in the model has no share of it.
#[test]
fn a_part_of_no_mass_in_the_model_has_no_share() {
    let without_density = "e_mpa = 210000\ng_mpa = 81000\nyield_mpa = 235\nultimate_mpa = 360";
    let sheet = box_of(without_density, "", "part,kg\ntube: rear-post-L,3\n");
    assert_eq!((sheet.parts[0].model, sheet.parts[0].share()), (0.0, None));
    assert_eq!(said(&sheet), [codes::PART_DIFFERS.0]);
    let told = &sheet.remarks[0].message;
    assert!(told.contains("0 kg in the model: 3 kg heavier") && !told.contains('%'), "{told}");
    assert!(sheet.remarks[0].remedy.contains("density_kg_m3"), "{}", sheet.remarks[0].remedy);
}

#[test]
fn wrong_weights_are_named() {
    let of = |corners: &str| {
        let of = sheet(&format!("[weighed]\n[weighed.corners_kg]\n{corners}"), "");
        (said(&of), of)
    };
    let (codes, swapped) = of("front-left = 31.8\nfront-right = 27.3\nrear-left = 27.4\nrear-right = 31.7\n");
    assert_eq!(codes, ["G202"]);
    assert!(swapped.remarks[0].message.contains("front-left and rear-left") && swapped.centre.is_none());
    let (codes, _) = of("front-left = 60.3\nfront-right = 60.3\nrear-left = 70.0\nrear-right = 70.0\n");
    assert_eq!(codes, ["G203"], "all four in pounds");
    let (codes, _) = of("front-left = 268\nfront-right = 27.3\nrear-left = 31.8\nrear-right = 31.7\n");
    assert_eq!(codes, ["G203"]);
    let sum = sheet(&format!("[weighed]\nvehicle_kg = 130\n{CORNERS}"), "");
    assert_eq!(said(&sum), ["G201"]);
}

#[test]
fn parts_are_held_against_the_model() {
    let of = sheet("[weighed]\n", "part,kg,tolerance_kg\nmotor,30.2,0.1\nload,88.2,0.1\nwheel FL,9.9,0.05\n");
    let parts: Vec<(&str, f64)> = of.parts.iter().map(|part| (part.name.as_str(), part.model)).collect();
    assert_eq!(parts, [("motor", 30.0), ("load", 40.0), ("wheel FL", 9.0)]);
    assert_eq!(said(&of), [codes::WEIGHT_UNIT.0, codes::PART_DIFFERS.0]);
    assert!(
        of.remarks[0].place == ("weighed.csv", 3) && of.remarks[1].message.contains("0.9 kg (10 %) heavier"),
        "{:#?}",
        of.remarks
    );
}
