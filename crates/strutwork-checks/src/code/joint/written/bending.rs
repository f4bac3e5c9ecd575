//! Resistance to the brace's moments: Tables 7.3, 7.5 and 7.14.

use super::super::check::Computed;
use super::super::rectangular::{FACE_ALONE, width_ratio};
use super::super::{Mode, Outline, axial, least, moments_outside};
use super::{Book, Kind};
use crate::calculation::{Sink, Unit};

/// The formulas of the moments by mode, N·mm.
type Formula = fn(Mode, Outline, Outline) -> &'static str;

pub(super) fn write<S: Sink>(done: &Computed<'_>, book: &mut Book<'_, S>) {
    let (chord, brace) = (&done.chord, &done.brace);
    let letter = if done.across { "X" } else { "T" };
    book.remark(&format!("Moments, against the resistance of a {letter} joint:"));
    let flat_chord = !chord.outline.is_round();
    if flat_chord && width_ratio(brace.outline.width(), chord.outline.width()) > FACE_ALONE {
        book.given("W_ip", brace.plastic[0], Unit::MM3, "plastic modulus of the brace in the plane");
        book.given("W_op", brace.plastic[1], Unit::MM3, "and out of it");
        let (formula, factor) = if done.across { ("0.8 · f_y0", 0.8) } else { ("f_y0", 1.0) };
        book.step("f_yk", formula, factor * chord.yield_stress, Unit::MPA, "strength of the side walls");
    } else if !flat_chord && !brace.outline.is_round() {
        let (kind, formula) = if done.across {
            (Kind::X, "φ · 5 · k_p · f_y0 · t_0² / (1 − 0.81 · β_1) · (1 + 0.25 · η)")
        } else {
            (Kind::Y, "φ · k_p · f_y0 · t_0² · (4 + 20 · β_1²) · (1 + 0.25 · η)")
        };
        let force = axial(chord, brace, kind).modes[Mode::ChordFace as usize].unwrap_or(0.0);
        book.step("N_arm", formula, force, Unit::N, &format!("chord face of a {letter} joint"));
    }
    for (symbol, modes, of) in
        [("M_ip", &done.bending.in_plane, IN_PLANE), ("M_op", &done.bending.out_of_plane, OUT_OF_PLANE)]
    {
        let mut symbols = Vec::new();
        for (mode, value) in Mode::ALL.into_iter().zip(modes) {
            let Some(value) = *value else { continue };
            let name = format!("{symbol},{}", super::sum::short(mode));
            let formula = of(mode, chord.outline, brace.outline);
            book.step(&name, &format!("{formula} / 1000"), value, Unit::NM, mode.word());
            symbols.push(name);
        }
        let (mode, value) = least(modes);
        let formula = match &symbols[..] {
            [one] => format!("{one} / γ_M5"),
            more => format!("min({}) / γ_M5", more.join(", ")),
        };
        book.step(&format!("{symbol},Rd"), &formula, value / done.gamma, Unit::NM, mode.word());
    }
    let [_, in_plane, out_of_plane] = done.outcome.parts;
    if let Some(why) = moments_outside(chord, brace, [in_plane, out_of_plane]) {
        book.outside(&why);
    }
}

const IN_PLANE: Formula = |mode, chord, brace| match (chord, brace, mode) {
    (Outline::Round { .. }, Outline::Rectangular { .. }, _) => "N_arm · h_1",
    (Outline::Round { .. }, _, Mode::Punching) => "φ · f_y0 · t_0 · d_1² / √(3) · (1 + 3 · sinθ) / (4 · sinθ²)",
    (Outline::Round { .. }, ..) => "φ · 4.85 · k_p · f_y0 · t_0² · d_1 / sinθ · √(γ) · β_1",
    (.., Mode::ChordFace) => "φ · k_1 · f_y0 · t_0² · h_1 · (1 / (2 · η) + 2 / √(1 − β_1) + η / (1 − β_1))",
    (.., Mode::SideWall) => "φ · 0.5 · f_yk · t_0 · (h_1 + 5 · t_0)²",
    _ => "φ · f_y1 · max(W_ip − (1 − b_eff / b_1) · b_1 · (h_1 − t_1) · t_1, 0)",
};

const OUT_OF_PLANE: Formula = |mode, chord, brace| match (chord, brace, mode) {
    (Outline::Round { .. }, Outline::Rectangular { .. }, _) => "N_arm · 0.5 · b_1",
    (Outline::Round { .. }, _, Mode::Punching) => "φ · f_y0 · t_0 · d_1² / √(3) · (3 + sinθ) / (4 · sinθ²)",
    (Outline::Round { .. }, ..) => "φ · 2.7 · k_p · f_y0 · t_0² · d_1 / sinθ / (1 − 0.81 · β_1)",
    (.., Mode::ChordFace) => {
        "φ · k_1 · f_y0 · t_0² · (h_1 · (1 + β_1) / (2 · (1 − β_1)) + √(2 · b_0 · b_1 · (1 + β_1) / (1 − β_1)))"
    }
    (.., Mode::SideWall) => "φ · f_yk · t_0 · (b_0 − t_0) · (h_1 + 5 · t_0)",
    (.., Mode::Distortion) => "φ · 2 · f_y0 · t_0 · (h_1 · t_0 + √(b_0 · h_0 · t_0 · (b_0 + h_0)))",
    _ => "φ · f_y1 · max(W_op − 0.5 · (1 − b_eff / b_1)² · b_1² · t_1, 0)",
};
