//! Shear buckling of the webs of rectangular tubes (EN 1993-1-5 section 5).

use crate::calculation::{Put, Sink, Unit};
use crate::code::Partial;
use crate::code::profile::{Forces, Form, Profile};
use crate::code::ratios::Ratios;

/// The clause of shear buckling.
pub(super) const CLAUSE: &str = "EN 1993-1-5 5.2 and 5.3, shear buckling of the web";

/// Slenderness in ε up to which a web does not buckle in shear: 72 ε/η with η = 1.
const STOCKY: f64 = 72.0;

/// The two webs along one axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Web {
    /// h or b, m.
    size: f64,
    /// t, m.
    wall: f64,
    /// h_w = h − 2t, m.
    height: f64,
    /// λ̄_w = h_w/(86.4 t ε).
    slenderness: f64,
    /// χ_w.
    reduction: f64,
    /// V_bw,Rd of both, N.
    resistance: f64,
    /// V with what the torque adds to both as if both were the worse one, N.
    acting: f64,
    /// V_T: that share of the torque, N.
    of_torque: f64,
}

impl Web {
    /// The webs that carry the shear along y (0) or z (1), where they are so slender that they may buckle.
    ///
    /// ```text
    /// h_w/t > 72 ε/η:  λ̄_w = h_w/(86.4 t ε),  χ_w = min(1, 0.83/λ̄_w),  V_bw,Rd = χ_w (f_y/√3) 2 h_w t/γ_M1
    /// V + V_T,  V_T = 2 h_w t T/W_t
    /// ```
    ///
    /// # Assumes
    /// η = 1, which the standard allows as the safe value. End posts that are not rigid, no stiffeners between the ends, and no help
    /// of the flanges. The torque's stress acts in both webs with the sense of the shear force, as it does in one of them
    /// (derived).
    ///
    /// # Source
    /// EN 1993-1-1:2005 6.2.6(6); EN 1993-1-5:2006 5.1(2), 5.2(1), 5.3(3) a), Table 5.1 (from memory).
    pub(super) fn slender(profile: &Profile, axis: usize, acting: &Forces, gamma: f64) -> Option<Self> {
        let Form::Rectangular { height, width, wall } = profile.form else { return None };
        let size = [width, height][axis];
        let (height, epsilon) = (size - 2.0 * wall, profile.epsilon());
        let is_loaded = acting.shear[axis] > 0.0 || acting.torque > 0.0;
        if !is_loaded || height / wall <= STOCKY * epsilon {
            return None;
        }
        let slenderness = height / (86.4 * wall * epsilon);
        let reduction = (0.83 / slenderness).min(1.0);
        let resistance = reduction * profile.yield_stress / 3.0_f64.sqrt() * 2.0 * height * wall / gamma;
        let of_torque = 2.0 * height * wall * acting.torque / profile.torsion;
        let acting = acting.shear[axis] + of_torque;
        Some(Self { size, wall, height, slenderness, reduction, resistance, acting, of_torque })
    }

    /// What acts over what the webs carry.
    pub(super) fn ratio(&self) -> f64 {
        self.acting / self.resistance
    }
}

/// Both pairs of walls; gives the greatest ratio with its symbol.
pub(super) fn check(
    profile: &Profile,
    acting: &Forces,
    gamma: Partial,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) -> (f64, &'static str) {
    let mut greatest = (0.0, "");
    for axis in [0, 1] {
        let Some(web) = Web::slender(profile, axis, acting, gamma.m1) else { continue };
        let names = [
            ["b", "h_w,y", "λ̄_w,y", "χ_w,y", "V_bw,y,Rd", "V_T,y", "V_w,y", "u_bw,y", "V_y,Ed"],
            ["h", "h_w,z", "λ̄_w,z", "χ_w,z", "V_bw,z,Rd", "V_T,z", "V_w,z", "u_bw,z", "V_z,Ed"],
        ][axis];
        if sink.writes() {
            write(profile, &web, acting, (axis, gamma.m1), names, sink);
        }
        let force = if acting.torque > 0.0 { names[6] } else { names[8] };
        let (force, resistance) = ((force, web.acting, Unit::N), (names[4], web.resistance, Unit::N));
        let value = ratios.over(names[7], force, resistance, CLAUSE, sink);
        if value > greatest.0 {
            greatest = (value, names[7]);
        }
    }
    greatest
}

fn write(
    profile: &Profile,
    web: &Web,
    acting: &Forces,
    (axis, gamma): (usize, f64),
    names: [&str; 9],
    sink: &mut impl Sink,
) {
    let [size, height, slenderness, reduction, resistance, of_torque, sum, _, shear] = names;
    let epsilon = ("ε", profile.epsilon(), Unit::ONE);
    let f_y = ("f_y", profile.yield_stress, Unit::MPA);
    let wall = ("t", web.wall, Unit::MM);
    let tall = (height, web.height, Unit::MM);
    sink.remark(&format!(
        "The walls of size {size} are so slender ({height}/t over 72 · ε/η, with η = 1 as the safe value) that they may buckle in \
         shear, EN 1993-1-1 6.2.6(6): ends not rigid, no stiffeners between them, no help of the flanges."
    ));
    sink.step("ε", "√(235 / f_y)", &[f_y], epsilon.1, Unit::ONE, "");
    sink.step(
        height,
        &format!("{size} − 2 · t"),
        &[(size, web.size, Unit::MM), wall],
        web.height,
        Unit::MM,
        "clear web",
    );
    let clear = web.height / web.wall;
    sink.step(&format!("{height}/t"), &format!("{height} / t"), &[tall, wall], clear, Unit::ONE, "");
    sink.step("limit h_w/t", "72 · ε", &[epsilon], STOCKY * epsilon.1, Unit::ONE, "up to here no shear buckling");
    let put = [tall, wall, epsilon];
    let ratio = format!("{height} / (86.4 · t · ε)");
    sink.step(slenderness, &ratio, &put, web.slenderness, Unit::ONE, "EN 1993-1-5 5.3(3) a)");
    let put = [(slenderness, web.slenderness, Unit::ONE)];
    let formula = format!("min(1, 0.83 / {slenderness})");
    sink.step(reduction, &formula, &put, web.reduction, Unit::ONE, "Table 5.1, end post not rigid");
    sink.given("γ_M1", gamma, Unit::ONE, "partial factor, buckling");
    let put = [(reduction, web.reduction, Unit::ONE), f_y, tall, wall, ("γ_M1", gamma, Unit::ONE)];
    let formula = format!("{reduction} · f_y · 2 · {height} · t / (√3 · γ_M1)");
    sink.step(resistance, &formula, &put, web.resistance, Unit::N, "both webs, EN 1993-1-5 (5.2)");
    if acting.torque > 0.0 {
        let modulus = ("W_t", profile.torsion, Unit::MM3);
        let put = [tall, wall, ("T_Ed", acting.torque, Unit::NM), modulus];
        let formula = format!("2 · {height} · t · T_Ed · 1000 / W_t");
        sink.step(of_torque, &formula, &put, web.of_torque, Unit::N, "the torque's stress in both webs");
        let put: [Put<'_>; 2] = [(shear, acting.shear[axis], Unit::N), (of_torque, web.of_torque, Unit::N)];
        sink.step(sum, &format!("{shear} + {of_torque}"), &put, web.acting, Unit::N, "");
    }
}
