//! Axial force and each moment by itself, each by its own class (6.2.3 to 6.2.5).

use super::{COMPRESSION, CrossSection, Strength};
use crate::calculation::{Put, Sink, Unit};
use crate::code::class::{self, Class, Under};
use crate::code::effective;
use crate::code::profile::Forces;
use crate::code::ratios::Ratios;

/// N by itself.
pub(super) fn axial(
    section: &CrossSection,
    acting: &Forces,
    strength: &Strength,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) {
    let profile = &section.profile;
    if acting.n == 0.0 {
        return;
    }
    let under = Under { compression: -acting.n, moment: [0.0; 2] };
    let class = section.class(under);
    let (area, [force, symbol], clause) = if acting.n > 0.0 {
        (profile.area, ["N_t,Ed", "N_t,Rd"], "EN 1993-1-1 6.2.3, tension")
    } else {
        (section.pressed_area(class), [COMPRESSION, "N_c,Rd"], "EN 1993-1-1 6.2.4, compression")
    };
    let resistance = area * strength.value;
    if sink.writes() {
        let mut name = "A";
        let put = [("N_Ed", acting.n, Unit::N)];
        if acting.n > 0.0 {
            sink.step(force, "N_Ed", &put, acting.n, Unit::N, "");
        } else {
            sink.remark("Compression alone:");
            sink.step(force, "0 − N_Ed", &put, -acting.n, Unit::N, "compression positive");
            class::write(profile, under, force, sink);
            if class == Class::Four && section.outside(class).is_none() {
                effective::area(profile, sink);
                name = "A_eff";
            }
        }
        let put = [(name, area, Unit::MM2), strength.put()];
        sink.step(symbol, &format!("{name} · {}", strength.symbol), &put, resistance, Unit::N, clause);
    }
    ratios.over("u_N", (force, acting.n.abs(), Unit::N), (symbol, resistance, Unit::N), clause, sink);
}

/// Each moment by itself.
pub(super) fn bending(
    section: &CrossSection,
    acting: &Forces,
    strength: &Strength,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) {
    const CLAUSE: &str = "EN 1993-1-1 6.2.5, bending";
    let profile = &section.profile;
    if profile.form.is_round() {
        let moment = acting.moment[0].hypot(acting.moment[1]);
        if moment > 0.0 {
            let put = [("M_y,Ed", acting.moment[0], Unit::NM), ("M_z,Ed", acting.moment[1], Unit::NM)];
            sink.step("M_Ed", "√(M_y,Ed² + M_z,Ed²)", &put, moment, Unit::NM, "round: the resultant");
            let under = Under { compression: 0.0, moment: acting.moment };
            let put = ("M_Ed", moment, Unit::NM);
            one_moment(section, under, 0, ["", "u_M", "M_c,Rd"], put, strength, (ratios, CLAUSE), sink);
        }
        return;
    }
    for axis in [0, 1] {
        let mut under = Under { compression: 0.0, moment: [0.0; 2] };
        under.moment[axis] = acting.moment[axis];
        if under.moment[axis] > 0.0 {
            let [symbol, of, resistance] = [["M_y,Ed", "u_M,y", "M_c,y,Rd"], ["M_z,Ed", "u_M,z", "M_c,z,Rd"]][axis];
            let name = [",y", ",z"][axis];
            let put = (symbol, under.moment[axis], Unit::NM);
            one_moment(section, under, axis, [name, of, resistance], put, strength, (ratios, CLAUSE), sink);
        }
    }
}

/// One moment by its own class; `names` are the axis as a suffix, the ratio, and the resistance.
#[expect(clippy::too_many_arguments, reason = "one line of a page each")]
fn one_moment(
    section: &CrossSection,
    under: Under,
    axis: usize,
    names: [&str; 3],
    moment: Put<'_>,
    strength: &Strength,
    (ratios, clause): (&mut Ratios, &'static str),
    sink: &mut impl Sink,
) {
    let class = section.class(under);
    let modulus = section.moduli(class)[axis];
    let resistance = modulus * strength.value;
    let [suffix, ratio, symbol] = names;
    if sink.writes() {
        sink.remark(&format!("Bending alone, {}:", moment.0));
        class::write(&section.profile, under, "0", sink);
        let name = write_modulus(section, class, axis, suffix, sink);
        let put = [(name.as_str(), modulus, Unit::MM3), strength.put()];
        sink.step(symbol, &format!("{name} · {} / 1000", strength.symbol), &put, resistance, Unit::NM, clause);
    }
    ratios.over(ratio, moment, (symbol, resistance, Unit::NM), clause, sink);
}

/// Writes the modulus of a class, and gives its symbol.
pub(super) fn write_modulus(
    section: &CrossSection,
    class: Class,
    axis: usize,
    suffix: &str,
    sink: &mut impl Sink,
) -> String {
    let name = match class {
        Class::One | Class::Two => "W_pl",
        Class::Three => "W_el",
        Class::Four if section.profile.form.is_round() => "W_el",
        Class::Four => {
            effective::modulus(&section.profile, axis, sink);
            return format!("W_eff{suffix}");
        }
    };
    let symbol = format!("{name}{suffix}");
    sink.given(&symbol, section.moduli(class)[axis], Unit::MM3, "section modulus");
    symbol
}
