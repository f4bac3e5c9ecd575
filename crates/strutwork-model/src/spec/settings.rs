//! `model.toml`.

use std::collections::BTreeSet;

use toml::de::DeTable;

use super::entries::{CornerEntry, FactorEntry, MaterialEntry, OptionsEntry, SectionEntry, TitleEntry, VehicleEntry};
use super::keys::{Document, Keys};
use super::{ModelSpec, Spot, Written};
use crate::codes;
use crate::diagnostic::Diagnostic;
use crate::files;
use crate::model::Wheel;

/// Reads the file into the spec.
pub(super) fn read(text: &str, spec: &mut ModelSpec, faults: &mut Vec<Diagnostic>) {
    let (root, errors) = DeTable::parse_recoverable(text);
    let mut found = Vec::new();
    let mut document = Document::new(text, &mut found);
    let mut broken = BTreeSet::new();
    for error in errors {
        let spot = document.spot(error.span().unwrap_or(0..0));
        let message = format!("model.toml cannot be read here: {}", error.message().trim());
        let help = "texts stand in quotes, lists in [ ], tables in [name] on a line of their own";
        document.fault(codes::TOML_SYNTAX, spot, "", message, help);
        broken.insert(spot.line as usize);
    }
    let root = Keys { called: "", table: root.get_ref(), spot: Spot::file(files::MODEL) };
    root.only(
        &["title", "revision", "author", "notes", "outside", "options", "sections", "materials", "vehicle", "factors"],
        &mut document,
    );
    spec.title = title(&root, &mut document);
    spec.options = options(&root, &mut document);
    spec.sections = named(&root, "sections", &mut document, section);
    spec.materials = named(&root, "materials", &mut document, material);
    spec.factors = named(&root, "factors", &mut document, factor);
    spec.vehicle = vehicle(&root, &mut document);
    // What was made of a broken line means nothing.
    let told = |fault: &Diagnostic| {
        fault.code == codes::TOML_SYNTAX || fault.place.as_ref().is_none_or(|place| !broken.contains(&place.line))
    };
    faults.extend(found.into_iter().filter(told));
}

fn title(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> TitleEntry {
    let plain = |texts: Vec<Written<String>>| texts.into_iter().map(|text| text.value).collect();
    TitleEntry {
        title: root.text("title", document),
        revision: root.text("revision", document).map(|text| text.value).unwrap_or_default(),
        author: root.text("author", document).map(|text| text.value).unwrap_or_default(),
        notes: plain(root.texts("notes", document)),
        outside: plain(root.texts("outside", document)),
    }
}

fn options(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> OptionsEntry {
    let default = OptionsEntry::default();
    let Some((table, spot)) = root.table("options", document) else { return default };
    let keys = Keys { called: "[options]", table, spot };
    keys.only(&["self_weight", "standard_cases", "yield_margin"], document);
    OptionsEntry {
        self_weight: keys.flag("self_weight", default.self_weight, document),
        standard_cases: keys.flag("standard_cases", default.standard_cases, document),
        yield_margin: keys.number("yield_margin", document).unwrap_or(default.yield_margin),
    }
}

/// The tables `[above.NAME]`, each read by `one`.
fn named<T>(
    root: &Keys<'_, '_>,
    above: &'static str,
    document: &mut Document<'_, '_>,
    one: impl Fn(Written<String>, &Keys<'_, '_>, &mut Document<'_, '_>) -> T,
) -> Vec<T> {
    let Some((table, spot)) = root.table(above, document) else { return Vec::new() };
    let called = format!("[{above}]");
    let mut rows = Vec::new();
    for (name, table) in (Keys { called: &called, table, spot }).tables(document) {
        let called = format!("[{above}.{}]", name.value);
        let spot = name.spot.unwrap_or(spot);
        rows.push(one(name, &Keys { called: &called, table, spot }, document));
    }
    rows
}

fn section(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> SectionEntry {
    keys.only(
        &[
            "shape",
            "stock",
            "height_mm",
            "width_mm",
            "diameter_mm",
            "wall_mm",
            "wall",
            "outer_radius_mm",
            "area_mm2",
            "iy_mm4",
            "iz_mm4",
            "j_mm4",
        ],
        document,
    );
    SectionEntry {
        name,
        shape: keys.text("shape", document),
        stock: keys.text("stock", document),
        height_mm: keys.number("height_mm", document),
        width_mm: keys.number("width_mm", document),
        diameter_mm: keys.number("diameter_mm", document),
        wall_mm: keys.number("wall_mm", document),
        wall: keys.text("wall", document),
        outer_radius_mm: keys.number("outer_radius_mm", document),
        area_mm2: keys.number("area_mm2", document),
        iy_mm4: keys.number("iy_mm4", document),
        iz_mm4: keys.number("iz_mm4", document),
        j_mm4: keys.number("j_mm4", document),
    }
}

fn material(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> MaterialEntry {
    keys.only(
        &[
            "grade",
            "e_mpa",
            "g_mpa",
            "density_kg_m3",
            "yield_mpa",
            "ultimate_mpa",
            "thermal_per_k",
            "haz_yield_mpa",
            "haz_ultimate_mpa",
            "source",
        ],
        document,
    );
    MaterialEntry {
        name,
        grade: keys.text("grade", document),
        e_mpa: keys.number("e_mpa", document),
        g_mpa: keys.number("g_mpa", document),
        density_kg_m3: keys.number("density_kg_m3", document),
        yield_mpa: keys.number("yield_mpa", document),
        ultimate_mpa: keys.number("ultimate_mpa", document),
        thermal_per_k: keys.number("thermal_per_k", document),
        haz_yield_mpa: keys.number("haz_yield_mpa", document),
        haz_ultimate_mpa: keys.number("haz_ultimate_mpa", document),
        source: keys.text("source", document),
    }
}

fn factor(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> FactorEntry {
    keys.only(&["value", "source"], document);
    let value = keys.number("value", document);
    let source = keys.text("source", document);
    let missing = |key: &str, there: bool| {
        let text = format!("the factor `{}` has no `{key}`", name.value);
        (!there).then_some((text, "a factor needs `value = …` and `source = \"…\"`"))
    };
    let given = keys.table.contains_key("source");
    for (message, help) in [missing("value", value.is_some()), missing("source", given)].into_iter().flatten() {
        document.fault(codes::MISSING_KEY, keys.spot, &name.value, message, help);
    }
    FactorEntry {
        value: value.unwrap_or_else(|| Written::at(f64::NAN, keys.spot)),
        source: source.unwrap_or_else(|| Written::at(String::new(), keys.spot)),
        name,
    }
}

fn vehicle(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> Option<VehicleEntry> {
    let (table, spot) = root.table("vehicle", document)?;
    let keys = Keys { called: "[vehicle]", table, spot };
    keys.only(
        &[
            "wheelbase_mm",
            "track_front_mm",
            "track_rear_mm",
            "front_axle_x_mm",
            "ground_z_mm",
            "centre_y_mm",
            "front_roll_share",
            "front_brake_share",
            "front_drive_share",
            "cg_height_mm",
            "corners",
        ],
        document,
    );
    Some(VehicleEntry {
        vehicle: Written::at((), spot),
        wheelbase_mm: keys.number("wheelbase_mm", document),
        track_front_mm: keys.number("track_front_mm", document),
        track_rear_mm: keys.number("track_rear_mm", document),
        front_axle_x_mm: keys.number("front_axle_x_mm", document),
        ground_z_mm: keys.number("ground_z_mm", document),
        centre_y_mm: keys.number("centre_y_mm", document),
        front_roll_share: keys.number("front_roll_share", document),
        front_brake_share: keys.number("front_brake_share", document),
        front_drive_share: keys.number("front_drive_share", document),
        cg_height_mm: keys.number("cg_height_mm", document),
        corners: corners(&keys, document),
    })
}

fn corners(vehicle: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> [Option<CornerEntry>; 4] {
    let Some((table, spot)) = vehicle.table("corners", document) else { return Default::default() };
    let corners = Keys { called: "[vehicle.corners]", table, spot };
    corners.only(&Wheel::ALL.map(Wheel::name), document);
    Wheel::ALL.map(|wheel| {
        let (table, spot) = corners.table(wheel.name(), document)?;
        let called = format!("[vehicle.corners.{}]", wheel.name());
        let keys = Keys { called: &called, table, spot };
        keys.only(&["contact_mm", "joints", "spring_joint"], document);
        Some(CornerEntry {
            wheel: Written::at(wheel.name().to_owned(), spot),
            contact_mm: keys.point("contact_mm", document),
            joints: keys.texts("joints", document),
            spring_joint: keys.text("spring_joint", document),
        })
    })
}
