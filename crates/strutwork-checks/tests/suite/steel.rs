//! Sections, members and slenderness of steel tubes, from a model folder to findings and pages.

use strutwork_checks::{Calculation, Finding, Judged, Subject, check_all, written};
use strutwork_loads::case::Nature;
use strutwork_loads::{LoadCases, derive_plain};
use strutwork_model::Severity;
use strutwork_solve::{find_bays, solve_cases};
use strutwork_testkit::{Folder, assert_close};

use crate::{cantilever, of};

const SECTIONS: &str = "[sections.strut]\nshape = \"square\"\nwidth_mm = 25.0\nwall_mm = 1.5\n\
                        [sections.thin]\nshape = \"square\"\nwidth_mm = 60.0\nwall_mm = 1.5\n\
                        [sections.shell]\nshape = \"round\"\ndiameter_mm = 150.0\nwall_mm = 1.0\n\
                        [materials.strong]\ngrade = \"S355J2H\"\n";

/// A tube of 1 m along x, held at `foot` and guided at `head` so that it is pressed and bent as the loads say.
fn column(section: &str, material: &str, load: &str) -> Folder {
    Folder::steel()
        .and("model.toml", SECTIONS)
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,1000,0,0\n")
        .with("tubes.csv", format!("tube,from,to,section,material\nT1,foot,head,{section},{material}\n"))
        .with(
            "supports.csv",
            "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,free,free\nhead,free,fixed,fixed,free,free,free\n",
        )
        .with("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,head,{load}\n"))
}

/// All findings, and the page behind the first of a code.
fn judged(folder: &Folder, nature: Nature) -> (Vec<Finding>, impl Fn(&str) -> Option<Calculation> + use<>) {
    let model = folder.model();
    let mut cases: LoadCases = derive_plain(&model).unwrap();
    for case in &mut cases.0 {
        case.nature = nature;
    }
    let results = solve_cases(&model, &cases).unwrap();
    let bays = find_bays(&model);
    let found = check_all(Judged { model: &model, cases: &cases, results: &results, bays: &bays, lengths: None });
    let known = found.clone();
    let page = move |code: &str| {
        let judged = Judged { model: &model, cases: &cases, results: &results, bays: &bays, lengths: None };
        known.iter().find(|finding| finding.code.0 == code).and_then(|finding| written(judged, finding))
    };
    (found, page)
}

fn findings(folder: &Folder) -> Vec<Finding> {
    judged(folder, Nature::Plain).0
}

/// 25 × 1.5 in S235, cold formed, L = 1 m: N_b,Rd = 15.0 kN. 5 kN with the margin of 1.5 is half of it.
#[test]
fn a_strut_in_compression_follows_the_hand_calculation() {
    let (found, page) = judged(&column("strut", "mild", "-5000,0,0,0,0,0"), Nature::Plain);
    let buckling = of(&found, "D022")[0];
    assert_close("utilisation", buckling.utilisation.unwrap(), 0.5, 4e-3);
    assert!(buckling.clause.ends_with("EN 1993-1-1 6.3.1, buckling about y"), "{}", buckling.clause);
    assert_eq!((buckling.severity, buckling.subject), (Severity::Note, of(&found, "D021")[0].subject));
    assert!(buckling.message.contains("T1") && buckling.message.contains("7500 N"), "{}", buckling.message);
    // A = 135.18 mm², f_y = 235 MPa: 31.77 kN.
    assert_close("section", of(&found, "D021")[0].utilisation.unwrap(), 7500.0 / 31_767.0, 1e-3);
    assert!(
        of(&found, "D021")[0].clause.ends_with("EN 1993-1-1 6.2.4, compression"),
        "{}",
        of(&found, "D021")[0].clause
    );
    // i = 0.949 cm (EN 10219-2 table).
    assert_close("slenderness", of(&found, "D023")[0].value, 1000.0 / 9.49, 1e-3);
    assert_eq!(of(&found, "D023")[0].severity, Severity::Note);
    let page = page("D022").expect("D022 is written out");
    assert_eq!(page.utilisation, buckling.utilisation.unwrap());
    for symbol in ["margin", "N_Ed", "L_cr,y", "N_cr,y", "λ̄_y", "χ_y", "N_b,y,Rd", "U"] {
        assert!(page.lines.iter().any(|line| line.symbol == symbol), "{symbol}");
    }
}

#[test]
fn a_strut_that_carries_too_little_is_an_error() {
    let found = findings(&column("strut", "mild", "-11000,0,0,0,0,0"));
    assert_eq!(of(&found, "D022")[0].severity, Severity::Error);
    assert!(of(&found, "D022")[0].utilisation.unwrap() > 1.0);
    assert_eq!(of(&found, "D021")[0].severity, Severity::Note);
}

#[test]
fn a_tie_does_not_buckle() {
    let found = findings(&column("strut", "mild", "5000,0,0,0,0,0"));
    assert!(of(&found, "D022").is_empty() && of(&found, "D023").is_empty());
    assert!(of(&found, "D021")[0].clause.ends_with("EN 1993-1-1 6.2.3, tension"), "{}", of(&found, "D021")[0].clause);
}

/// A moment at the head: ψ = 0, C_m = 0.6; 0.9 where the frame sways. N alone is the same.
#[test]
fn sway_takes_the_factor_of_table_b3() {
    let folder = column("strut", "mild", "-3000,0,0,0,60,0");
    let [braced, swaying] = [folder.clone(), folder.and("model.toml", "[members]\nsway = true\n")].map(|folder| {
        let (found, page) = judged(&folder, Nature::Plain);
        let page = page("D022").expect("written");
        let value = |symbol: &str| page.lines.iter().find(|line| line.symbol == symbol).expect("a line").value;
        assert!(of(&found, "D022")[0].clause.ends_with("EN 1993-1-1 6.3.3 (6.61)"), "{}", of(&found, "D022")[0].clause);
        (value("C_my"), value("k_yy"))
    });
    assert_close("C_m of ψ = 0", braced.0, 0.6, 1e-9);
    assert_close("C_m with sway", swaying.0, 0.9, 1e-12);
    assert_close("k follows", swaying.1 / braced.1, 1.5, 1e-9);
}

#[test]
fn a_buckling_length_of_the_users_own_is_used() {
    let folder = column("strut", "mild", "-5000,0,0,0,0,0");
    let own =
        folder.clone().with("tubes.csv", "tube,from,to,section,material,buckling_y_mm\nT1,foot,head,strut,mild,400\n");
    let found = findings(&own);
    // About z it still buckles over its whole length.
    assert_close("about z", of(&found, "D022")[0].utilisation.unwrap(), 0.5, 4e-3);
    assert!(
        of(&found, "D022")[0].clause.ends_with("EN 1993-1-1 6.3.1, buckling about z"),
        "{}",
        of(&found, "D022")[0].clause
    );
    let limit = folder.and("model.toml", "[members]\nslenderness_limit = 100\n");
    let slender = findings(&limit);
    assert_eq!(of(&slender, "D023")[0].severity, Severity::Warning);
    assert!(of(&slender, "D023")[0].utilisation.is_none(), "a warning, no measure of strength");
    let page = judged(&limit, Nature::Plain).1("D023").expect("written");
    let [value, most] = [of(&slender, "D023")[0].value, 100.0];
    assert_close("its page", page.utilisation, value / most, 1e-12);
}

#[test]
fn stocky_tubes_are_noted() {
    let short = column("strut", "mild", "-5000,0,0,0,0,0")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,150,0,0\n");
    let found = findings(&short);
    assert!(of(&found, "D023")[0].message.contains("stocky"), "{}", of(&found, "D023")[0].message);
    assert_close(
        "no buckling",
        of(&found, "D022")[0].utilisation.unwrap(),
        of(&found, "D021")[0].utilisation.unwrap(),
        1e-12,
    );
}

#[test]
fn class_four_is_told_and_goes_by_the_effective_section() {
    let (found, page) = judged(&column("thin", "strong", "-10000,0,0,0,0,0"), Nature::Plain);
    let tube =
        of(&found, "D020").into_iter().find(|finding| matches!(finding.subject, Subject::Tube(_))).expect("class 4");
    assert_eq!((tube.value, tube.severity), (4.0, Severity::Note));
    let page = page("D021").expect("written");
    assert!(page.lines.iter().any(|line| line.symbol == "A_eff" && line.value < 320.0 && line.value > 300.0));
    // The same walls in S235 are class 2.
    let mild = findings(&column("thin", "mild", "-10000,0,0,0,0,0"));
    assert!(of(&mild, "D020").iter().all(|finding| finding.subject == Subject::Frame));
}

#[test]
fn walls_under_three_millimetres_are_said_to_be_outside() {
    let found = findings(&column("strut", "mild", "-5000,0,0,0,0,0"));
    let [thin] = of(&found, "D020")[..] else { panic!("one section has tubes") };
    assert!(thin.message.contains("strut") && thin.message.contains("1.5 mm"));
    for code in ["D021", "D022"] {
        let finding = of(&found, code)[0];
        assert!(finding.is_outside() && finding.clause.contains("under 3 mm"), "{code}: {}", finding.clause);
    }
}

#[test]
fn what_the_standard_does_not_cover_is_no_pass() {
    let shell = findings(&column("shell", "mild", "-5000,0,0,0,0,0"));
    for code in ["D021", "D022"] {
        assert!(of(&shell, code)[0].is_outside(), "{code}: {}", of(&shell, code)[0].clause);
    }
    let light =
        column("strut", "light", "-2000,0,0,0,0,0").and("model.toml", "[materials.light]\ngrade = \"6082-T6\"\n");
    let light = findings(&light);
    for code in ["D021", "D022"] {
        let finding = of(&light, code)[0];
        assert!(finding.is_outside() && finding.clause.contains("steel"), "{code}: {}", finding.clause);
        assert!(finding.utilisation.unwrap() > 0.0, "a screening value stands");
    }
}

/// Over yield and under the plastic strength: an error in service, a warning where it must hold once.
#[test]
fn an_ultimate_case_is_judged_by_plastic_strength() {
    // 900 N on 0.5 m: 450 N·m on W_el = 1.81 cm³ is 249 MPa; on W_pl = 2.21 cm³ it is 0.87 of S235.
    let folder = cantilever("", -900.0);
    let (service, _) = judged(&folder, Nature::Plain);
    assert_eq!(of(&service, "D001")[0].severity, Severity::Error);
    let (ultimate, page) = judged(&folder, Nature::Ultimate);
    let [yielding, section] = ["D001", "D021"].map(|code| of(&ultimate, code)[0]);
    assert_eq!((yielding.severity, yielding.utilisation), (Severity::Warning, None));
    assert!(yielding.value > yielding.limit.unwrap(), "{yielding:?}");
    assert_eq!(section.severity, Severity::Note);
    assert_close("M/M_pl", section.utilisation.unwrap(), 450.0 / (2.21e-6 * 235e6), 5e-3);
    assert_eq!(of(&ultimate, "D010").len(), 1);
    assert!(page("D001").is_some() && page("D021").is_some());
    // Without D021 first yield is the limit again.
    let off = folder.and("model.toml", "[checks.D021]\noff = true\nreason = \"a test\"\n");
    let (ultimate, _) = judged(&off, Nature::Ultimate);
    assert_eq!(of(&ultimate, "D001")[0].severity, Severity::Error);
    assert!(of(&ultimate, "D021").is_empty());
}

#[test]
fn the_basis_puts_the_margin_on_one_side_only() {
    let vehicle = findings(&cantilever("", -400.0));
    let basis = "[basis]\nkind = \"eurocode\"\ngamma_m0 = { value = 1.1, source = \"a test\" }\n";
    let eurocode = findings(&cantilever(basis, -400.0));
    let used = |found: &[Finding], code| of(found, code)[0].utilisation.unwrap();
    for code in ["D001", "D021"] {
        assert_close(code, used(&eurocode, code) / used(&vehicle, code), 1.1 / 1.5, 1e-12);
    }
}

#[test]
fn a_tube_without_strength_or_shape_is_left_to_d002() {
    let bar = column("bar", "mild", "-5000,0,0,0,0,0").and(
        "model.toml",
        "[sections.bar]\nshape = \"properties\"\narea_mm2 = 100\niy_mm4 = 1000\niz_mm4 = 1000\nj_mm4 = 1000\n",
    );
    let found = findings(&bar);
    for code in ["D001", "D020", "D021", "D022", "D023"] {
        assert!(of(&found, code).is_empty(), "{code}");
    }
    assert!(of(&found, "D002").iter().any(|finding| matches!(finding.subject, Subject::Tube(_))));
}

/// Two cases: the milder one is written without words, the worse with them.
#[test]
fn only_the_case_that_governs_a_tube_has_words() {
    let folder = column("strut", "mild", "-5000,0,0,0,0,0").and("loads.csv", "less,head,-1000,0,0,0,0,0\n");
    let found = findings(&folder);
    for code in ["D001", "D021", "D022"] {
        let [first, second] = of(&found, code)[..] else { panic!("{code}: two cases") };
        assert!(!first.message.is_empty() && second.message.is_empty(), "{code}");
        assert!(!second.entered.is_empty() && second.utilisation.unwrap() > 0.0);
    }
}

/// A pinned end has no moment but rounding: a tube that is only pulled has its own share, at more than its strength as well.
#[test]
fn rounding_at_a_pinned_end_decides_nothing() {
    // 135.18 mm² · 235 MPa = 31.77 kN; 22.5 kN · 1.5 = 33.75 kN, along a skew line so that rounding is left.
    let skew = column("strut", "mild", "7500,5000,20207.259421636,0,0,0")
        .with("joints.csv", "joint,x_mm,y_mm,z_mm\nfoot,0,0,0\nhead,300,200,808.290376865\n")
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nfoot,fixed,fixed,fixed,fixed,fixed,fixed\n");
    let found = findings(&skew);
    let section = of(&found, "D021")[0];
    let force = 7500.0_f64.hypot(5000.0).hypot(20_207.259_421_636);
    assert_close("N/N_pl", section.utilisation.unwrap(), 1.5 * force / 31_767.0, 1e-3);
    assert!(section.clause.ends_with("EN 1993-1-1 6.2.3, tension"), "{}", section.clause);
    assert!(of(&found, "D022").is_empty(), "nothing presses it");
    // With a real moment the value stays at the most that is told; the words are those of the axial force.
    let bent = skew
        .with("loads.csv", "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,head,7500,5000,20207.259421636,5,0,0\n");
    let (found, page) = judged(&bent, Nature::Plain);
    let section = of(&found, "D021")[0];
    assert_eq!(section.utilisation, Some(1000.0));
    assert!(section.clause.contains("EN 1993-1-1 6.2.3, tension"), "{}", section.clause);
    assert!(section.message.contains("its axial force alone is 104 %"), "{}", section.message);
    let page = page("D021").expect("written");
    assert!(page.lines.iter().any(|line| line.note.contains("leaves nothing for a moment")));
}

/// A flat bar on edge under a transverse load: nothing presses it, it may tip over, and that is not looked at.
#[test]
fn a_flat_bar_on_edge_is_no_pass() {
    let sections = "[sections.edge]\nshape = \"flat\"\nheight_mm = 60\nwidth_mm = 8\n";
    let bar = column("edge", "mild", "0,0,0,0,300,0").and("model.toml", sections);
    let (found, page) = judged(&bar, Nature::Plain);
    for code in ["D021", "D022"] {
        let finding = of(&found, code)[0];
        assert!(finding.is_outside() && finding.clause.contains("6.3.2"), "{code}: {}", finding.clause);
        // W_pl = 8 · 60²/4 = 7200 mm³, S235: 1692 N·m.
        assert_close(code, finding.utilisation.unwrap(), 1.5 * 300.0 / 1692.0, 1e-6);
    }
    assert!(of(&found, "D022")[0].message.contains("tip over"), "{}", of(&found, "D022")[0].message);
    assert!(!page("D022").expect("written").outside.is_empty());
    let weak = column("edge", "mild", "0,0,0,0,0,30").and("model.toml", sections);
    let found = findings(&weak);
    assert!(of(&found, "D022").is_empty() && !of(&found, "D021")[0].is_outside());
}

/// A spread load along z and a point load along y of one tube: each plane has its own column of Table B.3.
#[test]
fn moment_factors_go_by_the_loads_of_their_own_plane() {
    let both = column("strut", "mild", "-1000,0,0,0,0,0")
        .with("tube_loads.csv", "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\npush,T1,global,0,0,-100\n")
        .with(
            "tube_point_loads.csv",
            "case,tube,axes,at,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,T1,global,0.5,0,50,0,0,0,0\n",
        );
    let (_, page) = judged(&both, Nature::Plain);
    let page = page("D022").expect("written");
    let value = |symbol: &str| page.lines.iter().find(|line| line.symbol == symbol).expect("a line").value;
    assert_close("spread", value("C_my"), 0.95, 1e-9);
    assert_close("points", value("C_mz"), 0.90, 1e-9);
}
