//! Every check passes where it should and speaks up where it should.

mod figures;
mod frame_lengths;
mod oracle;
mod screening;
mod second_order;
mod steel;

use strutwork_checks::{Finding, Judged, check_all};
use strutwork_loads::derive_plain;
use strutwork_model::Severity;
use strutwork_solve::find_bays;
use strutwork_testkit::{Folder, assert_close, solve};

/// A cantilever of 500 mm square 30 × 2 tube with a load at its tip.
fn cantilever(material: &str, fz: f64) -> Folder {
    Folder::steel()
        .and("model.toml", material)
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,tip,0,0,{fz},0,0,0\n"))
}

fn findings(folder: &Folder) -> Vec<Finding> {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    check_all(Judged { model: &model, cases: &cases, results: &results, bays: &find_bays(&model), lengths: None })
}

fn of<'f>(findings: &'f [Finding], code: &str) -> Vec<&'f Finding> {
    findings.iter().filter(|finding| finding.code.0 == code).collect()
}

/// σ = F L / Wel with Wel = 1.81 cm³ (EN 10219-2 table, 30 × 30 × 2), τ = F / (A/2), against 235 / 1.5.
#[test]
fn yielding_follows_a_hand_calculation() {
    let found = findings(&cantilever("", -400.0));
    let yielding = of(&found, "D001");
    assert_eq!(yielding.len(), 1);
    let (sigma, tau): (f64, f64) = (400.0 * 0.5 / 1.81e-6, 400.0 / (2.14e-4 / 2.0));
    let expected = (sigma * sigma + 3.0 * tau * tau).sqrt() / (235e6 / 1.5);
    assert_close("utilisation", yielding[0].utilisation.unwrap(), expected, 3e-3);
    assert_eq!(yielding[0].severity, Severity::Note);
}

#[test]
fn yielding_over_its_limit_is_an_error() {
    let found = findings(&cantilever("", -1000.0));
    assert_eq!(of(&found, "D001")[0].severity, Severity::Error);
    assert!(of(&found, "D001")[0].utilisation.unwrap() > 1.0);
}

#[test]
fn the_strength_beside_a_weld_governs_where_there_is_one() {
    let plain = findings(&cantilever("", -400.0));
    let haz = "[materials.soft]\ne_mpa = 70000.0\ng_mpa = 27000.0\nyield_mpa = 250.0\nultimate_mpa = 290.0\n\
               haz_yield_mpa = 125.0\nhaz_ultimate_mpa = 185.0\n";
    let folder = cantilever(haz, -400.0).with("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,soft\n");
    let soft = findings(&folder);
    let share = of(&soft, "D001")[0].utilisation.unwrap() / of(&plain, "D001")[0].utilisation.unwrap();
    assert_close("ratio of limits", share, 235.0 / 125.0, 1e-12);
}

/// By partial factors aluminium is divided by γ_M1 = 1.10 of EN 1999-1-1, steel by γ_M0 = 1; vehicle practice has its margin alone.
#[test]
fn aluminium_is_held_by_its_own_code() {
    let alloy = "[materials.soft]\ne_mpa = 70000.0\ng_mpa = 27000.0\nyield_mpa = 250.0\nultimate_mpa = 290.0\n";
    let of_basis = |basis: &str, material: &str| {
        let tubes = format!("tube,from,to,section,material\nT1,wall,tip,rail,{material}\n");
        let found = findings(&cantilever(&format!("{alloy}{basis}"), -400.0).with("tubes.csv", tubes));
        let yielding = of(&found, "D001")[0].clone();
        (yielding.limit.expect("a limit"), yielding.clause)
    };
    let eurocode = "[basis]\nkind = \"eurocode\"\n";
    let (limit, clause) = of_basis(eurocode, "soft");
    assert_close("aluminium", limit, 250.0 / 1.10, 1e-12);
    assert_eq!(clause, "EN 1999-1-1 6.2.1(5): von Mises against yield / (γ_M1 1.1 · 1 on loads)");
    let (limit, clause) = of_basis(eurocode, "mild");
    assert_close("steel", limit, 235.0, 1e-12);
    assert_eq!(clause, "EN 1993-1-1 6.2.1(5): von Mises against yield / (γ_M0 1 · 1 on loads)");
    let (limit, clause) = of_basis("", "soft");
    assert_close("vehicle practice", limit, 250.0 / 1.5, 1e-12);
    assert!(clause.starts_with("EN 1999-1-1"), "{clause}");
}

#[test]
fn trust_speaks_of_residual_equilibrium_and_condition_in_every_run() {
    let found = findings(&cantilever("", -400.0));
    for code in ["T001", "T002", "T003"] {
        assert_eq!(of(&found, code).len(), 1, "{code}");
        assert_eq!(of(&found, code)[0].severity, Severity::Note);
    }
}

#[test]
fn what_is_not_checked_is_said() {
    let found = findings(&cantilever("", -400.0));
    let told = of(&found, "D002");
    for what in
        ["frame buckling", "thin walls", "joints in space", "fracture", "fatigue", "crash", "softness of joints"]
    {
        assert!(told.iter().any(|finding| finding.clause == format!("outside scope: {what}")), "{what}");
    }
    assert!(told.iter().all(|finding| finding.is_outside() && finding.severity == Severity::Note));
    // No bolt and no flat bar: nothing is said of them.
    assert!(!told.iter().any(|finding| finding.message.contains("flat bar") || finding.message.contains("a mount")));
    let flat = "[sections.strap]\nshape = \"flat\"\nheight_mm = 30.0\nwidth_mm = 5.0\n";
    let tubes = "tube,from,to,section,material\nT1,wall,tip,strap,mild\n";
    let found = findings(&cantilever(flat, -40.0).with("tubes.csv", tubes));
    assert!(of(&found, "D002").iter().any(|finding| finding.clause.ends_with("lateral-torsional buckling")));
}

#[test]
fn a_check_that_is_switched_off_is_gone_and_warned_of_with_its_reason() {
    let off = "[checks.D001]\noff = true\nreason = \"measured on the frame\"\n";
    let found = findings(&cantilever(off, -4000.0));
    assert!(of(&found, "D001").is_empty());
    let told: Vec<_> = of(&found, "D002").into_iter().filter(|f| f.severity == Severity::Warning).collect();
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].message, "check D001 (stress against yield) is switched off: measured on the frame");
    assert!(told[0].is_outside());
}

#[test]
fn a_stocky_tube_is_noted() {
    let folder = cantilever("", -400.0).with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,200,0,0\n");
    let found = findings(&folder);
    assert_close("length over depth", of(&found, "T005")[0].value, 200.0 / 30.0, 1e-12);
    assert!(of(&findings(&cantilever("", -400.0)), "T005").is_empty());
}

#[test]
fn loose_rotations_of_a_pin_are_noted() {
    let folder = cantilever("", -400.0)
        .and("joints.csv", "far,500,0,400\n")
        .with(
            "tubes.csv",
            "tube,from,to,section,material,release_from,release_to\nT1,wall,tip,rail,mild,,\nT2,tip,far,rail,mild,ry rz,ry rz\n",
        )
        .and("supports.csv", "far,fixed,fixed,fixed,free,free,fixed\n");
    let found = findings(&folder);
    assert!(!of(&found, "T004").is_empty());
}

#[test]
fn a_frame_far_too_soft_is_warned_of() {
    let found = findings(&cantilever("", -100_000.0));
    assert_eq!(of(&found, "T007")[0].severity, Severity::Warning);
}

#[test]
fn every_check_that_can_be_switched_off_has_a_page() {
    for code in strutwork_model::model::SWITCHABLE {
        assert!(strutwork_checks::PAGES.iter().any(|page| page.code == *code), "{code}");
    }
}
