//! Variants of one ground, solved together and answered.

use std::sync::Arc;

use strutwork_loads::LoadCases;
use strutwork_model::ids::Id;
use strutwork_model::units::to_nm_per_deg;
use strutwork_model::{Model, PanelId, TubeId};
use strutwork_solve::reanalysis::{Moved, Outcome as Solution, Rights, Route, TubeStiffness, Variant};

use super::Fast;
use super::act::{Acts, Dress, Parts, places};
use super::ground::{Ground, Read};
use super::loads::Loads;
use super::swift::{Own, Swift};
use crate::evaluate::Trouble;
use crate::exact::{first_twist, unit_twist};
use crate::outcome::{Outcome, Status, Way, Why};
use crate::read_off::{ReadOff, a_number, in_door_units};
use crate::response::Asked;
use crate::solved::Solved;
use crate::study::Study;
use crate::value::Value;

/// Displacements that are found both ways may differ by this share of the greatest of their case and kind; masses and
/// stiffness by this share of themselves.
const SAME: f64 = 1e-9;
/// Utilisations, for which forces are differences of displacements, by this share of themselves.
const SAME_USE: f64 = 1e-7;

/// Variants of one ground.
pub(super) struct Chunk<'c, 'a> {
    pub fast: &'c Fast<'a>,
    pub study: &'c Study,
    pub ground: &'c Arc<Ground>,
}

/// What a variant changes on the ground.
#[derive(Default)]
struct Changes {
    /// Acts, and what the tubes of their parts get.
    dresses: Vec<(usize, (Dress, Parts))>,
    out: Vec<TubeId>,
    panels: Vec<(PanelId, f64)>,
    tubes_mass: f64,
    total_mass: f64,
}

/// A variant that is ready to be solved.
struct Ready {
    place: usize,
    variant: Variant,
    model: Own,
    cases: Arc<LoadCases>,
    masses: [f64; 2],
}

impl Chunk<'_, '_> {
    /// The outcomes of variants, in their order. `look` sees how each of them moved.
    pub(super) fn outcomes(&self, variants: &[&[Value]], look: &mut dyn FnMut(usize, &Moved<'_>)) -> Vec<Outcome> {
        let mut outcomes: Vec<Option<Outcome>> = variants.iter().map(|_| None).collect();
        let mut ready: Vec<Ready> = Vec::with_capacity(variants.len());
        for (place, values) in variants.iter().enumerate() {
            match self.ready(place, values) {
                Ok(one) => ready.push(one),
                Err(why) => outcomes[place] = Some(self.fast.exact.outcome(self.study, values, why)),
            }
        }
        if self.ground.solved.0.is_empty() {
            for one in ready {
                let answers = self.answers(variants[one.place], &one, None);
                outcomes[one.place] = Some(self.study.outcome(answers, Way::Weighed));
            }
        } else {
            let prepared: Vec<Variant> = ready.iter_mut().map(|one| std::mem::take(&mut one.variant)).collect();
            self.ground.workers.with(|worker| {
                worker.solve(&prepared, |index, solution| {
                    let one = &ready[index];
                    let (answers, way) = match solution {
                        Solution::Solved(moved) => {
                            look(one.place, &moved);
                            (self.answers(variants[one.place], one, Some(&moved)), way(moved.route()))
                        }
                        Solution::Failed(error) => (Err(Trouble::of_solving(&self.ground.model, &error)), Way::Alone),
                    };
                    outcomes[one.place] = Some(self.study.outcome(answers, way));
                });
            });
        }
        let whole = |(outcome, values): (Option<Outcome>, &&[Value])| {
            outcome.unwrap_or_else(|| self.fast.exact.outcome(self.study, values, Why::NoGround))
        };
        outcomes.into_iter().zip(variants).map(whole).collect()
    }

    /// What values change; `Err` where they go the whole way.
    fn changes(&self, values: &[Value]) -> Result<Changes, Why> {
        let ground = self.ground;
        let mut changes = Changes::default();
        let mut masses = ground.masses.clone();
        let mut other_mass = ground.other_mass;
        for (number, act) in ground.acts.iter().enumerate() {
            match act.at(&values[act.place]) {
                Acts::Nothing => {}
                Acts::Sections(parts, sections) => {
                    for (part, section) in parts.iter().zip(sections.iter()) {
                        places(part).for_each(|tube| masses[tube] = section.area * ground.heft[tube]);
                    }
                    changes.dresses.push((number, (sections, Arc::clone(parts))));
                }
                Acts::Removal(out) => changes.out.extend_from_slice(out),
                Acts::Panel(panel, [times, kg]) => {
                    changes.panels.push((panel, times));
                    other_mass += kg;
                }
                Acts::Fault => return Err(Why::Value),
            }
        }
        places(&changes.out).for_each(|tube| masses[tube] = 0.0);
        changes.tubes_mass = masses.iter().sum();
        changes.total_mass = changes.tubes_mass + other_mass;
        if !changes.out.is_empty() && !ground.stays_one(&changes.out) {
            return Err(Why::ComesApart);
        }
        Ok(changes)
    }

    /// A variant with everything that solving and answering it needs.
    fn ready(&self, place: usize, values: &[Value]) -> Result<Ready, Why> {
        let ground = self.ground;
        let changes = self.changes(values)?;
        let mut variant = Variant::new();
        for (act, (dress, parts)) in &changes.dresses {
            let parts = parts.iter().zip(&ground.sets[*act]);
            for ((tubes, set), section) in parts.zip(dress.iter()) {
                let material = &ground.model.materials()[ground.model.tubes()[tubes[0]].material];
                variant = variant.with(*set, TubeStiffness::new(section, material));
            }
        }
        for tube in &changes.out {
            if let Some(set) = ground.singles[tube.index()] {
                variant = variant.without(set);
            }
        }
        for (panel, times) in &changes.panels {
            variant = variant.with_panel(*panel, *times);
        }
        let mut ready = Ready {
            place,
            variant,
            model: Own::Dressed(changes.dresses.into_iter().map(|(_, dress)| dress).collect()),
            cases: Arc::clone(&ground.cases),
            masses: [changes.tubes_mass, changes.total_mass],
        };
        let more = !changes.out.is_empty() || !changes.panels.is_empty();
        // Ids of tubes are other ones where some are gone, and a panel's mass is not among the sections.
        let own_loads = ground.loads == Loads::Own || more && (ground.asks_more() || ground.loads == Loads::Free);
        if more && own_loads {
            ready.model = Own::Made(self.fast.exact.model(self.study, values).map_err(|_| Why::Value)?);
        }
        if own_loads || ground.loads == Loads::Free {
            let model = ready.model.model(&ground.model);
            ready.model = Own::Made(Arc::clone(&model));
            let rights =
                if own_loads { self.own_loads(&mut ready, &model) } else { self.rights(&model, &ground.solved) };
            ready.variant = ready.variant.under(rights.ok_or(Why::Cases)?);
        }
        Ok(ready)
    }

    /// The load cases of a variant's own model, and what acts in them.
    fn own_loads(&self, ready: &mut Ready, model: &Arc<Model>) -> Option<Rights> {
        let ground = self.ground;
        let cases = self.fast.exact.cases(self.study, &ground.needs, model).ok()?;
        let mut solved = cases.clone();
        if ground.solved.0.len() > ground.cases.0.len() {
            solved.0.extend(unit_twist(model).ok()?.0);
        }
        let named = |(one, other): (&strutwork_loads::LoadCase, &strutwork_loads::LoadCase)| one.name == other.name;
        if !solved.0.iter().zip(&ground.solved.0).all(named) {
            return None;
        }
        ready.cases = Arc::new(cases);
        self.rights(model, &solved)
    }

    fn rights(&self, model: &Model, cases: &LoadCases) -> Option<Rights> {
        self.ground.family.rights(model, cases).ok()
    }

    /// The answers of a variant, from how it moved.
    fn answers(&self, values: &[Value], one: &Ready, moved: Option<&Moved<'_>>) -> Result<Vec<Option<f64>>, Trouble> {
        let ground = self.ground;
        let measured = |moved: &Moved<'_>| {
            let case = ground.twist.filter(|_| ground.needs.twist)?;
            first_twist(&moved.measures(case))
        };
        let twist = moved.and_then(measured);
        let solved = moved.filter(|_| ground.asks_more()).map(|moved| {
            Arc::new(Solved::of_movements(Swift {
                family: Arc::clone(&ground.family),
                frame: Arc::clone(&ground.model),
                movements: moved.keep(),
                own: one.model.clone(),
                cases: Arc::clone(&one.cases),
            }))
        });
        let read_off = solved.as_ref().map(|solved| ReadOff::new(solved, twist, &ground.needs)).transpose()?;
        let mut answers = Vec::with_capacity(ground.reads.len());
        for (place, (read, response)) in ground.reads.iter().zip(&self.study.responses).enumerate() {
            let answer = match (read, moved, &solved, &read_off) {
                (Read::TubesMass, ..) => Some(one.masses[0]),
                (Read::TotalMass, ..) => Some(one.masses[1]),
                (Read::Twist, ..) => {
                    Some(to_nm_per_deg(twist.ok_or_else(|| Trouble::not_there("no load case measures a twist"))?))
                }
                (Read::Movement { case, joint, dof }, Some(moved), ..) => {
                    Some(in_door_units(*dof, moved.joint(*case, *joint)[dof.index()]))
                }
                (_, _, _, Some(read_off)) => read_off.one(place, response, values, self.fast.exact.own())?,
                _ => None,
            };
            answers.push(a_number(answer, response)?);
        }
        Ok(answers)
    }

    /// Whether nothing that values change sends their variant the whole way.
    pub(super) fn goes(&self, values: &[Value]) -> bool {
        self.changes(values).is_ok()
    }

    /// Whether a variant comes out the same both ways.
    pub(super) fn agrees(&self, values: &[Value]) -> bool {
        let whole = self.fast.exact.solved(self.study, values);
        let mut close = true;
        let mut look = |_: usize, moved: &Moved<'_>| {
            if let Ok((solved, _)) = &whole {
                close = displacements_agree(solved, moved);
            }
        };
        let outcome = self.outcomes(&[values], &mut look).pop();
        let Some(outcome) = outcome.filter(|outcome| !matches!(outcome.way, Way::Whole(_))) else { return true };
        let answers = match &whole {
            Err(trouble) => return trouble.status == outcome.status,
            Ok((solved, twist)) => ReadOff::new(solved, *twist, &self.ground.needs)
                .and_then(|read_off| read_off.all(self.study, values, self.fast.exact.own())),
        };
        match answers {
            Err(trouble) => trouble.status == outcome.status,
            Ok(answers) => {
                outcome.status == Status::Solved && close && self.answers_agree(&outcome.responses, &answers)
            }
        }
    }

    /// Whether answers are the same where they are numbers of their own: others follow from the displacements.
    fn answers_agree(&self, one: &[Option<f64>], other: &[Option<f64>]) -> bool {
        let share = |asked: &Asked| match asked {
            Asked::TubesMass | Asked::TotalMass | Asked::TwistStiffness => Some(SAME),
            Asked::Utilisation(_) => Some(SAME_USE),
            _ => None,
        };
        self.study.responses.iter().zip(one.iter().zip(other)).all(|(response, (a, b))| {
            match (share(&response.asked), a, b) {
                (None, ..) | (_, None, None) => true,
                (Some(share), Some(a), Some(b)) => a == b || (a - b).abs() <= share * a.abs().max(b.abs()),
                _ => false,
            }
        })
    }
}

fn way(route: Route) -> Way {
    match route {
        Route::Lanes => Way::Lanes,
        Route::Update => Way::Update,
        Route::Alone => Way::Alone,
    }
}

/// Whether all joints moved alike in all cases.
fn displacements_agree(solved: &Solved, moved: &Moved<'_>) -> bool {
    (0..solved.count()).all(|case| {
        let (own, other) = (&solved.case(case).displacements, moved.joints(case));
        [0..3, 3..6].into_iter().all(|kind| {
            let size =
                own.iter().flat_map(|joint| &joint[kind.clone()]).fold(0.0_f64, |most, value| most.max(value.abs()));
            let mut pairs =
                own.iter().zip(other.iter()).flat_map(|(a, b)| a[kind.clone()].iter().zip(&b[kind.clone()]));
            pairs.all(|(a, b)| (a - b).abs() <= SAME * size)
        })
    })
}
