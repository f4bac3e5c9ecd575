//! The frame as the page's own view reads it: names as text, numbers packed, nothing computed but units and extremes.

mod bows;
mod told;

use std::collections::BTreeMap;

use strutwork_checks::Finding;
use strutwork_element::LocalAxes;
use strutwork_loads::LoadCase;
use strutwork_model::ids::Id;
use strutwork_model::model::Shape;
use strutwork_model::units::to_mm;
use strutwork_model::{Dof, DofMap, IndexVec, JointId, Model, Subdivided, TubeId};
use strutwork_solve::CaseResult;
use strutwork_solve::modes::bent_pieces;
use strutwork_solve::results::Station;

use crate::figures::colour::{hex, ramp};
use crate::figures::worth::Steps;
use crate::run::Run;
use crate::utilisation::Utilisations;

use super::calculations::Calculations;
use super::plain;
use bows::Bows;
use told::{Case, Coarse, Frame, Mass, Mount, Moved, Panel, Placed, Said, Section, Sparse, Tube, Worth};

/// The view's program, its parts in the order in which they stand on one another.
const PARTS: [&str; 8] = [
    include_str!("../../../../viewer/data.js"),
    include_str!("../../../../viewer/space.js"),
    include_str!("../../../../viewer/tubes.js"),
    include_str!("../../../../viewer/paint.js"),
    include_str!("../../../../viewer/overlay.js"),
    include_str!("../../../../viewer/card.js"),
    include_str!("../../../../viewer/reach.js"),
    include_str!("../../../../viewer/turn.js"),
];
/// Places of the ramp of colours that the view interpolates between.
const RAMP: usize = 9;
/// Width of a tube whose section has no shape, mm: drawn as a thin rod.
const THIN: f64 = 6.0;

/// What the page needs of the view.
pub(super) struct TurnView {
    pub(super) mounts: bool,
    pub(super) panels: bool,
    pub(super) bodies: bool,
    pub(super) masses: bool,
    /// The frame and its cases, safe between `script` tags.
    pub(super) data: String,
    /// The program.
    pub(super) program: String,
}

impl TurnView {
    /// The view of a run; `None` for a frame without tubes.
    pub(super) fn of<'a>(
        run: &Run<'a>,
        utilisations: &Utilisations<'a>,
        calculations: &Calculations<'a>,
    ) -> Option<Self> {
        let model = run.model;
        if model.tubes().is_empty() {
            return None;
        }
        let frame = frame(run, utilisations, calculations);
        // Nothing in it fails to serialise. A `<` inside a text must not end the element that holds it.
        let data = serde_json::to_string(&frame).unwrap_or_default().replace('<', "\\u003c").replace('>', "\\u003e");
        Some(Self {
            mounts: !model.mounts().is_empty(),
            panels: !model.panels().is_empty(),
            bodies: !model.bodies().is_empty(),
            masses: !model.masses().is_empty(),
            data,
            program: PARTS.concat(),
        })
    }
}

fn frame<'a>(run: &Run<'a>, utilisations: &Utilisations<'a>, calculations: &Calculations<'a>) -> Frame<'a> {
    let model = run.model;
    let mut groups: Vec<&str> = Vec::new();
    let mut tubes = Vec::with_capacity(model.tubes().len());
    for tube in model.tubes() {
        let group = groups.iter().position(|known| *known == tube.group).unwrap_or_else(|| {
            groups.push(&tube.group);
            groups.len() - 1
        });
        let turns = |released: &DofMap<bool>| u8::from(!is_hinged(released));
        tubes.push(Tube {
            name: &tube.name,
            from: tube.from.index(),
            to: tube.to.index(),
            section: tube.section.index(),
            group,
            bends: turns(&tube.release_from) | turns(&tube.release_to) << 1,
        });
    }
    let corner = |pick: fn(f64, f64) -> f64, start: f64| {
        [0, 1, 2].map(|axis| model.joints().iter().map(|joint| to_mm(joint.at[axis])).fold(start, pick))
    };
    Frame {
        joints: model.joints().iter().map(|joint| joint.name.as_str()).collect(),
        at: model.joints().iter().flat_map(|joint| joint.at).map(to_mm).collect(),
        ends: model.tubes().ids().flat_map(|tube| model.tube_ends(tube)).flatten().map(to_mm).collect(),
        ups: model.tubes().ids().flat_map(|tube| upward(model, tube)).collect(),
        tubes,
        sections: model.sections().iter().map(section).collect(),
        groups,
        panels: model
            .panels()
            .iter()
            .map(|panel| Panel { joints: panel.joints.iter().map(|id| id.index()).collect() })
            .collect(),
        bodies: model.bodies().iter().map(|body| Placed { name: &body.name, at: body.at.map(to_mm) }).collect(),
        mounts: model
            .mounts()
            .iter()
            .map(|mount| Mount { body: run.body(mount.body), joint: mount.joint.index() })
            .collect(),
        masses: model
            .masses()
            .iter()
            .map(|mass| Mass { name: &mass.name, kg: mass.mass, at: mass.at.map(to_mm) })
            .collect(),
        cases: run
            .pairs()
            .enumerate()
            .map(|(place, (case, result))| of_case(run, utilisations, place, case, result))
            .collect(),
        shapes: shapes(run),
        said: said(run, utilisations, calculations),
        worth: run.worth.map(worth),
        ramp: (0..RAMP).map(|step| hex(ramp(step as f64 / (RAMP - 1) as f64))).collect(),
        low: corner(f64::min, f64::INFINITY),
        high: corner(f64::max, f64::NEG_INFINITY),
        first: if run.cases.0.is_empty() { "rest" } else { "envelope" },
    }
}

/// Whether the end of a tube turns freely about both its axes: its slope is then its own, not its joint's.
fn is_hinged(released: &DofMap<bool>) -> bool {
    released[Dof::Ry] && released[Dof::Rz]
}

/// What each tube is worth for the torsional stiffness.
fn worth(worth: &strutwork_study::sensitivity::Worth) -> Worth {
    Worth {
        grams: worth.grams.iter().map(|grams| grams.unwrap_or(f64::NAN)).collect(),
        edges: Steps::of(worth).edges,
        case: worth.case.clone(),
    }
}

/// The direction of a tube's local z.
fn upward(model: &Model, tube: TubeId) -> [f64; 3] {
    let [from, to] = model.tube_ends(tube);
    LocalAxes::between(from, to, model.tubes()[tube].roll)
        .map_or([0.0, 0.0, 1.0], |axes| [0, 1, 2].map(|column| axes.rotation[(2, column)]))
}

fn section(section: &strutwork_model::model::Section) -> Section<'_> {
    let (round, width, height) = match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => (false, to_mm(width), to_mm(height)),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => (true, to_mm(diameter), to_mm(diameter)),
        Shape::Properties => (true, THIN, THIN),
    };
    Section { label: &section.label, round, width, height }
}

fn of_case<'a>(
    run: &Run<'a>,
    utilisations: &Utilisations<'a>,
    place: usize,
    case: &'a LoadCase,
    result: &CaseResult,
) -> Case<'a> {
    let moved = movement(&result.displacements);
    let Bows { told: bows, most } = Bows::of_case(run.model, result, largest(&result.displacements));
    let forces = run.model.tubes().ids().flat_map(|tube| {
        let stations = &result.tubes[tube].stations;
        let used = utilisations.of_tube(tube, &case.name).and_then(|finding| finding.utilisation);
        let of = |force: fn(&Station) -> f64| {
            stations.iter().map(force).fold(0.0_f64, |best, value| if value.abs() > best.abs() { value } else { best })
        };
        [
            of(|station| station.forces.n),
            of(|station| station.forces.vy.hypot(station.forces.vz)),
            of(|station| station.forces.t),
            of(|station| station.forces.my),
            of(|station| station.forces.mz),
            used.unwrap_or(f64::NAN),
        ]
    });
    let mut reactions: IndexVec<JointId, [f64; 3]> = run.model.joints().iter().map(|_| [0.0; 3]).collect();
    for (joint, [fx, fy, fz, ..]) in &result.reactions {
        reactions[*joint] = [*fx, *fy, *fz];
    }
    Case {
        key: format!("case-{}", place + 1),
        title: &case.title,
        moved,
        bows,
        most: to_mm(most),
        forces: forces.collect(),
        acting: acting(run.model, case),
        reactions: reactions.iter().copied().collect(),
        mounts: result
            .mounts
            .iter()
            .flat_map(|mount| [mount.on_frame[0], mount.on_frame[1], mount.on_frame[2]])
            .collect(),
    }
}

/// The forces that were put on joints, N; what acts along tubes is left to the tables.
fn acting(model: &Model, case: &LoadCase) -> Sparse {
    let mut at: IndexVec<JointId, [f64; 3]> = model.joints().iter().map(|_| [0.0; 3]).collect();
    for load in &case.joint_loads {
        for (axis, dof) in Dof::ALL.into_iter().take(3).enumerate() {
            at[load.joint][axis] += load.load[dof];
        }
    }
    at.iter().copied().collect()
}

/// Movements of joints, mm and rad.
fn movement(joints: &IndexVec<JointId, [f64; 6]>) -> Coarse {
    joints.iter().flat_map(|[x, y, z, rx, ry, rz]| [to_mm(*x), to_mm(*y), to_mm(*z), *rx, *ry, *rz]).collect()
}

/// The largest displacement of joints, m.
fn largest(joints: &IndexVec<JointId, [f64; 6]>) -> f64 {
    joints.iter().map(|[x, y, z, ..]| x.hypot(*y).hypot(*z)).fold(0.0, f64::max)
}

/// Natural modes and ways of buckling, as far as they were asked for.
fn shapes(run: &Run<'_>) -> Vec<Moved> {
    let mut shapes = Vec::new();
    if let Some(modes) = &run.asked.modes {
        let fine = run.model.subdivided(run.asked.pieces);
        for (place, mode) in modes.modes.iter().enumerate() {
            let title = format!("{} {:.1} Hz", place + 1, mode.frequency);
            let note = mode.name.words(run.model);
            let key = format!("mode-{}", place + 1);
            shapes.push(bent(run.model, &fine, &mode.joints, [key, title, note], "Natural modes"));
        }
    }
    for (case, buckling) in run.asked.buckling.iter().flatten().enumerate() {
        if let Some(mode) = buckling.positive.first() {
            let title = format!("{} × {:.2}", buckling.case, mode.factor);
            let note = "how the frame buckles at that many times the loads of the case".to_owned();
            let key = format!("buckling-{}", case + 1);
            let fine = run.model.subdivided_at(&buckling.cuts);
            shapes.push(bent(run.model, &fine, &mode.joints, [key, title, note], "Buckling"));
        }
    }
    shapes
}

/// A shape of the divided frame: its own joints, and how tubes bow between them.
fn bent(
    model: &Model,
    fine: &Subdivided,
    joints: &IndexVec<JointId, [f64; 6]>,
    [key, title, note]: [String; 3],
    kind: &'static str,
) -> Moved {
    let own: IndexVec<JointId, [f64; 6]> = joints.iter().take(model.joints().len()).copied().collect();
    let Bows { told: bows, most } = Bows::of_shape(model, &own, &bent_pieces(fine, joints), largest(joints));
    Moved { key, kind, title, note, moved: movement(&own), bows, most: to_mm(most) }
}

/// What the worst finding of each tube says, and where its calculation stands.
fn said<'a>(
    run: &Run<'a>,
    utilisations: &Utilisations<'a>,
    calculations: &Calculations<'a>,
) -> BTreeMap<&'a str, Said> {
    let of_tube = |(tube, finding): (TubeId, &Option<&'a Finding>)| {
        let finding = (*finding)?;
        let anchor = calculations.number(finding).map(|number| format!("calculation-{number}"));
        Some((run.tube(tube), Said { words: plain::sentence(finding), helps: plain::helps(finding), anchor }))
    };
    utilisations.by_tube.iter_with_id().filter_map(of_tube).collect()
}
