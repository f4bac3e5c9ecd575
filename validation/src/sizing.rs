//! Sizes that a case asks to be chosen, and what our search makes of it.

use strutwork_loads::derive_plain;
use strutwork_model::model::{Model, Section};
use strutwork_model::spec::parse;
use strutwork_model::{Dof, read_model, stock};
use strutwork_study::sizing::{
    AxialLimit, Choice, MovementCap, Proof, Size, SizingOutcome, Strength, Task, size, variables_of_groups,
};

use crate::case::Case;
use crate::cases::twist;
use crate::run::{Problem, RunFault};

/// Sizes that are to be chosen, one for each group of tubes, for least mass.
#[derive(Debug, Clone, PartialEq)]
pub struct Sizing {
    /// What each group may take.
    pub sizes: Sizes,
    /// Limits on the mean axial stress of groups, by name: greatest tension and compression, Pa.
    pub axial: Vec<(String, [f64; 2])>,
    /// Joints that may move no further than this along a freedom in any load case, m.
    pub movements: Vec<(String, Dof, f64)>,
    /// A least torsional stiffness.
    pub stiffness: Option<LeastStiffness>,
    /// Whether every tube must stay within yield.
    pub within_yield: bool,
    /// Whether the search must prove that nothing lighter is there.
    pub proven: bool,
    /// How often the search shakes what it found.
    pub rounds: usize,
}

/// What tubes may take.
#[derive(Debug, Clone, PartialEq)]
pub enum Sizes {
    /// Areas between two bounds, m².
    Between([f64; 2]),
    /// These areas, m².
    Areas(Vec<f64>),
    /// These sizes of the stock list.
    Stock(Vec<String>),
}

/// A least torsional stiffness.
#[derive(Debug, Clone, PartialEq)]
pub struct LeastStiffness {
    /// The load case that twists.
    pub case: String,
    /// Left and right joint of the front station.
    pub front: [String; 2],
    /// Left and right joint of the rear station.
    pub rear: [String; 2],
    /// N·m.
    pub couple: f64,
    /// N·m/rad.
    pub at_least: f64,
}

/// Which mass a printed value is compared with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizedPart {
    /// Of the best design.
    Best,
    /// Of the next best that was found.
    RunnerUp,
}

impl Sizing {
    /// Runs the search.
    pub(crate) fn run(&self, case: &Case) -> Result<SizingOutcome, RunFault> {
        let model = read_model(&case.files)?.value;
        let (spec, _) = parse(&case.files);
        let derive = |model: &Model| {
            let mut cases = derive_plain(model).map_err(|fault| fault.to_string())?;
            if let Some(least) = &self.stiffness {
                let measure =
                    twist(model, &least.front, &least.rear, least.couple).map_err(|fault| fault.to_string())?;
                let found = cases.0.iter_mut().find(|known| known.name == least.case);
                found.ok_or_else(|| format!("there is no load case `{}`", least.case))?.measures.push(measure);
            }
            Ok(cases)
        };
        let wrong = |why: String| RunFault::Sizing(why);
        let choice = self.choice(&model).map_err(wrong)?;
        let mut variables = variables_of_groups(&model, &choice);
        for (group, [tension, compression]) in &self.axial {
            let found = variables.iter_mut().find(|variable| variable.name == *group);
            let found = found.ok_or_else(|| wrong(format!("there is no group `{group}`")))?;
            found.axial = Some(AxialLimit { tension: *tension, compression: *compression });
        }
        let mut task = Task::new(&spec, &derive, variables);
        let caps = self.movements.iter().map(|(joint, dof, at_most)| MovementCap {
            case: None,
            joint: joint.clone(),
            dof: *dof,
            at_most: *at_most,
        });
        task.limits.movements = caps.collect();
        task.limits.stiffness = self.stiffness.iter().map(|least| (least.case.clone(), least.at_least)).collect();
        task.limits.strength = if self.within_yield { Strength::Yield } else { Strength::None };
        task.search.rounds = self.rounds;
        size(&task).map_err(|fault| wrong(fault.to_string()))
    }

    fn choice(&self, model: &Model) -> Result<Choice, String> {
        let like = model.sections().iter().next().ok_or("the model has no section")?;
        Ok(match &self.sizes {
            Sizes::Between([least, most]) => Choice::Area { least: *least, most: *most, like: like.clone() },
            Sizes::Areas(areas) => {
                let size =
                    |area: &f64| Section::properties(format!("{:.4} mm²", area * 1e6), *area, like.iy, like.iz, like.j);
                let sections: Vec<Section> =
                    areas.iter().map(size).collect::<Result<_, _>>().map_err(|fault| fault.to_string())?;
                let named = |section: Section| Size { name: section.name.clone(), ..Size::new(section) };
                Choice::List(sections.into_iter().map(named).collect())
            }
            Sizes::Stock(names) => {
                let size = |name: &String| {
                    let found = stock::find(name).ok_or_else(|| format!("the stock list has no `{name}`"))?;
                    Size::stock(&found).map_err(|fault| fault.to_string())
                };
                Choice::List(names.iter().map(size).collect::<Result<_, _>>()?)
            }
        })
    }

    /// Our mass, kg.
    pub(crate) fn value(&self, outcome: &SizingOutcome, part: SizedPart) -> Result<f64, Problem> {
        if self.proven && !matches!(outcome.proof, Proof::Proven { .. }) {
            return Err("the search did not prove its answer".to_owned());
        }
        let design = match part {
            SizedPart::Best => outcome.best.as_ref(),
            SizedPart::RunnerUp => outcome.runners_up.first(),
        };
        design.map(|design| design.mass_kg).ok_or_else(|| "no design keeps the limits".to_owned())
    }
}
