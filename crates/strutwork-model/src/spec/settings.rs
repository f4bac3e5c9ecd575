//! `model.toml`.

use std::collections::BTreeSet;

use toml::de::DeTable;

use super::entries::{FactorEntry, MaterialEntry, OptionsEntry, RevisionEntry, SectionEntry, TitleEntry};
use super::keys::{Document, Keys};
use super::panelled::{FixingEntry, SoftJointsEntry};
use super::vehicle_settings::{place, vehicle, weighed};
use super::{ModelSpec, Spot, Written, bolted, judged, rigged, screened, welded};
use crate::codes;
use crate::diagnostic::Diagnostic;
use crate::files;
use crate::reference;

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
    root.known(&reference::TOP, &mut document);
    spec.title = title(&root, &mut document);
    spec.options = options(&root, &mut document);
    spec.sections = named(&root, "sections", &mut document, section);
    spec.materials = named(&root, "materials", &mut document, material);
    spec.factors = named(&root, "factors", &mut document, factor);
    spec.fixings = named(&root, "fixings", &mut document, fixing);
    spec.soft_joints = soft_joints(&root, &mut document);
    spec.bolts = named(&root, "bolts", &mut document, bolted::bolt);
    spec.vehicle = vehicle(&root, &mut document);
    spec.places = named(&root, "places", &mut document, place);
    spec.weighed = weighed(&root, &mut document);
    spec.rig = rigged::rig(&root, &mut document);
    spec.basis = judged::basis(&root, &mut document);
    spec.members = judged::members(&root, &mut document);
    spec.checks = named(&root, "checks", &mut document, judged::check);
    spec.welds = welded::welds(&root, &mut document);
    spec.fatigue = screened::fatigue(&root, &mut document);
    spec.limits = named(&root, "limits", &mut document, screened::limit);
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
        revision: root.text("revision", document),
        revisions: named(root, "revisions", document, revision),
        author: root.text("author", document).map(|text| text.value).unwrap_or_default(),
        notes: plain(root.texts("notes", document)),
        outside: plain(root.texts("outside", document)),
    }
}

fn revision(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> RevisionEntry {
    keys.known(&reference::REVISION, document);
    RevisionEntry {
        name,
        date: keys.date("date", document),
        by: keys.text("by", document).map(|text| text.value).unwrap_or_default(),
        note: keys.texts("note", document).into_iter().map(|text| text.value).collect(),
    }
}

fn options(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> OptionsEntry {
    let default = OptionsEntry::default();
    let Some((table, spot)) = root.table("options", document) else { return default };
    let keys = Keys { called: "[options]", table, spot };
    keys.known(&reference::OPTIONS, document);
    OptionsEntry {
        self_weight: keys.flag("self_weight", default.self_weight, document),
        standard_cases: keys.flag("standard_cases", default.standard_cases, document),
        yield_margin: keys.number("yield_margin", document).unwrap_or(default.yield_margin),
        inertia_relief: keys.has("inertia_relief").then(|| keys.flag("inertia_relief", false, document)),
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
    keys.known(&reference::SECTION, document);
    SectionEntry {
        name,
        shape: keys.text("shape", document),
        route: keys.text("route", document),
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
    keys.known(&reference::MATERIAL, document);
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
        shear_strength_mpa: keys.number("shear_strength_mpa", document),
        source: keys.text("source", document),
    }
}

fn fixing(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> FixingEntry {
    keys.known(&reference::FIXING, document);
    FixingEntry {
        name,
        kind: keys.text("kind", document),
        thickness_mm: keys.number("thickness_mm", document),
        width_mm: keys.number("width_mm", document),
        shear_mpa: keys.number("shear_mpa", document),
        strength_mpa: keys.number("strength_mpa", document),
        pitch_mm: keys.number("pitch_mm", document),
        slip_mm_per_kn: keys.number("slip_mm_per_kn", document),
        strength_n: keys.number("strength_n", document),
        source: keys.text("source", document),
    }
}

fn soft_joints(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> SoftJointsEntry {
    let Some((table, spot)) = root.table("soft_joints", document) else { return SoftJointsEntry::default() };
    let keys = Keys { called: "[soft_joints]", table, spot };
    keys.known(&reference::SOFT_JOINTS, document);
    SoftJointsEntry { when: keys.text("use", document), narrower_than: keys.number("narrower_than", document) }
}

fn factor(name: Written<String>, keys: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> FactorEntry {
    keys.known(&reference::FACTOR, document);
    let value = keys.number("value", document);
    let source = keys.text("source", document);
    let missing = |key: &str, there: bool| {
        let text = format!("the factor `{}` has no `{key}`", name.value);
        (!there).then_some((text, "a factor needs `value = …` and `source = \"…\"`"))
    };
    let given = keys.has("source");
    for (message, help) in [missing("value", value.is_some()), missing("source", given)].into_iter().flatten() {
        document.fault(codes::MISSING_KEY, keys.spot, &name.value, message, help);
    }
    FactorEntry {
        value: value.unwrap_or_else(|| Written::at(f64::NAN, keys.spot)),
        source: source.unwrap_or_else(|| Written::at(String::new(), keys.spot)),
        name,
    }
}
