//! Butt welds of full penetration: as strong as the weaker part.

use super::super::walls::{Acting, Walls, stresses};
use super::super::{Partial, Verdict};
use crate::calculation::{Put, Sink, Unit};

/// Where the rule comes from, as a page prints it.
pub const BUTT_SOURCE: &str = "EN 1993-1-8:2005 4.7.1(1): a full penetration butt weld is as strong as the weaker of the parts (a copy \
                               was read); EN 1993-1-1:2005 6.2.1(5): elastic check (from memory)";

/// A butt weld of full penetration all round the end of a tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Butt {
    /// The tube that ends there.
    pub walls: Walls,
    /// f_y of the weaker part, beside the weld, Pa.
    pub yield_stress: f64,
}

/// The wall of the tube at its end, with the strength of the weaker part.
///
/// ```text
/// √(σ² + 3τ²) ≤ f_y/γ_M0
/// ```
///
/// # Units and shapes
/// SI.
///
/// # Assumes
/// Filler at least as strong as the weaker part; the part that it is welded to has a wall no thinner than the tube's.
///
/// # Source
/// EN 1993-1-8:2005 4.7.1(1) (a copy was read), EN 1993-1-1:2005 6.2.1(5) (from memory).
pub fn butt(weld: &Butt, acting: &Acting, partial: &Partial, sink: &mut impl Sink) -> Verdict {
    let [normal, shear] = stresses(&weld.walls, acting, sink);
    let combined = (normal * normal + 3.0 * shear * shear).sqrt();
    let verdict = Verdict::of(
        combined / (weld.yield_stress / partial.m0),
        "EN 1993-1-8 4.7.1: butt weld of full penetration, strength of the weaker part",
    );
    if sink.writes() {
        let put: [Put<'_>; 5] = [
            ("σ", normal, Unit::MPA),
            ("τ", shear, Unit::MPA),
            ("σ_v", combined, Unit::MPA),
            ("f_y", weld.yield_stress, Unit::MPA),
            ("γ_M0", partial.m0, Unit::ONE),
        ];
        sink.given("f_y", weld.yield_stress, Unit::MPA, "of the weaker part, beside the weld");
        sink.given("γ_M0", partial.m0, Unit::ONE, "partial factor of sections");
        sink.step("σ_v", "√(σ² + 3 · τ²)", &put, combined, Unit::MPA, "von Mises");
        sink.step("U", "σ_v / (f_y / γ_M0)", &put, verdict.utilisation, Unit::ONE, "4.7.1(1)");
    }
    verdict
}
