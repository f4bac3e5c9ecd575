//! Panels: shear buckling, shear stress, the load of one fastener, the bond line.

use crate::calculation::{Put, Sink, Unit};

/// Range of Poisson's ratio in which E and G may belong to one isotropic material.
const ISOTROPIC: std::ops::RangeInclusive<f64> = 0.0..=0.5;

/// A flat skin with simply supported edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skin {
    /// t, m.
    pub thickness: f64,
    /// a and b, m, a ≥ b: mean lengths of opposite edges; of a triangle its longest edge and the height on it.
    pub sides: [f64; 2],
    /// E, Pa.
    pub youngs: f64,
    /// G, Pa.
    pub shear: f64,
}

/// What a strength in shear is of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strength {
    /// f_y of a metal, Pa: it bears f_y/√3 in shear.
    Yield(f64),
    /// f_v of a sheet, Pa, given as such.
    Sheet(f64),
    /// F_v of one fastener, N, at a pitch, m.
    Fastener {
        /// N.
        strength: f64,
        /// p, m.
        pitch: f64,
    },
    /// f_v of an adhesive, Pa, on a line of a width, m.
    Bond {
        /// Pa.
        strength: f64,
        /// w, m.
        width: f64,
    },
}

/// What stands between loads and strength.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margins<'a> {
    /// On what acts, ≥ 1.
    pub margin: f64,
    /// What it is, for a page.
    pub margin_is: &'a str,
    /// On the strength, ≥ 1.
    pub gamma: f64,
    /// Its symbol.
    pub gamma_symbol: &'a str,
}

/// What acts on a panel's part, what it bears, and the share of the one in the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    /// From the loads as they are, without the margin: Pa, or N of a fastener.
    pub acts: f64,
    /// Strength over margin and partial factor, in the same unit.
    pub bears: f64,
    /// `acts` over `bears`.
    pub utilisation: f64,
}

impl Held {
    fn of(acts: f64, bears: f64) -> Self {
        Self { acts, bears, utilisation: acts / bears }
    }
}

/// Shear stress of a skin against the stress at which it buckles.
///
/// ```text
/// τ = q/t ≤ τ_cr = k_τ π²E/(12(1 − ν²)) (t/b)²      k_τ = 5.34 + 4(b/a)²
/// ```
///
/// # Units and shapes
/// `flow`: q, N/m, ≥ 0.
///
/// # Assumes
/// Flat, edges simply supported. ν = E/(2G) − 1 where that is a Poisson's ratio, else (plywood) 0. No margin: a buckled skin
/// does not break, but the linear answer of the case no longer holds.
///
/// # Source
/// Timoshenko & Gere (1961), Theory of Elastic Stability, 2nd ed., §9.7 (from memory).
pub fn buckling<S: Sink>(flow: f64, skin: &Skin, sink: &mut S) -> Held {
    let Skin { thickness: t, sides: [a, b], youngs, shear } = *skin;
    let ratio = youngs / (2.0 * shear) - 1.0;
    let isotropic = ISOTROPIC.contains(&ratio);
    let nu = if isotropic { ratio } else { 0.0 };
    let k = 5.34 + 4.0 * (b / a).powi(2);
    let plate = std::f64::consts::PI.powi(2) * youngs / (12.0 * (1.0 - nu * nu)) * (t / b).powi(2);
    let held = Held::of(flow / t, k * plate);
    if sink.writes() {
        given_flow(flow, sink);
        sink.given("t", t, Unit::MM, "thickness");
        sink.given("a", a, Unit::MM, "longer side: mean of opposite edges; of a triangle the longest edge");
        sink.given(
            "b",
            b,
            Unit::MM,
            "shorter side: mean of the other two; of a triangle the height on the longest edge",
        );
        sink.given("E", youngs, Unit::MPA, "Young's modulus");
        sink.given("G", shear, Unit::MPA, "shear modulus");
        sink.step(
            "τ",
            "q / t",
            &[("q", flow, Unit::N_PER_MM), ("t", t, Unit::MM)],
            held.acts,
            Unit::MPA,
            "shear stress",
        );
        let moduli = [("E", youngs, Unit::MPA), ("G", shear, Unit::MPA)];
        if isotropic {
            sink.step("ν", "E / (2 · G) − 1", &moduli, nu, Unit::ONE, "Poisson's ratio");
        } else {
            sink.step("ν_EG", "E / (2 · G) − 1", &moduli, ratio, Unit::ONE, "no Poisson's ratio, so not isotropic");
            sink.given("ν", nu, Unit::ONE, "taken instead, on the safe side");
        }
        let sides = [("b", b, Unit::MM), ("a", a, Unit::MM)];
        sink.step("k_τ", "5.34 + 4 · (b / a)²", &sides, k, Unit::ONE, "edges simply supported");
        let with = [("E", youngs, Unit::MPA), ("ν", nu, Unit::ONE), ("t", t, Unit::MM), ("b", b, Unit::MM)];
        sink.step("σ_E", "π² · E / (12 · (1 − ν²)) · (t / b)²", &with, plate, Unit::MPA, "");
        let with = [("k_τ", k, Unit::ONE), ("σ_E", plate, Unit::MPA)];
        sink.step("τ_cr", "k_τ · σ_E", &with, held.bears, Unit::MPA, "shear stress at which it buckles");
        let with = [("τ", held.acts, Unit::MPA), ("τ_cr", held.bears, Unit::MPA)];
        sink.step("utilisation", "τ / τ_cr", &with, held.utilisation, Unit::ONE, "");
        sink.remark("Loads as they are in the case, without the margin of the basis: past 1 the skin carries by diagonal tension and the linear answer of the case no longer holds.");
    }
    held
}

/// What a shear flow does to a skin or to what fixes it, against its strength.
///
/// ```text
/// skin:      m q/t ≤ f_y/(√3 γ_M0)  or  f_v/γ_M2        fastener:  m q p ≤ F_v/γ_M2        bond:  m q/w ≤ f_v/γ_M2
/// ```
/// m is the margin.
///
/// # Units and shapes
/// `flow`: q, N/m, ≥ 0; `thickness`: of the skin, m.
///
/// # Source
/// Equilibrium of an edge; f_y/√3: von Mises. Strengths: the user's, or those of the material's source.
pub fn strength<S: Sink>(flow: f64, thickness: f64, strength: Strength, margins: Margins<'_>, sink: &mut S) -> Held {
    let Margins { margin, gamma, .. } = margins;
    let (acts, resistance) = match strength {
        Strength::Yield(yield_stress) => (flow / thickness, yield_stress / (3.0_f64.sqrt() * gamma)),
        Strength::Sheet(strength) => (flow / thickness, strength / gamma),
        Strength::Fastener { strength, pitch } => (flow * pitch, strength / gamma),
        Strength::Bond { strength, width } => (flow / width, strength / gamma),
    };
    let held = Held { acts, bears: resistance / margin, utilisation: margin * acts / resistance };
    if sink.writes() {
        given_flow(flow, sink);
        sink.given("margin", margin, Unit::ONE, margins.margin_is);
        sink.given(margins.gamma_symbol, gamma, Unit::ONE, "on the strength");
        write(flow, thickness, strength, margins, [margin * acts, resistance, held.utilisation], sink);
    }
    held
}

fn given_flow<S: Sink>(flow: f64, sink: &mut S) {
    sink.given("q", flow, Unit::N_PER_MM, "shear flow along the edge that has most, from the analysis");
}

fn write<S: Sink>(
    flow: f64,
    thickness: f64,
    strength: Strength,
    margins: Margins<'_>,
    [acts, resistance, utilisation]: [f64; 3],
    sink: &mut S,
) {
    let gamma: Put<'_> = (margins.gamma_symbol, margins.gamma, Unit::ONE);
    let flow: [Put<'_>; 2] = [("margin", margins.margin, Unit::ONE), ("q", flow, Unit::N_PER_MM)];
    // Symbols of what acts and of the resistance, the size that the flow acts on, the strength, and both formulas.
    let (acting, resisting, size, strong, act, resist, unit, note) = match strength {
        Strength::Yield(value) => {
            let (t, f) = (("t", thickness, "thickness"), ("f_y", value, "yield strength"));
            ("τ_Ed", "τ_Rd", t, f, "margin · q / t", format!("f_y / (√(3) · {})", gamma.0), Unit::MPA, "shear stress")
        }
        Strength::Sheet(value) => {
            let (t, f) = (("t", thickness, "thickness"), ("f_v", value, "shear strength of the sheet"));
            ("τ_Ed", "τ_Rd", t, f, "margin · q / t", format!("f_v / {}", gamma.0), Unit::MPA, "shear stress")
        }
        Strength::Fastener { strength, pitch } => {
            let (p, f) = (("p", pitch, "pitch"), ("F_v", strength, "shear strength of one fastener"));
            ("F_Ed", "F_Rd", p, f, "margin · q · p", format!("F_v / {}", gamma.0), Unit::N, "load of one fastener")
        }
        Strength::Bond { strength, width } => {
            let (w, f) = (("w", width, "width of the line"), ("f_v", strength, "shear strength of the adhesive"));
            (
                "τ_Ed",
                "τ_Rd",
                w,
                f,
                "margin · q / w",
                format!("f_v / {}", gamma.0),
                Unit::MPA,
                "shear stress in the bond line",
            )
        }
    };
    sink.given(size.0, size.1, Unit::MM, size.2);
    sink.given(strong.0, strong.1, unit, strong.2);
    let with = [flow[0], flow[1], (size.0, size.1, Unit::MM)];
    sink.step(acting, act, &with, acts, unit, note);
    sink.step(resisting, &resist, &[(strong.0, strong.1, unit), gamma], resistance, unit, "what it bears");
    let with = [(acting, acts, unit), (resisting, resistance, unit)];
    sink.step("utilisation", &format!("{acting} / {resisting}"), &with, utilisation, Unit::ONE, "");
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use strutwork_testkit::assert_close;

    use super::*;
    use crate::calculation::{Pages, Silent};
    use crate::code::worked::recomputes;

    const ALUMINIUM: Skin = Skin { thickness: 1e-3, sides: [0.5, 0.4], youngs: 70e9, shear: 26.3e9 };

    /// By hand, 500 × 400 mm: k = 5.34 + 4·0.64 = 7.90. Aluminium 1.0: 3.2 MPa, 1.6 kN on the long side; glass mat 3 mm
    /// (E 6.5, G 2.75 GPa, so ν = 0.182): 7.9 · 5529 · (3/400)² = 2.457 MPa; steel 0.9: 7.6 MPa.
    #[test]
    fn buckling_stresses_of_a_bay_follow_hand_values() {
        let at = |thickness: f64, youngs, shear| {
            buckling(1000.0, &Skin { thickness, youngs, shear, ..ALUMINIUM }, &mut Silent).bears / 1e6
        };
        for (found, expected) in
            [(at(1e-3, 70e9, 26.3e9), 3.2), (at(3e-3, 6.5e9, 2.75e9), 2.457), (at(0.9e-3, 210e9, 80.8e9), 7.6)]
        {
            assert!((found - expected).abs() <= 0.05, "{found} for {expected}");
        }
        let held = buckling(3200.0, &ALUMINIUM, &mut Silent);
        assert_close("τ", held.acts, 3.2e6, 1e-12);
    }

    /// By hand: 20 N/mm at a pitch of 50 mm is 1000 N; on a line of 25 mm 0.8 MPa; in a sheet of 1.2 mm 16.667 MPa.
    #[test]
    fn strengths_follow_hand_values() {
        let margins = Margins { margin: 1.5, margin_is: "", gamma: 1.25, gamma_symbol: "γ_M2" };
        let judged = |kind| strength(20e3, 1.2e-3, kind, margins, &mut Silent);
        let rivet = judged(Strength::Fastener { strength: 1800.0, pitch: 0.05 });
        assert_close("load", rivet.acts, 1000.0, 1e-12);
        assert_close("bears", rivet.bears, 1800.0 / 1.875, 1e-12);
        assert_close("share", rivet.utilisation, 1000.0 * 1.875 / 1800.0, 1e-12);
        let bond = judged(Strength::Bond { strength: 2e6, width: 0.025 });
        assert_close("bond", bond.utilisation, 0.8 * 1.875 / 2.0, 1e-12);
        assert_close("sheet", judged(Strength::Sheet(41e6)).acts, 20.0 / 1.2 * 1e6, 1e-12);
        let metal = judged(Strength::Yield(130e6)).bears;
        assert_close("metal", metal, 130e6 / 3.0_f64.sqrt() / 1.875, 1e-12);
    }

    fn kind() -> impl Strategy<Value = Strength> {
        let stress = || 1e6..400e6;
        prop_oneof![
            stress().prop_map(Strength::Yield),
            stress().prop_map(Strength::Sheet),
            (100.0..5000.0, 5e-3..0.2).prop_map(|(strength, pitch)| Strength::Fastener { strength, pitch }),
            (0.1e6..30e6, 5e-3..0.1).prop_map(|(strength, width)| Strength::Bond { strength, width }),
        ]
    }

    proptest! {
        #[test]
        fn pages_of_buckling_can_be_worked_out(
            flow in 0.0..1e5,
            thickness in 2e-4..2e-2,
            a in 0.1..2.0,
            share in 0.1..1.0,
            youngs in 1e9..210e9,
            ratio in 1.5..4.0,
        ) {
            let skin = Skin { thickness, sides: [a, a * share], youngs, shear: youngs / ratio };
            let mut pages = Pages::default();
            let held = buckling(flow, &skin, &mut pages);
            prop_assert_eq!(held, buckling(flow, &skin, &mut Silent));
            recomputes(&pages.finish("t", "c", "s", held.utilisation));
        }

        #[test]
        fn pages_of_strength_can_be_worked_out(
            flow in 0.0..1e5,
            thickness in 2e-4..2e-2,
            kind in kind(),
            margin in 1.0..2.0,
            gamma in 1.0..1.5,
        ) {
            let margins = Margins { margin, margin_is: "", gamma, gamma_symbol: "γ_M2" };
            let mut pages = Pages::default();
            let held = strength(flow, thickness, kind, margins, &mut pages);
            prop_assert_eq!(held, strength(flow, thickness, kind, margins, &mut Silent));
            assert_close("share", held.utilisation, held.acts / held.bears, 1e-12);
            recomputes(&pages.finish("t", "c", "s", held.utilisation));
        }

        #[test]
        fn more_flow_never_lowers_it(flow in 0.0..1e5, more in 1.0..3.0, kind in kind()) {
            let margins = Margins { margin: 1.5, margin_is: "", gamma: 1.25, gamma_symbol: "γ_M2" };
            let at = |flow| strength(flow, 1e-3, kind, margins, &mut Silent).utilisation;
            prop_assert!(at(flow * more) >= at(flow));
            let at = |flow| buckling(flow, &ALUMINIUM, &mut Silent).utilisation;
            prop_assert!(at(flow * more) >= at(flow));
        }
    }
}
