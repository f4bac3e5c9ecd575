//! Variants by the engine that solves many of one topology together; what does not go that way goes the whole way.
//!
//! ```text
//! values ──┬─ key: places of joints, a script's own changes ──▶ Ground: one model, one analysis, what each value changes
//!          └─ the rest: sections, tubes left out, panels ──▶ variants of the ground ──▶ movements ──▶ answers
//! ```
//!
//! In reading order:
//! - `roles`: which parameters change no more than sections, panels, and which tubes are there;
//! - `act`: what a value of such a parameter changes;
//! - `ground`: the model that variants have in common, prepared; `loads`: whether their load cases are the same;
//! - `chunk`: variants of a ground, solved together and answered; `swift`: one of them, for whoever asks more;
//! - `plan`: which variants have a ground, and whether it can be trusted.
//!
//! Which way a variant goes follows from the study and its number alone: variants are looked at in blocks of [`BLOCK`], the
//! same whatever a run begins and ends with. In each block the first variant that goes a ground's way is solved both ways;
//! where the two differ, all of that block and ground go the whole way, and say so. A variant that comes out doubtful (pivots
//! near nothing, a correction that does not fit itself) is solved by itself, through all steps.

mod act;
mod chunk;
mod ground;
mod loads;
mod plan;
mod roles;
mod swift;
mod together;

use std::ops::Range;
use std::sync::{Arc, Mutex, OnceLock};

use rayon::prelude::*;
use strutwork_solve::Counters;
use strutwork_solve::reanalysis::Work;

use crate::evaluate::{CaseSource, Evaluate, Own};
use crate::exact::Exact;
use crate::outcome::{Outcome, Row, Why};
use crate::study::Study;
use crate::value::Value;
use ground::Ground;
pub(crate) use loads::{Loads, loads_alike};
use plan::{Hopeful, Plan, Planned, Plans};
use roles::Roles;
pub(crate) use swift::{Own as OwnModel, Swift};

/// So many variants are planned together, from multiples of it on.
pub const BLOCK: u64 = 4096;

/// No more than so many variants are solved by one thread at a time.
const CHUNK: usize = 64;

/// Evaluates variants together where that gives what the whole way gives, and the whole way where it does not.
pub struct Fast<'a> {
    exact: Exact<'a>,
    roles: OnceLock<Roles>,
    plans: Mutex<Plans>,
}

/// Work that was done, in this process.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Done {
    /// Frames that variants had in common.
    pub grounds: u64,
    /// What preparing these took.
    pub prepared: Counters,
    /// How their variants were solved.
    pub work: Work,
}

impl<'a> Fast<'a> {
    /// With load cases from this source, and the caller's own functions where the study has any. For one study: what is
    /// planned for its variants is remembered.
    pub fn new(cases: &'a dyn CaseSource, own: Option<&'a dyn Own>) -> Self {
        Self { exact: Exact::new(cases, own), roles: OnceLock::new(), plans: Mutex::default() }
    }

    /// Work that was done so far.
    pub fn done(&self) -> Done {
        self.plans().done()
    }

    fn plans(&self) -> std::sync::MutexGuard<'_, Plans> {
        self.plans.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    /// The outcomes of variants of one ground, in their order.
    fn outcomes(&self, study: &Study, ground: &Arc<Ground>, variants: &[&[Value]]) -> Vec<Outcome> {
        chunk::Chunk { fast: self, study, ground }.outcomes(variants, &mut |_, _| {})
    }

    /// The rows of variants of a block whose grounds are being held against the whole way meanwhile.
    fn judged_rows(&self, study: &Study, roles: &Roles, hopeful: &Hopeful, variants: &Range<u64>) -> Vec<Row> {
        let solve = || self.rows(study, roles, &hopeful.plan, variants);
        let (rows, (judged, all_hold)) = rayon::join(solve, || hopeful.judged(self, study, roles));
        if all_hold { rows } else { self.rows(study, roles, &judged, variants) }
    }

    /// The rows of variants of one block.
    fn rows(&self, study: &Study, roles: &Roles, plan: &Plan, variants: &Range<u64>) -> Vec<Row> {
        let count = crate::evaluate::places(variants).end;
        let size = count.div_ceil(rayon::current_num_threads().max(1)).clamp(1, CHUNK);
        let chunk = |number: usize| {
            let from = variants.start + (number * size) as u64;
            let numbers = from..variants.end.min(from + size as u64);
            let values: Vec<Vec<Value>> = numbers.clone().map(|variant| study.values(variant)).collect();
            let mut outcomes: Vec<Option<Outcome>> = values.iter().map(|_| None).collect();
            // Those of one ground together.
            let mut grounds: Vec<(Arc<Ground>, Vec<usize>)> = Vec::new();
            for (place, values) in values.iter().enumerate() {
                match plan.way(roles, values) {
                    Ok(ground) => match grounds.iter_mut().find(|(known, _)| Arc::ptr_eq(known, ground)) {
                        Some((_, places)) => places.push(place),
                        None => grounds.push((Arc::clone(ground), vec![place])),
                    },
                    Err(why) => outcomes[place] = Some(self.exact.outcome(study, values, why)),
                }
            }
            for (ground, places) in grounds {
                let own: Vec<&[Value]> = places.iter().map(|place| values[*place].as_slice()).collect();
                for (place, outcome) in places.iter().zip(self.outcomes(study, &ground, &own)) {
                    outcomes[*place] = Some(outcome);
                }
            }
            let rows = numbers.zip(values).zip(outcomes).map(|((variant, values), outcome)| {
                let outcome = outcome.unwrap_or_else(|| self.exact.outcome(study, &values, Why::NoGround));
                Row { variant, values, outcome }
            });
            rows.collect::<Vec<Row>>()
        };
        let chunks: Vec<Vec<Row>> = (0..count.div_ceil(size)).into_par_iter().map(chunk).collect();
        chunks.into_iter().flatten().collect()
    }
}

impl Evaluate for Fast<'_> {
    fn evaluate(&self, study: &Study, variants: Range<u64>) -> Vec<Row> {
        let roles = self.roles.get_or_init(|| Roles::of(study, &self.exact));
        let mut rows = Vec::with_capacity(crate::evaluate::places(&variants).end);
        let mut next = variants.start;
        // Block by block: the grounds of one at a time.
        while next < variants.end {
            let block = next / BLOCK;
            let end = variants.end.min((block + 1) * BLOCK);
            rows.extend(match plan::of(self, study, roles, block) {
                Planned::Judged(plan) => self.rows(study, roles, &plan, &(next..end)),
                Planned::Hopeful(hopeful) => self.judged_rows(study, roles, &hopeful, &(next..end)),
            });
            next = end;
        }
        rows
    }

    fn told(&self) -> Vec<String> {
        let plans = self.plans();
        let mut told = Vec::new();
        let Some(loads) = plans.loads() else { return told };
        told.push(match loads {
            Loads::Same => "Load cases: the same for every variant; derived once.".to_owned(),
            Loads::Free => {
                "Load cases: the same for every variant; what frees displacements of rigid motion is each one's own."
                    .to_owned()
            }
            Loads::Own => "Load cases: derived for each variant, as they follow from its masses.".to_owned(),
        });
        let Done { prepared, work, .. } = plans.done();
        told.push(format!(
            "Work of this run: {} symbolic analyses and {} factorisations for what variants have in common; then {} \
             factorisations of up to {} variants side by side, {} corrections ({} given up), {} variants by themselves.",
            prepared.symbolic_analyses,
            prepared.factorisations,
            work.lane_factorisations,
            plans.lanes(),
            work.updates,
            work.near_nothing + work.drifted,
            work.whole + work.singly
        ));
        told
    }
}
