//! Plain cases: what the load files say, case by case in the order in which their names first appear.

use std::collections::{BTreeMap, BTreeSet};

use super::{Log, Lookup, Materials, names, words_help};
use crate::codes;
use crate::dof::{Dof, DofMap};
use crate::ids::{BodyId, Id, IndexVec, JointId};
use crate::model::{
    Axes, Body, BodyLoad, Hold, JointLoad, PlainCase, Settlement, Support, Temperature, Tube, TubeLoad, TubePointLoad,
};
use crate::spec::{LoadRow, LoadedWritten, ModelSpec, Written};
use crate::units::{DEG, MM};

/// The cases; `None` where a row is faulty.
pub(super) fn check(
    spec: &ModelSpec,
    look: &Lookup<'_>,
    bodies: &IndexVec<BodyId, Body>,
    supports: &[Option<Support>],
    tubes: &[Option<Tube>],
    materials: &Materials,
    log: &mut Log,
) -> Option<Vec<PlainCase>> {
    let mut cases = Cases::default();
    let before = log.0.len();
    loads(spec, look, bodies, &mut cases, log);
    tube_loads(spec, look, &mut cases, log);
    tube_point_loads(spec, look, &mut cases, log);
    temperatures(spec, look, tubes, materials, &mut cases, log);
    settlements(spec, look, supports, &mut cases, log);
    cases.look_alikes(log);
    let faulty = log.0[before..].iter().any(|fault| fault.severity == crate::Severity::Error);
    (!faulty).then_some(cases.list)
}

/// The cases found so far.
#[derive(Default)]
struct Cases<'s> {
    list: Vec<PlainCase>,
    rows: BTreeMap<&'s str, usize>,
    /// Where each case is first named.
    first: Vec<&'s Written<String>>,
    /// Rows already seen, to tell one that was pasted twice: file, case, what it acts on, bits of the numbers.
    seen: BTreeSet<(u8, &'s str, &'s str, Vec<u64>)>,
}

impl<'s> Cases<'s> {
    /// The case with this name, made where it is new; `None` and a fault where it is no name.
    fn case(&mut self, name: &'s Written<String>, log: &mut Log) -> Option<&mut PlainCase> {
        let row = match self.rows.get(name.as_str()) {
            Some(&row) => row,
            None if !names::is_name(name, "load case", log) => return None,
            None => {
                self.list.push(PlainCase { name: name.value.clone(), ..PlainCase::default() });
                self.first.push(name);
                self.rows.insert(name, self.list.len() - 1);
                self.list.len() - 1
            }
        };
        Some(&mut self.list[row])
    }

    /// Warns of a row that says what another of the same file said: they add.
    fn pasted(&mut self, kind: u8, name: &'s Written<String>, on: &'s str, numbers: &[f64], log: &mut Log) {
        let bits = numbers.iter().map(|number| number.to_bits()).collect();
        if !self.seen.insert((kind, &name.value, on, bits)) {
            let message = format!("case `{}`: the same row for `{on}` stands twice; the two add", name.value);
            log.warning(codes::DUPLICATE_ROW, name.spot, name, message, "take one out if it was pasted twice");
        }
    }

    /// Warns of case names that differ in case or spaces alone: probably one case.
    fn look_alikes(&self, log: &mut Log) {
        let mut plain: BTreeMap<String, &Written<String>> = BTreeMap::new();
        for name in &self.first {
            let folded = name.to_lowercase().replace([' ', '-', '_'], "");
            if let Some(other) = plain.insert(folded, name) {
                let message = format!("`{}` and `{}` are two load cases", other.value, name.value);
                let help = "names are compared exactly; write both alike if one case was meant";
                log.warning(codes::LOOK_ALIKE, name.spot, name, message, help);
            }
        }
    }
}

fn loads<'s>(
    spec: &'s ModelSpec,
    look: &Lookup<'_>,
    bodies: &IndexVec<BodyId, Body>,
    cases: &mut Cases<'s>,
    log: &mut Log,
) {
    for row in &spec.loads {
        let who = format!("case `{}`", row.case.value);
        let name = row.on.name();
        let load = DofMap(row.load.map(|value| log.finite(&value, name, "a load")));
        match &row.on {
            LoadedWritten::Joint(name) => {
                let joint = look.joint(name, &who, log);
                let given = row.at_mm.iter().flatten().next();
                if let Some(given) = given {
                    let message = format!("{who}: a load at the joint `{}` acts at the joint", name.value);
                    let help = "leave `x_mm`, `y_mm`, `z_mm` empty: they are for bodies";
                    log.error(codes::POINT_MISSING, given.spot, name, message, help);
                }
                let Some(case) = cases.case(&row.case, log) else { continue };
                if let Some(joint) = joint {
                    case.joint_loads.push(JointLoad { joint, load });
                    cases.pasted(0, &row.case, name, &load.0, log);
                }
            }
            LoadedWritten::Body(name) => {
                let body = look.body(name, &who, log);
                let at = on_body(row, &who, log);
                let Some(case) = cases.case(&row.case, log) else { continue };
                if let (Some(body), Some(at)) = (body, at) {
                    case.body_loads.push(BodyLoad { body, load: moved(load, at, bodies[body].at) });
                    let place = at.unwrap_or([f64::NAN; 3]);
                    cases.pasted(4, &row.case, name, &[&load.0[..], &place].concat(), log);
                }
            }
        }
    }
}

/// Where the force on a body acts, m: `Some(None)` at its reference point, `None` where what is written is faulty.
fn on_body(row: &LoadRow, who: &str, log: &mut Log) -> Option<Option<[f64; 3]>> {
    let name = row.on.name();
    match row.at_mm {
        [None, None, None] => Some(None),
        [Some(x), Some(y), Some(z)] => {
            let at = [x, y, z].map(|value| log.finite(&value, name, "the place of a load") * MM);
            at.iter().all(|value| value.is_finite()).then_some(Some(at))
        }
        _ => {
            let message = format!("{who}: where the force on the body `{}` acts is given in part", name.value);
            let help = "fill in all three of `x_mm`, `y_mm`, `z_mm`, or none: then it acts at the mean of its bolts";
            log.error(codes::POINT_MISSING, name.spot, name, message, help);
            None
        }
    }
}

/// The load at a body's reference point that does the same as one with its force at `at`.
fn moved(load: DofMap<f64>, at: Option<[f64; 3]>, reference: [f64; 3]) -> DofMap<f64> {
    let Some(at) = at else { return load };
    let [fx, fy, fz, mx, my, mz] = load.0;
    let [x, y, z] = [0, 1, 2].map(|axis| at[axis] - reference[axis]);
    DofMap([fx, fy, fz, mx + y * fz - z * fy, my + z * fx - x * fz, mz + x * fy - y * fx])
}

fn tube_loads<'s>(spec: &'s ModelSpec, look: &Lookup<'_>, cases: &mut Cases<'s>, log: &mut Log) {
    for row in &spec.tube_loads {
        let who = format!("case `{}`", row.case.value);
        let tube = look.tube(&row.tube, &who, log);
        let axes = axes(&row.axes, &who, log);
        let from = row.from_n_per_m.map(|value| log.finite(&value, &row.tube, "a load"));
        let mut to = from;
        for (value, written) in to.iter_mut().zip(&row.to_n_per_m) {
            if let Some(written) = written {
                *value = log.finite(written, &row.tube, "a load");
            }
        }
        let Some(case) = cases.case(&row.case, log) else { continue };
        if let (Some(tube), Some(axes)) = (tube, axes) {
            case.tube_loads.push(TubeLoad { tube, axes, from, to });
            let numbers = [&from[..], &to, &[f64::from(axes == Axes::Local)]].concat();
            cases.pasted(1, &row.case, &row.tube, &numbers, log);
        }
    }
}

fn tube_point_loads<'s>(spec: &'s ModelSpec, look: &Lookup<'_>, cases: &mut Cases<'s>, log: &mut Log) {
    for row in &spec.tube_point_loads {
        let who = format!("case `{}`", row.case.value);
        let tube = look.tube(&row.tube, &who, log);
        let axes = axes(&row.axes, &who, log);
        let at = log.finite(&row.at, &row.tube, "`at`");
        if at.is_finite() && !(0.0..=1.0).contains(&at) {
            let message = format!("{who}: `at` is {at}, outside the tube `{}`", row.tube.value);
            let help = "`at` is a share of the tube's length: 0 at `from`, 0.5 in the middle, 1 at `to`";
            log.error(codes::OUTSIDE_TUBE, row.at.spot, &row.tube, message, help);
        }
        let [fx, fy, fz, mx, my, mz] = row.load.map(|value| log.finite(&value, &row.tube, "a load"));
        let Some(case) = cases.case(&row.case, log) else { continue };
        if let (Some(tube), Some(axes)) = (tube, axes) {
            case.tube_point_loads.push(TubePointLoad { tube, axes, at, force: [fx, fy, fz], moment: [mx, my, mz] });
            let numbers = [at, fx, fy, fz, mx, my, mz, f64::from(axes == Axes::Local)];
            cases.pasted(2, &row.case, &row.tube, &numbers, log);
        }
    }
}

fn temperatures<'s>(
    spec: &'s ModelSpec,
    look: &Lookup<'_>,
    tubes: &[Option<Tube>],
    materials: &Materials,
    cases: &mut Cases<'s>,
    log: &mut Log,
) {
    for row in &spec.temperatures {
        let who = format!("case `{}`", row.case.value);
        let tube = look.tube(&row.tube, &who, log);
        let rise = log.finite(&row.rise_k, &row.tube, "`rise_k`");
        let gradient_y = log.finite(&row.gradient_y_k_per_m, &row.tube, "`gradient_y_k_per_m`");
        let gradient_z = log.finite(&row.gradient_z_k_per_m, &row.tube, "`gradient_z_k_per_m`");
        let material =
            tube.and_then(|id| tubes[id.index()].as_ref()).and_then(|tube| materials[tube.material.index()].as_ref());
        if let Some(material) = material
            && material.expansion.is_none()
        {
            let message = format!(
                "{who} warms the tube `{}`, and its material `{}` has no coefficient of expansion",
                row.tube.value, material.name
            );
            let help = "add `thermal_per_k = …` to the material (steel 12e-6, aluminium 23e-6)";
            log.error(codes::NO_EXPANSION, row.tube.spot, &row.tube, message, help);
        }
        let Some(case) = cases.case(&row.case, log) else { continue };
        if let Some(tube) = tube {
            case.temperatures.push(Temperature { tube, rise, gradient_y, gradient_z });
            cases.pasted(3, &row.case, &row.tube, &[rise, gradient_y, gradient_z], log);
        }
    }
}

fn settlements<'s>(
    spec: &'s ModelSpec,
    look: &Lookup<'_>,
    supports: &[Option<Support>],
    cases: &mut Cases<'s>,
    log: &mut Log,
) {
    let holds: BTreeMap<JointId, &Support> =
        supports.iter().flatten().map(|support| (support.joint, support)).collect();
    // While a support is faulty, what it holds is not known.
    let all_known = supports.iter().all(Option::is_some);
    let mut moved: BTreeSet<(&str, JointId, Dof)> = BTreeSet::new();
    for row in &spec.settlements {
        let who = format!("case `{}`", row.case.value);
        let joint = look.joint(&row.joint, &who, log);
        let Some(case) = cases.case(&row.case, log) else { continue };
        let Some(joint) = joint else { continue };
        for (dof, written) in Dof::ALL.into_iter().zip(&row.moves) {
            let Some(written) = written else { continue };
            let value = log.finite(written, &row.joint, "a settlement");
            let fixed = holds.get(&joint).is_some_and(|support| support.holds[dof] == Hold::Fixed);
            if !fixed && all_known {
                let message = format!(
                    "{who} moves `{}` of the joint `{}`, which supports.csv does not fix",
                    dof.name(),
                    row.joint.value
                );
                let help = format!("write `fixed` under `{}` in supports.csv, or leave the cell empty", dof.name());
                log.error(codes::SETTLEMENT_NOT_FIXED, written.spot, &row.joint, message, help);
            }
            if !moved.insert((&row.case.value, joint, dof)) {
                let message = format!("{who} moves `{}` of the joint `{}` twice", dof.name(), row.joint.value);
                log.error(codes::SETTLED_TWICE, written.spot, &row.joint, message, "keep one of the two");
            }
            let unit = if dof.is_rotation() { DEG } else { MM };
            case.settlements.push(Settlement { joint, dof, value: value * unit });
        }
    }
}

fn axes(word: &Written<String>, who: &str, log: &mut Log) -> Option<Axes> {
    match word.as_str() {
        "local" => Some(Axes::Local),
        "global" => Some(Axes::Global),
        other => {
            let message = format!("{who}: `{other}` is not a kind of axes");
            let mut help = words_help(other, &["local", "global"]);
            help.push_str("; local are the tube's own axes, global the frame's");
            log.error(codes::UNKNOWN_WORD, word.spot, other, message, help);
            None
        }
    }
}
