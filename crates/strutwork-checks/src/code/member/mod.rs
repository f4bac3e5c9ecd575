//! Members in compression and bending: flexural buckling and the interaction of Annex B (EN 1993-1-1 6.3).

mod curve;
mod moment_factor;
mod written;

#[cfg(test)]
mod tests;

use std::f64::consts::PI;

pub use curve::{Curve, reduction};
pub use moment_factor::{Diagram, SWAY};

use super::Verdict;
use super::class::{self, Class, Under};
use super::profile::{Form, MOST, share};
use super::ratios::Ratios;
use super::section::CrossSection;
use crate::calculation::{Sink, Unit};

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-1:2005 6.3.1 (read), 6.3.3 with Annex B, method 2 (6.3.3 read in a handout, Annex B from memory); \
                          Table 5.2 as for sections; class 4: EN 1993-1-5:2006 4.4 (from memory)";

/// Why a flat bar bent about its strong axis is not covered.
pub const FLAT_BAR: &str =
    "a flat bar bent about its strong axis may tip over sideways (6.3.2), which is not looked at";

/// How a member buckles about one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axis {
    /// L_cr, m.
    pub length: f64,
    /// N_cr, N.
    pub critical: f64,
    /// Where both come from, as a page prints it.
    pub why: &'static str,
}

impl Axis {
    /// From a buckling length: N_cr = π² E I/L_cr².
    pub fn of_length(youngs: f64, second: f64, length: f64, why: &'static str) -> Self {
        Self { length, critical: PI * PI * youngs * second / (length * length), why }
    }
}

/// A member.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Member {
    /// Its section and steel.
    pub section: CrossSection,
    /// Buckling for bending about y and about z.
    pub axes: [Axis; 2],
    /// Its buckling curve, both axes.
    pub curve: Curve,
    /// Whether its ends may shift sideways as it buckles: C_m = 0.9.
    pub is_sway: bool,
}

/// What acts along a member, margin included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Along {
    /// N_Ed: the greatest compression along it, positive, N.
    pub compression: f64,
    /// M_y,Ed and M_z,Ed: the greatest magnitudes along it, N·m.
    pub moment: [f64; 2],
    /// Moment diagrams about y and z.
    pub diagrams: [Diagram; 2],
}

/// The numbers of buckling about one axis for an area A or A_eff.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reduced {
    /// λ̄ = √(A f_y/N_cr).
    pub slenderness: f64,
    /// Φ.
    pub phi: f64,
    /// χ.
    pub chi: f64,
}

impl Member {
    /// λ̄, Φ and χ about an axis for the area of a class.
    pub fn reduced(&self, axis: usize, class: Class) -> Reduced {
        let squash = self.section.pressed_area(class) * self.section.profile.yield_stress;
        let slenderness = (squash / self.axes[axis].critical).sqrt();
        let [phi, chi] = reduction(self.curve, slenderness);
        Reduced { slenderness, phi, chi }
    }

    /// λ = L_cr/i about y and z.
    pub fn slenderness(&self) -> [f64; 2] {
        let radii = self.section.profile.radii();
        [0, 1].map(|axis| self.axes[axis].length / radii[axis])
    }

    /// Why 6.3.1 and 6.3.3 do not cover the member, in this class and with these moments.
    fn outside(&self, class: Class, along: &Along) -> Option<&'static str> {
        if let Form::Flat { height, width } = self.section.profile.form {
            let strong = usize::from(width > height);
            let tips = height != width && along.moment[strong] > 0.0;
            return tips.then_some(FLAT_BAR);
        }
        self.section.outside(class)
    }
}

/// A member in compression and bending.
///
/// ```text
/// 6.3.1   N_Ed/(χ A f_y/γ_M1) about y and z
/// (6.61)  N_Ed/(χ_y N_Rk/γ_M1) + k_yy M_y,Ed/(M_y,Rk/γ_M1) + k_yz M_z,Ed/(M_z,Rk/γ_M1)
/// (6.62)  N_Ed/(χ_z N_Rk/γ_M1) + k_zy M_y,Ed/(M_y,Rk/γ_M1) + k_zz M_z,Ed/(M_z,Rk/γ_M1)
/// class 1, 2   k_yy = C_my [1 + (λ̄_y − 0.2) n_y] ≤ C_my (1 + 0.8 n_y), k_zz likewise, k_yz = 0.6 k_zz, k_zy = 0.6 k_yy
/// class 3, 4   k_yy = C_my [1 + 0.6 λ̄_y n_y] ≤ C_my (1 + 0.6 n_y), k_zz likewise, k_yz = k_zz, k_zy = 0.8 k_yy
/// ```
///
/// χ_LT = 1: tubes, round and square sections do not twist as they bend. 6.3.1 goes by the class under N alone, 6.3.3 by that
/// under all forces. The permission of 6.3.1.2(4) to leave buckling out for N_Ed ≤ 0.04 N_cr is not used: it would make the
/// utilisation jump. For λ̄ ≤ 0.2 χ is 1 of itself.
///
/// # Units and shapes
/// SI. γ is γ_M1. The utilisation is at most [`MOST`]. The ends are to be held against the resistance of the section besides.
///
/// # Signs and order
/// It grows with all forces together, with N and with each greatest moment, for a given shape of the diagrams. (With N as long
/// as the moments are below five times what the section carries: for λ̄ < 0.2 k falls as N grows.)
///
/// # Assumes
/// The same section and N from end to end, or the greatest N all along. Ends that do not shift, unless the member says so: C_m
/// then is that of its own diagram, which knows of the frame's displacements but not of their growth (second order).
///
/// # Source
/// EN 1993-1-1:2005 6.3.1, 6.3.3, Tables 6.7, B.1 (columns for RHS), B.3 (see [`SOURCE`]).
pub fn check(member: &Member, along: &Along, gamma: f64, sink: &mut impl Sink) -> Verdict {
    let profile = &member.section.profile;
    let alone = member.section.class(Under { compression: along.compression, moment: [0.0; 2] });
    let class = member.section.class(Under { compression: along.compression, moment: along.moment });
    if sink.writes() {
        written::start(member, gamma, sink);
        sink.remark("Compression alone, 6.3.1:");
        class::write(profile, Under { compression: along.compression, moment: [0.0; 2] }, "N_Ed", sink);
    }
    let mut ratios = Ratios::new();
    for axis in [0, 1] {
        let reduced = member.reduced(axis, alone);
        let [symbol, ratio] = [["N_b,y,Rd", "u_b,y"], ["N_b,z,Rd", "u_b,z"]][axis];
        let resistance = reduced.chi * member.section.pressed_area(alone) * profile.yield_stress / gamma;
        if sink.writes() {
            written::buckling(member, axis, alone, (symbol, resistance, gamma), sink);
        }
        let clause = [BUCKLING_Y, BUCKLING_Z][axis];
        let force = ("N_Ed", along.compression, Unit::N);
        ratios.over(ratio, force, (symbol, resistance, Unit::N), clause, sink);
    }
    if along.moment != [0.0; 2] {
        interaction(member, along, class, gamma, &mut ratios, sink);
    }
    let outside = member.outside(class.max(alone), along);
    if let Some(why) = outside {
        sink.outside(why);
    }
    Verdict { outside, ..ratios.finish(sink) }
}

const BUCKLING_Y: &str = "EN 1993-1-1 6.3.1, buckling about y";
const BUCKLING_Z: &str = "EN 1993-1-1 6.3.1, buckling about z";
const CLAUSES: [&str; 2] = ["EN 1993-1-1 6.3.3 (6.61)", "EN 1993-1-1 6.3.3 (6.62)"];

/// C_m, k_ii and n_i about one axis.
struct Factor {
    c: f64,
    n: f64,
    k: f64,
}

fn interaction(member: &Member, along: &Along, class: Class, gamma: f64, ratios: &mut Ratios, sink: &mut impl Sink) {
    let section = &member.section;
    let f_y = section.profile.yield_stress;
    let squash = section.pressed_area(class) * f_y;
    let moduli = section.moduli(class);
    let bending = moduli.map(|modulus| modulus * f_y);
    let is_plastic = class.is_plastic();
    let reduced = [0, 1].map(|axis| member.reduced(axis, class));
    let factors = [0, 1].map(|axis| {
        let Reduced { slenderness, chi, .. } = reduced[axis];
        let c = if member.is_sway { SWAY } else { along.diagrams[axis].factor() };
        let n = share(along.compression, chi * squash / gamma);
        let grows = if is_plastic { (slenderness - 0.2).min(0.8) } else { (0.6 * slenderness).min(0.6) };
        Factor { c, n, k: c * (1.0 + grows * n) }
    });
    let (across_y, across_z) = if is_plastic { (0.6, 0.6) } else { (1.0, 0.8) };
    let [k_yy, k_zz] = [factors[0].k, factors[1].k];
    let (k_yz, k_zy) = (across_y * k_zz, across_z * k_yy);
    let share_of = [0, 1].map(|axis| share(along.moment[axis], bending[axis] / gamma));
    let sums = [
        factors[0].n + k_yy * share_of[0] + k_yz * share_of[1],
        factors[1].n + k_zy * share_of[0] + k_zz * share_of[1],
    ]
    .map(|sum| sum.min(MOST));
    if sink.writes() {
        sink.remark("Compression and bending, 6.3.3:");
        let under = Under { compression: along.compression, moment: along.moment };
        class::write(&section.profile, under, "N_Ed", sink);
        written::characteristic(member, class, (squash, bending), sink);
        for axis in [0, 1] {
            written::factor(member, along, axis, class, (&factors[axis], squash, gamma), sink);
        }
        written::sums(&factors, [k_yz, k_zy], is_plastic, (along.moment, bending, share_of), (sums, gamma), sink);
    }
    ratios.add("u_6.61", sums[0], CLAUSES[0], sink);
    ratios.add("u_6.62", sums[1], CLAUSES[1], sink);
}
