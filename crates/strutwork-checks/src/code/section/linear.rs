//! Classes 3 and 4: axial force and bending as a sum (6.2.9.2, 6.2.9.3).

use super::{CrossSection, Strength, write_modulus};
use crate::calculation::{Sink, Unit};
use crate::code::class::Class;
use crate::code::effective;
use crate::code::profile::{Forces, MOST, share};
use crate::code::ratios::Ratios;

/// N/(A f) + M_y/(W_y f) + M_z/(W_z f), elastic or effective.
pub(super) fn check(
    section: &CrossSection,
    acting: &Forces,
    strength: &Strength,
    class: Class,
    ratios: &mut Ratios,
    sink: &mut impl Sink,
) -> f64 {
    let clause = if class == Class::Three { "EN 1993-1-1 6.2.9.2, class 3" } else { "EN 1993-1-1 6.2.9.3, class 4" };
    let profile = &section.profile;
    let moduli = section.moduli(class);
    let pressed = acting.n < 0.0;
    let area = if pressed { section.pressed_area(class) } else { profile.area };
    let round = profile.form.is_round();
    let moments = if round { [acting.moment[0].hypot(acting.moment[1]), 0.0] } else { acting.moment };
    let axial = share(acting.n.abs(), area * strength.value);
    let bent = [0, 1].map(|axis| share(moments[axis], moduli[axis] * strength.value));
    let sum = (axial + bent[0] + bent[1]).min(MOST);
    if sink.writes() {
        let is_effective = class == Class::Four && !round;
        let mut names = ["A".to_owned(), String::new(), String::new()];
        if pressed && is_effective {
            effective::area(profile, sink);
            "A_eff".clone_into(&mut names[0]);
        }
        let suffixes = if round { ["", ""] } else { [",y", ",z"] };
        let mut formula = Vec::new();
        if acting.n != 0.0 {
            formula.push(format!("|N_Ed| / ({} · {})", names[0], strength.symbol));
        }
        let symbols = if round { ["M_Ed", ""] } else { ["M_y,Ed", "M_z,Ed"] };
        for axis in (0..2).filter(|&axis| moments[axis] > 0.0) {
            names[axis + 1] = write_modulus(section, class, axis, suffixes[axis], sink);
            formula.push(format!("{} · 1000 / ({} · {})", symbols[axis], names[axis + 1], strength.symbol));
        }
        let put = [
            ("N_Ed", acting.n, Unit::N),
            (names[0].as_str(), area, Unit::MM2),
            (symbols[0], moments[0], Unit::NM),
            (symbols[1], moments[1], Unit::NM),
            (names[1].as_str(), moduli[0], Unit::MM3),
            (names[2].as_str(), moduli[1], Unit::MM3),
            strength.put(),
        ];
        let text = if sum < MOST { formula.join(" + ") } else { "1000".to_owned() };
        sink.step("u_sum", &text, &put, sum, Unit::ONE, clause);
    }
    ratios.add("u_sum", sum, clause, sink);
    sum
}
