//! Resistance of each way, and all of it added up.

use super::super::Mode;
use super::super::check::{Borne, Computed};
use super::{Book, Tag};
use crate::calculation::{Sink, Unit};

/// A mode in symbols.
pub(super) const fn short(mode: Mode) -> &'static str {
    match mode {
        Mode::ChordFace => "face",
        Mode::SideWall => "wall",
        Mode::Brace => "brace",
        Mode::Punching => "punch",
        Mode::ChordShear => "shear",
        Mode::Distortion => "dist",
    }
}

/// The symbol of a mode's resistance in one way: `N_face,Y`.
pub(super) fn symbol(mode: Mode, tag: &Tag) -> String {
    format!("N_{},{}", short(mode), tag.name)
}

/// N_Rd of one way.
pub(super) fn resistance<S: Sink>(way: &Borne, tag: &Tag, book: &mut Book<'_, S>) {
    let arising = Mode::ALL.into_iter().zip(way.axial.modes).filter(|(_, value)| value.is_some());
    let symbols: Vec<String> = arising.map(|(mode, _)| symbol(mode, tag)).collect();
    let formula = match &symbols[..] {
        [one] => format!("{one} / γ_M5"),
        more => format!("min({}) / γ_M5", more.join(", ")),
    };
    book.step(&tag.fill("N_Rd,#"), &formula, way.resistance, Unit::N, way.axial.governing().0.word());
}

/// The sum of all parts, and what else the tables ask for.
pub(super) fn write<S: Sink>(done: &Computed<'_>, book: &mut Book<'_, S>) {
    let outcome = &done.outcome;
    book.remark("Together:");
    let tags: Vec<Tag> =
        done.ways.iter().enumerate().map(|(place, way)| Tag::of(way.kind, done.brace.angle, place)).collect();
    let part = |over: &str| tags.iter().map(|tag| tag.fill(over)).collect::<Vec<_>>().join(" + ");
    let formula = match &tags[..] {
        [one] => one.fill("N_Rd,#"),
        // Where one way bears nothing, nothing can be carried.
        _ if outcome.axial_resistance == 0.0 => {
            format!("min({})", tags.iter().map(|tag| tag.fill("N_Rd,#")).collect::<Vec<_>>().join(", "))
        }
        _ => format!("1 / ({})", part("s_# / N_Rd,#")),
    };
    book.step("N_1,Rd", &formula, outcome.axial_resistance, Unit::N, "what the joint bears of axial force alone");
    let note = "of the brace's own strength A_1 · f_y1";
    book.step("efficiency", "N_1,Rd / (A_1 · f_y1)", outcome.efficiency, Unit::ONE, note);
    let bend = if done.chord.outline.is_round() { "(M_ip,Ed / M_ip,Rd)²" } else { "M_ip,Ed / M_ip,Rd" };
    let formula = format!("{} + {bend} + M_op,Ed / M_op,Rd", part("s_# · N_1,Ed / N_Rd,#"));
    book.step("U_joint", &formula, outcome.parts.iter().sum(), Unit::ONE, "force and moments together");
    let mut all = vec!["U_joint".to_owned()];
    for (way, tag) in done.ways.iter().zip(&tags) {
        let Some([shear, shear_resistance, axial_resistance, used]) = way.gap else { continue };
        let area = way.axial.shear_area.min(done.chord.area);
        book.step(&tag.fill("A_g,#"), &tag.fill("min(A_v,#, A_0)"), area, Unit::MM2, "shear area in the gap");
        book.step(
            &tag.fill("V_Ed,#"),
            &tag.fill("s_# · N_1,Ed · sinθ"),
            shear,
            Unit::N,
            "shear of the chord in the gap",
        );
        let formula = tag.fill("f_y0 · A_g,# / (√(3) · γ_M5)");
        book.step(&tag.fill("V_Rd,#"), &formula, shear_resistance, Unit::N, "");
        let formula = tag.fill("((A_0 − A_g,#) + A_g,# · √(1 − min(V_Ed,# / V_Rd,#, 1)²)) · f_y0 / γ_M5");
        book.step(&tag.fill("N_0,Rd,#"), &formula, axial_resistance, Unit::N, "axial force of the chord in the gap");
        let acting = done.acting;
        book.given("N_0,max", acting.chord_axial, Unit::N, "greatest axial force of the chord at the joint");
        let name = tag.fill("U_gap,#");
        book.step(&name, &tag.fill("m · N_0,max / N_0,Rd,#"), used, Unit::ONE, "chord in the gap");
        all.push(name);
    }
    if let Some(punched) = done.punched {
        book.given("W_el,ip", done.brace.elastic[0], Unit::MM3, "elastic modulus of the brace in the plane");
        book.given("W_el,op", done.brace.elastic[1], Unit::MM3, "and out of it");
        let formula =
            "(N_1,Ed / A_1 + M_ip,Ed · 1000 / W_el,ip + M_op,Ed · 1000 / W_el,op) · t_1 · √(3) · γ_M5 / (t_0 · f_y0)";
        book.step("U_punch", formula, punched, Unit::ONE, "punching by all stresses together");
        all.push("U_punch".to_owned());
    }
    let formula = if all.len() == 1 { "U_joint".to_owned() } else { format!("max({})", all.join(", ")) };
    book.step("U", &formula, outcome.utilisation, Unit::ONE, "utilisation");
}
