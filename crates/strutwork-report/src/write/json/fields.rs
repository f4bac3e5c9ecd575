//! The fields of `run.json`, in the order in which they are written.

use std::borrow::Cow;

use serde::Serialize;

#[derive(Serialize)]
pub(super) struct Document<'a> {
    pub(super) version: &'a str,
    pub(super) date: &'a str,
    pub(super) command: &'a str,
    pub(super) model: ModelFields<'a>,
    pub(super) mass: MassFields,
    pub(super) bays: BayFields,
    pub(super) figures: Option<FigureFields<'a>>,
    pub(super) inputs: Vec<Input<'a>>,
    pub(super) options: OptionFields<'a>,
    pub(super) warnings: Vec<Warning<'a>>,
    pub(super) counters: CounterFields,
    pub(super) systems: Vec<System<'a>>,
    pub(super) cases: Vec<Case<'a>>,
    pub(super) findings: FindingCounts,
    pub(super) judging: JudgingFields<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) modes: Option<ModesFields>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) modes_under: Option<ModesUnderFields<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) buckling: Option<Vec<BucklingFields<'a>>>,
    pub(super) second_order: Option<SecondOrderFields<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) since: Option<SinceFields<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rig: Option<RigFields>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) scales: Option<ScaleFields>,
    pub(super) timings_ms: Vec<Timing<'a>>,
}

#[derive(Serialize)]
pub(super) struct RigFields {
    pub(super) stations: usize,
    pub(super) steps: usize,
    pub(super) readings: usize,
    pub(super) left_out: usize,
    pub(super) stiffness_nm_per_deg: Option<f64>,
    pub(super) interval_nm_per_deg: Option<[f64; 2]>,
    pub(super) interval_of_fit_nm_per_deg: Option<[f64; 2]>,
    pub(super) loading_nm_per_deg: Option<f64>,
    pub(super) unloading_nm_per_deg: Option<f64>,
    pub(super) modelled_nm_per_deg: Option<f64>,
    pub(super) modelled_soft_nm_per_deg: Option<f64>,
    pub(super) measured_over_modelled: Option<f64>,
    pub(super) ratio_interval: Option<[f64; 2]>,
    pub(super) standing: Option<&'static str>,
    pub(super) loop_percent: Option<f64>,
    pub(super) taken_for_granted: usize,
    pub(super) remarks: Vec<&'static str>,
}

#[derive(Serialize)]
pub(super) struct ScaleFields {
    pub(super) parts: usize,
    pub(super) corners_kg: Option<f64>,
    pub(super) centre_mm: Option<[f64; 2]>,
    pub(super) centre_uncertainty_mm: Option<[f64; 2]>,
    pub(super) height_mm: Option<f64>,
    pub(super) height_uncertainty_mm: Option<f64>,
    pub(super) remarks: Vec<&'static str>,
}

#[derive(Serialize)]
pub(super) struct ModelFields<'a> {
    pub(super) title: &'a str,
    pub(super) revision: &'a str,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) revisions: Vec<RevisionField<'a>>,
    pub(super) author: &'a str,
    pub(super) joints: usize,
    pub(super) tubes: usize,
    pub(super) panels: usize,
    pub(super) bodies: usize,
    pub(super) mounts: usize,
    pub(super) links: usize,
}

/// What was done in a revision, as the model's author lists it.
#[derive(Serialize)]
pub(super) struct RevisionField<'a> {
    pub(super) name: &'a str,
    pub(super) date: &'a str,
    pub(super) by: &'a str,
    pub(super) note: &'a [String],
}

/// The older run that this one was held against.
#[derive(Serialize)]
pub(super) struct SinceFields<'a> {
    pub(super) folder: &'a str,
    pub(super) revision: &'a str,
    pub(super) date: &'a str,
    pub(super) same: bool,
    pub(super) changes: Option<usize>,
    pub(super) newly_over: usize,
    pub(super) numbers_compared: usize,
    pub(super) numbers_that_differ: usize,
}

#[derive(Serialize)]
pub(super) struct MassFields {
    pub(super) total_kg: f64,
    pub(super) centre_mm: [f64; 3],
    pub(super) inertia_about_centre_kg_m2: [[f64; 3]; 3],
    pub(super) massless: Vec<String>,
    pub(super) static_wheel_loads_n: Option<[f64; 4]>,
    pub(super) static_wheel_shares_percent: Option<[f64; 4]>,
}

#[derive(Serialize)]
pub(super) struct FigureFields<'a> {
    pub(super) case: &'a str,
    pub(super) torsional_stiffness_nm_per_deg: f64,
    pub(super) torsional_stiffness_soft_nm_per_deg: Option<f64>,
    pub(super) torsional_stiffness_rigid_nm_per_deg: Option<f64>,
    pub(super) soft_ends: Option<usize>,
    pub(super) frame_mass_kg: f64,
    pub(super) g_per_nm_per_deg: f64,
    pub(super) chassis_share_percent: Option<f64>,
    pub(super) roll_stiffness_in_series_nm_per_deg: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct BayFields {
    pub(super) number: usize,
    pub(super) open: usize,
    pub(super) open_in_stiffened_rings: usize,
    pub(super) softest_n_per_mm: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct Input<'a> {
    pub(super) file: &'a str,
    pub(super) sha256: &'a str,
    pub(super) bytes: u64,
}

#[derive(Serialize)]
pub(super) struct OptionFields<'a> {
    pub(super) self_weight: bool,
    pub(super) standard_cases: bool,
    pub(super) yield_margin: f64,
    pub(super) text: &'a str,
}

#[derive(Serialize)]
pub(super) struct Warning<'a> {
    pub(super) code: &'a str,
    pub(super) severity: &'a str,
    pub(super) file: Option<&'a str>,
    pub(super) line: Option<usize>,
    pub(super) subject: &'a str,
    pub(super) message: &'a str,
    pub(super) help: &'a str,
}

#[derive(Serialize)]
pub(super) struct CounterFields {
    pub(super) symbolic_analyses: u64,
    pub(super) factorisations: u64,
    pub(super) solves: u64,
    pub(super) refinement_solves: u64,
    pub(super) condition_solves: u64,
    pub(super) equations: u64,
    pub(super) stiffness_entries: u64,
    pub(super) factor_entries: u64,
}

#[derive(Serialize)]
pub(super) struct System<'a> {
    pub(super) equations: usize,
    pub(super) condition: f64,
    pub(super) smallest_pivot: f64,
    pub(super) left_out: Vec<Freedom<'a>>,
    pub(super) over_held: Vec<&'a str>,
}

#[derive(Serialize)]
pub(super) struct Freedom<'a> {
    pub(super) joint: &'a str,
    pub(super) freedom: &'a str,
}

#[derive(Serialize)]
pub(super) struct Case<'a> {
    pub(super) name: &'a str,
    pub(super) nature: &'a str,
    pub(super) free: bool,
    pub(super) acceleration_g: Option<[f64; 3]>,
    pub(super) acceleration_rad_s2: Option<[f64; 3]>,
    pub(super) held_inside: Vec<Freedom<'a>>,
    pub(super) left_over: Option<f64>,
    pub(super) greatest_buckling_ratio: Option<f64>,
    pub(super) system: usize,
    pub(super) residual: f64,
    pub(super) refinements: u32,
    pub(super) imbalance: f64,
    pub(super) energy_j: f64,
    pub(super) applied_n_nm: [f64; 6],
    pub(super) reacted_n_nm: [f64; 6],
}

#[derive(Serialize)]
pub(super) struct FindingCounts {
    pub(super) errors: usize,
    pub(super) warnings: usize,
    pub(super) notes: usize,
}

/// What the frame was judged by, and how its items stand.
#[derive(Serialize)]
pub(super) struct JudgingFields<'a> {
    pub(super) basis: &'static str,
    pub(super) factors: Vec<FactorField<'a>>,
    pub(super) by_nature: Vec<NatureFields>,
    pub(super) switched_off: Vec<SwitchedOffField<'a>>,
    pub(super) checks: Vec<CheckCounts>,
    pub(super) items: Vec<ItemCounts>,
    pub(super) worst: Vec<WorstField<'a>>,
}

#[derive(Serialize)]
pub(super) struct FactorField<'a> {
    pub(super) name: &'static str,
    pub(super) value: f64,
    pub(super) on: &'static str,
    pub(super) source: &'a str,
}

#[derive(Serialize)]
pub(super) struct NatureFields {
    pub(super) nature: &'static str,
    pub(super) cases: usize,
    pub(super) margin: f64,
    pub(super) gamma_m0: f64,
    pub(super) gamma_m1: f64,
    pub(super) gamma_m2: f64,
    pub(super) gamma_m5: f64,
}

#[derive(Serialize)]
pub(super) struct SwitchedOffField<'a> {
    pub(super) check: &'a str,
    pub(super) reason: &'a str,
}

#[derive(Serialize)]
pub(super) struct CheckCounts {
    pub(super) code: &'static str,
    pub(super) title: &'static str,
    pub(super) errors: usize,
    pub(super) warnings: usize,
    pub(super) notes: usize,
    /// Of these, how many a clause does not cover.
    pub(super) outside_scope: usize,
}

#[derive(Serialize)]
pub(super) struct ItemCounts {
    pub(super) kind: &'static str,
    pub(super) exceeded: usize,
    pub(super) outside_scope: usize,
    pub(super) passed: usize,
    pub(super) not_judged: usize,
}

#[derive(Serialize)]
pub(super) struct WorstField<'a> {
    pub(super) kind: &'static str,
    pub(super) item: Cow<'a, str>,
    pub(super) code: &'static str,
    pub(super) case: &'a str,
    pub(super) utilisation: Option<f64>,
    pub(super) clause: &'a str,
    pub(super) scope: &'static str,
}

#[derive(Serialize)]
pub(super) struct Timing<'a> {
    pub(super) stage: &'a str,
    pub(super) ms: f64,
}

#[derive(Serialize)]
pub(super) struct ModesFields {
    pub(super) pieces: usize,
    pub(super) rigid: usize,
    pub(super) elastic: usize,
    pub(super) counted_below_hz: f64,
    pub(super) counted: Option<usize>,
    pub(super) found: usize,
    pub(super) lowest_hz: Option<f64>,
    pub(super) lowest: Option<String>,
    /// What is there only while driven, kg, and what it changes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) driven_kg: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) frequency_shift: Option<Vec<ShiftFields>>,
}

#[derive(Serialize)]
pub(super) struct ShiftFields {
    pub(super) empty_hz: Option<f64>,
    pub(super) driven_hz: Option<f64>,
    pub(super) shift_percent: Option<f64>,
    pub(super) mac: f64,
}

#[derive(Serialize)]
pub(super) struct ModesUnderFields<'a> {
    pub(super) case: &'a str,
    #[serde(flatten)]
    pub(super) modes: ModesFields,
}

#[derive(Serialize)]
pub(super) struct SecondOrderFields<'a> {
    pub(super) cases: Vec<GrowthFields<'a>>,
    pub(super) refused: Vec<RefusedFields<'a>>,
}

#[derive(Serialize)]
pub(super) struct GrowthFields<'a> {
    pub(super) case: &'a str,
    pub(super) passes: usize,
    pub(super) left_forces: Option<f64>,
    pub(super) left_movements: Option<f64>,
    pub(super) pieces: usize,
    pub(super) piece_error: f64,
    pub(super) displacement_growth: Option<f64>,
    pub(super) moment_growth: Option<f64>,
    pub(super) torsional_stiffness_growth: Option<f64>,
    pub(super) couples_nm: [f64; 3],
    pub(super) added_acceleration_m_s2: Option<[f64; 3]>,
    pub(super) added_acceleration_rad_s2: Option<[f64; 3]>,
}

#[derive(Serialize)]
pub(super) struct RefusedFields<'a> {
    pub(super) case: &'a str,
    pub(super) code: &'static str,
    pub(super) passes: usize,
    pub(super) stands_share: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct BucklingFields<'a> {
    pub(super) case: &'a str,
    pub(super) pieces: usize,
    pub(super) pieces_least: usize,
    pub(super) load_factors: Vec<f64>,
    pub(super) error_bounds: Vec<Option<f64>>,
    pub(super) load_factors_reversed: Vec<f64>,
    pub(super) error_bounds_reversed: Vec<Option<f64>>,
    pub(super) counted: Option<usize>,
    pub(super) found: Option<usize>,
    pub(super) counted_reversed: Option<usize>,
    pub(super) found_reversed: Option<usize>,
}
