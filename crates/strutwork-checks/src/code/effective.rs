//! Effective sections of class 4: what is left of walls that buckle (EN 1993-1-5 section 4).

use super::profile::{Form, Profile};
use crate::calculation::{Put, Sink, Unit};

/// What is left of a section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effective {
    /// A_eff under compression alone, m².
    pub area: f64,
    /// W_eff,y and W_eff,z under bending alone, m³, at the compressed edge.
    pub moduli: [f64; 2],
}

/// What is left of a rectangular tube whose walls buckle; of other sections, which have no such rule here, all.
///
/// ```text
/// ρ = (λ̄_p − 0.055 (3 + ψ))/λ̄_p² where λ̄_p > 0.5 + √(0.085 − 0.055ψ), else 1;   λ̄_p = (c/t)/(28.4 ε √k_σ)
/// A_eff = A − 2t [(1 − ρ_h) c_h + (1 − ρ_b) c_b]
/// ```
///
/// Bending about y takes the piece (1 − ρ_b) c_b out of the middle of the compressed wall; the axis moves away from it; with
/// the stresses about this axis a piece of each high wall may go as well, 0.4 ρ b_c below the flat's compressed end and 0.6 ρ b_c
/// above the axis remaining of its compressed height b_c. W_eff,y = I_eff/(h/2 + e).
///
/// # Units and shapes
/// m², m³.
///
/// # Assumes
/// The steel is at its yield strength: λ̄_p is not lowered for lower stresses.
///
/// # Source
/// EN 1993-1-5:2006 4.4 and Table 4.1 with its corrigendum of 2009 (from memory); the order of steps 4.4(3).
pub fn effective(profile: &Profile) -> Effective {
    use crate::calculation::Silent;
    Effective { area: area(profile, &mut Silent), moduli: [0, 1].map(|axis| modulus(profile, axis, &mut Silent)) }
}

/// k_σ of an internal wall for ψ from 1 to −3.
fn plate_factor(psi: f64) -> f64 {
    if psi >= 0.0 {
        8.2 / (1.05 + psi)
    } else if psi > -1.0 {
        7.81 - 6.29 * psi + 9.78 * psi * psi
    } else {
        5.98 * (1.0 - psi) * (1.0 - psi)
    }
}

/// λ̄_p of a wall, and ρ.
fn reduction(ratio: f64, epsilon: f64, psi: f64) -> [f64; 2] {
    let slenderness = ratio / (28.4 * epsilon * plate_factor(psi).sqrt());
    let whole = slenderness <= 0.5 + (0.085 - 0.055 * psi).sqrt();
    let rho = if whole { 1.0 } else { (slenderness - 0.055 * (3.0 + psi)) / (slenderness * slenderness) };
    [slenderness, rho]
}

/// Writes λ̄_p and ρ of the walls of one kind.
fn write_reduction((side, axis): (&str, &str), (flat, wall, epsilon, psi): (f64, f64, f64, f64), sink: &mut impl Sink) {
    let [slenderness, rho] = reduction(flat / wall, epsilon, psi);
    let factor = plate_factor(psi);
    let tag = format!("{side}{axis}");
    let (c, k, l, p) = (format!("c_{side}"), format!("k_σ,{tag}"), format!("λ̄_p,{tag}"), format!("ψ_{tag}"));
    let put: [Put<'_>; 6] = [
        (&c, flat, Unit::MM),
        ("t", wall, Unit::MM),
        ("ε", epsilon, Unit::ONE),
        (&k, factor, Unit::ONE),
        (&l, slenderness, Unit::ONE),
        (&p, psi, Unit::ONE),
    ];
    let formula = if psi >= 1.0 {
        String::new()
    } else if psi >= 0.0 {
        format!("8.2 / (1.05 + {p})")
    } else if psi > -1.0 {
        format!("7.81 − 6.29 · {p} + 9.78 · {p}²")
    } else {
        format!("5.98 · (1 − {p})²")
    };
    if formula.is_empty() {
        sink.given(&k, factor, Unit::ONE, "compressed evenly, EN 1993-1-5 Table 4.1");
    } else {
        sink.step(&k, &formula, &put, factor, Unit::ONE, "EN 1993-1-5 Table 4.1");
    }
    sink.step(&l, &format!("{c} / t / (28.4 · ε · √({k}))"), &put, slenderness, Unit::ONE, "");
    if rho >= 1.0 {
        sink.given(&format!("ρ_{tag}"), rho, Unit::ONE, "λ̄_p ≤ 0.5 + √(0.085 − 0.055ψ): the whole wall counts");
        return;
    }
    let (formula, note) = if psi >= 1.0 {
        (format!("({l} − 0.22) / {l}²"), "of walls compressed evenly")
    } else {
        (format!("({l} − 0.055 · (3 + {p})) / {l}²"), "")
    };
    sink.step(&format!("ρ_{tag}"), &formula, &put, rho, Unit::ONE, note);
}

/// Flat parts of the walls of size h and b, and the wall, m.
fn flats(profile: &Profile) -> Option<([f64; 2], [f64; 2], f64)> {
    match profile.form {
        Form::Rectangular { height, width, wall } => {
            let sizes = [height, width];
            Some((sizes, sizes.map(|size| (size - 3.0 * wall).max(0.0)), wall))
        }
        Form::Round { .. } | Form::SolidRound { .. } | Form::Flat { .. } => None,
    }
}

/// A_eff under compression alone.
pub(super) fn area(profile: &Profile, sink: &mut impl Sink) -> f64 {
    let Some((_, [c_h, c_b], wall)) = flats(profile) else { return profile.area };
    let epsilon = profile.epsilon();
    let [rho_h, rho_b] = [c_h, c_b].map(|flat| reduction(flat / wall, epsilon, 1.0)[1]);
    let area = profile.area - 2.0 * wall * ((1.0 - rho_h) * c_h + (1.0 - rho_b) * c_b);
    if sink.writes() {
        write_flats(profile, sink);
        for (side, flat) in [("h", c_h), ("b", c_b)] {
            write_reduction((side, ""), (flat, wall, epsilon, 1.0), sink);
        }
        let put = [
            ("A", profile.area, Unit::MM2),
            ("t", wall, Unit::MM),
            ("ρ_h", rho_h, Unit::ONE),
            ("ρ_b", rho_b, Unit::ONE),
            ("c_h", c_h, Unit::MM),
            ("c_b", c_b, Unit::MM),
        ];
        let formula = "A − 2 · t · ((1 − ρ_h) · c_h + (1 − ρ_b) · c_b)";
        sink.step("A_eff", formula, &put, area, Unit::MM2, "effective area under compression");
    }
    area
}

fn write_flats(profile: &Profile, sink: &mut impl Sink) {
    let Some((sizes, flats, wall)) = flats(profile) else { return };
    sink.step("ε", "√(235 / f_y)", &[("f_y", profile.yield_stress, Unit::MPA)], profile.epsilon(), Unit::ONE, "");
    for (side, (size, flat)) in ["h", "b"].into_iter().zip(sizes.into_iter().zip(flats)) {
        let put = [(side, size, Unit::MM), ("t", wall, Unit::MM)];
        sink.step(&format!("c_{side}"), &format!("{side} − 3 · t"), &put, flat, Unit::MM, "flat part of the wall");
    }
}

/// W_eff under bending alone about y (axis 0) or z (axis 1).
pub(super) fn modulus(profile: &Profile, axis: usize, sink: &mut impl Sink) -> f64 {
    let Some((sizes, flats, t)) = flats(profile) else { return profile.elastic[axis] };
    let epsilon = profile.epsilon();
    // `depth` is square to the axis: the walls of that size are bent in their plane, the others lie across.
    let (depth, web, flange) = (sizes[axis], flats[axis], flats[1 - axis]);
    // The compressed wall.
    let [_, rho_f] = reduction(flange / t, epsilon, 1.0);
    let (gone_f, arm_f) = ((1.0 - rho_f) * flange * t, (depth - t) / 2.0);
    let shift = gone_f * arm_f / (profile.area - gone_f);
    // The walls beside it, with the axis moved.
    let pressed = web / 2.0 + shift;
    let psi = if pressed > 0.0 { (shift - web / 2.0) / pressed } else { -1.0 };
    let [_, rho_w] = reduction(web / t, epsilon, psi);
    let hole = (1.0 - rho_w) * pressed;
    let (gone_w, arm_w) = (2.0 * t * hole, (web / 2.0 - shift + 0.2 * rho_w * pressed) / 2.0);
    // What is left of both.
    let area = profile.area - gone_f - gone_w;
    let moved = (gone_f * arm_f + gone_w * arm_w) / area;
    let own = gone_f * t * t / 12.0 + gone_w * hole * hole / 12.0;
    let second = profile.second[axis] - gone_f * arm_f * arm_f - gone_w * arm_w * arm_w - own - area * moved * moved;
    let modulus = second / (depth / 2.0 + moved);
    if sink.writes() {
        write_flats(profile, sink);
        let (name, deep, across) = [("y", "h", "b"), ("z", "b", "h")][axis];
        write_reduction((across, ""), (flange, t, epsilon, 1.0), sink);
        let symbols = |part: &str| format!("{part},{name}");
        let [ff, zf, e1, bc, ww, zw, aa, ee] = ["ΔA_f", "z_f", "e_1", "b_c", "ΔA_w", "z_w", "A_eff", "e"].map(symbols);
        let (c_web, c_flange) = (format!("c_{deep}"), format!("c_{across}"));
        let (p, r_f, r_w) = (format!("ψ_{deep}{name}"), format!("ρ_{across}"), format!("ρ_{deep}{name}"));
        let (gross, i_eff) = (format!("I_{name}"), format!("I_eff,{name}"));
        let put: Vec<Put<'_>> = vec![
            (&r_f, rho_f, Unit::ONE),
            (&r_w, rho_w, Unit::ONE),
            (&p, psi, Unit::ONE),
            (&c_web, web, Unit::MM),
            (&c_flange, flange, Unit::MM),
            ("t", t, Unit::MM),
            (deep, depth, Unit::MM),
            ("A", profile.area, Unit::MM2),
            (&gross, profile.second[axis], Unit::MM4),
            (&ff, gone_f, Unit::MM2),
            (&zf, arm_f, Unit::MM),
            (&e1, shift, Unit::MM),
            (&bc, pressed, Unit::MM),
            (&ww, gone_w, Unit::MM2),
            (&zw, arm_w, Unit::MM),
            (&aa, area, Unit::MM2),
            (&ee, moved, Unit::MM),
            (&i_eff, second, Unit::MM4),
        ];
        sink.given(&gross, profile.second[axis], Unit::MM4, "second moment");
        sink.step(
            &ff,
            &format!("(1 − {r_f}) · {c_flange} · t"),
            &put,
            gone_f,
            Unit::MM2,
            "gone from the compressed wall",
        );
        sink.step(&zf, &format!("({deep} − t) / 2"), &put, arm_f, Unit::MM, "its distance from the middle");
        sink.step(&e1, &format!("{ff} · {zf} / (A − {ff})"), &put, shift, Unit::MM, "the axis moves by");
        sink.step(&bc, &format!("{c_web} / 2 + {e1}"), &put, pressed, Unit::MM, "compressed part of the other walls");
        sink.step(&p, &format!("({e1} − {c_web} / 2) / {bc}"), &put, psi, Unit::ONE, "");
        write_reduction((deep, name), (web, t, epsilon, psi), sink);
        sink.step(&ww, &format!("2 · t · (1 − {r_w}) · {bc}"), &put, gone_w, Unit::MM2, "gone from the other walls");
        let formula = format!("({c_web} / 2 − {e1} + 0.2 · {r_w} · {bc}) / 2");
        sink.step(&zw, &formula, &put, arm_w, Unit::MM, "its distance from the middle");
        sink.step(&aa, &format!("A − {ff} − {ww}"), &put, area, Unit::MM2, "left in bending");
        sink.step(
            &ee,
            &format!("({ff} · {zf} + {ww} · {zw}) / {aa}"),
            &put,
            moved,
            Unit::MM,
            "the axis moves by in all",
        );
        let hole_own = format!("{ww} · ((1 − {r_w}) · {bc})² / 12");
        let formula = format!("{gross} − {ff} · {zf}² − {ww} · {zw}² − {ff} · t² / 12 − {hole_own} − {aa} · {ee}²");
        sink.step(&i_eff, &formula, &put, second, Unit::MM4, "");
        let symbol = format!("W_eff,{name}");
        sink.step(&symbol, &format!("{i_eff} / ({deep} / 2 + {ee})"), &put, modulus, Unit::MM3, "effective modulus");
    }
    modulus
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::calculation::Pages;
    use crate::code::profiles::{rectangular, round, sharp};
    use crate::code::worked::recomputes;

    #[test]
    fn plate_factors_of_the_table() {
        for (psi, factor) in [(1.0, 4.0), (0.0, 7.81), (-1.0, 23.9)] {
            assert!((plate_factor(psi) - factor).abs() < 0.03, "ψ = {psi}: {}", plate_factor(psi));
        }
    }

    /// c/t = 37 in S355: ε = 0.81362, λ̄_p = 37/(28.4·0.81362·2) = 0.80063, ρ = (0.80063 − 0.22)/0.80063² = 0.90580.
    #[test]
    fn a_wall_by_hand() {
        let epsilon = (235.0_f64 / 355.0).sqrt();
        let [slenderness, rho] = reduction(37.0, epsilon, 1.0);
        assert!((slenderness - 0.800_63).abs() < 1e-5, "{slenderness}");
        assert!((rho - 0.905_80).abs() < 2e-5, "{rho}");
        // 60 × 60 × 1.5: A = 344.4 mm² less 4 · 1.5 · 55.5 · (1 − ρ) = 31.37 mm².
        let profile = rectangular(60.0, 60.0, 1.5, 355.0);
        let lost = (profile.area - effective(&profile).area) * 1e6;
        assert!((lost - 31.37).abs() < 0.01, "{lost}");
    }

    #[test]
    fn stocky_walls_keep_all() {
        for profile in
            [rectangular(40.0, 40.0, 2.0, 355.0), rectangular(60.0, 40.0, 3.0, 235.0), round(200.0, 1.0, 355.0)]
        {
            let found = effective(&profile);
            assert_eq!(found.area, profile.area);
            for axis in [0, 1] {
                assert!((found.moduli[axis] / profile.elastic[axis] - 1.0).abs() < 1e-12);
            }
        }
    }

    /// The effective section of a sharp-cornered tube put together of rectangles, about its own axis.
    #[test]
    fn the_modulus_is_that_of_the_pieces_that_are_left() {
        let (h, b, t, f_y) = (200.0, 140.0, 1.5, 355.0);
        let profile = sharp(h, b, t, f_y);
        let epsilon = profile.epsilon();
        let [c_h, c_b] = [h - 3.0 * t, b - 3.0 * t];
        let rho_f = reduction(c_b / t, epsilon, 1.0)[1];
        // Strips as [width, low, high], mm from the middle, compression above.
        let whole = |strips: &[[f64; 3]]| {
            let area: f64 = strips.iter().map(|[w, low, high]| w * (high - low)).sum();
            let first: f64 = strips.iter().map(|[w, low, high]| w * (high * high - low * low) / 2.0).sum();
            let second: f64 = strips.iter().map(|[w, low, high]| w * (high.powi(3) - low.powi(3)) / 3.0).sum();
            (area, first / area, second - first * first / area)
        };
        let top = [b - (1.0 - rho_f) * c_b, h / 2.0 - t, h / 2.0];
        let bottom = [b, -h / 2.0, t - h / 2.0];
        let (_, axis, _) = whole(&[top, bottom, [2.0 * t, t - h / 2.0, h / 2.0 - t]]);
        let pressed = c_h / 2.0 - axis;
        let rho_w = reduction(c_h / t, epsilon, (-axis - c_h / 2.0) / pressed)[1];
        assert!(rho_w < 1.0 && rho_f < 1.0, "both kinds of wall buckle");
        let lower = [2.0 * t, t - h / 2.0, axis + 0.6 * rho_w * pressed];
        let upper = [2.0 * t, c_h / 2.0 - 0.4 * rho_w * pressed, h / 2.0 - t];
        let (_, axis, second) = whole(&[top, bottom, lower, upper]);
        let by_pieces = second / (h / 2.0 - axis);
        let found = effective(&profile).moduli[0] * 1e9;
        assert!((found / by_pieces - 1.0).abs() < 1e-9, "{found} {by_pieces}");
    }

    #[test]
    fn the_page_can_be_recomputed() {
        for profile in [rectangular(60.0, 60.0, 1.5, 355.0), rectangular(200.0, 60.0, 1.2, 460.0)] {
            let mut pages = Pages::default();
            profile.write_sizes(&mut pages);
            profile.write_strength(&mut pages);
            pages.given("A", profile.area, Unit::MM2, "");
            area(&profile, &mut pages);
            modulus(&profile, 0, &mut pages);
            let last = modulus(&profile, 1, &mut pages) * 1e9;
            recomputes(&pages.finish("t", "c", "s", last));
        }
    }

    proptest! {
        #[test]
        fn less_is_left_than_there_was(
            (h, b, t, f_y) in (20.0..300.0_f64, 20.0..300.0_f64, 1.0..4.0_f64, 200.0..700.0_f64),
        ) {
            let profile = rectangular(h, b, t, f_y);
            let found = effective(&profile);
            prop_assert!(found.area > 0.0 && found.area <= profile.area);
            let stronger = effective(&Profile { yield_stress: 1.1 * profile.yield_stress, ..profile });
            prop_assert!(stronger.area <= found.area);
            for axis in [0, 1] {
                prop_assert!(found.moduli[axis] > 0.0);
                prop_assert!(found.moduli[axis] <= profile.elastic[axis] * (1.0 + 1e-12));
            }
        }
    }
}
