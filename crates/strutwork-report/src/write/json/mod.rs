//! `run.json`: when, with what and from which files a run was made, and how far its numbers can be trusted.

mod asked;
pub mod compare;
mod evidence;
mod fields;
mod judging;
mod second_order;

use strutwork_checks::Figures;
use strutwork_loads::wheels::static_loads;
use strutwork_loads::{LoadCase, MassModel};
use strutwork_model::Model;
use strutwork_model::model::Suspension;
use strutwork_model::units::{N_PER_MM, STANDARD_GRAVITY, to_mm, to_nm_per_deg};
use strutwork_solve::{CaseResult, Counters};

use crate::figures::bays::breaking;
use crate::run::Run;

use fields::{
    BayFields, Case, CounterFields, Document, FigureFields, FindingCounts, Freedom, Input, MassFields, ModelFields,
    OptionFields, RevisionField, SinceFields, System, Timing, Warning,
};

/// The run as JSON text, fields in a fixed order, two spaces of indent, a final line feed.
///
/// # Units and shapes
/// The unit is in every field's name where there is one; forces in N, moments in N·m.
pub fn run_json(run: &Run<'_>) -> String {
    let mut text = serde_json::to_string_pretty(&document(run)).unwrap_or_default();
    text.push('\n');
    text
}

fn document<'a>(run: &Run<'a>) -> Document<'a> {
    let (model, info) = (run.model, run.info);
    let title = model.title();
    let [errors, warnings, notes] = run.severities();
    Document {
        version: &info.tool_version,
        date: &info.date,
        command: &info.command,
        model: ModelFields {
            title: &title.title,
            revision: &title.revision,
            revisions: title
                .revisions
                .iter()
                .map(|one| RevisionField { name: &one.name, date: &one.date, by: &one.by, note: &one.note })
                .collect(),
            author: &title.author,
            joints: model.joints().len(),
            tubes: model.tubes().len(),
            panels: model.panels().len(),
            bodies: model.bodies().len(),
            mounts: model.mounts().len(),
            links: links(model),
        },
        mass: mass(model),
        bays: bays(run),
        figures: run.figures.map(figures),
        inputs: info
            .inputs
            .iter()
            .map(|input| Input { file: &input.file, sha256: &input.sha256, bytes: input.bytes })
            .collect(),
        options: OptionFields {
            self_weight: model.options().self_weight,
            standard_cases: model.options().standard_cases,
            yield_margin: model.options().yield_margin,
            text: &info.options,
        },
        warnings: info.warnings.iter().map(warning).collect(),
        counters: counters(run.results.counters),
        systems: run
            .results
            .systems
            .iter()
            .map(|system| System {
                equations: system.equations,
                condition: system.condition,
                smallest_pivot: system.smallest_pivot,
                left_out: system
                    .left_out
                    .iter()
                    .map(|left| Freedom { joint: run.joint(left.joint), freedom: left.dof.name() })
                    .collect(),
                over_held: system.over_held.iter().map(|body| run.body(*body)).collect(),
            })
            .collect(),
        cases: run.pairs().map(|(case, result)| of_case(run, case, result)).collect(),
        findings: FindingCounts { errors, warnings, notes },
        judging: judging::of(run),
        modes: asked::modes(run),
        modes_under: asked::under(run),
        buckling: asked::buckling(run),
        second_order: second_order::of(run),
        since: info.since.as_ref().map(since),
        rig: evidence::rig(run),
        scales: evidence::scales(run),
        timings_ms: info.timings_ms.iter().map(|(stage, ms)| Timing { stage, ms: *ms }).collect(),
    }
}

fn links(model: &Model) -> usize {
    let corners = model.vehicle().into_iter().flat_map(|vehicle| &vehicle.corners);
    corners
        .map(|corner| match &corner.suspension {
            Suspension::Linked(links) => links.len(),
            Suspension::Rigid(_) => 0,
        })
        .sum()
}

fn mass(model: &Model) -> MassFields {
    let mass = MassModel::of(model);
    let at_rest = static_loads(model).ok();
    MassFields {
        total_kg: mass.total,
        centre_mm: mass.centre.map(|metres| to_mm(metres) + 0.0),
        inertia_about_centre_kg_m2: mass.inertia.map(|row| row.map(|value| value + 0.0)),
        massless: mass.massless.iter().map(|one| one.words(model)).collect(),
        static_wheel_loads_n: at_rest.map(|at_rest| at_rest.loads),
        static_wheel_shares_percent: at_rest.map(|at_rest| at_rest.shares.map(|share| share * 100.0)),
    }
}

fn figures(figures: &Figures) -> FigureFields<'_> {
    FigureFields {
        case: &figures.case,
        torsional_stiffness_nm_per_deg: to_nm_per_deg(figures.stiffness),
        torsional_stiffness_soft_nm_per_deg: figures.band.map(|band| to_nm_per_deg(band.soft)),
        torsional_stiffness_rigid_nm_per_deg: figures.band.map(|band| to_nm_per_deg(band.rigid)),
        soft_ends: figures.band.map(|band| band.ends),
        frame_mass_kg: figures.frame_mass,
        g_per_nm_per_deg: figures.grams_per_nm_per_deg(),
        chassis_share_percent: figures.chassis_share.map(|share| share.share * 100.0),
        roll_stiffness_in_series_nm_per_deg: figures.chassis_share.map(|share| to_nm_per_deg(share.in_series)),
    }
}

fn since(of: &crate::run::Since) -> SinceFields<'_> {
    let comparison = &of.comparison;
    SinceFields {
        folder: &of.label,
        revision: &comparison.before.revision,
        date: &comparison.before.date,
        same: comparison.is_same(),
        changes: comparison.inputs.as_ref().map(|inputs| inputs.changes.len()),
        newly_over: comparison.newly_over().count(),
        numbers_compared: comparison.compared,
        numbers_that_differ: comparison.differences.len(),
    }
}

fn bays(run: &Run<'_>) -> BayFields {
    BayFields {
        number: run.bays.bays.len(),
        open: run.bays.bays.iter().filter(|bay| bay.is_open()).count(),
        open_in_stiffened_rings: breaking(run.bays).len(),
        softest_n_per_mm: run.bays.bays.first().map(|bay| bay.stiffness / N_PER_MM),
    }
}

fn of_case<'a>(run: &Run<'a>, case: &'a LoadCase, result: &'a CaseResult) -> Case<'a> {
    let acceleration = case.derivation.acceleration;
    let relief = result.relief.as_ref();
    let held = relief.into_iter().flat_map(|relief| &relief.held);
    Case {
        name: &case.name,
        nature: case.nature.word(),
        free: case.free,
        acceleration_g: acceleration.map(|[x, y, z, ..]| [x, y, z].map(|value| value / STANDARD_GRAVITY + 0.0)),
        acceleration_rad_s2: acceleration.map(|[.., x, y, z]| [x, y, z].map(|value| value + 0.0)),
        held_inside: held.map(|(joint, dof)| Freedom { joint: run.joint(*joint), freedom: dof.name() }).collect(),
        left_over: relief.map(|relief| relief.left_over),
        greatest_buckling_ratio: result.panels.iter().map(|panel| panel.buckling_ratio).reduce(f64::max),
        system: result.system,
        residual: result.trust.residual,
        refinements: result.trust.refinements,
        imbalance: result.trust.imbalance,
        energy_j: result.trust.energy + 0.0,
        applied_n_nm: result.trust.applied.map(|value| value + 0.0),
        reacted_n_nm: result.trust.reacted.map(|value| value + 0.0),
    }
}

fn warning(diagnostic: &strutwork_model::Diagnostic) -> Warning<'_> {
    let place = diagnostic.place.as_ref();
    Warning {
        code: diagnostic.code.0,
        severity: diagnostic.severity.word(),
        file: place.map(|place| place.file.as_str()),
        line: place.map(|place| place.line).filter(|line| *line > 0),
        subject: &diagnostic.subject,
        message: &diagnostic.message,
        help: &diagnostic.help,
    }
}

fn counters(counters: Counters) -> CounterFields {
    CounterFields {
        symbolic_analyses: counters.symbolic_analyses,
        factorisations: counters.factorisations,
        solves: counters.solves,
        refinement_solves: counters.refinement_solves,
        condition_solves: counters.condition_solves,
        equations: counters.equations,
        stiffness_entries: counters.stiffness_entries,
        factor_entries: counters.factor_entries,
    }
}
