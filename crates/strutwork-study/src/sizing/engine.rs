//! Designs of a task as variants of one frame, solved side by side on one analysis.
//!
//! The search is led by what this finds; a design that is told was solved the whole way too.

use std::sync::Arc;

use rayon::prelude::*;
use strutwork_loads::LoadCases;
use strutwork_model::ids::Id;
use strutwork_model::model::{Section, SoftWhen};
use strutwork_model::validate::validate;
use strutwork_model::{MaterialId, Model, TubeId};
use strutwork_solve::Counters;
use strutwork_solve::reanalysis::{Family, Movements, Outcome, Route, TubeSet, TubeStiffness, Variant, Work, Workers};

use super::frame::{Evaluated, Frame};
use crate::fast::{Loads, OwnModel, Swift, loads_alike};
use crate::solved::Solved;

/// Designs that one thread solves at a time.
const CHUNK: usize = 8;

/// The frame of a task, prepared for its designs.
pub(super) struct Engine {
    base: Arc<Model>,
    cases: Arc<LoadCases>,
    family: Arc<Family>,
    /// Tubes of one material, of each variable.
    parts: Vec<Vec<Part>>,
    /// What acts on designs whose tubes are all there.
    loads: Loads,
    workers: Workers<Arc<Family>>,
}

struct Part {
    material: MaterialId,
    tubes: Vec<TubeId>,
    set: TubeSet,
}

/// A design that is ready to be solved.
struct Ready {
    model: Arc<Model>,
    cases: Arc<LoadCases>,
    variant: Variant,
}

impl Engine {
    /// Of a frame as it is, with its load cases; `ends` are its lightest and its heaviest design. `None` where more than
    /// stiffness, mass and load cases follows from the sections, or where the frame as it is cannot be solved.
    pub(super) fn of(frame: &Frame<'_>, base: Model, cases: LoadCases, ends: &[Vec<Section>]) -> Option<Self> {
        if base.options().soft_joints.when == SoftWhen::Always {
            return None;
        }
        let mut same = true;
        for sections in ends {
            let sections: Vec<Option<&Section>> = sections.iter().map(Some).collect();
            let model = validate(&frame.with(&sections)).ok()?.value;
            if !base.differs_in_sections_alone(&model) {
                return None;
            }
            let own = (frame.derive)(&model).ok()?;
            same &= loads_alike(&own, &cases);
        }
        let free = !frame.limits.movements.is_empty() && cases.0.iter().any(|case| case.free);
        let loads = Loads::of(same, free);
        let base = Arc::new(base);
        let mut family = Family::of(&base, &cases).ok()?;
        let mut parts = Vec::new();
        for rows in &frame.rows {
            let mut own: Vec<(MaterialId, Vec<TubeId>)> = Vec::new();
            for tube in rows.iter().map(|row| TubeId::new(*row)) {
                let material = base.tubes()[tube].material;
                match own.iter_mut().find(|(known, _)| *known == material) {
                    Some((_, tubes)) => tubes.push(tube),
                    None => own.push((material, vec![tube])),
                }
            }
            let part = |(material, tubes): (MaterialId, Vec<TubeId>)| {
                let set = family.tubes(&tubes);
                Part { material, tubes, set }
            };
            parts.push(own.into_iter().map(part).collect());
        }
        let family = Arc::new(family);
        let workers = Workers::of(Arc::clone(&family));
        Some(Self { base, cases: Arc::new(cases), family, parts, loads, workers })
    }

    /// Work that was done so far, while no design is being solved.
    pub(super) fn work(&self) -> (Counters, Work) {
        (self.family.counters(), self.workers.work())
    }

    /// Solves designs and reads their limits; `Err` says in words why a design makes no frame.
    pub(super) fn evaluate(
        &self,
        frame: &Frame<'_>,
        designs: &[Vec<Option<&Section>>],
    ) -> Vec<Result<Evaluated, String>> {
        let chunks = designs.par_chunks(CHUNK).map(|designs| {
            let ready: Vec<Result<Ready, String>> = designs.iter().map(|design| self.ready(frame, design)).collect();
            let (places, variants): (Vec<usize>, Vec<Variant>) = ready
                .iter()
                .enumerate()
                .filter_map(|(place, ready)| Some((place, ready.as_ref().ok()?.variant.clone())))
                .unzip();
            let mut moved: Vec<Option<Movements>> = designs.iter().map(|_| None).collect();
            self.workers.with(|worker| {
                worker.solve(&variants, |index, outcome| {
                    // What is a mechanism is told by the whole way.
                    if let Outcome::Solved(solved) = outcome
                        && solved.route() != Route::Alone
                    {
                        moved[places[index]] = Some(solved.keep());
                    }
                });
            });
            let read = ready.into_iter().zip(moved).zip(designs);
            read.map(|((ready, moved), design)| match moved {
                Some(moved) => self.read(frame, ready?, moved),
                None => ready.and_then(|_| frame.evaluate(design)),
            })
            .collect::<Vec<_>>()
        });
        chunks.collect::<Vec<_>>().into_iter().flatten().collect()
    }

    /// A design's model, load cases and stiffness.
    fn ready(&self, frame: &Frame<'_>, design: &[Option<&Section>]) -> Result<Ready, String> {
        let whole = design.iter().all(Option::is_some);
        let model = if whole {
            let named: Vec<Section> = frame.named(design);
            let parts = named.iter().zip(&self.parts);
            let changes = parts.flat_map(|(section, parts)| parts.iter().map(move |part| (section, &*part.tubes)));
            Arc::new(self.base.with_sections(changes))
        } else {
            Arc::new(validate(&frame.with(design)).map_err(|faults| faults.to_string())?.value)
        };
        let mut variant = Variant::new();
        for (section, parts) in design.iter().zip(&self.parts) {
            for part in parts {
                variant = match section {
                    Some(section) => {
                        variant.with(part.set, TubeStiffness::new(section, &self.base.materials()[part.material]))
                    }
                    None => variant.without(part.set),
                };
            }
        }
        let loads = if whole { self.loads } else { Loads::Own };
        let cases = match loads {
            Loads::Same | Loads::Free => Arc::clone(&self.cases),
            Loads::Own => Arc::new((frame.derive)(&model)?),
        };
        if loads != Loads::Same {
            let rights = self.family.rights(&model, &cases).map_err(|error| error.to_string())?;
            variant = variant.under(rights);
        }
        Ok(Ready { model, cases, variant })
    }

    fn read(&self, frame: &Frame<'_>, ready: Ready, movements: Movements) -> Result<Evaluated, String> {
        let own = OwnModel::Made(ready.model);
        let (family, base) = (Arc::clone(&self.family), Arc::clone(&self.base));
        frame.read(Solved::of_movements(Swift { family, frame: base, movements, own, cases: ready.cases }))
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use strutwork_loads::case::Nature;
    use strutwork_loads::{CaseBuilder, LoadCases, LoadError};
    use strutwork_model::{Dof, Model, stock};

    use super::super::frame::Frame;
    use super::super::{Choice, Limits, MovementCap, Size, Task, variables_of_groups};
    use super::*;

    /// A couple that is in balance by itself: the same for all designs, though the frame is free.
    fn twist(model: &Model) -> Result<LoadCases, String> {
        let build = || {
            let mut case = CaseBuilder::new(Arc::new(model.clone()), "twist", "", Nature::Notional)?;
            case.twist_axles(500.0)?;
            case.balance()?;
            Ok::<_, LoadError>(LoadCases(vec![case.finish()?]))
        };
        build().map_err(|error| error.to_string())
    }

    #[test]
    fn a_free_frame_is_put_into_its_place_by_the_masses_of_the_design() {
        let folder = strutwork_testkit::buggy();
        let spec = strutwork_model::spec::parse(&folder.files()).0;
        let sizes: Vec<Size> = ["square 20x2", "square 40x3"]
            .map(|name| Size::stock(&stock::find(name).expect("in the list")).expect("a tube"))
            .into();
        let variables = variables_of_groups(&folder.model(), &Choice::List(sizes.clone()));
        let mut task = Task::new(&spec, &twist, variables);
        let cap = |joint: &str, dof| MovementCap { case: None, joint: joint.to_owned(), dof, at_most: 1e-3 };
        task.limits = Limits {
            movements: vec![cap("FLT", Dof::Uz), cap("RR", Dof::Uy), cap("FR", Dof::Rx)],
            ..Limits::default()
        };
        let frame = Frame::of(&task).expect("a task");
        let engine =
            Engine::of(&frame, folder.model(), twist(&folder.model()).expect("a case"), &[]).expect("an engine");
        assert_eq!(engine.loads, Loads::Free);
        // The heavier tubes are not where the lighter ones are: rigid motion is another in each design.
        let designs: Vec<Vec<Option<&Section>>> = [[0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1], [1, 1, 1]]
            .map(|picks: [usize; 3]| picks.map(|pick| Some(&sizes[pick].section)).to_vec())
            .into();
        for (design, together) in designs.iter().zip(engine.evaluate(&frame, &designs)) {
            let alone = frame.evaluate(design).expect("a frame");
            for (one, other) in together.expect("a frame").uses.iter().zip(&alone.uses) {
                assert!((one.value - other.value).abs() <= 1e-9 * other.value.abs(), "{one:?} {other:?}");
            }
        }
        assert_eq!(engine.work().1.in_lanes, 5);
    }
}
