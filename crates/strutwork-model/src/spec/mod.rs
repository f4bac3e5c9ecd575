//! The model as written: names as text, door units, possibly wrong.
//!
//! [`parse`] makes a [`ModelSpec`] of the files of a model folder; a script makes or changes one by hand. Either way
//! [`validate`](crate::validate::validate) makes a [`Model`](crate::Model) of it, or says every fault.

mod bolted;
mod carried;
mod csv;
mod entries;
mod judged;
mod keys;
mod mounted;
mod number;
mod panelled;
mod rigged;
mod rows;
mod screened;
mod settings;
mod table;
mod tables;
mod text;
mod unit_hint;
mod vehicle_entries;
mod vehicle_settings;
mod welded;
mod written;

pub use bolted::BoltEntry;
pub use carried::{CarrierWritten, LoadedWritten};
pub use entries::{FactorEntry, MaterialEntry, OptionsEntry, RevisionEntry, SectionEntry, TitleEntry};
pub use judged::{BasisEntry, BucklingWritten, CheckEntry, GammaEntry, MembersEntry};
pub use mounted::{BodyRow, BondWritten, LinkRow};
pub use panelled::{FixingEntry, PanelRow, SoftJointsEntry, TubeEndWritten};
pub use rigged::{RigEntry, RigRow, RigStationEntry, WeighedRow};
pub use rows::{
    HoldWritten, JointRow, LoadRow, MassRow, SettlementRow, SupportRow, TemperatureRow, TubeLoadRow, TubePointLoadRow,
    TubeRow,
};
pub use screened::{DetailEntry, FatigueEntry, LimitEntry, PairEntry};
pub use vehicle_entries::{AxleEntry, CornerEntry, PlaceEntry, VehicleEntry, WeighedEntry};
pub use welded::{WeldEntry, WeldsEntry};
pub use written::{Spot, Written};

use serde::Serialize;

use crate::codes;
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::files::{self, InputFiles, KNOWN_FILES};
use crate::nearest::did_you_mean;

/// A model as the user wrote it. Every list in input order.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct ModelSpec {
    /// Title block.
    pub title: TitleEntry,
    /// `[options]`.
    pub options: OptionsEntry,
    /// `[sections.…]`.
    pub sections: Vec<SectionEntry>,
    /// `[materials.…]`.
    pub materials: Vec<MaterialEntry>,
    /// `joints.csv`.
    pub joints: Vec<JointRow>,
    /// `tubes.csv`.
    pub tubes: Vec<TubeRow>,
    /// `supports.csv`.
    pub supports: Vec<SupportRow>,
    /// `loads.csv`.
    pub loads: Vec<LoadRow>,
    /// `tube_loads.csv`.
    pub tube_loads: Vec<TubeLoadRow>,
    /// `tube_point_loads.csv`.
    pub tube_point_loads: Vec<TubePointLoadRow>,
    /// `temperatures.csv`.
    pub temperatures: Vec<TemperatureRow>,
    /// `settlements.csv`.
    pub settlements: Vec<SettlementRow>,
    /// `masses.csv`.
    pub masses: Vec<MassRow>,
    /// `bodies.csv`.
    pub bodies: Vec<BodyRow>,
    /// `suspension.csv`.
    pub suspension: Vec<LinkRow>,
    /// `panels.csv`.
    pub panels: Vec<PanelRow>,
    /// `[fixings.…]`.
    pub fixings: Vec<FixingEntry>,
    /// `[soft_joints]`.
    pub soft_joints: SoftJointsEntry,
    /// `[bolts.…]`.
    pub bolts: Vec<BoltEntry>,
    /// `[vehicle]`.
    pub vehicle: Option<VehicleEntry>,
    /// `[places.…]`.
    pub places: Vec<PlaceEntry>,
    /// `[weighed]`.
    pub weighed: WeighedEntry,
    /// `weighed.csv`.
    pub weighed_parts: Vec<WeighedRow>,
    /// `[rig]`.
    pub rig: RigEntry,
    /// `rig.csv`.
    pub rig_rows: Vec<RigRow>,
    /// `[factors.…]`.
    pub factors: Vec<FactorEntry>,
    /// `[basis]`.
    pub basis: BasisEntry,
    /// `[members]`.
    pub members: MembersEntry,
    /// `[checks.…]`.
    pub checks: Vec<CheckEntry>,
    /// `[welds]`.
    pub welds: WeldsEntry,
    /// `[fatigue]`.
    pub fatigue: FatigueEntry,
    /// `[limits.…]`.
    pub limits: Vec<LimitEntry>,
}

/// Reads the files of a model folder.
///
/// Reads on after a fault: what can be read is in the spec, what cannot be read is in the diagnostics, and a number that
/// cannot be read is NaN in the spec. Files with other names than [`KNOWN_FILES`] are left alone, but for a warning where
/// a `.csv` file looks like a misspelt one.
pub fn parse(files: &InputFiles) -> (ModelSpec, Vec<Diagnostic>) {
    let mut spec = ModelSpec::default();
    let mut faults = Vec::new();
    for known in KNOWN_FILES {
        match files.get(known.name) {
            Some(bytes) => {
                if let Some(text) = text::decode(known.name, bytes, &mut faults) {
                    read(known.name, text, &mut spec, &mut faults);
                }
            }
            None if known.required => faults.push(missing(known)),
            None => {}
        }
    }
    for file in &files.0 {
        if file.name.ends_with(".csv") && KNOWN_FILES.iter().all(|known| known.name != file.name) {
            faults.push(unknown(&file.name));
        }
    }
    (spec, faults)
}

fn read(name: &'static str, text: &str, spec: &mut ModelSpec, faults: &mut Vec<Diagnostic>) {
    match name {
        files::MODEL => settings::read(text, spec, faults),
        files::JOINTS => spec.joints = tables::joints(text, faults),
        files::TUBES => spec.tubes = tables::tubes(text, faults),
        files::SUPPORTS => spec.supports = tables::supports(text, faults),
        files::LOADS => spec.loads = tables::loads(text, faults),
        files::TUBE_LOADS => spec.tube_loads = tables::tube_loads(text, faults),
        files::TUBE_POINT_LOADS => spec.tube_point_loads = tables::tube_point_loads(text, faults),
        files::TEMPERATURES => spec.temperatures = tables::temperatures(text, faults),
        files::SETTLEMENTS => spec.settlements = tables::settlements(text, faults),
        files::MASSES => spec.masses = tables::masses(text, faults),
        files::BODIES => spec.bodies = tables::bodies(text, faults),
        files::SUSPENSION => spec.suspension = tables::suspension(text, faults),
        files::PANELS => spec.panels = tables::panels(text, faults),
        files::RIG => spec.rig_rows = tables::rig(text, faults),
        files::WEIGHED => spec.weighed_parts = tables::weighed(text, faults),
        _ => {}
    }
}

fn missing(known: &files::KnownFile) -> Diagnostic {
    Diagnostic {
        code: codes::MISSING_FILE,
        severity: Severity::Error,
        place: Some(Place::file(known.name)),
        subject: known.name.to_owned(),
        message: format!("`{}` is not there: {}", known.name, known.holds),
        help: "a model folder needs model.toml, joints.csv and tubes.csv".to_owned(),
    }
}

fn unknown(name: &str) -> Diagnostic {
    let known = KNOWN_FILES.iter().map(|known| known.name);
    Diagnostic {
        code: codes::UNKNOWN_FILE,
        severity: Severity::Warning,
        place: Some(Place::file(name)),
        subject: name.to_owned(),
        message: format!("`{name}` is not a file of a model: nothing reads it"),
        help: did_you_mean(name, known)
            .unwrap_or_else(|| "move it elsewhere if it does not belong to the model".to_owned()),
    }
}
