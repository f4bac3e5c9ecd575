//! Which variants have a ground, and whether it can be trusted.

use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

use rayon::prelude::*;

use super::chunk::Chunk;
use super::ground::Ground;
use super::loads::Loads;
use super::roles::Roles;
use super::{BLOCK, Done, Fast};
use crate::outcome::Why;
use crate::study::Study;
use crate::value::Value;

/// A ground is prepared where at least so many variants of a block have it in common.
const ALIKE: u64 = 16;
/// No more grounds than this are prepared in a block: those that the most variants have.
const MOST: usize = 16;
/// Grounds that are remembered: no fewer than a block may have.
const REMEMBERED: usize = MOST;

type Key = Vec<String>;

/// The plan of a block: what the values of the key parameters lead to.
#[derive(Debug, Clone, Default)]
pub(super) struct Plan(BTreeMap<Key, Result<Arc<Ground>, Why>>);

impl Plan {
    /// The ground of a variant, or why it goes the whole way.
    pub(super) fn way(&self, roles: &Roles, values: &[Value]) -> Result<&Arc<Ground>, Why> {
        match self.0.get(&roles.key(values)) {
            Some(Ok(ground)) => Ok(ground),
            Some(Err(why)) => Err(*why),
            None => Err(Why::FewAlike),
        }
    }
}

/// What is remembered of plans and grounds. Forgotten ones are made again, and come out the same.
#[derive(Debug, Default)]
pub(super) struct Plans {
    /// The block that was planned last, and its plan.
    last: Option<(u64, Arc<Plan>)>,
    /// The last used at the end.
    grounds: Vec<(Key, Result<Arc<Ground>, Why>)>,
    loads: Option<Loads>,
    lanes: usize,
    /// Of grounds that were forgotten.
    forgotten: Done,
}

impl Plans {
    pub(super) fn loads(&self) -> Option<Loads> {
        self.loads
    }

    pub(super) fn lanes(&self) -> usize {
        self.lanes
    }

    /// Work that was done.
    pub(super) fn done(&self) -> Done {
        let mut done = self.forgotten;
        self.grounds.iter().filter_map(|(_, ground)| ground.as_ref().ok()).for_each(|ground| done.add(ground));
        done
    }

    fn known(&mut self, key: &Key) -> Option<Result<Arc<Ground>, Why>> {
        let place = self.grounds.iter().position(|(known, _)| known == key)?;
        let found = self.grounds.remove(place);
        self.grounds.push(found.clone());
        Some(found.1)
    }

    fn remember(&mut self, key: Key, ground: Result<Arc<Ground>, Why>) {
        if let Ok(ground) = &ground {
            self.loads = self.loads.max(Some(ground.loads));
            self.lanes = ground.family.lanes();
        }
        self.grounds.push((key, ground));
        if self.grounds.len() > REMEMBERED
            && let (_, Ok(ground)) = self.grounds.remove(0)
        {
            self.forgotten.add(&ground);
        }
    }
}

impl Done {
    fn add(&mut self, ground: &Ground) {
        self.grounds += 1;
        self.prepared.add(&ground.counters());
        self.work += ground.workers.work();
    }
}

/// The plan of a block, and whether its grounds are known to be trustworthy.
pub(super) enum Planned {
    /// They are, those that are left.
    Judged(Arc<Plan>),
    /// Not yet.
    Hopeful(Hopeful),
}

/// A plan whose grounds are still to be held against the whole way.
pub(super) struct Hopeful {
    pub plan: Plan,
    /// Which block, and its variants.
    block: u64,
    numbers: Range<u64>,
    /// The first variant of each key.
    firsts: Vec<(Key, u64)>,
}

impl Hopeful {
    /// Holds the first variant that goes the way of each ground against the whole way; gives the plan of the grounds that hold,
    /// and whether all of them did.
    pub(super) fn judged(&self, fast: &Fast<'_>, study: &Study, roles: &Roles) -> (Arc<Plan>, bool) {
        let Self { plan, block, numbers, firsts } = self;
        let holds = |(key, first): &(Key, u64)| {
            let Some(Ok(ground)) = plan.0.get(key) else { return true };
            let chunk = Chunk { fast, study, ground };
            let mut own = (*first..numbers.end).map(|variant| study.values(variant));
            let tried = own.find(|values| roles.key(values) == *key && chunk.goes(values));
            tried.is_none_or(|values| chunk.agrees(&values))
        };
        let drifted: Vec<&Key> = firsts.par_iter().filter(|first| !holds(first)).map(|(key, _)| key).collect();
        let all = drifted.is_empty();
        let mut judged = plan.clone();
        judged.0.extend(drifted.into_iter().map(|key| (key.clone(), Err(Why::Drift))));
        let judged = Arc::new(judged);
        fast.plans().last = Some((*block, Arc::clone(&judged)));
        (judged, all)
    }
}

/// The plan of a block.
pub(super) fn of(fast: &Fast<'_>, study: &Study, roles: &Roles, block: u64) -> Planned {
    let known = fast.plans().last.clone();
    match known {
        Some((known, plan)) if known == block => Planned::Judged(plan),
        _ => Planned::Hopeful(of_block(fast, study, roles, block)),
    }
}

/// Plans a block: counts its keys, and prepares grounds for the most frequent.
fn of_block(fast: &Fast<'_>, study: &Study, roles: &Roles, block: u64) -> Hopeful {
    let count = study.count().unwrap_or(0);
    let numbers = block * BLOCK..((block + 1) * BLOCK).min(count);
    let mut keys: BTreeMap<Key, (u64, u64)> = BTreeMap::new();
    if roles.key.is_empty() {
        keys.insert(Vec::new(), (numbers.end - numbers.start, numbers.start));
    } else {
        for variant in numbers.clone() {
            let (count, _) = keys.entry(roles.key(&study.values(variant))).or_insert((0, variant));
            *count += 1;
        }
    }
    let mut frequent: Vec<(Key, u64, u64)> =
        keys.into_iter().map(|(key, (count, first))| (key, count, first)).collect();
    frequent.sort_by_key(|(_, count, first)| (std::cmp::Reverse(*count), *first));
    frequent.truncate(MOST);
    frequent.retain(|(_, count, _)| *count >= ALIKE || roles.key.is_empty());
    // One after the other: each uses all threads by itself.
    let grounds = frequent.iter().map(|(key, _, first)| {
        let known = fast.plans().known(key);
        let ground = known.unwrap_or_else(|| {
            let ground = Ground::of(study, &fast.exact, roles, &study.values(*first)).map(Arc::new);
            fast.plans().remember(key.clone(), ground.clone());
            ground
        });
        (key.clone(), ground)
    });
    let plan = Plan(grounds.collect());
    let firsts = frequent.into_iter().map(|(key, _, first)| (key, first)).collect();
    Hopeful { plan, block, numbers, firsts }
}
