//! The lines of a member's page.

use super::{Along, Axis, CLAUSES, Factor, Member, Reduced};
use crate::calculation::{Put, Sink, Unit};
use crate::code::class::Class;
use crate::code::effective;
use crate::code::profile::MOST;
use crate::code::ratios::write_over;

pub(super) fn start(member: &Member, gamma: f64, sink: &mut impl Sink) {
    let profile = &member.section.profile;
    profile.write_sizes(sink);
    sink.given("A", profile.area, Unit::MM2, "area");
    sink.given("I_y", profile.second[0], Unit::MM4, "second moment");
    sink.given("I_z", profile.second[1], Unit::MM4, "second moment");
    profile.write_strength(sink);
    sink.given("E", profile.youngs, Unit::MPA, "Young's modulus");
    sink.given("γ_M1", gamma, Unit::ONE, "partial factor");
    let note = format!("buckling curve {} (Tables 6.1 and 6.2)", member.curve.letter());
    sink.given("α", member.curve.imperfection(), Unit::ONE, &note);
    for (axis, name) in ["y", "z"].into_iter().enumerate() {
        let Axis { length, critical, why } = member.axes[axis];
        let (l, i, n) = (format!("L_cr,{name}"), format!("I_{name}"), format!("N_cr,{name}"));
        sink.given(&l, length, Unit::MM, why);
        let put = [
            ("E", profile.youngs, Unit::MPA),
            (i.as_str(), profile.second[axis], Unit::MM4),
            (l.as_str(), length, Unit::MM),
        ];
        sink.step(&n, &format!("π² · E · {i} / {l}²"), &put, critical, Unit::N, "Euler's load");
    }
}

/// The symbol of the area that a class goes by; A_eff is written out.
fn write_area(member: &Member, class: Class, sink: &mut impl Sink) -> &'static str {
    if class == Class::Four && !member.section.profile.form.is_round() {
        effective::area(&member.section.profile, sink);
        "A_eff"
    } else {
        "A"
    }
}

fn write_reduced(member: &Member, axis: usize, class: Class, sink: &mut impl Sink) {
    let area = write_area(member, class, sink);
    let name = ["y", "z"][axis];
    let Reduced { slenderness, phi, chi } = member.reduced(axis, class);
    let [n, l, p, x] = ["N_cr,", "λ̄_", "Φ_", "χ_"].map(|symbol| format!("{symbol}{name}"));
    let put: [Put<'_>; 6] = [
        (area, member.section.pressed_area(class), Unit::MM2),
        ("f_y", member.section.profile.yield_stress, Unit::MPA),
        (&n, member.axes[axis].critical, Unit::N),
        ("α", member.curve.imperfection(), Unit::ONE),
        (&l, slenderness, Unit::ONE),
        (&p, phi, Unit::ONE),
    ];
    sink.step(&l, &format!("√({area} · f_y / {n})"), &put, slenderness, Unit::ONE, "slenderness");
    sink.step(&p, &format!("0.5 · (1 + α · ({l} − 0.2) + {l}²)"), &put, phi, Unit::ONE, "");
    let formula = format!("min(1, 1 / ({p} + √({p}² − {l}²)))");
    sink.step(&x, &formula, &put, chi, Unit::ONE, "6.3.1.2");
}

pub(super) fn buckling(
    member: &Member,
    axis: usize,
    class: Class,
    (symbol, resistance, gamma): (&str, f64, f64),
    sink: &mut impl Sink,
) {
    write_reduced(member, axis, class, sink);
    let area = write_area(member, class, sink);
    let chi = ["χ_y", "χ_z"][axis];
    let put = [
        (chi, member.reduced(axis, class).chi, Unit::ONE),
        (area, member.section.pressed_area(class), Unit::MM2),
        ("f_y", member.section.profile.yield_stress, Unit::MPA),
        ("γ_M1", gamma, Unit::ONE),
    ];
    sink.step(symbol, &format!("{chi} · {area} · f_y / γ_M1"), &put, resistance, Unit::N, "");
}

pub(super) fn characteristic(member: &Member, class: Class, (squash, bending): (f64, [f64; 2]), sink: &mut impl Sink) {
    let f_y = ("f_y", member.section.profile.yield_stress, Unit::MPA);
    let area = write_area(member, class, sink);
    let put = [(area, member.section.pressed_area(class), Unit::MM2), f_y];
    sink.step("N_Rk", &format!("{area} · f_y"), &put, squash, Unit::N, "Table 6.7");
    for axis in [0, 1] {
        let name = ["y", "z"][axis];
        let modulus = member.section.moduli(class)[axis];
        let symbol = match class {
            Class::One | Class::Two => format!("W_pl,{name}"),
            Class::Four if !member.section.profile.form.is_round() => format!("W_eff,{name}"),
            Class::Three | Class::Four => format!("W_el,{name}"),
        };
        if symbol.starts_with("W_eff") {
            effective::modulus(&member.section.profile, axis, sink);
        } else {
            sink.given(&symbol, modulus, Unit::MM3, "section modulus");
        }
        let put = [(symbol.as_str(), modulus, Unit::MM3), f_y];
        sink.step(&format!("M_{name},Rk"), &format!("{symbol} · f_y / 1000"), &put, bending[axis], Unit::NM, "");
    }
}

pub(super) fn factor(
    member: &Member,
    along: &Along,
    axis: usize,
    class: Class,
    (factor, squash, gamma): (&Factor, f64, f64),
    sink: &mut impl Sink,
) {
    let name = ["y", "z"][axis];
    let [c, n, k, x, l] = ["C_m", "n_", "k_", "χ_", "λ̄_"].map(|symbol| format!("{symbol}{name}"));
    let k = format!("{k}{name}");
    write_reduced(member, axis, class, sink);
    let Reduced { slenderness, chi, .. } = member.reduced(axis, class);
    if member.is_sway {
        sink.given(&c, factor.c, Unit::ONE, "the ends may shift sideways: [members] sway, Table B.3");
    } else {
        along.diagrams[axis].write(name, sink);
    }
    let characteristic = [
        ("N_Ed", along.compression, Unit::N),
        (x.as_str(), chi, Unit::ONE),
        ("N_Rk", squash, Unit::N),
        ("γ_M1", gamma, Unit::ONE),
    ];
    if factor.n < MOST {
        sink.step(&n, &format!("N_Ed / ({x} · N_Rk / γ_M1)"), &characteristic, factor.n, Unit::ONE, "");
    } else {
        write_over(&n, ("N_Ed", 1.0, Unit::N), ("N_Rk", 0.0, Unit::N), "", sink);
    }
    let put: [Put<'_>; 3] = [(&c, factor.c, Unit::ONE), (&n, factor.n, Unit::ONE), (&l, slenderness, Unit::ONE)];
    let formula = if class.is_plastic() {
        format!("min({c} · (1 + ({l} − 0.2) · {n}), {c} · (1 + 0.8 · {n}))")
    } else {
        format!("min({c} · (1 + 0.6 · {l} · {n}), {c} · (1 + 0.6 · {n}))")
    };
    sink.step(&k, &formula, &put, factor.k, Unit::ONE, "Table B.1");
}

/// k_yz, k_zy, the moments as shares of what the section carries, and both sums.
pub(super) fn sums(
    factors: &[Factor; 2],
    [k_yz, k_zy]: [f64; 2],
    is_plastic: bool,
    (moment_of, bending, share_of): ([f64; 2], [f64; 2], [f64; 2]),
    (sums, gamma): ([f64; 2], f64),
    sink: &mut impl Sink,
) {
    let [k_yy, k_zz] = [factors[0].k, factors[1].k];
    let put = [("k_zz", k_zz, Unit::ONE), ("k_yy", k_yy, Unit::ONE)];
    let [yz, zy] = if is_plastic { ["0.6 · k_zz", "0.6 · k_yy"] } else { ["k_zz", "0.8 · k_yy"] };
    sink.step("k_yz", yz, &put, k_yz, Unit::ONE, "Table B.1");
    sink.step("k_zy", zy, &put, k_zy, Unit::ONE, "Table B.1");
    for axis in [0, 1] {
        let [moment, resistance, ratio] = [["M_y,Ed", "M_y,Rk", "m_y"], ["M_z,Ed", "M_z,Rk", "m_z"]][axis];
        if share_of[axis] < MOST {
            let put = [
                (moment, moment_of[axis], Unit::NM),
                (resistance, bending[axis], Unit::NM),
                ("γ_M1", gamma, Unit::ONE),
            ];
            let formula = format!("{moment} / ({resistance} / γ_M1)");
            sink.step(ratio, &formula, &put, share_of[axis], Unit::ONE, "");
        } else {
            sink.step(ratio, "1000", &[], share_of[axis], Unit::ONE, "a thousand times what can be carried, or more");
        }
    }
    let put = [
        ("n_y", factors[0].n, Unit::ONE),
        ("n_z", factors[1].n, Unit::ONE),
        ("k_yy", k_yy, Unit::ONE),
        ("k_yz", k_yz, Unit::ONE),
        ("k_zy", k_zy, Unit::ONE),
        ("k_zz", k_zz, Unit::ONE),
        ("m_y", share_of[0], Unit::ONE),
        ("m_z", share_of[1], Unit::ONE),
    ];
    let formulas = ["n_y + k_yy · m_y + k_yz · m_z", "n_z + k_zy · m_y + k_zz · m_z"];
    for (axis, symbol) in ["u_6.61", "u_6.62"].into_iter().enumerate() {
        let formula = if sums[axis] < MOST { formulas[axis] } else { "1000" };
        sink.step(symbol, formula, &put, sums[axis], Unit::ONE, CLAUSES[axis]);
    }
}
