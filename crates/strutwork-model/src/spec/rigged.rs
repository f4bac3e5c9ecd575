//! The twist rig and the weighed parts, as the user wrote them.

use serde::Serialize;

use super::Written;
use super::keys::{Document, Keys};
use crate::reference;

/// A row of `rig.csv`: one station in one step.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct RigRow {
    /// The name of the station.
    pub station: Written<String>,
    /// x of the station, mm; `None` where another row says it.
    pub x_mm: Option<Written<f64>>,
    /// Distance between the left and the right dial, mm; `None` where another row says it.
    pub spacing_mm: Option<Written<f64>>,
    /// Reading of the left dial, mm; `None` where it was not read.
    pub left_mm: Option<Written<f64>>,
    /// Reading of the right dial, mm; `None` where it was not read.
    pub right_mm: Option<Written<f64>>,
    /// The couple of the step, N·m.
    pub couple_nm: Option<Written<f64>>,
    /// The mass that hangs on the arm in the step, kg.
    pub weight_kg: Option<Written<f64>>,
    /// The length of the arm, mm.
    pub arm_mm: Option<Written<f64>>,
    /// Number of the step within its cycle and direction.
    pub step: Written<f64>,
    /// `loading` or `unloading`; empty: from the couples.
    pub direction: Written<String>,
    /// Number of the cycle; `None`: 1.
    pub cycle: Option<Written<f64>>,
    /// `held` or `loaded`; empty: a station that is only read, or said by another row.
    pub role: Written<String>,
    /// The user's note.
    pub note: String,
}

/// The table `[rig]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct RigEntry {
    /// Where the table stands; no place where there is none.
    pub rig: Written<()>,
    /// What was held where, in words.
    pub held: Option<Written<String>>,
    /// How the couple was applied, in words.
    pub loaded: Option<Written<String>>,
    /// What was fitted to the frame, in words.
    pub fitted: Option<Written<String>>,
    /// `up` or `down`: which way the frame moves when a reading grows.
    pub dials: Option<Written<String>>,
    /// `left` or `right`: on which side the weights hang.
    pub weights_hang: Option<Written<String>>,
    /// Smallest step of a dial, mm.
    pub resolution_mm: Option<Written<f64>>,
    /// How far two readings of the same state differ, mm.
    pub repeatability_mm: Option<Written<f64>>,
    /// How well the couple is known, % either way.
    pub couple_tolerance_percent: Option<Written<f64>>,
    /// How well the spacing of the dials is known, mm either way.
    pub spacing_tolerance_mm: Option<Written<f64>>,
    /// How many cycles at the beginning only settle the frame.
    pub settling_cycles: Option<Written<f64>>,
    /// The two stations between which K is stated.
    pub between: Vec<Written<String>>,
    /// Whether the model's panels were on the frame.
    pub panels_fitted: bool,
    /// `[rig.stations.NAME]`.
    pub stations: Vec<RigStationEntry>,
}

/// A table `[rig.stations.NAME]`.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct RigStationEntry {
    /// Name of the station.
    pub station: Written<String>,
    /// The left and the right joint that it stands at.
    pub joints: Vec<Written<String>>,
}

/// A row of `weighed.csv`: one part on the scales.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct WeighedRow {
    /// What was weighed: a mass, `group: NAME`, `panel: NAME` or `tube: NAME`.
    pub part: Written<String>,
    /// What the scales say, kg.
    pub kg: Written<f64>,
    /// How far the scales may be out either way, kg.
    pub tolerance_kg: Option<Written<f64>>,
    /// The user's note.
    pub note: String,
}

pub(super) fn rig(root: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> RigEntry {
    let Some((table, spot)) = root.table("rig", document) else {
        return RigEntry { panels_fitted: true, ..RigEntry::default() };
    };
    let keys = Keys { called: "[rig]", table, spot };
    keys.known(&reference::RIG, document);
    RigEntry {
        rig: Written::at((), spot),
        held: keys.text("held", document),
        loaded: keys.text("loaded", document),
        fitted: keys.text("fitted", document),
        dials: keys.text("dials", document),
        weights_hang: keys.text("weights_hang", document),
        resolution_mm: keys.number("resolution_mm", document),
        repeatability_mm: keys.number("repeatability_mm", document),
        couple_tolerance_percent: keys.number("couple_tolerance_percent", document),
        spacing_tolerance_mm: keys.number("spacing_tolerance_mm", document),
        settling_cycles: keys.number("settling_cycles", document),
        between: keys.texts("between", document),
        panels_fitted: keys.flag("panels_fitted", true, document),
        stations: stations(&keys, document),
    }
}

fn stations(rig: &Keys<'_, '_>, document: &mut Document<'_, '_>) -> Vec<RigStationEntry> {
    let Some((table, spot)) = rig.table("stations", document) else { return Vec::new() };
    let mut entries = Vec::new();
    for (name, table) in (Keys { called: "[rig.stations]", table, spot }).tables(document) {
        let called = format!("[rig.stations.{}]", name.value);
        let keys = Keys { called: &called, table, spot: name.spot.unwrap_or(spot) };
        keys.known(&reference::RIG_STATION, document);
        entries.push(RigStationEntry { joints: keys.texts("joints", document), station: name });
    }
    entries
}
