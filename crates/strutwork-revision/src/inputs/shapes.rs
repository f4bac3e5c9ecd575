//! Sections, materials, fixings and bolts: what is known of each, whatever it is called.

use strutwork_model::Model;
use strutwork_model::model::section::standard_outer_radius;
use strutwork_model::model::{Bolt, Clamps, Fixing, FixingKind, Material, Section, Shape};
use strutwork_model::units::{MM2, MM4, N_PER_MM, to_mm, to_mpa};

use super::facts::{Fact, Item, Value, number, same_number, text, yes};
use super::names::Side;

/// Sections in input order.
pub(super) fn sections(model: &Model) -> Vec<Item> {
    model.sections().iter().map(|section| Item { name: section.name.clone(), facts: section_facts(section) }).collect()
}

/// What a section is: its shape and sizes, or its properties where it has no shape.
pub(super) fn section_facts(section: &Section) -> Vec<Fact> {
    let mm = |what: &'static str, metres: f64| number(what, to_mm(metres), "mm");
    let mut facts = match section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => {
            let square = same_number(height, width);
            let mut facts = vec![text("shape", if square { "square" } else { "rectangular" })];
            if !square {
                facts.push(mm("height", height));
            }
            facts.extend([mm("width", width), mm("wall", wall)]);
            // A radius that follows from the wall is not told beside it.
            let standard = same_number(outer_radius, standard_outer_radius(wall));
            facts.push(mm("corner radius", outer_radius).following(standard));
            facts
        }
        Shape::Round { diameter, wall } => vec![text("shape", "round"), mm("diameter", diameter), mm("wall", wall)],
        Shape::SolidRound { diameter } => vec![text("shape", "solid round"), mm("diameter", diameter)],
        Shape::Flat { height, width } => vec![text("shape", "flat"), mm("height", height), mm("width", width)],
        Shape::Properties => vec![
            text("shape", "properties"),
            number("area", section.area / MM2, "mm²"),
            number("Iy", section.iy / MM4, "mm⁴"),
            number("Iz", section.iz / MM4, "mm⁴"),
            number("J", section.j / MM4, "mm⁴"),
        ],
    };
    if let Some(route) = section.route {
        facts.push(text("route", route.word()));
    }
    facts
}

/// Materials in input order.
pub(super) fn materials(model: &Model) -> Vec<Item> {
    model
        .materials()
        .iter()
        .map(|material| Item { name: material.name.clone(), facts: material_facts(material) })
        .collect()
}

fn material_facts(material: &Material) -> Vec<Fact> {
    let mpa = |what: &'static str, pascals: f64| number(what, to_mpa(pascals), "MPa");
    let mut facts = vec![
        text("grade", material.grade.clone()),
        mpa("E", material.youngs),
        mpa("G", material.shear),
        number("density", material.density, "kg/m³"),
    ];
    if let Some(expansion) = material.expansion {
        facts.push(number("thermal expansion", expansion * 1e6, "10⁻⁶/K"));
    }
    if let Some(strength) = material.strength {
        facts.extend([mpa("yield", strength.yield_stress), mpa("ultimate", strength.ultimate)]);
    }
    if let Some(strength) = material.heat_affected {
        facts.push(mpa("yield beside welds", strength.yield_stress));
        facts.push(mpa("ultimate beside welds", strength.ultimate));
    }
    if let Some(shear) = material.shear_strength {
        facts.push(mpa("shear strength", shear));
    }
    facts.push(text("source", material.source.clone()));
    facts
}

/// Ways of fixing panels in input order.
pub(super) fn fixings(model: &Model) -> Vec<Item> {
    model.fixings().iter().map(|fixing| Item { name: fixing.name.clone(), facts: fixing_facts(fixing) }).collect()
}

fn fixing_facts(fixing: &Fixing) -> Vec<Fact> {
    let mm = |what: &'static str, metres: f64| number(what, to_mm(metres), "mm");
    let mut facts = match fixing.kind {
        FixingKind::Bond { thickness, width, shear, strength } => {
            let mut facts = vec![
                text("kind", "bond"),
                mm("thickness", thickness),
                mm("width", width),
                number("shear modulus", to_mpa(shear), "MPa"),
            ];
            facts.extend(strength.map(|strength| number("shear strength", to_mpa(strength), "MPa")));
            facts
        }
        FixingKind::Fasteners { pitch, slip, strength } => {
            let mut facts =
                vec![text("kind", "fasteners"), mm("pitch", pitch), number("slip", slip * 1e3 * 1e3, "mm/kN")];
            facts.extend(strength.map(|strength| number("shear strength", strength, "N")));
            facts
        }
    };
    facts.push(text("source", fixing.source.clone()));
    facts
}

/// Kinds of bolts in input order; materials by the names of `side`.
pub(super) fn bolts(side: &Side<'_>) -> Vec<Item> {
    let facts = |bolt: &Bolt| bolt_facts(bolt, side);
    side.model.bolts().iter().map(|bolt| Item { name: bolt.name.clone(), facts: facts(bolt) }).collect()
}

fn bolt_facts(bolt: &Bolt, side: &Side<'_>) -> Vec<Fact> {
    let mm = |what: &'static str, metres: f64| number(what, to_mm(metres), "mm");
    let mut facts = vec![
        text("size", bolt.size.map_or("", |size| size.name)),
        text("grade", bolt.class.map_or("", |class| class.name)),
        text("shear plane", bolt.shear_plane.word()),
        number("shear planes", f64::from(bolt.shear_planes), ""),
        yes("countersunk", bolt.countersunk),
    ];
    if let Some(axis) = bolt.axis {
        facts.push(text("axis", direction(axis)));
    }
    match bolt.clamps {
        None => {}
        Some(clamps @ Clamps::Tube) => facts.push(text("clamps", clamps.word())),
        Some(clamps @ Clamps::Sleeve { outer, wall }) => {
            facts.extend([text("clamps", clamps.word()), mm("sleeve outside", outer), mm("sleeve wall", wall)]);
        }
        Some(clamps @ Clamps::Plate { thickness, material }) => {
            facts.extend([text("clamps", clamps.word()), mm("plate thickness", thickness)]);
            facts.push(text("plate material", material.map_or("that of the tube", |material| side.material(material))));
        }
    }
    facts.extend(bolt.edge.map(|edge| mm("edge", edge)));
    facts.extend(bolt.hole.map(|hole| mm("hole", hole)));
    facts.extend(bolt.preload.map(|preload| number("preload", preload, "N")));
    facts.extend(bolt.friction.map(|friction| number("friction", friction, "")));
    facts
}

/// A unit vector as text, so that rounding does not show.
pub(super) fn direction(axis: [f64; 3]) -> String {
    format!("({})", axis.map(|part| crate::number::shown((part * 1e9).round() / 1e9)).join(", "))
}

/// Stiffness per direction: N/mm, or N·m/deg for a turn.
pub(super) fn stiffness(value: f64, turn: bool) -> Value {
    if turn {
        Value::Number(strutwork_model::units::to_nm_per_deg(value), "N·m/deg")
    } else {
        Value::Number(value / N_PER_MM, "N/mm")
    }
}
