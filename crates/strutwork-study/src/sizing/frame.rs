//! From a choice of sizes to a frame, its solution, and how near it comes to the limits.

use std::sync::Arc;

use rayon::prelude::*;
use strutwork_checks::Finding;
use strutwork_loads::LoadCases;
use strutwork_model::model::Section;
use strutwork_model::spec::ModelSpec;
use strutwork_model::units::{to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_model::validate::validate;
use strutwork_model::{Dof, JointId, Model, TubeId};
use strutwork_solve::explain::explain;
use strutwork_solve::reanalysis::Work;
use strutwork_solve::{Counters, solve_cases};

use super::checked::{frequency, strength};
use super::choice::{Variable, entry};
use super::engine::Engine;
use super::limits::{LimitUse, Limits, Strength};
use super::relaxed::Relaxed;
use super::{Derive, SizingFault, Task};
use crate::exact::first_twist;
use crate::solved::Solved;

/// A frame of a task, with everything that does not change from choice to choice.
pub(super) struct Frame<'a> {
    pub spec: &'a ModelSpec,
    pub derive: &'a Derive<'a>,
    pub variables: &'a [Variable],
    pub limits: &'a Limits,
    /// Rows of `spec.tubes`, one list a variable.
    pub rows: Vec<Vec<usize>>,
    /// Length of all tubes of a variable, m.
    pub lengths: Vec<f64>,
    /// Density times length of all tubes of a variable, kg/m².
    pub heft: Vec<f64>,
    /// Mass of the tubes that do not change, kg.
    pub fixed_mass: f64,
    /// What solves designs together, where that goes.
    engine: Option<Engine>,
}

/// The name of the section that a variable's tubes get.
fn chosen_name(variable: &Variable) -> String {
    format!("{} as chosen", variable.name)
}

/// What one choice of sizes comes to.
pub(super) struct Evaluated {
    pub solved: Solved,
    /// Mass of all tubes, kg.
    pub mass: f64,
    pub uses: Vec<Use>,
    /// Design checks whose clause does not cover their item: counted, never a pass.
    pub outside: usize,
}

/// One limit, and how near the design comes to it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Use {
    pub of: Limited,
    /// SI.
    pub value: f64,
    /// SI.
    pub limit: f64,
    /// Above 1: broken.
    pub ratio: f64,
}

/// What is limited.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Limited {
    Twist { case: usize },
    Movement { case: usize, joint: JointId, dof: Dof },
    Axial { case: usize, tube: TubeId, variable: usize },
    Check { finding: Box<Finding>, case: Option<usize>, tube: Option<TubeId> },
    Frequency,
}

impl Evaluated {
    pub(super) fn model(&self) -> &Model {
        self.solved.model()
    }

    /// The greatest utilisation.
    pub(super) fn worst(&self) -> f64 {
        self.uses.iter().map(|one| one.ratio).fold(0.0, f64::max)
    }

    pub(super) fn kept(&self) -> bool {
        self.worst() <= 1.0 + super::limits::KEPT
    }
}

impl<'a> Frame<'a> {
    /// Of a task whose choices are in order.
    pub(super) fn of(task: &'a Task<'a>) -> Result<Self, SizingFault> {
        let base = validate(task.spec).map_err(SizingFault::Model)?.value;
        let mut rows = Vec::new();
        let (mut lengths, mut heft) = (Vec::new(), Vec::new());
        let mut chosen = vec![false; base.tubes().len()];
        for variable in &task.variables {
            let (mut own, mut length, mut weight) = (Vec::new(), 0.0, 0.0);
            for name in &variable.tubes {
                let id =
                    base.tube_named(name).ok_or_else(|| SizingFault::Unknown { kind: "tube", name: name.clone() })?;
                let row = strutwork_model::ids::Id::index(id);
                if std::mem::replace(&mut chosen[row], true) {
                    let why = format!("tube `{name}` is chosen for twice: name it once");
                    return Err(SizingFault::Choice { variable: variable.name.clone(), why });
                }
                own.push(row);
                length += base.length(id);
                weight += base.length(id) * base.materials()[base.tubes()[id].material].density;
            }
            rows.push(own);
            lengths.push(length);
            heft.push(weight);
        }
        let fixed_mass = (base.tubes().ids().zip(&chosen)).filter(|(_, chosen)| !**chosen);
        let fixed_mass = fixed_mass.map(|(id, _)| base.tube_mass(id)).sum();
        let mut frame = Self {
            spec: task.spec,
            derive: task.derive,
            variables: &task.variables,
            limits: &task.limits,
            rows,
            lengths,
            heft,
            fixed_mass,
            engine: None,
        };
        let cases = (task.derive)(&base).map_err(SizingFault::Cases)?;
        frame.names(&base, &cases)?;
        let relaxed = task.variables.iter().map(|variable| Relaxed::of(&variable.choice)).collect::<Vec<_>>();
        let end = |of: fn(&Relaxed) -> f64| relaxed.iter().map(|one| one.section(of(one))).collect();
        frame.engine = Engine::of(&frame, base, cases, &[end(|one| one.least), end(|one| one.most)]);
        Ok(frame)
    }

    /// Every name in the limits is there, and every limit limits.
    fn names(&self, model: &Model, cases: &LoadCases) -> Result<(), SizingFault> {
        let above_zero = |what: &str, value: f64| {
            let good = value > 0.0 && value.is_finite();
            if good { Ok(()) } else { Err(SizingFault::Limit { what: what.to_owned(), value }) }
        };
        let case = |name: &String| {
            let known = cases.0.iter().any(|case| case.name == *name);
            if known { Ok(()) } else { Err(SizingFault::Unknown { kind: "load case", name: name.clone() }) }
        };
        for (name, least) in &self.limits.stiffness {
            case(name)?;
            above_zero("the stiffness", *least)?;
        }
        for cap in &self.limits.movements {
            cap.case.iter().try_for_each(case)?;
            above_zero("a movement", cap.at_most)?;
            if model.joint_named(&cap.joint).is_none() {
                return Err(SizingFault::Unknown { kind: "joint", name: cap.joint.clone() });
            }
        }
        self.limits.frequency.iter().try_for_each(|least| above_zero("the frequency", *least))?;
        for axial in self.variables.iter().filter_map(|variable| variable.axial) {
            above_zero("the tension", axial.tension)?;
            above_zero("the compression", axial.compression)?;
        }
        Ok(())
    }

    /// Mass of all tubes with these areas, m²; 0 for what is left out.
    pub(super) fn mass(&self, areas: impl Iterator<Item = f64>) -> f64 {
        self.fixed_mass + self.heft.iter().zip(areas).map(|(heft, area)| heft * area).sum::<f64>()
    }

    /// The spec with these sections; `None` leaves a variable's tubes out.
    pub(super) fn with(&self, sections: &[Option<&Section>]) -> ModelSpec {
        let mut spec = self.spec.clone();
        let mut gone = vec![false; spec.tubes.len()];
        for ((variable, rows), section) in self.variables.iter().zip(&self.rows).zip(sections) {
            let Some(section) = section else {
                rows.iter().for_each(|row| gone[*row] = true);
                continue;
            };
            let name = chosen_name(variable);
            spec.sections.push(entry(&name, section));
            for row in rows {
                spec.tubes[*row].section = name.as_str().into();
            }
        }
        let mut gone = gone.into_iter();
        spec.tubes.retain(|_| !gone.next().unwrap_or(false));
        spec
    }

    /// The sections under the names that they have in the spec.
    pub(super) fn named(&self, sections: &[Option<&Section>]) -> Vec<Section> {
        let named =
            |(section, variable): (&Section, &Variable)| Section { name: chosen_name(variable), ..section.clone() };
        sections.iter().copied().flatten().zip(self.variables).map(named).collect()
    }

    /// Solves choices for a search: side by side where that goes.
    pub(super) fn search(&self, choices: &[Vec<Option<&Section>>]) -> Vec<Result<Evaluated, String>> {
        match &self.engine {
            Some(engine) => engine.evaluate(self, choices),
            None => choices.par_iter().map(|choice| self.evaluate(choice)).collect(),
        }
    }

    /// What preparing for a search took, and how its designs were solved.
    pub(super) fn work(&self) -> (Counters, Work) {
        self.engine.as_ref().map(Engine::work).unwrap_or_default()
    }

    /// Solves a choice the whole way and reads its limits; `Err` says in words why the choice makes no frame.
    pub(super) fn evaluate(&self, sections: &[Option<&Section>]) -> Result<Evaluated, String> {
        let spec = self.with(sections);
        let model = validate(&spec).map_err(|faults| faults.to_string())?.value;
        let cases = (self.derive)(&model)?;
        let results = solve_cases(&model, &cases).map_err(|error| {
            let reasons: Vec<String> = explain(&model, &error).into_iter().map(|reason| reason.message).collect();
            reasons.join("; ")
        })?;
        self.read(Solved::new(Arc::new(model), cases, results))
    }

    /// Reads the limits of a solved choice.
    pub(super) fn read(&self, solved: Solved) -> Result<Evaluated, String> {
        let model = solved.model();
        let mass = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
        let (uses, outside) = self.uses(&solved)?;
        Ok(Evaluated { solved, mass, uses, outside })
    }

    fn uses(&self, solved: &Solved) -> Result<(Vec<Use>, usize), String> {
        let (model, cases) = (solved.model(), solved.cases());
        let mut uses = Vec::new();
        for (name, least) in &self.limits.stiffness {
            let place = cases.0.iter().position(|case| case.name == *name).ok_or("a load case is gone")?;
            let value = first_twist(&solved.measures(place))
                .ok_or_else(|| format!("the load case `{name}` measures no twist"))?;
            uses.push(Use { of: Limited::Twist { case: place }, value, limit: *least, ratio: least / value });
        }
        for cap in &self.limits.movements {
            let Some(joint) = model.joint_named(&cap.joint) else { continue };
            for (place, case) in cases.0.iter().enumerate() {
                if cap.case.as_ref().is_some_and(|wanted| *wanted != case.name) {
                    continue;
                }
                let value = solved.movement(place, joint)[cap.dof.index()].abs();
                let of = Limited::Movement { case: place, joint, dof: cap.dof };
                uses.push(Use { of, value, limit: cap.at_most, ratio: value / cap.at_most });
            }
        }
        self.axial(solved, &mut uses);
        if let Some(least) = self.limits.frequency {
            let value = frequency(model)?;
            uses.push(Use { of: Limited::Frequency, value, limit: least, ratio: (least / value).powi(2) });
        }
        let outside = match self.limits.strength {
            Strength::None => 0,
            wanted => strength(wanted, model, cases, solved.gathered(), &mut uses),
        };
        Ok((uses, outside))
    }

    /// Mean axial stress, E · stretch / L, against the limits of the variables.
    fn axial(&self, solved: &Solved, uses: &mut Vec<Use>) {
        let model = solved.model();
        for (place, variable) in self.variables.iter().enumerate() {
            let Some(limit) = variable.axial else { continue };
            for tube in variable.tubes.iter().filter_map(|name| model.tube_named(name)) {
                let per_strain = model.materials()[model.tubes()[tube].material].youngs / model.length(tube);
                for (case, result) in solved.gathered().cases.iter().enumerate() {
                    let ends = &result.tubes[tube].end_displacements;
                    let value = per_strain * (ends[6] - ends[0]);
                    let limit = if value < 0.0 { -limit.compression } else { limit.tension };
                    let of = Limited::Axial { case, tube, variable: place };
                    uses.push(Use { of, value, limit, ratio: value / limit });
                }
            }
        }
    }

    /// A limit's use in words and door units.
    pub(super) fn told(&self, evaluated: &Evaluated, one: &Use) -> LimitUse {
        let case_name = |place: usize| evaluated.solved.case_name(place).to_owned();
        let joint_name = |joint: JointId| &evaluated.model().joints()[joint].name;
        let (what, case, value, limit, unit) = match &one.of {
            Limited::Twist { case } => {
                let [value, limit] = [one.value, one.limit].map(to_nm_per_deg);
                ("torsional stiffness".to_owned(), case_name(*case), value, limit, "N·m/deg")
            }
            Limited::Movement { case, joint, dof } => {
                let (door, unit): (fn(f64) -> f64, _) = if dof.is_rotation() { (to_deg, "deg") } else { (to_mm, "mm") };
                let what = format!("{} of joint {}", dof.name(), joint_name(*joint));
                (what, case_name(*case), door(one.value), door(one.limit), unit)
            }
            Limited::Axial { case, tube, .. } => {
                let what = format!("axial stress of tube {}", evaluated.model().tubes()[*tube].name);
                (what, case_name(*case), to_mpa(one.value), to_mpa(one.limit), "MPa")
            }
            Limited::Check { finding, .. } => {
                let what = format!("{} of {}", finding.code, finding.subject.name(evaluated.model()));
                (what, finding.case.clone(), one.value, one.limit, finding.unit)
            }
            Limited::Frequency => ("lowest frequency".to_owned(), String::new(), one.value, one.limit, "Hz"),
        };
        LimitUse { what, case, value, limit, unit, utilisation: one.ratio }
    }
}
