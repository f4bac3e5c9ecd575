//! Members judged by buckling lengths from the load factors of the whole frame.

use strutwork_checks::{Calculation, Finding, Judged, check_all, written};
use strutwork_solve::bays::find_bays;
use strutwork_solve::{BucklingWanted, FrameLengths, buckle_cases, solve_cases};
use strutwork_testkit::{Folder, assert_close};

/// A post of 1 m, clamped below, free above, beside a tie from its head that hardly holds it.
fn post(columns: &str, cells: &str) -> Folder {
    Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,0,0,1000\n")
        .with("tubes.csv", format!("tube,from,to,section,material{columns}\npost,foot,head,rail,mild{cells}\n"))
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npress,head,0,0,-2000,0,0,0\n")
}

/// The page of a check of the post, by the frame's load factors or without them.
fn judged(folder: &Folder, code: &str, by_frame: bool) -> (Finding, Calculation, Vec<Finding>) {
    let model = folder.model();
    let cases = strutwork_loads::derive_plain(&model).unwrap();
    let results = solve_cases(&model, &cases).unwrap();
    let bays = find_bays(&model);
    let found = buckle_cases(&model, &cases, &[], &results, BucklingWanted::default()).unwrap();
    let lengths = FrameLengths::of(&model, results.cases.iter().zip(&found.cases));
    let lengths = by_frame.then_some(&lengths);
    let judged = Judged { model: &model, cases: &cases, results: &results, bays: &bays, lengths };
    let all = check_all(judged);
    let finding = all.iter().find(|finding| finding.code.0 == code).expect("a finding").clone();
    let page = written(judged, &finding).expect("a page");
    (finding, page, all)
}

/// L_cr,y and L_cr,z, mm, as the page gives them, and how they are known.
fn lengths(page: &Calculation) -> [(f64, String); 2] {
    ["L_cr,y", "L_cr,z"].map(|symbol| {
        let line = page.lines.iter().rfind(|line| line.symbol == symbol).expect("a length");
        (line.value, line.note.clone())
    })
}

#[test]
fn a_post_that_may_shift_is_judged_by_twice_its_length() {
    let folder = post("", "");
    let (by_rule, page, all) = judged(&folder, "D022", false);
    assert_eq!(lengths(&page).map(|(length, _)| length), [1000.0; 2]);
    assert!(all.iter().any(|finding| finding.message.contains("as a whole is not computed")));
    let (by_frame, page, all) = judged(&folder, "D022", true);
    for (length, note) in lengths(&page) {
        assert_close("length", length, 2000.0, 3e-4);
        assert!(note.contains("whole frame"), "{note}");
    }
    // The length is never shorter than the exact one: the bound is taken off the load factor.
    assert!(lengths(&page)[0].0 >= 2000.0 * (1.0 - 1e-9));
    for symbol in ["α_cr,y", "δ,y", "N_case,y"] {
        assert!(page.lines.iter().any(|line| line.symbol == symbol), "{symbol}");
    }
    assert!(by_frame.utilisation > by_rule.utilisation);
    assert!(
        all.iter().any(|finding| finding.message.contains("load factors of the frame are those of straight tubes"))
    );
}

#[test]
fn what_the_user_gives_comes_first() {
    let (_, page, _) = judged(&post(",buckling_y_mm", ",700"), "D022", true);
    let [y, z] = lengths(&page);
    assert_eq!(y, (700.0, "given in tubes.csv".to_owned()));
    assert_close("the other axis", z.0, 2000.0, 3e-4);
}

#[test]
fn slenderness_goes_by_the_same_length() {
    let [by_rule, by_frame] = [false, true].map(|by_frame| judged(&post("", ""), "D023", by_frame).0.value);
    assert_close("twice as slender", by_frame, 2.0 * by_rule, 3e-4);
}

/// Clamped at both ends and pressed: half its length is shorter than the rule, and is used.
#[test]
fn a_shorter_length_is_used_too() {
    let folder = post("", "").with(
        "supports.csv",
        "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\nhead,fixed,fixed,free,fixed,fixed,fixed\n",
    );
    let (_, page, _) = judged(&folder, "D022", true);
    assert_close("half", lengths(&page)[0].0, 500.0, 3e-4);
}
