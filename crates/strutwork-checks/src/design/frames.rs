//! Frames with welds for tests, and what the checks say of them.

use strutwork_loads::derive_plain;
use strutwork_solve::find_bays;
use strutwork_testkit::{Folder, solve};

use super::{heat_affected, welds};
use crate::{Calculation, Finding, Judged, written};

const SECTIONS: &str = "[sections.chord]
shape = \"square\"
width_mm = 50.0
wall_mm = 3.0
outer_radius_mm = 0.0
[sections.brace]
shape = \"square\"
width_mm = 40.0
wall_mm = 3.0
outer_radius_mm = 0.0
[sections.pipe]
shape = \"round\"
diameter_mm = 33.7
wall_mm = 2.6
[sections.rod]
shape = \"solid-round\"
diameter_mm = 12
[materials.hard]
grade = \"E355+SR\"
[materials.alloy]
grade = \"6082-T6\"
";

/// A chord along x in two pieces, A–B–C, with D above or beside B; more tubes and tables as given. Loads at D.
pub(super) fn frame(tubes: &str, d: [f64; 3], load: &str, more: &str) -> Folder {
    let joints = format!("joint,x_mm,y_mm,z_mm\nA,-500,0,0\nB,0,0,0\nC,500,0,0\nD,{},{},{}\n", d[0], d[1], d[2]);
    Folder::steel()
        .and("model.toml", SECTIONS)
        .and("model.toml", more)
        .with("joints.csv", joints)
        .with("tubes.csv", format!("tube,from,to,section,material,group,roll_deg\n{tubes}"))
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nC,fixed,fixed,fixed,fixed,fixed,fixed\n",
        )
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n{load}"))
}

pub(super) const TEE: &str = "AB,A,B,chord,mild,chords,0\nBC,B,C,chord,mild,chords,0\nBD,B,D,brace,mild,braces,0\n";
pub(super) const UP: [f64; 3] = [0.0, 0.0, 600.0];

fn judge<T>(folder: &Folder, look: impl Fn(Judged<'_>) -> T) -> T {
    let model = folder.model();
    let cases = derive_plain(&model).unwrap();
    let results = solve(&model).unwrap();
    look(Judged { model: &model, cases: &cases, results: &results, bays: &find_bays(&model), lengths: None })
}

pub(super) fn d031(folder: &Folder) -> Vec<(Finding, Option<Calculation>)> {
    judge(folder, |judged| welds::check(judged).into_iter().map(|f| (f.clone(), written(judged, &f))).collect())
}

pub(super) fn d032(folder: &Folder) -> Vec<(Finding, Option<Calculation>)> {
    judge(folder, |judged| heat_affected::check(judged).into_iter().map(|f| (f.clone(), written(judged, &f))).collect())
}

/// The one finding of a weld with its page.
pub(super) fn only(found: &[(Finding, Option<Calculation>)]) -> (&Finding, &Calculation) {
    let [(finding, Some(page))] = found else { panic!("one finding with its page, not {found:#?}") };
    (finding, page)
}
