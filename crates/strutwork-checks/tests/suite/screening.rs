//! Fatigue, limits on movement, panels: findings on whole frames, and the pages behind them.

use strutwork_checks::{Calculation, Finding, Judged, check_all, governing, written};
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::{Model, Severity};
use strutwork_solve::{Bays, Results, find_bays};
use strutwork_testkit::{Folder, assert_close, solve};

use crate::{cantilever, of};

/// A run with everything that a check looks at.
struct Run {
    model: Model,
    cases: LoadCases,
    results: Results,
    bays: Bays,
}

impl Run {
    fn of(folder: &Folder) -> Self {
        let model = folder.model();
        let (cases, results) = (derive_plain(&model).unwrap(), solve(&model).unwrap());
        let bays = find_bays(&model);
        Self { model, cases, results, bays }
    }

    fn judged(&self) -> Judged<'_> {
        Judged { model: &self.model, cases: &self.cases, results: &self.results, bays: &self.bays, lengths: None }
    }

    fn findings(&self) -> Vec<Finding> {
        check_all(self.judged())
    }

    fn page(&self, finding: &Finding) -> Calculation {
        written(self.judged(), finding).unwrap_or_else(|| panic!("no page for {finding:?}"))
    }
}

/// The cantilever with a push up beside its push down.
fn pushed(tables: &str) -> Run {
    Run::of(&cantilever(tables, -400.0).and("loads.csv", "push,tip,0,0,200,0,0,0\n"))
}

const PAIRS: &str = "[fatigue.pairs.road]\nfrom = \"pull\"\nto = \"push\"\ncycles = 20000\n\
                     [fatigue.pairs.rest]\nfrom = \"pull\"\nto = \"none\"\ncycles = 1e5\nshare = 0.5\n";

/// By hand at the wall: ΔM = 600 N · 0.5 m = 300 N·m and 100 N·m, over W_el = 1.81 cm³ (EN 10219-2 table, 30 × 30 × 2);
/// Δσ_C,d = 36/1.35. Loads without the margin of 1.5.
#[test]
fn the_sum_at_a_wall_follows_a_hand_calculation() {
    let run = pushed(PAIRS);
    let all = run.findings();
    let found = of(&all, "D050");
    assert_eq!(found.len(), 2, "one for each end");
    let part = |moment: f64, cycles: f64| cycles / (2e6 * (36.0 / 1.35 / (moment / 1.81)).powi(3));
    assert_close("D", found[0].value, part(300.0, 2e4) + part(100.0, 1e5), 1e-2);
    assert_close("range", found[0].entered[0].1, 300.0 / 1.81e-6, 3e-3);
    assert_eq!(found[0].severity, if found[0].value > 1.0 { Severity::Error } else { Severity::Note });
    assert!(found[0].clause.starts_with("outside scope: the wall is under 4 mm"), "{}", found[0].clause);
    assert!(found[0].message.contains("ranks"), "{}", found[0].message);
    // Nothing bends the free end.
    assert_eq!((found[1].value, found[1].severity), (0.0, Severity::Note));
    assert!(found[1].message.contains("no stress range at this end"), "{}", found[1].message);
    // Outside scope nothing is told as within.
    assert!(found.iter().all(|finding| !finding.message.contains("within")), "{}", found[0].message);
    let page = run.page(found[0]);
    assert_close("page", page.utilisation, found[0].value, 0.0);
    assert!(page.outside.iter().any(|why| why.contains("4 mm")));
    assert!(page.text().contains("Δτ of shear and torsion are left out"));
}

#[test]
fn fatigue_takes_no_margin_and_the_factor_of_the_basis() {
    let sum = |tables: &str| of(&pushed(&format!("{PAIRS}{tables}")).findings(), "D050")[0].value;
    let plain = sum("");
    let gamma = "[basis]\ngamma_mf = { value = 1.0, source = \"test\" }\n";
    assert_close("γ_Mf, slope 3", plain / sum(gamma), 1.35_f64.powi(3), 1e-12);
    // The other basis has no margin on this case: none was there.
    assert_close("margin", sum("[basis]\nkind = \"eurocode\"\n"), plain, 0.0);
    let better = sum("[fatigue]\ncategory_mpa = 71\n");
    assert_close("category", plain / better, (71.0_f64 / 36.0).powi(3), 1e-12);
}

#[test]
fn without_pairs_nothing_is_said_of_fatigue_but_that_it_is_not_checked() {
    let findings = pushed("").findings();
    assert!(of(&findings, "D050").is_empty());
    assert!(of(&findings, "D002").iter().any(|finding| finding.clause.contains("fatigue")));
}

#[test]
fn a_pair_of_a_case_that_is_not_there_is_an_error_and_nothing_is_ranked() {
    let run = pushed("[fatigue.pairs.road]\nfrom = \"pul\"\nto = \"sideways-twist\"\ncycles = 20000\n");
    let all = run.findings();
    let found = of(&all, "D050");
    assert_eq!(found.len(), 2);
    assert!(found.iter().all(|finding| finding.severity == Severity::Error && finding.utilisation.is_none()));
    assert!(found[0].message.contains("fatigue pair road") && found[0].message.contains("did you mean `pull`?"));
    assert!(found[1].message.contains("`sideways-twist`") && found[1].message.contains("pull, push"));
    assert!(written(run.judged(), found[0]).is_none());
}

const LIMITS: &str = "[limits.sag]\njoint = \"tip\"\ndirection = \"z\"\nmost_mm = 10\n\
                      [limits.any]\njoint = \"tip\"\nrelative_to = \"wall\"\nmost_mm = 1\ncases = [\"push\"]\n\
                      [limits.long]\nbetween = [\"wall\", \"tip\"]\nmost_mm = 0.5\n";

/// F L³/3EI with I = 2.72 cm⁴ (EN 10219-2 table): 400 N on 500 mm give 2.92 mm, 200 N half of it.
#[test]
fn movements_follow_a_hand_calculation() {
    let run = pushed(LIMITS);
    let all = run.findings();
    let found = of(&all, "D060");
    let told: Vec<(&str, bool)> = found.iter().map(|f| (f.case.as_str(), f.message.is_empty())).collect();
    assert_eq!(told, [("pull", false), ("push", true), ("push", false), ("pull", false), ("push", true)]);
    let sag = 400.0 * 0.5_f64.powi(3) / (3.0 * 210e9 * 2.72e-8) * 1e3;
    assert_close("sag", found[0].value, sag, 3e-3);
    assert_close("share", found[0].utilisation.unwrap(), sag / 10.0, 3e-3);
    assert_close("half", found[2].value, sag / 2.0, 3e-3);
    assert_eq!(found[2].severity, Severity::Error);
    assert!(found[2].message.contains("more than the 1 mm of limit any"), "{}", found[2].message);
    assert!(found[3].value < 1e-9, "bending does not change a length: {}", found[3].value);
    for finding in found {
        assert_close("page", run.page(finding).utilisation, finding.utilisation.unwrap(), 0.0);
    }
}

#[test]
fn every_limit_is_an_item_of_its_own() {
    let all = pushed(LIMITS).findings();
    let items = governing(&all).into_iter().filter(|finding| finding.code.0 == "D060").count();
    assert_eq!(items, 3);
}

#[test]
fn a_limit_for_a_case_that_is_not_there_is_an_error() {
    let all = pushed(&LIMITS.replace("[\"push\"]", "[\"push\", \"Pull \", \"brake\"]")).findings();
    let wrong: Vec<&Finding> = of(&all, "D060").into_iter().filter(|finding| finding.utilisation.is_none()).collect();
    assert_eq!(wrong.len(), 2);
    assert!(wrong[0].message.contains("did you mean `pull`?"), "{}", wrong[0].message);
    assert_eq!(wrong[1].severity, Severity::Error);
}

/// A square bay of 500 mm with a skin, sheared by two forces.
fn bay(basis: &str, strength: &str) -> Run {
    let tables = format!(
        "{basis}[materials.sheet]\ne_mpa = 70000.0\ng_mpa = 26300.0\n{strength}\
         [fixings.rivets]\nkind = \"fasteners\"\npitch_mm = 50\nslip_mm_per_kn = 0.3\nstrength_n = 1800\n\
         [fixings.glue]\nkind = \"bond\"\nthickness_mm = 2\nwidth_mm = 20\nshear_mpa = 2\nstrength_mpa = 1.5\n"
    );
    Run::of(
        &Folder::steel()
            .and("model.toml", &tables)
            .with("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\nC,500,500,0\nD,0,500,0\nE,1000,0,0\nF,1000,500,0\n")
            .with(
                "tubes.csv",
                "tube,from,to,section,material\nAB,A,B,rail,mild\nBC,B,C,rail,mild\nCD,C,D,rail,mild\nDA,D,A,rail,mild\n\
                 BE,B,E,rail,mild\nEF,E,F,rail,mild\nFC,F,C,rail,mild\n",
            )
            .with("panels.csv", "panel,joints,material,thickness_mm,fixing\none,A B C D,sheet,1.0,rivets\ntwo,B E F C,sheet,1.0,glue\n")
            .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nA,fixed,fixed,fixed,fixed,fixed,fixed\nD,fixed,fixed,fixed,fixed,fixed,fixed\n")
            .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nweak,F,0,200,0,0,0,0\nstrong,F,0,4000,0,0,0,0\n"),
    )
}

#[test]
fn every_panel_has_a_finding_a_case_and_words_where_it_governs() {
    let run = bay("", "yield_mpa = 130\nultimate_mpa = 180\n");
    let all = run.findings();
    for (code, panels) in [("D003", 2), ("D004", 2), ("D005", 1), ("D006", 1)] {
        let found = of(&all, code);
        assert_eq!(found.len(), 2 * panels, "{code}");
        for pair in found.chunks(2) {
            assert_eq!((pair[0].case.as_str(), pair[1].case.as_str()), ("weak", "strong"));
            assert!(pair[0].message.is_empty() && pair[1].message.starts_with("panel "), "{code}");
            assert_close("in proportion", pair[1].utilisation.unwrap(), 20.0 * pair[0].utilisation.unwrap(), 1e-9);
            let share = pair[1].value / pair[1].limit.unwrap();
            assert_close("value over limit", share, pair[1].utilisation.unwrap(), 1e-12);
        }
        for finding in found {
            assert_close("page", run.page(finding).utilisation, finding.utilisation.unwrap(), 0.0);
        }
    }
}

/// The check's own buckling stress is that of the solver's results.
#[test]
fn buckling_is_judged_by_the_stress_in_the_result_files() {
    let run = bay("", "");
    for finding in of(&run.findings(), "D003") {
        let case = run.results.cases.iter().find(|case| case.name == finding.case).unwrap();
        let panel =
            case.panels.iter_with_id().find(|(id, _)| finding.subject.name(&run.model) == run.model.panels()[*id].name);
        let shear = panel.unwrap().1;
        assert_close("ratio", finding.utilisation.unwrap(), shear.buckling_ratio, 1e-12);
        assert_close("limit", finding.limit.unwrap() * 1e6, shear.buckling_stress, 1e-12);
    }
}

/// Vehicle: 1.5 on everything. Eurocode, design values: γ_M0 on a metal, γ_M2 on fasteners and bonds, and on what breaks.
#[test]
fn strengths_of_panels_follow_the_basis() {
    let used = |run: &Run, code: &str| of(&run.findings(), code)[1].utilisation.unwrap();
    let metal = "yield_mpa = 130\nultimate_mpa = 180\n";
    let vehicle = bay("", metal);
    let gammas = "[basis]\nkind = \"eurocode\"\ngamma_m0 = { value = 1.1, source = \"test\" }\n";
    let eurocode = bay(gammas, metal);
    for (code, ratio) in [("D003", 1.0), ("D004", 1.1 / 1.5), ("D005", 1.25 / 1.5), ("D006", 1.25 / 1.5)] {
        assert_close(code, used(&eurocode, code) / used(&vehicle, code), ratio, 1e-12);
    }
    let sheet = "shear_strength_mpa = 40\n";
    let ratio = used(&bay(gammas, sheet), "D004") / used(&bay("", sheet), "D004");
    assert_close("what breaks", ratio, 1.25 / 1.5, 1e-12);
}
