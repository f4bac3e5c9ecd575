//! Screening for fatigue: stress ranges at a tube's end, the S–N curve of its detail, the Miner sum.
//!
//! # Source
//! EN 1993-1-9:2005: S–N curves 7.1 and Figure 7.1, node joints Table 8.7, damage Annex A.5, limits of stress ranges 8 (from
//! memory; the slopes and knees of 7.1 were read in a design guide).

mod curve;
mod range;
#[cfg(test)]
mod tests;

pub use curve::Curve;
pub use range::{End, Swing, range};

use super::Verdict;
use crate::calculation::{Sink, Unit};

/// Below this life a material yields to and fro, which nominal stresses do not show.
const LOW_CYCLE: f64 = 1e4;
/// Walls that the tests behind the categories of hollow sections had, m: ISO 14347 starts here (its scope was read), and so
/// do the design guides for welded hollow sections (from memory).
const LEAST_WALL: f64 = 4e-3;
/// Table 8.6 holds up to this wall, m.
const MOST_WALL: f64 = 12.5e-3;
/// Table 8.7 holds up to this wall, m.
const MOST_NODE_WALL: f64 = 8e-3;
/// So that 12.5 mm written in metres counts as 12.5 mm, m.
const HAIR: f64 = 1e-9;

const CLAUSE: &str = "EN 1993-1-9 Annex A.5, Miner sum";

/// How a tube's end bears repeated loads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Detail {
    /// Δσ_C, Pa.
    pub category: f64,
    /// The curve through it.
    pub curve: Curve,
    /// γ_Mf, ≥ 1.
    pub gamma_mf: f64,
    /// k_1 of Table 4.2, ≥ 1, where bending at joints is not modelled.
    pub moment_factor: f64,
}

/// What all pairs do to one end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Damage {
    /// The Miner sum, against 1.
    pub verdict: Verdict,
    /// The pair that does most of it, by its place; of equals the first.
    pub worst: usize,
    /// The stress range of that pair, Pa.
    pub range: f64,
}

/// The Miner sum of all pairs at one end of a tube: D = Σ n_E/N_R ≤ 1.
///
/// # Assumes
/// The whole range counts, compression too, as the end is welded and not relieved of stress. Shear and torsion are left out,
/// and so are the ranges within one case.
///
/// # Source
/// EN 1993-1-9:2005, A.5; 7.2.1 for compression (from memory).
pub fn damage<S: Sink>(end: &End, detail: &Detail, swings: &[Swing<'_>], sink: &mut S) -> Damage {
    let strength = strength(end, detail, sink);
    let mut outside = scope(end, detail, sink);
    let mut found = Damage { verdict: Verdict::of(0.0, CLAUSE), worst: 0, range: 0.0 };
    let (mut sum, mut most) = (0.0, 0.0);
    // For the page alone.
    let mut parts = Vec::new();
    for (place, swing) in swings.iter().enumerate() {
        let range = range(end, detail.moment_factor, swing, place + 1, sink);
        let (cycles, part) = part(detail.curve, strength, range, swing, place + 1, sink);
        sum += part;
        if place == 0 || part > most || (part == most && range > found.range) {
            (most, found.worst, found.range) = (part, place, range);
        }
        if cycles < LOW_CYCLE {
            outside =
                outside.or(told(sink, "it would last fewer than 10 000 cycles, where nominal stresses say little"));
        }
        if end.yield_stress.is_some_and(|strength| range > 1.5 * strength) {
            outside = outside.or(told(sink, "the stress range exceeds 1.5 f_y (EN 1993-1-9, 8)"));
        }
        if sink.writes() {
            parts.push((format!("D_{}", place + 1), part));
        }
    }
    if sink.writes() {
        let with: Vec<_> = parts.iter().map(|(symbol, part)| (symbol.as_str(), *part, Unit::ONE)).collect();
        let formula = with.iter().map(|(symbol, ..)| *symbol).collect::<Vec<_>>().join(" + ");
        sink.step("D", &formula, &with, sum, Unit::ONE, "Miner sum of all pairs, A.5: at most 1");
        sink.remark("A ranking of weld ends, not a life: it says where to look first.");
    }
    Damage { verdict: Verdict { utilisation: sum, clause: CLAUSE, outside }, ..found }
}

/// Δσ_C/γ_Mf, Pa; writes what the end is, and the knees of its curve.
fn strength<S: Sink>(end: &End, detail: &Detail, sink: &mut S) -> f64 {
    let strength = detail.category / detail.gamma_mf;
    if !sink.writes() {
        return strength;
    }
    sink.given("A", end.area, Unit::MM2, "area");
    if end.round {
        sink.given("W_el", end.elastic[0], Unit::MM3, "elastic modulus");
    } else {
        sink.given("W_el,y", end.elastic[0], Unit::MM3, "elastic modulus about y");
        sink.given("W_el,z", end.elastic[1], Unit::MM3, "elastic modulus about z");
    }
    if let Some(wall) = end.wall {
        sink.given("t", wall, Unit::MM, "wall");
    }
    sink.given("Δσ_C", detail.category, Unit::MPA, "detail category, at 2 million cycles");
    sink.given("γ_Mf", detail.gamma_mf, Unit::ONE, "on fatigue strength, [basis]");
    sink.given(
        "γ_Ff",
        1.0,
        Unit::ONE,
        "on stress ranges: loads as they are in the cases, without the margin of the basis",
    );
    sink.given("k_1", detail.moment_factor, Unit::ONE, "for bending that is not modelled, Table 4.2");
    let design = "Δσ_C / γ_Mf";
    let with = [("Δσ_C", detail.category, Unit::MPA), ("γ_Mf", detail.gamma_mf, Unit::ONE)];
    sink.step("Δσ_C,d", design, &with, strength, Unit::MPA, "");
    let (knee, cut_off) = (detail.curve.knee(strength), detail.curve.cut_off(strength));
    let at_category = [("Δσ_C,d", strength, Unit::MPA)];
    match detail.curve {
        Curve::Member => {
            let note = "at 5 million cycles: slope 3 above, 5 below, 7.1";
            sink.step("Δσ_D,d", "(2 / 5)^(1 / 3) · Δσ_C,d", &at_category, knee, Unit::MPA, note);
            let at_knee = [("Δσ_D,d", knee, Unit::MPA)];
            let note = "at 100 million cycles: no damage below";
            sink.step("Δσ_L,d", "(5 / 100)^(1 / 5) · Δσ_D,d", &at_knee, cut_off, Unit::MPA, note);
        }
        Curve::NodeJoint => {
            let note = "at 100 million cycles: no damage below; slope 5, Table 8.7";
            sink.step("Δσ_L,d", "(2 / 100)^(1 / 5) · Δσ_C,d", &at_category, cut_off, Unit::MPA, note);
            sink.remark("Table 8.7 asks more of the joint than its walls: 35° to 50° between brace and chord, b_0/t_0 · t_0/t_i ≤ 25, 0.4 ≤ b_i/b_0 ≤ 1, small eccentricity. See to it.");
        }
    }
    strength
}

/// What the detail categories do not cover of the end itself; the first reason.
fn scope<S: Sink>(end: &End, detail: &Detail, sink: &mut S) -> Option<&'static str> {
    let mut first = None;
    let mut say = |holds: bool, why: &'static str| {
        if holds {
            first = first.or(told(sink, why));
        }
    };
    let wall = end.wall.unwrap_or(LEAST_WALL);
    say(!end.steel, "not of steel, which EN 1993-1-9 is for");
    say(end.wall.is_none(), "a solid bar: Tables 8.6 and 8.7 are for hollow sections");
    say(wall < LEAST_WALL - HAIR, "the wall is under 4 mm, where the tests behind the detail categories start");
    match detail.curve {
        Curve::Member => say(wall > MOST_WALL + HAIR, "the wall is over 12.5 mm, where Table 8.6 ends"),
        Curve::NodeJoint => say(wall > MOST_NODE_WALL + HAIR, "the wall is over 8 mm, where Table 8.7 ends"),
    }
    first
}

fn told<S: Sink>(sink: &mut S, why: &'static str) -> Option<&'static str> {
    sink.outside(why);
    Some(why)
}

/// N_R and n_E/N_R of one pair.
fn part<S: Sink>(
    curve: Curve,
    strength: f64,
    range: f64,
    swing: &Swing<'_>,
    number: usize,
    sink: &mut S,
) -> (f64, f64) {
    let cycles = curve.cycles_to_failure(strength, range);
    let part = swing.cycles / cycles;
    if sink.writes() {
        let named = |symbol: &str| format!("{symbol}_{number}");
        let (acting, life, damage, often) = (named("Δσ"), named("N_R"), named("D"), named("n_E"));
        if cycles.is_infinite() {
            sink.given(&damage, 0.0, Unit::ONE, "no damage: the range is under Δσ_L,d");
            return (cycles, part);
        }
        let knee = curve.knee(strength);
        let (formula, symbol, reference) = match curve {
            Curve::Member if range < knee => (format!("5000000 · (Δσ_D,d / {acting})^5"), "Δσ_D,d", knee),
            Curve::Member => (format!("2000000 · (Δσ_C,d / {acting})³"), "Δσ_C,d", strength),
            Curve::NodeJoint => (format!("2000000 · (Δσ_C,d / {acting})^5"), "Δσ_C,d", strength),
        };
        let with = [(symbol, reference, Unit::MPA), (acting.as_str(), range, Unit::MPA)];
        sink.step(&life, &formula, &with, cycles, Unit::ONE, "cycles to failure under this range alone, 7.1");
        let with = [(often.as_str(), swing.cycles, Unit::ONE), (life.as_str(), cycles, Unit::ONE)];
        sink.step(&damage, &format!("{often} / {life}"), &with, part, Unit::ONE, "damage of this pair");
    }
    (cycles, part)
}
