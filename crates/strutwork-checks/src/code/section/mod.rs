//! Resistance of a cross-section: axial force, bending, shear, torsion, and all of them together (EN 1993-1-1 6.2).

mod exhausted;
mod linear;
mod plastic;
mod shear;
mod single;
mod web;

#[cfg(test)]
mod tests;

use super::class::{self, Class, Under};
use super::effective::{self, Effective};
use super::profile::{FLAT_BAR, Forces, Form, MOST, Profile};
use super::ratios::Ratios;
use super::{Partial, Verdict};
use crate::calculation::{Put, Silent, Sink, Unit};

pub use exhausted::{Alone, exhausted};
pub use plastic::{exponent, wall_shares};

/// Where the formulas come from, as a page prints it.
pub const SOURCE: &str = "EN 1993-1-1:2005 6.2 and Table 5.2 (from memory; the bending limits of Table 5.2 and the rule of \
                          6.2.1(7) were read in handbooks); class 4: EN 1993-1-5:2006 4.4, shear buckling of \
                          webs: EN 1993-1-5:2006 5 (from memory)";

/// Symbol of the axial force with compression positive.
const COMPRESSION: &str = "N_c,Ed";

/// Why a round tube of class 4 is not covered.
pub const ROUND_CLASS_4: &str = "a round tube of class 4 is a shell: EN 1993-1-6";

/// A section, and what is left of it where its walls buckle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossSection {
    /// The whole.
    pub profile: Profile,
    /// In class 4.
    pub effective: Effective,
    /// The class under even compression: no forces lead to a worse one.
    severest: Class,
}

impl CrossSection {
    /// With its effective section.
    pub fn new(profile: Profile) -> Self {
        let severe = Under { compression: profile.area * profile.yield_stress, moment: [0.0; 2] };
        let severest = class::class(&profile, severe);
        Self { profile, effective: effective::effective(&profile), severest }
    }

    /// The class under even compression: no forces lead to a worse one.
    pub const fn severest(&self) -> Class {
        self.severest
    }

    /// The class under an axial force and moments; where no forces spoil the plastic resistance, the severest right away, as
    /// classes 1 and 2 carry the same.
    pub fn class(&self, under: Under) -> Class {
        if self.severest.is_plastic() { self.severest } else { class::class(&self.profile, under) }
    }

    /// The moduli that a class goes by: plastic, elastic or effective, m³.
    pub const fn moduli(&self, class: Class) -> [f64; 2] {
        match class {
            Class::One | Class::Two => self.profile.plastic,
            Class::Three => self.profile.elastic,
            Class::Four => self.effective.moduli,
        }
    }

    /// The area that compression goes by, m².
    pub const fn pressed_area(&self, class: Class) -> f64 {
        match class {
            Class::One | Class::Two | Class::Three => self.profile.area,
            Class::Four => self.effective.area,
        }
    }

    /// Why section 6 of EN 1993-1-1 does not cover the section in this class.
    pub fn outside(&self, class: Class) -> Option<&'static str> {
        (class == Class::Four && matches!(self.profile.form, Form::Round { .. })).then_some(ROUND_CLASS_4)
    }
}

/// A cross-section under its forces, margin included.
///
/// ```text
/// N/N_Rd,  M_y/M_c,y,Rd,  M_z/M_c,z,Rd,  V/V_pl,T,Rd,  T/T_Rd                            6.2.3 to 6.2.7, each by its own class
/// V/V_bw,Rd for slender walls                                                           EN 1993-1-5 5.2
/// class 1, 2   rectangular: M_y/M_N,y,Rd,  M_z/M_N,z,Rd,  (M_y/M_N,y,Rd)^α + (M_z/M_N,z,Rd)^α     6.2.9.1
///              round: M/M_N,Rd;  flat bar: M_y/M_N,y,Rd + M_z/M_N,z,Rd;  solid round: N/N_Rd + M/M_pl,Rd
/// class 3      N/(A f) + M_y/(W_el,y f) + M_z/(W_el,z f)                                6.2.9.2
/// class 4      the same with A_eff (compression) and W_eff                              6.2.9.3
/// ```
///
/// The utilisation is the greatest of them. Shear above half of V_pl,T,Rd lowers f for axial force and bending to (1 − ρ) f_y,
/// ρ = (2 V/V_pl,T,Rd − 1)². The clauses lower it for the sheared part alone; here the whole section is lowered by the greater ρ
/// of both directions, which is on the safe side.
///
/// # Units and shapes
/// SI. γ is γ_M0, for shear buckling γ_M1. The utilisation is at most [`MOST`].
///
/// # Signs and order
/// It grows with all forces together, and with every moment, shear and torque. It grows with N but for one thing: the exponent
/// α of the clause grows with N, so that at given moments about both axes a small N lowers their sum by some per cent. It jumps
/// up where the class gets worse; within a class it is continuous, but that above 1 it steps up where a second moment joins the
/// first.
///
/// # Assumes
/// Doubly symmetric: no shift of the axis of an effective section under N alone. Holes: none. Torsion is St-Venant's.
///
/// # Source
/// EN 1993-1-1:2005 6.2.3 to 6.2.10 (from memory).
pub fn check(section: &CrossSection, acting: &Forces, partial: Partial, sink: &mut impl Sink) -> Verdict {
    let (profile, gamma) = (&section.profile, partial.m0);
    let design = profile.yield_stress / gamma;
    if sink.writes() {
        profile.write_sizes(sink);
        profile.write_strength(sink);
        sink.given("γ_M0", gamma, Unit::ONE, "partial factor");
        let with = [("f_y", profile.yield_stress, Unit::MPA), ("γ_M0", gamma, Unit::ONE)];
        sink.step("f_yd", "f_y / γ_M0", &with, design, Unit::MPA, "design strength");
    }
    let mut ratios = Ratios::new();
    let rho = shear::check(profile, acting, partial, &mut ratios, sink);
    let strength = Strength::reduced(design, rho, sink);
    single::axial(section, acting, &strength, &mut ratios, sink);
    single::bending(section, acting, &strength, &mut ratios, sink);
    let class = together(section, acting, &strength, &mut ratios, sink);
    let outside = if profile.form.tips_over(acting.moment) { Some(FLAT_BAR) } else { section.outside(class) };
    if let Some(why) = outside {
        sink.outside(why);
    }
    if ratios.worst() >= MOST
        && let Some(alone) = exhausted(section, acting, partial)
    {
        ratios.name(alone.clause);
    }
    Verdict { outside, ..ratios.finish(sink) }
}

/// The class of a section under its forces.
pub fn class_of(profile: &Profile, acting: &Forces) -> Class {
    class::class(profile, Under { compression: -acting.n, moment: acting.moment })
}

/// The strength for axial force and bending, with its symbol.
struct Strength {
    value: f64,
    symbol: &'static str,
}

impl Strength {
    /// (1 − ρ) f_yd.
    fn reduced(design: f64, rho: f64, sink: &mut impl Sink) -> Self {
        if rho <= 0.0 {
            return Self { value: design, symbol: "f_yd" };
        }
        let value = (1.0 - rho) * design;
        let with = [("ρ", rho, Unit::ONE), ("f_yd", design, Unit::MPA)];
        sink.step("f_v", "(1 − ρ) · f_yd", &with, value, Unit::MPA, "beside the shear, 6.2.8 and 6.2.10");
        Self { value, symbol: "f_v" }
    }

    fn put(&self) -> Put<'static> {
        (self.symbol, self.value, Unit::MPA)
    }
}

/// Axial force and moments together, by the class under all of them.
fn together(
    section: &CrossSection,
    acting: &Forces,
    strength: &Strength,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) -> Class {
    let profile = &section.profile;
    let under = Under { compression: -acting.n, moment: acting.moment };
    let class = section.class(under);
    let [y, z] = acting.moment;
    let is_one_moment = acting.n == 0.0 && (profile.form.is_round() || y == 0.0 || z == 0.0);
    if is_one_moment || acting.moment == [0.0; 2] {
        return class;
    }
    if sink.writes() {
        sink.remark("All together:");
        let put = [("N_Ed", acting.n, Unit::N)];
        sink.step(COMPRESSION, "0 − N_Ed", &put, -acting.n, Unit::N, "compression positive");
        class::write(profile, under, COMPRESSION, sink);
    }
    if class.is_plastic() {
        plastic::check(profile, acting, strength, ratios, sink);
        return class;
    }
    let sum = linear::check(section, acting, strength, class, ratios, sink);
    // Below 1 the plastic rule is the milder one. Above 1 it may be the harder one: where some of the forces alone leave the
    // section plastic, the greater of both keeps the others from lowering the utilisation as they spoil the class. It stands on
    // the page where it is the greater.
    if sum > 1.0 && is_plastic_under_one(profile, under) {
        let mut harder = Ratios::new();
        plastic::check(profile, acting, strength, &mut harder, &mut Silent);
        if harder.worst() > ratios.worst() {
            sink.remark(
                "Plastic as well, which is the harder one here: one of the forces alone leaves the walls plastic.",
            );
            plastic::check(profile, acting, strength, ratios, sink);
        }
    }
    class
}

/// Whether one of the forces by itself leaves the section in class 1 or 2.
fn is_plastic_under_one(profile: &Profile, under: Under) -> bool {
    let Under { compression, moment: [y, z] } = under;
    let none = Under { compression: 0.0, moment: [0.0; 2] };
    let alone = [
        (compression, Under { compression, ..none }),
        (y, Under { moment: [y, 0.0], ..none }),
        (z, Under { moment: [0.0, z], ..none }),
    ];
    alone.into_iter().any(|(force, under)| force != 0.0 && class::class(profile, under).is_plastic())
}
