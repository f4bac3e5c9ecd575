//! Models to change: a small frame with something of everything, and the demo car.

use std::path::Path;

use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::spec::{ModelSpec, parse};
use strutwork_model::validate::validate;
use strutwork_model::{Model, read_model};
use strutwork_revision::inputs::{How, Inputs, Part};
use strutwork_revision::{Change, compare_models};

/// Name and text of every file of a small frame: four legs, a top, a brace.
pub(crate) fn small() -> Vec<(String, String)> {
    let files = [
        (
            "model.toml",
            "title = \"Stand\"\nrevision = \"A\"\n\
             [sections.leg]\nshape = \"square\"\nwidth_mm = 30\nwall = \"16 swg\"\n\
             [sections.brace]\nshape = \"round\"\ndiameter_mm = 20\nwall_mm = 1.5\n\
             [materials.mild]\ngrade = \"S235JRH\"\n\
             [bolts.m8]\nsize = \"M8\"\ngrade = \"8.8\"\n\
             [fixings.rivets]\nkind = \"fasteners\"\npitch_mm = 30\nslip_mm_per_kn = 0.1\n\
             [options]\nself_weight = true\n",
        ),
        (
            "joints.csv",
            "joint,x_mm,y_mm,z_mm\nf1,0,0,0\nf2,800,0,0\nf3,800,600,0\nf4,0,600,0\n\
             t1,0,0,700\nt2,800,0,700\nt3,800,600,700\nt4,0,600,700\n",
        ),
        (
            "tubes.csv",
            "tube,from,to,section,material,group,roll_deg,release_from,release_to\n\
             l1,f1,t1,leg,mild,legs,,,\nl2,f2,t2,leg,mild,legs,,,\nl3,f3,t3,leg,mild,legs,,,\nl4,f4,t4,leg,mild,legs,,,\n\
             r1,t1,t2,leg,mild,top,,,\nr2,t2,t3,leg,mild,top,,,\nr3,t3,t4,leg,mild,top,,,\nr4,t4,t1,leg,mild,top,,,\n\
             d1,f1,t2,brace,mild,braces,,ry rz,\n",
        ),
        (
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nf1,fixed,fixed,fixed,free,free,free\nf2,fixed,fixed,fixed,free,free,free\nf3,fixed,fixed,fixed,free,free,free\nf4,fixed,fixed,1000,free,free,free\n",
        ),
        ("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,t1,100,0,0,0,0,0\npush,t3,0,50,-20,0,0,0\n"),
        (
            "tube_loads.csv",
            "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m,wx_to_n_per_m,wy_to_n_per_m,wz_to_n_per_m\npush,r1,local,0,10,-100,0,20,-300\n",
        ),
        ("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\nmotor,40,400,300,750,t1 t2 t3 t4\n"),
        ("panels.csv", "panel,joints,material,thickness_mm,fixing\nlid,t1 t2 t3 t4,mild,1.0,rivets\n"),
        ("bodies.csv", "body,joint,kx_n_per_mm,ky_n_per_mm,kz_n_per_mm,bolt\nbox,t1,,,,m8\nbox,t2,500,500,500,m8\n"),
        ("cases.rhai", "// nothing of its own\n"),
    ];
    files.map(|(name, text)| (name.to_owned(), text.to_owned())).into()
}

/// The files with a text replaced, which must stand in the file.
#[track_caller]
pub(crate) fn with(mut files: Vec<(String, String)>, file: &str, from: &str, to: &str) -> Vec<(String, String)> {
    let found = files.iter_mut().find(|(name, _)| name == file).expect("the file is there");
    assert!(found.1.contains(from), "{file} lacks {from}");
    found.1 = found.1.replacen(from, to, 1);
    files
}

/// The files with a name replaced wherever it stands by itself.
pub(crate) fn renamed(files: Vec<(String, String)>, from: &str, to: &str) -> Vec<(String, String)> {
    let part = |letter: char| letter.is_alphanumeric() || letter == '-' || letter == '_';
    let replace = |text: String| {
        let mut out = String::new();
        let mut rest = text.as_str();
        while let Some(at) = rest.find(from) {
            let (before, after) = (&rest[..at], &rest[at + from.len()..]);
            let whole = !before.ends_with(part) && !after.starts_with(part);
            out.push_str(before);
            out.push_str(if whole { to } else { from });
            rest = after;
        }
        out.push_str(rest);
        out
    };
    files.into_iter().map(|(name, text)| (name, replace(text))).collect()
}

/// The model of these files.
#[track_caller]
pub(crate) fn model(files: &[(String, String)]) -> Model {
    read_model(&input(files)).unwrap_or_else(|faults| panic!("{faults}")).value
}

pub(crate) fn input(files: &[(String, String)]) -> InputFiles {
    InputFiles(files.iter().map(|(name, text)| InputFile::new(name.as_str(), text.as_bytes())).collect())
}

fn script(files: &[(String, String)]) -> Option<&str> {
    files.iter().find(|(name, _)| name == "cases.rhai").map(|(_, text)| text.as_str())
}

/// What differs between two models.
#[track_caller]
pub(crate) fn compared(before: &[(String, String)], after: &[(String, String)]) -> Inputs {
    compare_models(&model(before), &model(after), [script(before), script(after)])
}

/// Every change as a sentence.
#[track_caller]
pub(crate) fn told(before: &[(String, String)], after: &[(String, String)]) -> Vec<String> {
    compared(before, after).changes.iter().map(Change::sentence).collect()
}

/// What happened to what, sorted.
pub(crate) fn happened(inputs: &Inputs) -> Vec<(Part, How, String)> {
    let mut all: Vec<_> = inputs.changes.iter().map(|change| (change.part, change.how, change.name.clone())).collect();
    all.sort();
    all
}

/// The files of the demo car.
pub(crate) fn car() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo-models/trials-car");
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).expect("the demo car") {
        let path = entry.expect("an entry").path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if name.ends_with(".csv") || name == "model.toml" {
            files.push((name, std::fs::read_to_string(path).expect("text")));
        }
    }
    files.sort();
    files
}

/// The demo car as it is written.
pub(crate) fn car_spec() -> ModelSpec {
    parse(&input(&car())).0
}

/// The model of a spec; `None` where it is not valid.
pub(crate) fn valid(spec: &ModelSpec) -> Option<Model> {
    validate(spec).ok().map(|model| model.value)
}
