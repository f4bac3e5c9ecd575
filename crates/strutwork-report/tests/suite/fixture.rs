//! Finished runs for the tests: models read from text, solved and checked as the command line does it.

use strutwork_checks::{Figures, Finding, Judged, check_all, figures};
use strutwork_loads::case::{Mark, Measure, Nature, Remark, Step, UsedFactor};
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::model::Point;
use strutwork_model::{Code, Diagnostic, Model, Place, Severity};
use strutwork_report::{Asked, InputDigest, Run, RunInfo, Validated};
use strutwork_solve::bays::{Bays, find_bays};
use strutwork_solve::{Results, solve_cases};
use strutwork_study::sensitivity::Worth;
use strutwork_testkit::Folder;

/// A run that owns what a [`Run`] borrows.
pub(crate) struct Finished {
    pub(crate) model: Model,
    pub(crate) cases: LoadCases,
    pub(crate) results: Results,
    pub(crate) findings: Vec<Finding>,
    pub(crate) bays: Bays,
    pub(crate) figures: Option<Figures>,
    pub(crate) worth: Option<Worth>,
    pub(crate) info: RunInfo,
}

impl Finished {
    /// The cases of the load files, solved and checked.
    #[track_caller]
    pub(crate) fn plain(folder: &Folder) -> Self {
        let model = folder.model();
        let cases = derive_plain(&model).unwrap();
        Self::of(model, cases)
    }

    /// These cases, solved and checked.
    #[track_caller]
    pub(crate) fn of(model: Model, cases: LoadCases) -> Self {
        let results = solve_cases(&model, &cases).unwrap_or_else(|error| panic!("the test's frame: {error}"));
        let bays = find_bays(&model);
        let findings =
            check_all(Judged { model: &model, cases: &cases, results: &results, bays: &bays, lengths: None });
        let figures = figures(&model, &cases, &results).unwrap_or_else(|error| panic!("soft joints: {error}"));
        let worth = Worth::of(&model, &cases).unwrap_or_else(|fault| panic!("the worth of tubes: {fault}"));
        Self { model, cases, results, findings, bays, figures, worth, info: info() }
    }

    pub(crate) fn run(&self) -> Run<'_> {
        Run {
            model: &self.model,
            cases: &self.cases,
            results: &self.results,
            findings: &self.findings,
            bays: &self.bays,
            figures: self.figures.as_ref(),
            worth: self.worth.as_ref(),
            asked: &Asked::NOTHING,
            info: &self.info,
        }
    }

    /// The text of one result file.
    #[track_caller]
    pub(crate) fn csv(&self, name: &str) -> String {
        let files = strutwork_report::csv_files(&self.run());
        files.into_iter().find(|(file, _)| file == name).unwrap_or_else(|| panic!("no {name}")).1
    }

    /// Whether a result file is written.
    pub(crate) fn writes(&self, name: &str) -> bool {
        strutwork_report::csv_files(&self.run()).iter().any(|(file, _)| file == name)
    }

    /// One result file as rows of fields, header first.
    pub(crate) fn rows(&self, name: &str) -> Vec<Vec<String>> {
        let text = self.csv(name);
        let mut reader = ::csv::ReaderBuilder::new().has_headers(false).from_reader(text.as_bytes());
        reader.records().map(|record| record.unwrap().iter().map(str::to_owned).collect()).collect()
    }
}

fn info() -> RunInfo {
    RunInfo {
        tool_version: "0.1.0".into(),
        date: "2026-11-25 12:00 UTC".into(),
        command: "strutwork run frame".into(),
        inputs: vec![InputDigest { file: "joints.csv".into(), sha256: "ab".repeat(32), bytes: 99 }],
        input_hash: "cd".repeat(32),
        outputs: vec![InputDigest { file: "cases.csv".into(), sha256: "ef".repeat(32), bytes: 7 }],
        validated: vec![Validated { family: "beams".into(), problems: 3, values: 21, agree: 20 }],
        options: String::new(),
        warnings: vec![Diagnostic {
            code: Code("M999"),
            severity: Severity::Warning,
            place: Some(Place::line("tubes.csv", 7)),
            subject: "T7".into(),
            message: "a warning of the test".into(),
            help: "nothing to do".into(),
        }],
        since: None,
        timings_ms: vec![("solve".into(), 1.25)],
    }
}

/// A cantilever of 500 mm along x, square 30 × 2, pulled down by `fz` N at its tip.
pub(crate) fn cantilever(fz: f64) -> Folder {
    Folder::steel()
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\n")
        .with("tubes.csv", "tube,from,to,section,material\nT1,wall,tip,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npull,tip,0,0,{fz},0,0,0\n"))
}

/// A braced box of 1000 × 400 × 300 mm, held at its rear, twisted at its front, with a story as a case script tells it.
#[track_caller]
pub(crate) fn twisted_box() -> Finished {
    let mut joints = String::from("joint,x_mm,y_mm,z_mm\n");
    for (end, x) in [("rear", 0), ("mid", 500), ("front", 1000)] {
        for (side, y) in [("L", 200), ("R", -200)] {
            for (level, z) in [("low", 0), ("top", 300)] {
                joints.push_str(&format!("{end}-{level}-{side},{x},{y},{z}\n"));
            }
        }
    }
    let mut tubes = String::from("tube,from,to,section,material,group\n");
    let mut count = 0;
    let mut add = |from: &str, to: &str, group: &str| {
        count += 1;
        tubes.push_str(&format!("{group}-{count},{from},{to},rail,mild,{group}\n"));
    };
    for (a, b) in [("rear", "mid"), ("mid", "front")] {
        for corner in ["low-L", "low-R", "top-L", "top-R"] {
            add(&format!("{a}-{corner}"), &format!("{b}-{corner}"), "rail");
        }
        for (from, to) in [("low-L", "top-L"), ("low-R", "top-R"), ("low-L", "low-R"), ("top-L", "top-R")] {
            add(&format!("{a}-{from}"), &format!("{b}-{to}"), "brace");
        }
    }
    for end in ["rear", "mid", "front"] {
        for (from, to) in
            [("low-L", "low-R"), ("low-R", "top-R"), ("top-R", "top-L"), ("top-L", "low-L"), ("low-L", "top-R")]
        {
            add(&format!("{end}-{from}"), &format!("{end}-{to}"), "ring");
        }
    }
    let folder = Folder::steel()
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nrear-low-L,fixed,fixed,fixed,free,free,free\n\
             rear-low-R,fixed,free,fixed,free,free,free\nmid-low-L,free,fixed,free,free,free,free\n\
             front-low-R,free,free,fixed,free,free,free\n",
        )
        .with(
            "loads.csv",
            "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n\
             twist,front-low-L,0,0,1000,0,0,0\ntwist,front-low-R,0,0,-1000,0,0,0\n",
        )
        .with("masses.csv", "mass,kg,x_mm,y_mm,z_mm,joints\nseat,12.5,500,0,100,mid-low-L mid-low-R\n");
    let model = folder.model();
    let mut cases = derive_plain(&model).unwrap();
    let joint = |name: &str| model.joint_named(name).unwrap();
    let case = &mut cases.0[0];
    case.title = "Pure torsion".into();
    case.nature = Nature::Notional;
    case.measures = vec![
        Measure::Twist {
            front: [joint("front-low-L"), joint("front-low-R")].map(Point::Joint),
            rear: [joint("rear-low-L"), joint("rear-low-R")].map(Point::Joint),
            couple: 400.0,
        },
        Measure::Movement { joint: joint("front-top-L") },
    ];
    case.derivation.factors = vec![UsedFactor {
        name: "twist_dynamic".into(),
        value: 1.3,
        unit: "×".into(),
        source: "a source of the test, Table 1".into(),
        mark: Mark::Own,
        overridden: true,
    }];
    case.derivation.steps = vec![
        Step { text: "Couple T = F·s.".into(), value: Some(400.0), unit: "N·m".into(), accounted: false },
        Step { text: "A step in words.".into(), value: None, unit: String::new(), accounted: false },
    ];
    case.derivation.wheel_forces = Some([[0.0, 0.0, 2500.0], [-900.0, 0.0, -100.0], [0.0; 3], [0.0, 0.0, 1000.0]]);
    case.derivation.acceleration = Some([9.80665, 0.0, 0.0, 0.0, 0.5, 0.0]);
    case.derivation.remarks = vec![Remark { code: "L901", text: "A remark of the test.".into() }];
    Finished::of(model, cases)
}
