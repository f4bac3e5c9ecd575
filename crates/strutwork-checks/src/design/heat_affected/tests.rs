//! Zones beside welds in whole frames.

use strutwork_testkit::assert_close;

use super::*;
use crate::code::worked::recomputes;
use crate::design::frames::{TEE, UP, d031, d032, frame, only};

fn tube(model: &Model, name: &str) -> TubeId {
    model.tube_named(name).expect("a tube of the frame")
}

/// E355+SR keeps 355/490 of 450/580 beside welds: at the brace's own weld, and in a chord of it where a brace is welded on.
#[test]
fn beside_the_weld_the_lower_strength_holds() {
    let tubes = TEE.replace("AB,A,B,chord,mild", "AB,A,B,chord,hard").replace("BC,B,C,chord,mild", "BC,B,C,chord,hard");
    let folder = frame(&tubes, UP, "pull,D,0,0,8000,0,0,0\n", "");
    let found = d032(&folder);
    let subjects: Vec<Subject> = found.iter().map(|(finding, _)| finding.subject).collect();
    let model = folder.model();
    let end = |name: &str, at_to| Subject::End { tube: tube(&model, name), at_to };
    assert_eq!(subjects, [end("AB", true), end("BC", false)]);
    for (finding, page) in &found {
        assert_close("limit", finding.limit.unwrap(), 355.0 / 1.5, 1e-12);
        assert!(finding.clause.contains("yield beside the weld"));
        recomputes(page.as_ref().expect("a page"));
    }
    // Mild steel keeps its strength: nothing to say.
    assert_eq!(d032(&frame(TEE, UP, "pull,D,0,0,8000,0,0,0\n", "")), []);
}

/// 6082-T6 by TIG: 0.8 of 125 MPa over the margin; by MIG 125; by partial factors 125/1.10. σ = N/A.
#[test]
fn aluminium_beside_tig_and_mig() {
    let tubes = TEE.replace("mild", "alloy");
    let load = "pull,D,0,0,8000,0,0,0\n";
    let of = |more: &str| {
        let found = d032(&frame(&tubes, UP, load, more));
        let (finding, page) = found.into_iter().next_back().expect("the brace's end");
        recomputes(&page.expect("a page"));
        finding
    };
    let area = 40.0_f64.powi(2) - 34.0_f64.powi(2);
    let tig = of("");
    assert_close("tig", tig.limit.unwrap(), 100.0 / 1.5, 1e-12);
    assert_close("stress", tig.value, 8000.0 / area, 1e-6);
    assert_close("mig", of("[welds]\nprocess = \"mig\"\n").limit.unwrap(), 125.0 / 1.5, 1e-12);
    let factors = of("[welds]\nprocess = \"mig\"\n[basis]\nkind = \"eurocode\"\n");
    assert_close("eurocode", factors.limit.unwrap(), 125.0 / 1.10, 1e-12);
    assert_close("stress", factors.value, 8000.0 / area, 1e-6);
    // The weld itself is no weld of EN 1993-1-8.
    let found = d031(&frame(&tubes, UP, load, ""));
    let (finding, page) = only(&found);
    assert!(finding.clause.contains("EN 1993-1-8 is for steel"), "{}", finding.clause);
    assert_close("f_u beside the weld", finding.limit.unwrap(), 0.8 * 185.0, 1e-12);
    recomputes(page);
}

/// A material of the user's own says what it keeps, or is outside scope; equal values say that it keeps all.
#[test]
fn a_material_that_says_nothing_is_no_pass() {
    let own = |more: &str| {
        let material =
            format!("[materials.own]\ne_mpa = 210000\ng_mpa = 81000\nyield_mpa = 450\nultimate_mpa = 550\n{more}");
        let folder =
            frame(&TEE.replace("BD,B,D,brace,mild", "BD,B,D,brace,own"), UP, "pull,D,0,0,8000,0,0,0\n", &material);
        (d032(&folder), d031(&folder))
    };
    let (beside, weld) = own("");
    let [(finding, None)] = beside.as_slice() else { panic!("{beside:?}") };
    assert_eq!(
        (finding.clause.as_str(), finding.utilisation),
        ("outside scope: no strength beside the weld is known", None)
    );
    assert!(finding.message.contains("haz_yield_mpa"));
    assert!(only(&weld).0.clause.contains("does not say what the material keeps"));
    let (beside, weld) = own("haz_yield_mpa = 450\nhaz_ultimate_mpa = 550\n");
    assert!(beside.is_empty() && !only(&weld).0.clause.contains("does not say"));
    let (beside, _) = own("haz_yield_mpa = 300\nhaz_ultimate_mpa = 400\n");
    assert_close("limit", beside[0].0.limit.unwrap(), 300.0 / 1.5, 1e-12);
    // A grade made stronger than listed is one that says nothing.
    let stronger = "[materials.forced]\ngrade = \"S235JRH\"\nyield_mpa = 350\n";
    let found =
        d032(&frame(&TEE.replace("BD,B,D,brace,mild", "BD,B,D,brace,forced"), UP, "pull,D,0,0,8000,0,0,0\n", stronger));
    assert!(found.iter().all(|(finding, _)| finding.is_outside()) && found.len() == 1);
}

/// The stress that counts is the greatest within the zone, not only at its end: here it grows from the end inwards.
#[test]
fn the_zone_reaches_into_the_tube() {
    let material = "[materials.soft]\ne_mpa = 210000\ng_mpa = 81000\nyield_mpa = 450\nultimate_mpa = 550\nhaz_yield_mpa = 300\nhaz_ultimate_mpa = 400\n";
    let folder =
        frame(&TEE.replace("BD,B,D,brace,mild", "BD,D,B,brace,soft"), UP, "turn,D,500,0,0,0,-300,0\n", material);
    // At B M = 300 − 300 = 0 N·m; 25 mm up the tube is the chord's face, 30 mm more the zone's end, 27.5 N·m.
    let found = d032(&folder);
    let (finding, page) = only(&found);
    let entered = |symbol: &str| finding.entered.iter().find(|row| row.0 == symbol).expect(symbol).1.abs();
    assert_close("moment 55 mm from the end", entered("M_y").max(entered("M_z")), 27.5, 1e-6);
    let place = page.lines.iter().find(|line| line.symbol == "x").expect("the place");
    assert_close("place", place.value, 55.0, 1e-9);
    recomputes(page);
}
