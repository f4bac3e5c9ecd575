//! The CSV files of a model folder: their columns, and their rows.

use super::Written;
use super::number;
use super::rows::{
    HoldWritten, JointRow, LoadRow, MassRow, SettlementRow, SupportRow, TemperatureRow, TubeLoadRow, TubePointLoadRow,
    TubeRow,
};
use super::table::{Row, Table};
use crate::codes;
use crate::diagnostic::Diagnostic;
use crate::dof::Dof;
use crate::files;

type Faults = Vec<Diagnostic>;

const LOAD: [&str; 6] = ["fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"];

pub(super) fn joints(text: &str, faults: &mut Faults) -> Vec<JointRow> {
    const TABLE: Table =
        Table { file: files::JOINTS, required: &["joint", "x_mm", "y_mm", "z_mm"], optional: &["note"], needed: true };
    TABLE.read(text, faults, |row| JointRow {
        joint: row.text("joint"),
        x_mm: row.number("x_mm"),
        y_mm: row.number("y_mm"),
        z_mm: row.number("z_mm"),
        note: row.text("note").value,
    })
}

pub(super) fn tubes(text: &str, faults: &mut Faults) -> Vec<TubeRow> {
    const TABLE: Table = Table {
        file: files::TUBES,
        required: &["tube", "from", "to", "section", "material"],
        optional: &["group", "roll_deg", "release_from", "release_to", "note"],
        needed: true,
    };
    TABLE.read(text, faults, |row| TubeRow {
        tube: row.text("tube"),
        from: row.text("from"),
        to: row.text("to"),
        section: row.text("section"),
        material: row.text("material"),
        group: row.text("group"),
        roll_deg: row.number_or("roll_deg", 0.0),
        release_from: row.text("release_from"),
        release_to: row.text("release_to"),
        note: row.text("note").value,
    })
}

pub(super) fn supports(text: &str, faults: &mut Faults) -> Vec<SupportRow> {
    const TABLE: Table = Table {
        file: files::SUPPORTS,
        required: &["joint", "ux", "uy", "uz", "rx", "ry", "rz"],
        optional: &[],
        needed: false,
    };
    TABLE.read(text, faults, |row| SupportRow { joint: row.text("joint"), holds: Dof::ALL.map(|dof| hold(row, dof)) })
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
    const TABLE: Table = Table {
        file: files::LOADS,
        required: &["case", "joint", "fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"],
        optional: &[],
        needed: false,
    };
    TABLE.read(text, faults, |row| LoadRow {
        case: row.text("case"),
        joint: row.text("joint"),
        load: LOAD.map(|column| row.number(column)),
    })
}

pub(super) fn tube_loads(text: &str, faults: &mut Faults) -> Vec<TubeLoadRow> {
    const TABLE: Table = Table {
        file: files::TUBE_LOADS,
        required: &["case", "tube", "axes", "wx_n_per_m", "wy_n_per_m", "wz_n_per_m"],
        optional: &["wx_to_n_per_m", "wy_to_n_per_m", "wz_to_n_per_m"],
        needed: false,
    };
    TABLE.read(text, faults, |row| TubeLoadRow {
        case: row.text("case"),
        tube: row.text("tube"),
        axes: row.text("axes"),
        from_n_per_m: ["wx_n_per_m", "wy_n_per_m", "wz_n_per_m"].map(|column| row.number(column)),
        to_n_per_m: ["wx_to_n_per_m", "wy_to_n_per_m", "wz_to_n_per_m"].map(|column| row.optional_number(column)),
    })
}

pub(super) fn tube_point_loads(text: &str, faults: &mut Faults) -> Vec<TubePointLoadRow> {
    const TABLE: Table = Table {
        file: files::TUBE_POINT_LOADS,
        required: &["case", "tube", "axes", "at", "fx_n", "fy_n", "fz_n", "mx_nm", "my_nm", "mz_nm"],
        optional: &[],
        needed: false,
    };
    TABLE.read(text, faults, |row| TubePointLoadRow {
        case: row.text("case"),
        tube: row.text("tube"),
        axes: row.text("axes"),
        at: row.number("at"),
        load: LOAD.map(|column| row.number(column)),
    })
}

pub(super) fn temperatures(text: &str, faults: &mut Faults) -> Vec<TemperatureRow> {
    const TABLE: Table = Table {
        file: files::TEMPERATURES,
        required: &["case", "tube", "rise_k"],
        optional: &["gradient_y_k_per_m", "gradient_z_k_per_m"],
        needed: false,
    };
    TABLE.read(text, faults, |row| TemperatureRow {
        case: row.text("case"),
        tube: row.text("tube"),
        rise_k: row.number("rise_k"),
        gradient_y_k_per_m: row.number_or("gradient_y_k_per_m", 0.0),
        gradient_z_k_per_m: row.number_or("gradient_z_k_per_m", 0.0),
    })
}

pub(super) fn settlements(text: &str, faults: &mut Faults) -> Vec<SettlementRow> {
    const TABLE: Table = Table {
        file: files::SETTLEMENTS,
        required: &["case", "joint", "ux_mm", "uy_mm", "uz_mm", "rx_deg", "ry_deg", "rz_deg"],
        optional: &[],
        needed: false,
    };
    TABLE.read(text, faults, |row| SettlementRow {
        case: row.text("case"),
        joint: row.text("joint"),
        moves: ["ux_mm", "uy_mm", "uz_mm", "rx_deg", "ry_deg", "rz_deg"].map(|column| row.optional_number(column)),
    })
}

pub(super) fn masses(text: &str, faults: &mut Faults) -> Vec<MassRow> {
    const TABLE: Table = Table {
        file: files::MASSES,
        required: &["mass", "kg", "x_mm", "y_mm", "z_mm", "joints"],
        optional: &["note"],
        needed: false,
    };
    TABLE.read(text, faults, |row| {
        let (joints, body) = carriers(row);
        MassRow {
            mass: row.text("mass"),
            kg: row.number("kg"),
            x_mm: row.number("x_mm"),
            y_mm: row.number("y_mm"),
            z_mm: row.number("z_mm"),
            joints,
            body,
            note: row.text("note").value,
        }
    })
}

/// Joints separated by blanks, or `body: NAME`.
fn carriers(row: &Row<'_, '_>) -> (Vec<Written<String>>, Option<Written<String>>) {
    let cell = row.text("joints");
    match cell.strip_prefix("body:") {
        Some(name) => (Vec::new(), Some(Written { value: name.trim().to_owned(), spot: cell.spot })),
        None => (row.words("joints"), None),
    }
}
