//! One bolt after EN 1993-1-8 section 3: shear, tension, both together, bearing on what it goes through, pulling through it.

mod bearing;
mod clamping;
mod face;
mod input;
mod strength;

#[cfg(test)]
mod tests;

pub use bearing::Ply;
pub use clamping::{Pressed, Slip, crushing, slip};
pub use face::{Face, Outline};
pub use input::{Acting, Bolt, Sleeve, Through};

use super::Partial;
use crate::calculation::{Sink, Unit};
use bearing::{Pin, bearing, punching, sleeve_bore};
use strength::{combined, shear_resistance, tension_resistance};

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-8:2005 Table 3.4 and 3.6.1 (read as quoted in Steel Buildings in Europe, Multi-Storey Steel Buildings, \
                          Part 5, and in resistance tables to BS EN 1993-1-8); least distances Table 3.3, faces of tubes Tables 7.3 \
                          and 7.10 (from memory)";

/// How a bolt, or what it goes through, can fail.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// The bolt is cut.
    Shear,
    /// The bolt is torn.
    Tension,
    /// Both together.
    Combined,
    /// The hole is drawn out.
    Bearing,
    /// Head, nut or sleeve is pulled through, or bends the tube's face.
    PullThrough,
}

impl Mode {
    /// Its clause.
    pub const fn clause(self) -> &'static str {
        match self {
            Self::Shear => "EN 1993-1-8 Table 3.4, shear of the bolt",
            Self::Tension => "EN 1993-1-8 Table 3.4, tension of the bolt",
            Self::Combined => "EN 1993-1-8 Table 3.4, shear and tension of the bolt together",
            Self::Bearing => "EN 1993-1-8 Table 3.4, bearing",
            Self::PullThrough => "EN 1993-1-8 Table 3.4, punching shear, and 7.5 for the face of a tube",
        }
    }

    /// What it does, for a sentence that starts with the bolt.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shear => "in shear",
            Self::Tension => "in tension",
            Self::Combined => "in shear and tension together",
            Self::Bearing => "in bearing on what it goes through",
            Self::PullThrough => "in pulling through what it clamps",
        }
    }
}

/// What the check of a bolt gives.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltVerdict {
    /// What governs.
    pub mode: Mode,
    /// Above 1 the limit is exceeded; infinite where nothing can be carried.
    pub utilisation: f64,
    /// What acts and what is resisted in that mode, N; for [`Mode::Combined`] the sum of both shares, and 1.
    pub against: [f64; 2],
    /// F_v,Rd of all planes, and F_t,Rd, N.
    pub resistances: [f64; 2],
    /// Why the code does not cover it, the first reason; then it is no pass.
    pub outside: Option<&'static str>,
}

/// Keeps the first reason, and writes out each.
#[derive(Debug, Default)]
struct Outside(Option<&'static str>);

impl Outside {
    fn say(&mut self, sink: &mut impl Sink, why: &'static str) {
        sink.outside(why);
        self.0 = self.0.or(Some(why));
    }
}

/// A force and its symbol on the page.
type Named = (&'static str, f64);

/// Checks one bolt.
///
/// ```text
/// F_v,Rd = α_v f_ub A/γ_M2 each plane,  A = A_s (thread) or πd²/4 (shank, α_v = 0.6)
/// F_t,Rd = k_2 f_ub A_s/γ_M2,  k_2 = 0.9, countersunk 0.63
/// F_v,Ed/F_v,Rd + F_t,Ed/(1.4 F_t,Rd) ≤ 1,  F_t,Ed ≤ F_t,Rd,  F_v,Ed ≤ F_b,Rd,  F_t,Ed ≤ B_p,Rd
/// ```
///
/// A force of unknown direction φ to the bolt has F sin φ across it and F cos φ along it. Shear, bearing, tension and pulling
/// through are worst with all of F; the sum of the third line at tan φ = 1.4 F_t,Rd/F_v,Rd, where it is
/// √((F/F_v,Rd)² + (F/(1.4 F_t,Rd))²).
///
/// # Units and shapes
/// N.
///
/// # Assumes
/// One bolt alone. Moments, prying and bending of what it clamps, and welds of plate or sleeve are left out.
///
/// # Source
/// [`SOURCE`]; the worst direction: derived.
pub fn check(sink: &mut impl Sink, bolt: &Bolt, through: &Through, acting: Acting, partial: Partial) -> BoltVerdict {
    let mut outside = Outside::default();
    if bolt.inch {
        outside.say(sink, "inch thread: the bolts that EN 1993-1-8 3.1 names are metric");
    }
    if !bolt.class_in_code {
        outside.say(sink, "its class is not in EN 1993-1-8 Table 3.1");
    }
    let (across, along): (Named, Named) = match acting {
        Acting::Split { tension, shear } => (("F_v,Ed", shear), ("F_t,Ed", tension)),
        Acting::Whole(force) => (("F_Ed", force), ("F_Ed", force)),
    };
    let shear_rd = shear_resistance(sink, bolt, partial.m2);
    let shear = Judged::of(sink, Mode::Shear, "U_v", across, ("F_v,Rd", shear_rd));
    let tension_rd = tension_resistance(sink, bolt, partial.m2);
    let tension = Judged::of(sink, Mode::Tension, "U_t", along, ("F_t,Rd", tension_rd));
    let both = combined(sink, acting, shear_rd, tension_rd);
    let both = Judged { mode: Mode::Combined, against: [both, 1.0], utilisation: both };
    let [bears, pulls] = passes(sink, bolt, through, across, along, partial, &mut outside);
    let all = [Some(shear), Some(tension), Some(both), bears, pulls];
    let worst = all
        .into_iter()
        .flatten()
        .fold(shear, |worst, next| if next.utilisation > worst.utilisation { next } else { worst });
    if sink.writes() {
        let names = [Some("U_v"), Some("U_t"), Some("U_vt"), bears.map(|_| "U_b"), pulls.map(|_| "U_p")];
        let list: Vec<&str> = names.into_iter().flatten().collect();
        let with: Vec<_> =
            list.iter().zip(all.into_iter().flatten()).map(|(name, one)| (*name, one.utilisation, Unit::ONE)).collect();
        let formula = format!("max({})", list.join(", "));
        sink.step("U", &formula, &with, worst.utilisation, Unit::ONE, worst.mode.words());
    }
    BoltVerdict {
        mode: worst.mode,
        utilisation: worst.utilisation,
        against: worst.against,
        resistances: [shear_rd, tension_rd],
        outside: outside.0,
    }
}

/// One mode held against its limit.
#[derive(Debug, Clone, Copy)]
struct Judged {
    mode: Mode,
    against: [f64; 2],
    utilisation: f64,
}

impl Judged {
    fn of(sink: &mut impl Sink, mode: Mode, symbol: &str, acting: Named, resisted: Named) -> Self {
        let utilisation = if acting.1 == 0.0 { 0.0 } else { acting.1 / resisted.1 };
        if sink.writes() {
            let formula = format!("{} / {}", acting.0, resisted.0);
            let with = [(acting.0, acting.1, Unit::N), (resisted.0, resisted.1, Unit::N)];
            sink.step(symbol, &formula, &with, utilisation, Unit::ONE, mode.words());
        }
        Self { mode, against: [acting.1, resisted.1], utilisation }
    }
}

/// Bearing on what the bolt goes through, and pulling through it.
fn passes(
    sink: &mut impl Sink,
    bolt: &Bolt,
    through: &Through,
    across: Named,
    along: Named,
    partial: Partial,
    outside: &mut Outside,
) -> [Option<Judged>; 2] {
    match through {
        Through::Unknown(why) => {
            outside.say(sink, why);
            [None, None]
        }
        Through::Plate(ply) => {
            // A plate between two others takes what both planes bring.
            let bears = bearing(sink, bolt, Pin::bolt(bolt), ply, partial.m2, outside);
            let bears = Judged::of(sink, Mode::Bearing, "U_b", across, ("F_b,Rd", bears));
            let pulls = punching(sink, bolt, ply, partial.m2, outside)
                .map(|pulls| Judged::of(sink, Mode::PullThrough, "U_p", along, ("B_p,Rd", pulls)));
            [Some(bears), pulls]
        }
        Through::Walls(ply, face) => {
            let bears = bearing(sink, bolt, Pin::bolt(bolt), ply, partial.m2, outside);
            let each = each_wall(sink, bolt, across);
            let bears = Judged::of(sink, Mode::Bearing, "U_b", each, ("F_b,Rd", bears));
            let pulls = punching(sink, bolt, ply, partial.m2, outside).map(|punched| {
                let bent = face.resistance(sink, ("s", bolt.flats, "across the flats of head and nut"), partial.m5, 1);
                let least = lesser(sink, ("B_p,Rd", punched), ("N_f,Rd", bent));
                Judged::of(sink, Mode::PullThrough, "U_p", along, ("F_p,Rd", least))
            });
            [Some(bears), pulls]
        }
        Through::Sleeve(sleeve, ply, face) => {
            let pin = Pin::sleeve(sleeve);
            let wall = bearing(sink, bolt, pin, ply, partial.m2, outside);
            let bore = sleeve_bore(sink, bolt, sleeve, partial.m0);
            let least = lesser_bearing(sink, wall, bore);
            let each = each_wall(sink, bolt, across);
            let bears = Judged::of(sink, Mode::Bearing, "U_b", each, ("F_b,min", least));
            let punched = bearing::sleeve_punching(sink, sleeve, ply, partial.m2);
            let bent = face.resistance(sink, ("D_s", sleeve.outer, "outside of the sleeve"), partial.m5, 2);
            let least = lesser(sink, ("B_s,Rd", punched), ("N_f,Rd", bent));
            [Some(bears), Some(Judged::of(sink, Mode::PullThrough, "U_p", along, ("F_p,Rd", least)))]
        }
    }
}

/// What each wall of a tube takes of the force across the bolt.
fn each_wall(sink: &mut impl Sink, bolt: &Bolt, across: Named) -> Named {
    if bolt.planes == 1 {
        return across;
    }
    let planes = f64::from(bolt.planes);
    let each = across.1 / planes;
    if sink.writes() {
        let with = [(across.0, across.1, Unit::N), ("n", planes, Unit::ONE)];
        sink.step("F_1,Ed", &format!("{} / n", across.0), &with, each, Unit::N, "on each wall");
    }
    ("F_1,Ed", each)
}

fn lesser(sink: &mut impl Sink, punched: Named, bent: Named) -> f64 {
    let least = punched.1.min(bent.1);
    if sink.writes() {
        let with = [(punched.0, punched.1, Unit::N), (bent.0, bent.1, Unit::N)];
        sink.step("F_p,Rd", &format!("min({}, {})", punched.0, bent.0), &with, least, Unit::N, "the lesser");
    }
    least
}

fn lesser_bearing(sink: &mut impl Sink, wall: f64, bore: f64) -> f64 {
    let least = wall.min(bore);
    let with = [("F_b,Rd", wall, Unit::N), ("F_bs,Rd", bore, Unit::N)];
    sink.step("F_b,min", "min(F_b,Rd, F_bs,Rd)", &with, least, Unit::N, "the lesser");
    least
}
