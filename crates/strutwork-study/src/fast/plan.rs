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
/// Grounds, and plans of blocks, that are remembered.
const REMEMBERED: usize = 16;

type Key = Vec<String>;

/// The plan of a block: what the values of the key parameters lead to.
#[derive(Debug, Clone, Default)]
struct Plan(BTreeMap<Key, Result<Arc<Ground>, Why>>);

/// What is remembered of plans and grounds. Forgotten ones are made again, and come out the same.
#[derive(Debug, Default)]
pub(super) struct Plans {
    blocks: BTreeMap<u64, Arc<Plan>>,
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
            self.loads = Some(ground.loads);
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
        let (sum, own) = (&mut self.prepared, ground.counters());
        sum.symbolic_analyses += own.symbolic_analyses;
        sum.factorisations += own.factorisations;
        sum.solves += own.solves;
        self.work += ground.done();
    }
}

/// The plans of all blocks that a range touches.
pub(super) struct RangePlans(BTreeMap<u64, Arc<Plan>>);

impl RangePlans {
    /// The ground of a variant, or why it goes the whole way.
    pub(super) fn way(&self, roles: &Roles, variant: u64, values: &[Value]) -> Result<&Arc<Ground>, Why> {
        let plan = self.0.get(&(variant / BLOCK));
        match plan.and_then(|plan| plan.0.get(&roles.key(values))) {
            Some(Ok(ground)) => Ok(ground),
            Some(Err(why)) => Err(*why),
            None => Err(Why::FewAlike),
        }
    }
}

/// Plans the blocks of a range.
pub(super) fn of_range(fast: &Fast<'_>, study: &Study, roles: &Roles, variants: &Range<u64>) -> RangePlans {
    if variants.is_empty() {
        return RangePlans(BTreeMap::new());
    }
    let blocks = variants.start / BLOCK..=(variants.end - 1) / BLOCK;
    let plan = |block: u64| {
        let known = fast.plans().blocks.get(&block).cloned();
        let plan = known.unwrap_or_else(|| {
            let plan = Arc::new(of_block(fast, study, roles, block));
            let mut plans = fast.plans();
            plans.blocks.insert(block, Arc::clone(&plan));
            if plans.blocks.len() > REMEMBERED {
                plans.blocks.pop_first();
            }
            plan
        });
        (block, plan)
    };
    RangePlans(blocks.map(plan).collect())
}

/// Plans a block: counts its keys, prepares grounds for the most frequent, and holds the first variant of each against the
/// whole way.
fn of_block(fast: &Fast<'_>, study: &Study, roles: &Roles, block: u64) -> Plan {
    let count = study.count().unwrap_or(0);
    let numbers = block * BLOCK..((block + 1) * BLOCK).min(count);
    let mut keys: BTreeMap<Key, (u64, u64)> = BTreeMap::new();
    if roles.key.is_empty() {
        keys.insert(Vec::new(), (numbers.end - numbers.start, numbers.start));
    } else {
        for variant in numbers {
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
    let grounds: Vec<(Key, u64, Result<Arc<Ground>, Why>)> = frequent
        .into_iter()
        .map(|(key, _, first)| {
            let known = fast.plans().known(&key);
            let ground = known.unwrap_or_else(|| {
                let ground = Ground::of(study, &fast.exact, roles, &study.values(first)).map(Arc::new);
                fast.plans().remember(key.clone(), ground.clone());
                ground
            });
            (key, first, ground)
        })
        .collect();
    let judged = grounds.into_par_iter().map(|(key, first, ground)| {
        let ground = ground.and_then(|ground| {
            let chunk = Chunk { fast, study, ground: &ground };
            if chunk.agrees(&study.values(first)) { Ok(ground) } else { Err(Why::Drift) }
        });
        (key, ground)
    });
    Plan(judged.collect())
}
