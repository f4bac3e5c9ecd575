//! Bolts through the model: margins, what is clamped, what is said.

use strutwork_loads::case::Nature;
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::{Model, Severity};
use strutwork_solve::{Results, find_bays, solve_cases};
use strutwork_testkit::{Folder, assert_close};

use crate::code::worked::recomputes;
use crate::{Finding, Judged, check_all, written};

/// What a plate of 4 mm of S235 bears of an M10, at the least distances, without γ: 0.664 · 360 · 10 · 4, N.
const PLATE: f64 = 0.4 * 1.66 * 360.0 * 40.0;
const LOAD: &str = "push,body: box,1000,0,-500,0,0,0\n";

/// A post of 30 × 2 with a box bolted to its top; the bolt by its keys, the loads by their rows.
fn post(bolt: &str, loads: &str) -> Folder {
    Folder::steel()
        .and("model.toml", &format!("[bolts.M]\n{bolt}"))
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\ntop,0,0,500\n")
        .with("tubes.csv", "tube,from,to,section,material\npost,foot,top,rail,mild\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .with("bodies.csv", "body,joint,bolt\nbox,top,M\n")
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\n{loads}"))
}

const M10: &str = "size = \"M10\"\ngrade = \"8.8\"\n";

fn bolt(more: &str) -> Folder {
    post(&format!("{M10}{more}"), LOAD)
}

struct Run {
    model: Model,
    cases: LoadCases,
    results: Results,
}

impl Run {
    fn of(folder: &Folder) -> Self {
        let model = folder.model();
        let cases = derive_plain(&model).expect("cases");
        let results = solve_cases(&model, &cases).expect("a solution");
        Self { model, cases, results }
    }

    fn judged<T>(&self, ask: impl Fn(Judged<'_>) -> T) -> T {
        let Self { model, cases, results } = self;
        ask(Judged { model, cases, results, bays: &find_bays(model), lengths: None })
    }

    fn findings(&self, code: &str) -> Vec<Finding> {
        self.judged(check_all).into_iter().filter(|finding| finding.code.0 == code).collect()
    }
}

fn only(folder: &Folder, code: &str) -> Finding {
    let mut found = Run::of(folder).findings(code);
    assert_eq!(found.len(), 1, "{found:?}");
    found.remove(0)
}

fn used(folder: &Folder) -> f64 {
    only(folder, "D040").utilisation.expect("a bolt has a limit")
}

const IN_PLATE: &str = "axis = \"z\"\nclamps = \"plate\"\nplate_mm = 4\n";

/// 1.5 · 1000 N across the bolt, bearing governs.
#[test]
fn the_margin_acts_on_the_force_across_the_bolt() {
    let found = only(&bolt(IN_PLATE), "D040");
    assert_close("bearing", found.utilisation.expect("a limit"), 1500.0 / PLATE, 1e-9);
    assert_eq!((found.value.round(), found.severity), (1500.0, Severity::Note));
    assert!(found.clause.starts_with("EN 1993-1-8 Table 3.4, bearing"), "{}", found.clause);
    assert!(found.message.contains("M10 8.8 of box at joint top carries 1500 N of 9562 N"), "{}", found.message);
}

#[test]
fn eurocode_and_ultimate_cases_divide_the_strength() {
    let eurocode = bolt(IN_PLATE).and("model.toml", "[basis]\nkind = \"eurocode\"\n");
    assert_close("design values", used(&eurocode), 1000.0 / (PLATE / 1.25), 1e-9);
    let mut run = Run::of(&bolt(IN_PLATE));
    run.cases.0[0].nature = Nature::Ultimate;
    let [found] = &run.findings("D040")[..] else { panic!("one") };
    assert_close("ultimate", found.utilisation.expect("a limit"), 1000.0 / (PLATE / 1.25), 1e-9);
}

#[test]
fn without_an_axis_the_whole_force_is_judged() {
    let found = bolt(&IN_PLATE.replace("axis = \"z\"\n", ""));
    assert_close("bearing", used(&found), 1.5 * 1000.0_f64.hypot(500.0) / PLATE, 1e-9);
}

/// The bolt alone, by hand: 1500/27 840 + 750/(1.4 · 41 760); what it bears on is not known, and that is no pass.
#[test]
fn a_bolt_that_clamps_no_one_knows_what_is_told_and_not_passed() {
    let folder = bolt("axis = \"z\"\n");
    let found = only(&folder, "D040");
    assert_close("shear and tension", found.utilisation.expect("a limit"), 1500.0 / 27_840.0 + 750.0 / 58_464.0, 1e-9);
    assert!(found.is_outside() && found.clause.contains("what the bolt clamps is not given"), "{}", found.clause);
    let clamped = only(&folder, "D041");
    assert_eq!((clamped.severity, clamped.utilisation), (Severity::Warning, None));
    assert!(clamped.message.contains("[bolts.M]"), "{}", clamped.message);
}

#[test]
fn a_moment_at_the_mount_is_no_pass() {
    let turned = post(&format!("{M10}{IN_PLATE}"), "push,body: box,1000,0,-500,0,20,0\n");
    let found = only(&turned, "D040");
    assert!(found.is_outside() && found.clause.contains("the moment at the mount"), "{}", found.clause);
    assert_close("the moment is left out", used(&turned), used(&bolt(IN_PLATE)), 1e-9);
}

#[test]
fn bolts_without_size_or_class_are_stated_alone() {
    for keys in ["axis = \"z\"\n", "size = \"M10\"\n", "grade = \"8.8\"\n"] {
        let run = Run::of(&post(keys, LOAD));
        let [stated] = &run.findings("D009")[..] else { panic!("one") };
        assert_close("its load", stated.value, 1000.0_f64.hypot(500.0), 1e-9);
        assert!(run.findings("D040").is_empty() && run.findings("D041").is_empty());
    }
    assert!(Run::of(&bolt("")).findings("D009").is_empty());
}

#[test]
fn a_thin_tube_wants_a_sleeve() {
    let thin = only(&bolt("clamps = \"tube\"\n"), "D041");
    assert_eq!((thin.severity, thin.utilisation), (Severity::Warning, None));
    assert!(thin.message.contains("clamps tube post with a wall of 2 mm"), "{}", thin.message);
    let crushed = only(&bolt("clamps = \"tube\"\npreload_n = 20000\n"), "D041");
    assert_eq!(crushed.severity, Severity::Error);
    assert_close("crushing", crushed.utilisation.expect("a preload"), 20_000.0 / thin.limit.expect("told"), 1e-12);
    let sleeve = "clamps = \"sleeve\"\nsleeve_outer_mm = 16\nsleeve_wall_mm = 2.5\npreload_n = 20000\n";
    let held = only(&bolt(sleeve), "D041");
    // π · 2.5 · 13.5 mm² of 235 MPa.
    let area = std::f64::consts::PI * 2.5 * 13.5;
    assert_close("sleeve", held.utilisation.expect("a preload"), 20_000.0 / (area * 235.0), 1e-12);
    assert_eq!(held.severity, Severity::Note);
    assert_eq!(only(&bolt(IN_PLATE), "D041").severity, Severity::Note);
    let thick = bolt("clamps = \"tube\"\n");
    let text = String::from_utf8(thick.files().get("model.toml").expect("there").to_vec()).expect("text");
    let thick = thick.with("model.toml", text.replace("wall_mm = 2.0", "wall_mm = 3.0"));
    assert_eq!(only(&thick, "D041").severity, Severity::Note);
}

#[test]
fn the_thinnest_tube_at_the_joint_stands_for_all() {
    let folder = bolt("clamps = \"tube\"\n")
        .and("model.toml", "[sections.thin]\nshape = \"round\"\ndiameter_mm = 25\nwall_mm = 1.2\n")
        .and("joints.csv", "other,400,0,0\n")
        .and("tubes.csv", "stay,top,other,thin,mild\n")
        .and("supports.csv", "other,fixed,fixed,fixed,fixed,fixed,fixed\n");
    assert!(only(&folder, "D041").message.contains("clamps tube stay with a wall of 1.2 mm"));
    assert!(used(&folder) > used(&bolt("clamps = \"tube\"\n")) * 0.5);
}

/// μ n (F_p − 0.8 · 1.5 · 500)/1.25 = 0.2 · (20 000 − 600)/1.25 = 3104 N against 1500 N.
#[test]
fn slip_is_told_and_is_no_strength() {
    let run = Run::of(&bolt(&format!("{IN_PLATE}preload_n = 20000\nfriction = 0.2\n")));
    let [_, slip] = &run.findings("D041")[..] else { panic!("two") };
    assert_close("slip", slip.limit.expect("told"), 3104.0, 1e-9);
    assert_eq!((slip.severity, slip.utilisation), (Severity::Note, None));
    assert!(slip.message.contains("holds by friction"), "{}", slip.message);
    let weak = Run::of(&bolt(&format!("{IN_PLATE}preload_n = 5000\nfriction = 0.1\n")));
    assert!(weak.findings("D041")[1].message.contains("slips"));
    let foot = |run: &Run| run.judged(|judged| written(judged, &run.findings("D041")[1])).expect("a page").text();
    assert!(foot(&run).ends_with("not held against a limit: it does not slip\n"), "{}", foot(&run));
    assert!(foot(&weak).ends_with("not held against a limit: it slips, and bears on its hole\n"), "{}", foot(&weak));
}

#[test]
fn a_bolt_over_its_limit_is_an_error_in_each_such_case() {
    let loads = format!("{LOAD}shove,body: box,90000,0,0,0,0,0\nhaul,body: box,0,0,90000,0,0,0\n");
    let run = Run::of(&post(&format!("{M10}{IN_PLATE}"), &loads));
    let found = run.findings("D040");
    let severities: Vec<Severity> = found.iter().map(|finding| finding.severity).collect();
    assert_eq!(severities, [Severity::Note, Severity::Error, Severity::Error]);
    assert!(found[0].message.is_empty() && found[1].message.contains("too much") && !found[2].message.is_empty());
}

#[test]
fn every_page_stands_by_itself() {
    let sleeve = "clamps = \"sleeve\"\nsleeve_outer_mm = 16\nsleeve_wall_mm = 2.5\n";
    let forms = [
        IN_PLATE,
        "clamps = \"tube\"\nshear_planes = 2\n",
        "axis = \"x\"\nclamps = \"tube\"\n",
        sleeve,
        "countersunk = true\n",
    ];
    for form in forms {
        for basis in ["", "[basis]\nkind = \"eurocode\"\n"] {
            let bolt = format!("{M10}{form}preload_n = 12345.6\nfriction = 0.21\n");
            let loads = "push,body: box,1234.5,-678.9,-543.2,3,0,0\n";
            let run = Run::of(&post(&bolt, loads).and("model.toml", basis));
            for finding in [run.findings("D040"), run.findings("D041")].concat() {
                let Some(page) = run.judged(|judged| written(judged, &finding)) else {
                    assert!(finding.utilisation.is_none(), "{finding:?}");
                    continue;
                };
                recomputes(&page);
                if let Some(utilisation) = finding.utilisation {
                    assert_close("page and finding", page.utilisation, utilisation, 1e-15);
                }
                assert_eq!(page.outside.is_empty(), !finding.is_outside(), "{finding:?}");
            }
        }
    }
}
