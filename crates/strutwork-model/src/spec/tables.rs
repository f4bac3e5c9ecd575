//! The CSV files of a model folder: their columns, and their rows.

use super::mounted::{BodyRow, BondWritten, LinkRow};
use super::number;
use super::panelled::{PanelRow, TubeEndWritten};
use super::rigged::{RigRow, WeighedRow};
use super::rows::{
    HoldWritten, JointRow, LoadRow, MassRow, SettlementRow, SupportRow, TemperatureRow, TubeLoadRow, TubePointLoadRow,
    TubeRow,
};
use super::table::Row;
use super::{BucklingWritten, CarrierWritten, LoadedWritten, Written, carried};
use crate::codes;
use crate::diagnostic::Diagnostic;
use crate::dof::Dof;
use crate::reference;

type Faults = Vec<Diagnostic>;

const LOAD: [&str; 6] = ["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"];

pub(super) fn joints(text: &str, faults: &mut Faults) -> Vec<JointRow> {
    reference::JOINTS.read(text, faults, |row| JointRow {
        joint: row.text("joint"),
        x_mm: row.number("x_mm"),
        y_mm: row.number("y_mm"),
        z_mm: row.number("z_mm"),
        note: row.text("note").value,
    })
}

pub(super) fn tubes(text: &str, faults: &mut Faults) -> Vec<TubeRow> {
    reference::TUBES.read(text, faults, |row| TubeRow {
        tube: row.text("tube"),
        from: row.text("from"),
        to: row.text("to"),
        section: row.text("section"),
        material: row.text("material"),
        group: row.text("group"),
        roll_deg: row.number_or("roll_deg", 0.0),
        release_from: row.text("release_from"),
        release_to: row.text("release_to"),
        end_from: tube_end(row, &FROM_OFFSETS, &FROM_SPRINGS),
        end_to: tube_end(row, &TO_OFFSETS, &TO_SPRINGS),
        buckling: [("buckling_y_mm", "buckling_factor_y"), ("buckling_z_mm", "buckling_factor_z")].map(
            |(length, factor)| BucklingWritten {
                length_mm: row.optional_number(length),
                factor: row.optional_number(factor),
            },
        ),
        note: row.text("note").value,
    })
}

const FROM_OFFSETS: [&str; 3] = ["offset_from_x_mm", "offset_from_y_mm", "offset_from_z_mm"];
const TO_OFFSETS: [&str; 3] = ["offset_to_x_mm", "offset_to_y_mm", "offset_to_z_mm"];
const FROM_SPRINGS: [&str; 4] =
    ["spring_from_ux_n_per_mm", "spring_from_rx_nm_per_deg", "spring_from_ry_nm_per_deg", "spring_from_rz_nm_per_deg"];
const TO_SPRINGS: [&str; 4] =
    ["spring_to_ux_n_per_mm", "spring_to_rx_nm_per_deg", "spring_to_ry_nm_per_deg", "spring_to_rz_nm_per_deg"];

fn tube_end(row: &mut Row<'_, '_>, offsets: &[&'static str; 3], springs: &[&'static str; 4]) -> TubeEndWritten {
    TubeEndWritten {
        offset_mm: offsets.map(|column| row.number_or(column, 0.0)),
        springs: springs.map(|column| row.optional_number(column)),
    }
}

pub(super) fn panels(text: &str, faults: &mut Faults) -> Vec<PanelRow> {
    reference::PANELS.read(text, faults, |row| PanelRow {
        panel: row.text("panel"),
        joints: row.words("joints"),
        material: row.text("material"),
        thickness_mm: row.number("thickness_mm"),
        fixing: row.text("fixing"),
        note: row.text("note").value,
    })
}

pub(super) fn supports(text: &str, faults: &mut Faults) -> Vec<SupportRow> {
    reference::SUPPORTS
        .read(text, faults, |row| SupportRow { joint: row.text("joint"), holds: Dof::ALL.map(|dof| hold(row, dof)) })
}

fn hold(row: &mut Row<'_, '_>, dof: Dof) -> Written<HoldWritten> {
    let Written { value: text, spot } = row.text(dof.name());
    let unit = if dof.is_rotation() { "N·m/deg" } else { "N/mm" };
    let value = match text.as_str() {
        "fixed" => HoldWritten::Fixed,
        "free" => HoldWritten::Free,
        _ => HoldWritten::Stiffness(number::parse(&text).unwrap_or_else(|fault| {
            let wanted = format!("write `fixed`, `free` or a stiffness in {unit}");
            if text.is_empty() {
                row.fault(
                    codes::BLANK_CELL,
                    spot,
                    dof.name(),
                    format!("the cell of `{}` is empty", dof.name()),
                    wanted,
                );
            } else if fault.code == codes::NOT_FINITE {
                row.fault(fault.code, spot, dof.name(), fault.message, wanted);
            } else {
                let digit = text.starts_with(|c: char| c.is_ascii_digit() || c == '-');
                let help = if digit { fault.help } else { wanted };
                let code = if digit { fault.code } else { codes::UNKNOWN_WORD };
                let message = format!("`{}` is not a way to hold a joint", number::shown(&text));
                row.fault(code, spot, dof.name(), message, help);
            }
            f64::NAN
        })),
    };
    Written { value, spot }
}

pub(super) fn loads(text: &str, faults: &mut Faults) -> Vec<LoadRow> {
    reference::LOADS.read(text, faults, |row| LoadRow {
        case: row.text("case"),
        on: loaded(row),
        load: LOAD.map(|column| row.number(column)),
        at_mm: ["x_mm", "y_mm", "z_mm"].map(|column| row.optional_number(column)),
    })
}

pub(super) fn tube_loads(text: &str, faults: &mut Faults) -> Vec<TubeLoadRow> {
    reference::TUBE_LOADS.read(text, faults, |row| TubeLoadRow {
        case: row.text("case"),
        tube: row.text("tube"),
        axes: row.text("axes"),
        from_n_per_m: ["wx_n_per_m", "wy_n_per_m", "wz_n_per_m"].map(|column| row.number(column)),
        to_n_per_m: ["wx_to_n_per_m", "wy_to_n_per_m", "wz_to_n_per_m"].map(|column| row.optional_number(column)),
    })
}

pub(super) fn tube_point_loads(text: &str, faults: &mut Faults) -> Vec<TubePointLoadRow> {
    reference::TUBE_POINT_LOADS.read(text, faults, |row| TubePointLoadRow {
        case: row.text("case"),
        tube: row.text("tube"),
        axes: row.text("axes"),
        at: row.number("at"),
        load: LOAD.map(|column| row.number(column)),
    })
}

pub(super) fn temperatures(text: &str, faults: &mut Faults) -> Vec<TemperatureRow> {
    reference::TEMPERATURES.read(text, faults, |row| TemperatureRow {
        case: row.text("case"),
        tube: row.text("tube"),
        rise_k: row.number("rise_k"),
        gradient_y_k_per_m: row.number_or("gradient_y_k_per_m", 0.0),
        gradient_z_k_per_m: row.number_or("gradient_z_k_per_m", 0.0),
    })
}

pub(super) fn settlements(text: &str, faults: &mut Faults) -> Vec<SettlementRow> {
    reference::SETTLEMENTS.read(text, faults, |row| SettlementRow {
        case: row.text("case"),
        joint: row.text("joint"),
        moves: ["ux_mm", "uy_mm", "uz_mm", "rx_deg", "ry_deg", "rz_deg"].map(|column| row.optional_number(column)),
    })
}

/// A joint, or `body: NAME`.
fn loaded(row: &Row<'_, '_>) -> LoadedWritten {
    let cell = row.text("joint");
    carried::after("body", &cell).map_or(LoadedWritten::Joint(cell), LoadedWritten::Body)
}

pub(super) fn masses(text: &str, faults: &mut Faults) -> Vec<MassRow> {
    reference::MASSES.read(text, faults, |row| MassRow {
        mass: row.text("mass"),
        kg: row.number("kg"),
        x_mm: row.number("x_mm"),
        y_mm: row.number("y_mm"),
        z_mm: row.number("z_mm"),
        carrier: carrier(row),
        inertia_kg_m2: ["ixx_kg_m2", "iyy_kg_m2", "izz_kg_m2"].map(|column| row.number_or(column, 0.0)),
        when: row.text("when"),
        note: row.text("note").value,
    })
}

/// Joints separated by blanks, `body: NAME`, or `upright: WHEEL`.
fn carrier(row: &Row<'_, '_>) -> CarrierWritten {
    let cell = row.text("joints");
    if let Some(name) = carried::after("body", &cell) {
        CarrierWritten::Body(name)
    } else if let Some(name) = carried::after("upright", &cell) {
        CarrierWritten::Upright(name)
    } else {
        CarrierWritten::Joints(row.words("joints"))
    }
}

const BONDS: [&str; 6] =
    ["kx_n_per_mm", "ky_n_per_mm", "kz_n_per_mm", "krx_nm_per_deg", "kry_nm_per_deg", "krz_nm_per_deg"];

pub(super) fn bodies(text: &str, faults: &mut Faults) -> Vec<BodyRow> {
    reference::BODIES.read(text, faults, |row| BodyRow {
        body: row.text("body"),
        joint: row.text("joint"),
        bonds: BONDS.map(|column| bond(row, column)),
        bolt: Some(row.text("bolt")).filter(|name| !name.is_empty()),
        axis: direction(row, "axis"),
        note: row.text("note").value,
    })
}

fn bond(row: &mut Row<'_, '_>, column: &'static str) -> Written<BondWritten> {
    let Written { value: text, spot } = row.text(column);
    let value = match text.as_str() {
        "" => BondWritten::Blank,
        "rigid" => BondWritten::Rigid,
        "free" => BondWritten::Free,
        _ => BondWritten::Stiffness(number::parse(&text).unwrap_or_else(|fault| {
            let digit = text.starts_with(|c: char| c.is_ascii_digit() || c == '-');
            let (code, help) = if digit || fault.code == codes::NOT_FINITE {
                (fault.code, fault.help)
            } else {
                (codes::UNKNOWN_WORD, "write `rigid`, `free` or a stiffness; an empty cell is rigid".to_owned())
            };
            let message = format!("`{}` is not a way to bolt a body on", number::shown(&text));
            row.fault(code, spot, column, message, help);
            f64::NAN
        })),
    };
    Written { value, spot }
}

fn direction(row: &mut Row<'_, '_>, column: &'static str) -> Option<Written<[f64; 3]>> {
    let Written { value: text, spot } = row.text(column);
    if text.is_empty() {
        return None;
    }
    let value = number::direction(&text).unwrap_or_else(|fault| {
        row.fault(fault.code, spot, column, fault.message, fault.help);
        [f64::NAN; 3]
    });
    Some(Written { value, spot })
}

pub(super) fn suspension(text: &str, faults: &mut Faults) -> Vec<LinkRow> {
    reference::SUSPENSION.read(text, faults, |row| LinkRow {
        corner: row.text("corner"),
        link: row.text("link"),
        carrier: carrier(row),
        upright_mm: ["upright_x_mm", "upright_y_mm", "upright_z_mm"].map(|column| row.number(column)),
        chassis_mm: ["chassis_x_mm", "chassis_y_mm", "chassis_z_mm"].map(|column| row.optional_number(column)),
        kind: row.text("kind"),
        note: row.text("note").value,
    })
}

pub(super) fn rig(text: &str, faults: &mut Faults) -> Vec<RigRow> {
    reference::RIG_SHEET.read(text, faults, |row| RigRow {
        station: row.text("station"),
        x_mm: row.optional_number("x_mm"),
        spacing_mm: row.optional_number("spacing_mm"),
        left_mm: row.optional_number("left_mm"),
        right_mm: row.optional_number("right_mm"),
        couple_nm: row.optional_number("couple_nm"),
        weight_kg: row.optional_number("weight_kg"),
        arm_mm: row.optional_number("arm_mm"),
        step: row.number("step"),
        direction: row.text("direction"),
        cycle: row.optional_number("cycle"),
        role: row.text("role"),
        note: row.text("note").value,
    })
}

pub(super) fn weighed(text: &str, faults: &mut Faults) -> Vec<WeighedRow> {
    reference::WEIGHED_PARTS.read(text, faults, |row| WeighedRow {
        part: row.text("part"),
        kg: row.number("kg"),
        tolerance_kg: row.optional_number("tolerance_kg"),
        note: row.text("note").value,
    })
}
