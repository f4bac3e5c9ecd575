//! Welds and bolts: how they are made, and the list of welds.

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_checks::design::weld_list::{WeldItem, weld_list};
use strutwork_model::model::Model;
use strutwork_model::spec::{BoltEntry, WeldEntry, Written};
use strutwork_model::units::{to_deg, to_mm};

use crate::api::Raised;
use crate::fault::Fault;
use crate::handle::Frame;
use crate::number::{Named, map, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

const WELDS: &[&str] = &["kind", "throat_mm", "method", "process"];
const GROUP: &[&str] = &["kind", "throat_mm"];
const BOLT: &[&str] = &[
    "size",
    "grade",
    "shear_plane",
    "shear_planes",
    "clamps",
    "sleeve_outer_mm",
    "sleeve_wall_mm",
    "plate_mm",
    "plate_material",
    "edge_mm",
    "hole_mm",
    "preload_n",
    "friction",
    "countersunk",
];

const fn weld_group(row: &WeldEntry) -> &Written<String> {
    &row.group
}

const fn bolt_name(row: &BoltEntry) -> &Written<String> {
    &row.name
}

/// Puts what the map names into a weld; the rest stays.
fn put_weld(weld: &mut WeldEntry, change: &Named<'_>) -> Result<(), Fault> {
    put_text(&mut weld.kind, change, "kind")?;
    put_number(&mut weld.throat_mm, change, "throat_mm")
}

/// Puts what the map names into a kind of bolt; the rest stays, but for the sizes of what it clamped before.
fn put_bolt(bolt: &mut BoltEntry, change: &Named<'_>) -> Result<(), Fault> {
    if change.text("clamps")?.is_some() {
        bolt.plate_material = None;
        for cell in [&mut bolt.sleeve_outer_mm, &mut bolt.sleeve_wall_mm, &mut bolt.plate_mm] {
            *cell = None;
        }
    }
    for (key, cell) in [
        ("size", &mut bolt.size),
        ("grade", &mut bolt.grade),
        ("shear_plane", &mut bolt.shear_plane),
        ("clamps", &mut bolt.clamps),
        ("plate_material", &mut bolt.plate_material),
    ] {
        put_text(cell, change, key)?;
    }
    for (key, cell) in [
        ("shear_planes", &mut bolt.shear_planes),
        ("sleeve_outer_mm", &mut bolt.sleeve_outer_mm),
        ("sleeve_wall_mm", &mut bolt.sleeve_wall_mm),
        ("plate_mm", &mut bolt.plate_mm),
        ("edge_mm", &mut bolt.edge_mm),
        ("hole_mm", &mut bolt.hole_mm),
        ("preload_n", &mut bolt.preload_n),
        ("friction", &mut bolt.friction),
    ] {
        put_number(cell, change, key)?;
    }
    if let Some(countersunk) = change.flag("countersunk")? {
        bolt.countersunk = countersunk;
    }
    Ok(())
}

/// Puts a text into a cell, where the map names it.
pub(super) fn put_text(cell: &mut Option<Written<String>>, change: &Named<'_>, key: &str) -> Result<(), Fault> {
    if let Some(text) = change.text(key)? {
        *cell = Some(text.as_str().into());
    }
    Ok(())
}

/// Puts a number into a cell, where the map names it.
pub(super) fn put_number(cell: &mut Option<Written<f64>>, change: &Named<'_>, key: &str) -> Result<(), Fault> {
    if let Some(number) = change.number(key)? {
        *cell = Some(number.into());
    }
    Ok(())
}

/// A copy of the row with this name, where there is one.
pub(super) fn known<T: Clone>(rows: &[T], name: &str, name_of: fn(&T) -> &Written<String>) -> Option<T> {
    rows.iter().find(|row| name_of(row).value == name).cloned()
}

/// Puts a row in the place of the one with its name, or at the end.
pub(super) fn put_back<T>(rows: &mut Vec<T>, row: T, name_of: fn(&T) -> &Written<String>) {
    match rows.iter().position(|known| name_of(known).value == name_of(&row).value) {
        Some(place) => rows[place] = row,
        None => rows.push(row),
    }
}

fn weld_map(model: &Model, weld: &WeldItem) -> Map {
    let mut data = map([("angle_deg", to_deg(weld.angle))]);
    for (key, text) in [
        ("tube", &model.tubes()[weld.tube].name),
        ("joint", &model.joints()[weld.joint].name),
        ("on", &model.tubes()[weld.host].name),
    ] {
        data.insert(key.into(), text.into());
    }
    data.insert("kind".into(), weld.kind.word().into());
    data.insert("throat_given".into(), weld.throat_given.into());
    for (key, value) in [
        ("throat_mm", weld.throat.map(to_mm)),
        ("length_mm", weld.length.map(to_mm)),
        ("full_strength_throat_mm", weld.full_strength_throat.map(to_mm)),
        ("metal_kg", weld.metal),
    ] {
        data.insert(key.into(), optional(value));
    }
    data
}

#[export_module]
mod functions {
    use super::*;

    /// Every weld of the frame, joint by joint: an array of maps with `tube`, `joint`, `on` (the tube that it stands on),
    /// `kind`, `throat_given` and sizes.
    ///
    /// * Numbers that cannot be known are `()`: the throat round a bar, the length round a section given by its properties.
    ///
    /// # Units
    /// `angle_deg` in degrees between tube and face; `throat_mm`, `length_mm` and `full_strength_throat_mm`, the throat as strong
    /// as the tube's wall, in mm; `metal_kg` in kg.
    ///
    /// ```rhai
    /// let metres = 0.0;
    /// for weld in model().welds() { metres += weld.length_mm / 1000; }
    /// print(`${fixed(metres, 1)} m of weld`);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn welds(frame: Frame) -> Result<Array, Raised> {
        let model = frame.model()?;
        Ok(weld_list(&model).iter().map(|weld| Dynamic::from(weld_map(&model, weld))).collect())
    }

    /// Sets how tubes are welded and how welds are judged, as `[welds]` in model.toml does: any of `kind`, `throat_mm`, `method`,
    /// `process`. What is not given stays.
    ///
    /// # Units
    /// `throat_mm` in mm.
    ///
    /// ```rhai
    /// model().set_welds(#{ throat_mm: 3, method: "simplified" });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_welds(frame: Frame, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_welds", &change, WELDS)?;
        Ok(frame.change("set_welds", |spec| {
            let mut welds = spec.welds.clone();
            put_weld(&mut welds.all, &change)?;
            put_text(&mut welds.method, &change, "method")?;
            put_text(&mut welds.process, &change, "process")?;
            spec.welds = welds;
            Ok(())
        })?)
    }

    /// Sets how the tubes of a group are welded, as `[welds.groups.NAME]` does: any of `kind`, `throat_mm`. What is not given
    /// stays.
    ///
    /// # Units
    /// `throat_mm` in mm.
    ///
    /// ```rhai
    /// model().set_weld_group("diagonals", #{ throat_mm: 2 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_weld_group(frame: Frame, group: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_weld_group", &change, GROUP)?;
        Ok(frame.change("set_weld_group", |spec| {
            let mut row = known(&spec.welds.groups, group, weld_group)
                .unwrap_or_else(|| WeldEntry { group: group.into(), ..WeldEntry::default() });
            put_weld(&mut row, &change)?;
            put_back(&mut spec.welds.groups, row, weld_group);
            Ok(())
        })?)
    }

    /// Changes a kind of bolt, as `[bolts.NAME]` describes it: any of `size`, `grade`, `clamps` with the sizes of what it clamps,
    /// `shear_plane`, `shear_planes`, `edge_mm`, `hole_mm`, `preload_n`, `friction`, `countersunk`. What is not given stays; a
    /// kind that is not there is added.
    ///
    /// * With `clamps` the sizes of what it clamped before are taken out.
    ///
    /// # Units
    /// `sleeve_outer_mm`, `sleeve_wall_mm`, `plate_mm`, `edge_mm`, `hole_mm` in mm; `preload_n` in N.
    ///
    /// ```rhai
    /// model().set_bolt("seat", #{ size: "M10", grade: "8.8", clamps: "sleeve", sleeve_outer_mm: 16, sleeve_wall_mm: 2.5 });
    /// ```
    #[rhai_fn(return_raw)]
    pub fn set_bolt(frame: Frame, name: &str, change: Map) -> Result<(), Raised> {
        let change = Named::new("set_bolt", &change, BOLT)?;
        Ok(frame.change("set_bolt", |spec| {
            let mut row = known(&spec.bolts, name, bolt_name)
                .unwrap_or_else(|| BoltEntry { name: name.into(), ..BoltEntry::default() });
            put_bolt(&mut row, &change)?;
            put_back(&mut spec.bolts, row, bolt_name);
            Ok(())
        })?)
    }
}
