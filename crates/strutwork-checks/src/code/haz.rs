//! Beside a weld: aluminium and cold-worked or heat-treated steel keep less than the parent's strength.

use super::elastic::stresses;
use super::profile::{Forces, Profile};
use super::{Partial, Verdict};
use crate::calculation::{Put, Sink, Unit};

/// Where the rules come from, as a page prints it.
pub const SOURCE: &str = "EN 1999-1-1:2007 6.1.6, 6.2.1(5), 8.6.3.4 (from memory); for steel EN 1993-1-1:2005 6.2.1(5) (from memory) \
                          with the strengths that the material has beside a weld; reach beside steel welds: common practice, no source";

/// γ_M1 of aluminium sections: EN 1999-1-1:2007 6.1.3, recommended (from memory).
pub const ALUMINIUM_M1: f64 = 1.10;
/// γ_Mw of aluminium welds and the zone beside them: EN 1999-1-1:2007 8.1.1, recommended (from memory).
pub const ALUMINIUM_MW: f64 = 1.25;

/// A section in the zone beside a weld.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// Its section; the whole of it is weakened, so its own yield strength is not used.
    pub profile: Profile,
    /// Yield or proof strength there, Pa.
    pub yield_stress: f64,
    /// Ultimate strength there, Pa.
    pub ultimate: f64,
    /// Whether it is aluminium.
    pub aluminium: bool,
}

/// Partial factors beside a weld, on yield and on fracture: γ_M0 and γ_M2 for steel; for aluminium γ_M1 = 1.10 and
/// γ_Mw = 1.25, where there are partial factors at all.
///
/// # Source
/// [`ALUMINIUM_M1`], [`ALUMINIUM_MW`].
pub fn gammas(aluminium: bool, by_partial_factors: bool, partial: &Partial) -> [f64; 2] {
    if aluminium && by_partial_factors { [ALUMINIUM_M1, ALUMINIUM_MW] } else { [partial.m0, partial.m2] }
}

/// How far the weakened zone reaches from the weld, m, for a wall of this thickness, m.
///
/// ```text
/// MIG: 20 mm up to 6 mm walls, 30 up to 12, 35 up to 25, 40 above;  TIG: 30 mm up to 6 mm walls, above not less than MIG
/// ```
///
/// # Source
/// EN 1999-1-1:2007 6.1.6.3 (from memory), which gives TIG up to 6 mm alone. For steel the same: common practice, no source.
pub fn reach(wall: f64, tig: bool) -> f64 {
    let mig: f64 = match wall * 1e3 * (1.0 - 1e-9) {
        t if t <= 6.0 => 20e-3,
        t if t <= 12.0 => 30e-3,
        t if t <= 25.0 => 35e-3,
        _ => 40e-3,
    };
    if tig { mig.max(30e-3) } else { mig }
}

/// Factor of TIG welding on strengths beside a weld that are listed for MIG, by the series of a wrought alloy (the first digit
/// of its number) and the wall, m.
///
/// ```text
/// 6xxx, 7xxx: 0.8 up to 6 mm, 0.64 above;  other series: 1 up to 6 mm, 0.9 above
/// ```
///
/// # Source
/// EN 1999-1-1:2007 Table 3.2, note on TIG (from memory).
pub fn tig_factor(series: char, wall: f64) -> f64 {
    let thin = wall * 1e3 <= 6.0 * (1.0 + 1e-9);
    match (series, thin) {
        ('6' | '7', true) => 0.8,
        ('6' | '7', false) => 0.64,
        (_, true) => 1.0,
        (_, false) => 0.9,
    }
}

/// What strengths beside a weld are divided by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held<'a> {
    /// Partial factors on yield and on fracture: [`gammas`].
    pub gammas: [f64; 2],
    /// The margin of the basis.
    pub margin: f64,
    /// Where the margin comes from.
    pub why: &'a str,
}

impl Beside {
    /// The stresses that may act there before it yields and before it breaks, Pa.
    pub fn limits(&self, held: &Held<'_>) -> [f64; 2] {
        let [on_yield, on_fracture] = held.gammas;
        [self.yield_stress / (on_yield * held.margin), self.ultimate / (on_fracture * held.margin)]
    }
}

/// Von Mises stress beside a weld, Pa, against the strength that is left there.
///
/// ```text
/// σ_v = √(σ² + 3τ²) ≤ f_o,haz/(γ_y · margin)   and   ≤ f_u,haz/(γ_u · margin)
/// ```
///
/// # Units and shapes
/// SI; forces as they act, without margin.
///
/// # Assumes
/// The whole section is weakened: a weld all round. Elastic: nothing is gained by plastic redistribution.
///
/// # Source
/// EN 1999-1-1:2007 6.1.6.1 with 6.2.1(5) and 8.6.3.4 (from memory); steel as EN 1993-1-1:2005 6.2.1(5) (from memory).
pub fn check(beside: &Beside, acting: &Forces, held: &Held<'_>, sink: &mut impl Sink) -> (Verdict, f64) {
    let [normal, shear] = stresses(&beside.profile, acting, sink);
    let stress = (normal * normal + 3.0 * shear * shear).sqrt();
    let limits = beside.limits(held);
    let [yields, breaks] = if beside.aluminium {
        ["EN 1999-1-1 6.1.6: yield beside the weld", "EN 1999-1-1 8.6.3.4: fracture beside the weld"]
    } else {
        ["EN 1993-1-1 6.2.1(5): yield beside the weld", "EN 1993-1-1 6.2.1(5): fracture beside the weld"]
    };
    let verdict = Verdict::of(stress / limits[0], yields).worse(Verdict::of(stress / limits[1], breaks));
    if sink.writes() {
        write(beside, held, [normal, shear, stress], verdict, sink);
    }
    (verdict, stress)
}

fn write(beside: &Beside, held: &Held<'_>, [normal, shear, stress]: [f64; 3], verdict: Verdict, sink: &mut impl Sink) {
    let [on_yield, on_fracture] = if beside.aluminium {
        ["partial factor on yield: γ_M1 of aluminium", "partial factor on fracture: γ_Mw of aluminium"]
    } else {
        ["partial factor on yield: γ_M0", "partial factor on fracture: γ_M2"]
    };
    let limits = beside.limits(held);
    let put: [Put<'_>; 10] = [
        ("σ", normal, Unit::MPA),
        ("τ", shear, Unit::MPA),
        ("σ_v", stress, Unit::MPA),
        ("f_o,haz", beside.yield_stress, Unit::MPA),
        ("f_u,haz", beside.ultimate, Unit::MPA),
        ("γ_y", held.gammas[0], Unit::ONE),
        ("γ_u", held.gammas[1], Unit::ONE),
        ("margin", held.margin, Unit::ONE),
        ("σ_y", limits[0], Unit::MPA),
        ("σ_u", limits[1], Unit::MPA),
    ];
    sink.step("σ_v", "√(σ² + 3 · τ²)", &put, stress, Unit::MPA, "von Mises");
    sink.given("f_o,haz", beside.yield_stress, Unit::MPA, "yield or proof strength beside the weld");
    sink.given("f_u,haz", beside.ultimate, Unit::MPA, "ultimate strength beside the weld");
    sink.given("γ_y", held.gammas[0], Unit::ONE, on_yield);
    sink.given("γ_u", held.gammas[1], Unit::ONE, on_fracture);
    sink.given("margin", held.margin, Unit::ONE, held.why);
    sink.step("σ_y", "f_o,haz / (γ_y · margin)", &put, limits[0], Unit::MPA, "allowed against yield");
    sink.step("σ_u", "f_u,haz / (γ_u · margin)", &put, limits[1], Unit::MPA, "allowed against fracture");
    sink.step("U", "max(σ_v / σ_y, σ_v / σ_u)", &put, verdict.utilisation, Unit::ONE, verdict.clause);
}

#[cfg(test)]
mod tests;
