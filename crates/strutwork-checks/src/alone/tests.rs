//! Parts by themselves: the pages are sufficient, the numbers are those of hand calculations.

use std::f64::consts::PI;

use strutwork_model::bolts;
use strutwork_model::model::Model;
use strutwork_testkit::{Folder, assert_close};

use super::*;
use crate::calculation::Calculation;
use crate::code::Partial;
use crate::code::class::Class;
use crate::code::joint::{Acting as OnJoint, ChordForces};
use crate::code::member::{Along, Diagram};
use crate::code::profile::Forces;
use crate::code::weld::{AtEnd, Method};
use crate::code::worked::recomputes;

/// A frame whose sections are tried: a square 60 × 4, a square 30 × 2, a round 33.7 × 2.6, a bar, and one by properties.
fn model() -> Model {
    let sections = "[sections.chord]\nshape = \"square\"\nwidth_mm = 60.0\nwall_mm = 4.0\n\
                    [sections.tall]\nshape = \"rectangular\"\nheight_mm = 60.0\nwidth_mm = 40.0\nwall_mm = 3.0\n\
                    [sections.ring]\nshape = \"round\"\ndiameter_mm = 33.7\nwall_mm = 2.6\n\
                    [sections.bar]\nshape = \"flat\"\nheight_mm = 30.0\nwidth_mm = 5.0\n\
                    [sections.given]\nshape = \"properties\"\narea_mm2 = 200.0\niy_mm4 = 1e4\niz_mm4 = 1e4\nj_mm4 = 2e4\n\
                    [materials.nameless]\ne_mpa = 210000.0\ng_mpa = 81000.0\n";
    let tubes = "tube,from,to,section,material\nT1,wall,tip,rail,mild\nT2,wall,tip2,chord,mild\nT3,wall,tip3,tall,mild\n\
                 T4,wall,tip4,ring,mild\nT5,wall,tip5,bar,nameless\nT6,wall,tip6,given,mild\n";
    let joints = "joint,x_mm,y_mm,z_mm\nwall,0,0,0\ntip,500,0,0\ntip2,0,500,0\ntip3,0,0,500\ntip4,-500,0,0\ntip5,0,-500,0\n\
                  tip6,0,0,-500\n";
    Folder::steel()
        .and("model.toml", sections)
        .with("joints.csv", joints)
        .with("tubes.csv", tubes)
        .with("supports.csv", "joint,ux,uy,uz,rx,ry,rz\nwall,fixed,fixed,fixed,fixed,fixed,fixed\n")
        .model()
}

fn part<'m>(model: &'m Model, section: &str, material: &str) -> Part<'m> {
    Part {
        section: model.sections().iter().find(|known| known.name == section).expect("a section"),
        material: model.materials().iter().find(|known| known.name == material).expect("a material"),
        process: model.welds().process,
    }
}

fn used(page: &Calculation) -> f64 {
    recomputes(page);
    page.utilisation
}

#[test]
fn a_pulled_section_carries_its_area_times_its_strength() {
    let model = model();
    let part = part(&model, "rail", "mild");
    let pull = Forces { n: 10_000.0, ..Forces::default() };
    let (page, class) = section(&part, &pull, 1.0).unwrap();
    assert_close("N/(A f_y)", used(&page), 10_000.0 / (part.section.area * 235e6), 1e-12);
    assert_eq!(class, Class::One);
    let (half, _) = section(&part, &pull, 2.0).unwrap();
    assert_close("a factor on strength", used(&half), 2.0 * page.utilisation, 1e-12);
    assert!(page.outside.is_empty());
}

/// λ̄ = L √(A f_y/(π² E I)), curve c.
#[test]
fn a_pressed_member_carries_what_6_3_1_says() {
    let model = model();
    let part = part(&model, "rail", "mild");
    let along = Along { compression: 10_000.0, moment: [0.0; 2], diagrams: [Diagram::default(); 2] };
    let page = member(&part, &along, [1.2, 0.6], 1.0).unwrap();
    let section = part.section;
    let slenderness = 1.2 * (section.area * 235e6 / (PI * PI * part.material.youngs * section.iy)).sqrt();
    let phi = 0.5 * (1.0 + 0.49 * (slenderness - 0.2) + slenderness * slenderness);
    let chi = 1.0 / (phi + (phi * phi - slenderness * slenderness).sqrt());
    assert_close("N/(χ A f_y)", used(&page), 10_000.0 / (chi * section.area * 235e6), 1e-9);
    let bent =
        Along { moment: [50.0, 0.0], diagrams: [Diagram { ends: [50.0, 50.0], ..Diagram::default() }; 2], ..along };
    assert!(used(&member(&part, &bent, [1.2, 0.6], 1.0).unwrap()) > page.utilisation);
}

/// A T joint of 30 × 2 on 60 × 4: chord face k_n f_y0 t₀²/(1 − β) (2η + 4√(1 − β)), β = η = 0.5.
#[test]
fn a_brace_on_a_chord_face() {
    let model = model();
    let (chord, brace) = (part(&model, "chord", "mild"), part(&model, "rail", "mild"));
    let met = |way| Met { angle: PI / 2.0, way };
    let pull = |axial| OnJoint { axial, moments: [0.0; 2], chord: ChordForces::NONE, chord_axial: 0.0, margin: 7.0 };
    let (page, outcome) = joint(&chord, &brace, &met(Way::Chord), &pull(10_000.0), 1.0).unwrap();
    let by_hand = 235e6 * 4e-3 * 4e-3 / 0.5 * (2.0 * 0.5 + 4.0 * 0.5_f64.sqrt());
    assert_close("N_1,Rd", outcome.axial_resistance, by_hand, 1e-9);
    assert_close("no margin is put on design values", used(&page), 10_000.0 / by_hand, 1e-9);
    assert!(page.outside.iter().any(|why| why.contains("2.0") || why.contains("2 mm")), "{:?}", page.outside);
    let (across, _) = joint(&chord, &brace, &met(Way::Across), &pull(-10_000.0), 1.0).unwrap();
    assert!(used(&across) >= page.utilisation - 1e-12);
    for way in [Way::Gap { angle: PI / 4.0, gap: 20e-3 }, Way::Overlap { angle: PI / 4.0, share: 0.5 }] {
        let met = Met { angle: PI / 4.0, way };
        let (page, _) = joint(&chord, &brace, &met, &pull(5_000.0), 1.0).unwrap();
        assert!(used(&page) > 0.0 && page.clause.contains("K, N"), "{}", page.clause);
    }
    let ring = part(&model, "ring", "mild");
    let round = joint(&ring, &ring, &met(Way::Chord), &pull(1000.0), 1.0).unwrap();
    assert!(used(&round.0) > 0.0);
}

/// What acts in the chord lowers what its face bears.
#[test]
fn a_pressed_chord_bears_less() {
    let model = model();
    let (chord, brace) = (part(&model, "chord", "mild"), part(&model, "rail", "mild"));
    let met = Met { angle: PI / 2.0, way: Way::Chord };
    let of = |axial| {
        let chord_acts = chord_forces(chord.section, axial, [0.0; 2]).unwrap();
        let acting = OnJoint { axial: 1e4, moments: [0.0; 2], chord: chord_acts, chord_axial: 0.0, margin: 1.0 };
        joint(&chord, &brace, &met, &acting, 1.0).unwrap().1.utilisation
    };
    assert!(of(-150e3) > of(0.0));
    assert_close("a pulled chord", of(150e3), of(0.0), 1e-12);
}

/// p = N/L on the line of the weld, against a f_u/(√3 β_w γ_M2) of the simplified method.
#[test]
fn a_fillet_round_a_pulled_tube() {
    let model = model();
    let tall = part(&model, "tall", "mild");
    let pull = AtEnd { axial: 20_000.0, ..AtEnd::default() };
    let page = fillet(&tall, PI / 2.0, Some(3e-3), &pull, Method::Simplified, &Partial::RECOMMENDED).unwrap();
    let corner = match tall.section.shape {
        strutwork_model::model::Shape::Hollow { outer_radius, .. } => outer_radius,
        _ => unreachable!("a rectangular tube"),
    };
    let length = 2.0 * (60e-3 + 40e-3) - 8.0 * (1.0 - PI / 4.0) * corner;
    let ultimate = tall.material.strength.unwrap().ultimate;
    let strength = 3e-3 * ultimate / (3.0_f64.sqrt() * 0.8 * 1.25);
    assert_close("simplified", used(&page), 20_000.0 / length / strength, 1e-9);
    let directional = fillet(&tall, PI / 2.0, None, &pull, Method::Directional, &Partial::RECOMMENDED).unwrap();
    assert_close("√(2/3) of it", used(&directional), page.utilisation * (2.0_f64 / 3.0).sqrt(), 1e-9);
    let thin =
        fillet(&part(&model, "rail", "mild"), PI / 2.0, None, &pull, Method::Simplified, &Partial::NONE).unwrap();
    assert!(thin.outside.iter().any(|why| why.starts_with("wall 2.00 mm")), "{:?}", thin.outside);
}

/// M8 8.8: F_t,Rd = 0.9 · 800 · 36.6/1.25 = 21.08 kN, F_v,Rd = 0.6 · 800 · 36.6/1.25 = 14.05 kN.
#[test]
fn a_bolt_of_the_table() {
    let (size, class) = (bolts::size("M8").unwrap(), bolts::class_named("8.8").unwrap());
    let acting = crate::code::bolt::Acting::Split { tension: 5000.0, shear: 4000.0 };
    let (page, verdict) = bolt(size, class, None, acting, Partial::RECOMMENDED);
    assert_close("F_v,Rd", verdict.resistances[0], 14_054.4, 1e-9);
    assert_close("F_t,Rd", verdict.resistances[1], 21_081.6, 1e-9);
    assert_close("both", used(&page), 4000.0 / 14_054.4 + 5000.0 / (1.4 * 21_081.6), 1e-9);
    assert!(!page.outside.is_empty(), "nothing is said of bearing, and the page says so");
    let plate = Plate { thickness: 4e-3, ultimate: 360e6, edge: Some(20e-3) };
    let (page, _) = bolt(size, class, Some(plate), acting, Partial::RECOMMENDED);
    assert!(used(&page) > 0.0 && page.outside.is_empty(), "{:?}", page.outside);
}

#[test]
fn what_cannot_be_computed_is_said() {
    let model = model();
    let none = Forces::default();
    assert_eq!(section(&part(&model, "given", "mild"), &none, 1.0).unwrap_err(), Missing::Shape);
    assert_eq!(section(&part(&model, "rail", "nameless"), &none, 1.0).unwrap_err(), Missing::Strength);
    let along = Along { compression: 0.0, moment: [0.0; 2], diagrams: [Diagram::default(); 2] };
    assert_eq!(member(&part(&model, "given", "mild"), &along, [1.0; 2], 1.0).unwrap_err(), Missing::Shape);
    let end = AtEnd::default();
    let weld = fillet(&part(&model, "bar", "mild"), 1.0, None, &end, Method::Simplified, &Partial::NONE);
    assert_eq!(weld.unwrap_err(), Missing::Shape);
}
