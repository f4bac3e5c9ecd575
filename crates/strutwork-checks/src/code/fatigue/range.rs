//! The stress range at a tube's end between two cases.

use crate::calculation::{Sink, Unit};

/// A tube's end, as far as stress ranges and their scope need it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// A, m².
    pub area: f64,
    /// W_el,y and W_el,z, m³; a round section has both alike.
    pub elastic: [f64; 2],
    /// Whether it is round: then bending adds up as a vector.
    pub round: bool,
    /// Wall of a hollow section, m; `None` for a solid bar.
    pub wall: Option<f64>,
    /// Whether it is of steel.
    pub steel: bool,
    /// f_y, Pa, where known.
    pub yield_stress: Option<f64>,
}

/// What acts at the end in the two cases of a pair, and how often.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing<'a> {
    /// The name of the pair.
    pub name: &'a str,
    /// The names of the two cases.
    pub cases: [&'a str; 2],
    /// N, N; M_y and M_z, N·m, in each of the two.
    pub forces: [[f64; 3]; 2],
    /// Share of the range between the two.
    pub share: f64,
    /// n_E.
    pub cycles: f64,
}

/// The stress range of a pair, Pa; `factor` is k_1, `number` the pair's on the page.
///
/// ```text
/// Δσ = γ_Ff k_1 s (ΔN/A + ΔM_y/W_el,y + ΔM_z/W_el,z)      round: √(ΔM_y² + ΔM_z²)/W_el      γ_Ff = 1
/// ```
///
/// # Assumes
/// The fibre with the greatest range: a corner of a doubly symmetric section, or the outline of a round one.
///
/// # Source
/// Elementary beam theory. γ_Ff and k_1: EN 1993-1-9:2005, 6.4 and Table 4.2 (from memory).
pub fn range<S: Sink>(end: &End, factor: f64, swing: &Swing<'_>, number: usize, sink: &mut S) -> f64 {
    let [from, to] = swing.forces;
    let apart = [0, 1, 2].map(|force| (from[force] - to[force]).abs());
    let [n, my, mz] = apart;
    let bending = if end.round { my.hypot(mz) / end.elastic[0] } else { my / end.elastic[0] + mz / end.elastic[1] };
    let range = factor * swing.share * (n / end.area + bending);
    if sink.writes() {
        write(end, factor, swing, number, apart, range, sink);
    }
    range
}

fn write<S: Sink>(end: &End, factor: f64, swing: &Swing<'_>, number: usize, apart: [f64; 3], range: f64, sink: &mut S) {
    let named = |symbol: &str| format!("{symbol}_{number}");
    let (share, often) = (named("s"), named("n_E"));
    sink.remark(&format!("Pair {number}, {}: from {} to {}", swing.name, swing.cases[0], swing.cases[1]));
    sink.given(&often, swing.cycles, Unit::ONE, "cycles");
    sink.given(&share, swing.share, Unit::ONE, "share of the range between the two cases");
    let units = [Unit::N, Unit::NM, Unit::NM];
    let symbols = ["ΔN", "ΔM_y", "ΔM_z"].map(named);
    for (force, symbol) in ["N", "M_y", "M_z"].into_iter().enumerate() {
        let [a, b] = ["a", "b"].map(|which| format!("{symbol}_{number},{which}"));
        let ([from, to], unit) = (swing.forces.map(|forces| forces[force]), units[force]);
        sink.given(&a, from, unit, swing.cases[0]);
        sink.given(&b, to, unit, swing.cases[1]);
        let with = [(a.as_str(), from, unit), (b.as_str(), to, unit)];
        sink.step(&symbols[force], &format!("|{a} − {b}|"), &with, apart[force], unit, "");
    }
    let [n, my, mz] = symbols.each_ref().map(String::as_str);
    let mut with = vec![("γ_Ff", 1.0, Unit::ONE), ("k_1", factor, Unit::ONE), (share.as_str(), swing.share, Unit::ONE)];
    with.extend([(n, apart[0], Unit::N), (my, apart[1], Unit::NM), (mz, apart[2], Unit::NM)]);
    with.push(("A", end.area, Unit::MM2));
    let formula = if end.round {
        with.push(("W_el", end.elastic[0], Unit::MM3));
        format!("γ_Ff · k_1 · {share} · ({n} / A + 1000 · √({my}² + {mz}²) / W_el)")
    } else {
        with.extend([("W_el,y", end.elastic[0], Unit::MM3), ("W_el,z", end.elastic[1], Unit::MM3)]);
        format!("γ_Ff · k_1 · {share} · ({n} / A + 1000 · {my} / W_el,y + 1000 · {mz} / W_el,z)")
    };
    sink.step(&named("Δσ"), &formula, &with, range, Unit::MPA, "stress range at the fibre with the greatest");
}
