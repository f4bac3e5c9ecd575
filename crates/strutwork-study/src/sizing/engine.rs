//! Designs of a task as variants of one frame, solved side by side on one analysis.
//!
//! The search is led by what this finds; a design that is told was solved the whole way too.

use std::sync::{Arc, Mutex, PoisonError};

use rayon::prelude::*;
use strutwork_loads::LoadCases;
use strutwork_model::ids::Id;
use strutwork_model::model::{Section, SoftWhen};
use strutwork_model::validate::validate;
use strutwork_model::{MaterialId, Model, TubeId};
use strutwork_solve::Counters;
use strutwork_solve::reanalysis::{
    Family, Movements, Outcome, Route, TubeSet, TubeStiffness, Variant, Work, Workspace,
};

use super::frame::{Evaluated, Frame};
use crate::fast::{OwnModel, Swift, loads_alike};
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
    /// Whether all designs have the load cases of the frame as it is.
    same_loads: bool,
    idle: Mutex<Vec<Workspace>>,
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
        let mut same_loads = true;
        for sections in ends {
            let sections: Vec<Option<&Section>> = sections.iter().map(Some).collect();
            let model = validate(&frame.with(&sections)).ok()?.value;
            if !base.differs_in_sections_alone(&model) {
                return None;
            }
            let own = (frame.derive)(&model).ok()?;
            same_loads &= loads_alike(&own, &cases);
        }
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
        Some(Self { base, cases: Arc::new(cases), family: Arc::new(family), parts, same_loads, idle: Mutex::default() })
    }

    fn spaces(&self) -> std::sync::MutexGuard<'_, Vec<Workspace>> {
        self.idle.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Work that was done so far, while no design is being solved.
    pub(super) fn work(&self) -> (Counters, Work) {
        let mut work = Work::default();
        self.spaces().iter().for_each(|space| work += space.work());
        (self.family.counters(), work)
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
            let idle = self.spaces().pop();
            let mut worker = idle.map_or_else(|| self.family.worker(), |space| self.family.worker_in(space));
            worker.solve(&variants, |index, outcome| {
                // What is a mechanism is told by the whole way.
                if let Outcome::Solved(solved) = outcome
                    && solved.route() != Route::Alone
                {
                    moved[places[index]] = Some(solved.keep());
                }
            });
            self.spaces().push(worker.into_space());
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
        if whole && self.same_loads {
            return Ok(Ready { model, cases: Arc::clone(&self.cases), variant });
        }
        let cases = (frame.derive)(&model)?;
        let rights = self.family.rights(&model, &cases).map_err(|error| error.to_string())?;
        Ok(Ready { model, cases: Arc::new(cases), variant: variant.under(rights) })
    }

    fn read(&self, frame: &Frame<'_>, ready: Ready, movements: Movements) -> Result<Evaluated, String> {
        let own = OwnModel::Made(ready.model);
        let (family, base) = (Arc::clone(&self.family), Arc::clone(&self.base));
        frame.read(Solved::of_movements(Swift { family, frame: base, movements, own, cases: ready.cases }))
    }
}
