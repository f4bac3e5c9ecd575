//! Which joint and which tube of one revision is which of the other.
//!
//! A joint is found by its name; one that was renamed by its place; one that was renamed and moved by the tubes that end at
//! it. A tube is found by its name; one that was renamed by the joints that it runs between. Where names were dealt out
//! anew, so that fewer tubes would be connected elsewhere if places counted first, they do.

use std::collections::{BTreeMap, BTreeSet};

use strutwork_element::LocalAxes;
use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model, TubeId};

use super::facts::distance;

/// A renamed joint may be this far from where it was before the tubes at it are asked, m.
const BY_PLACE: f64 = 1e-3;
/// A joint with one tube alone that was renamed and moved may have gone this far, m.
const ONE_TUBE: f64 = 0.1;

/// Pairs of joints and of tubes.
#[derive(Debug, Clone, PartialEq)]
pub struct Pairs {
    /// For each joint of the first model its pair in the second.
    pub joints: Vec<Option<JointId>>,
    /// For each tube of the first model its pair in the second.
    pub tubes: Vec<Option<TubePair>>,
}

/// A tube in both models.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TubePair {
    /// The tube of the second model.
    pub tube: TubeId,
    /// Whether it runs the other way: from where it ran to.
    pub reversed: bool,
}

impl Pairs {
    /// Finds them.
    pub fn of(a: &Model, b: &Model) -> Self {
        let by_name = joints(a, b, &vec![None; a.joints().len()]);
        let first = Self { tubes: tubes(a, b, &by_name), joints: by_name };
        // Joints that stand where others of their name do not: names may have been dealt out anew.
        let by_place = joints(a, b, &dealt_anew(a, b));
        let second = Self { tubes: tubes(a, b, &by_place), joints: by_place };
        if second.elsewhere(a, b) < first.elsewhere(a, b) { second } else { first }
    }

    /// How many tubes of one name do not run between the same joints.
    fn elsewhere(&self, a: &Model, b: &Model) -> usize {
        a.tubes()
            .iter()
            .filter(|tube| {
                b.tube_named(&tube.name).is_some_and(|other| {
                    let other = &b.tubes()[other];
                    ends(self, tube.from, tube.to) != sorted(Some(other.from), Some(other.to))
                })
            })
            .count()
    }

    /// The pair of a joint.
    pub fn joint(&self, joint: JointId) -> Option<JointId> {
        self.joints.get(joint.index()).copied().flatten()
    }

    /// The pair of a tube.
    pub fn tube(&self, tube: TubeId) -> Option<TubePair> {
        self.tubes.get(tube.index()).copied().flatten()
    }
}

/// The local axes of a tube; `None` where it has no length.
pub(crate) fn axes(model: &Model, tube: TubeId) -> Option<LocalAxes> {
    let [from, to] = model.tube_ends(tube);
    LocalAxes::between(from, to, model.tubes()[tube].roll).ok()
}

type Ends = [Option<JointId>; 2];

fn sorted(a: Option<JointId>, b: Option<JointId>) -> Ends {
    if a <= b { [a, b] } else { [b, a] }
}

fn ends(pairs: &Pairs, from: JointId, to: JointId) -> Ends {
    sorted(pairs.joint(from), pairs.joint(to))
}

/// The joints of a model that stand at a place, by cells a little wider than [`BY_PLACE`].
struct Places<'m> {
    model: &'m Model,
    cells: BTreeMap<[i64; 3], Vec<JointId>>,
}

impl<'m> Places<'m> {
    fn of(model: &'m Model) -> Self {
        let mut cells: BTreeMap<[i64; 3], Vec<JointId>> = BTreeMap::new();
        for (id, joint) in model.joints().iter_with_id() {
            cells.entry(Self::cell(joint.at)).or_default().push(id);
        }
        Self { model, cells }
    }

    fn cell(at: [f64; 3]) -> [i64; 3] {
        at.map(|value| (value / (2.0 * BY_PLACE)).floor() as i64)
    }

    /// The nearest joint within [`BY_PLACE`] that is not refused.
    fn near(&self, at: [f64; 3], refused: impl Fn(JointId) -> bool) -> Option<JointId> {
        let [x, y, z] = Self::cell(at);
        let mut best: Option<(f64, JointId)> = None;
        for step in 0..27_i64 {
            let cell = [x + step % 3 - 1, y + step / 3 % 3 - 1, z + step / 9 - 1];
            for &id in self.cells.get(&cell).into_iter().flatten() {
                let away = distance(at, self.model.joints()[id].at);
                if away <= BY_PLACE && !refused(id) && best.is_none_or(|(least, _)| away < least) {
                    best = Some((away, id));
                }
            }
        }
        best.map(|(_, id)| id)
    }
}

/// For joints whose namesake stands elsewhere, while another joint stands at their place and another stood at their
/// namesake's: the joint at their place.
fn dealt_anew(a: &Model, b: &Model) -> Vec<Option<JointId>> {
    let (in_a, in_b) = (Places::of(a), Places::of(b));
    let names: BTreeMap<&str, JointId> =
        b.joints().iter_with_id().map(|(id, joint)| (joint.name.as_str(), id)).collect();
    let anew = |joint: &strutwork_model::model::Joint| {
        let here = in_b.near(joint.at, |_| false)?;
        let Some(&namesake) = names.get(joint.name.as_str()) else { return Some(here) };
        let there = b.joints()[namesake].at;
        (distance(joint.at, there) > BY_PLACE && in_a.near(there, |_| false).is_some()).then_some(here)
    };
    let found: Vec<Option<JointId>> = a.joints().iter().map(anew).collect();
    // Two joints cannot be one.
    let mut seen = BTreeSet::new();
    found.into_iter().map(|one| one.filter(|id| seen.insert(*id))).collect()
}

/// Pairs of joints, beginning with those that are given.
fn joints(a: &Model, b: &Model, given: &[Option<JointId>]) -> Vec<Option<JointId>> {
    let mut pairs = given.to_vec();
    let mut taken: BTreeSet<JointId> = given.iter().flatten().copied().collect();
    let names: BTreeMap<&str, JointId> =
        b.joints().iter_with_id().map(|(id, joint)| (joint.name.as_str(), id)).collect();
    for (joint, pair) in a.joints().iter().zip(&mut pairs).filter(|(_, pair)| pair.is_none()) {
        *pair = names.get(joint.name.as_str()).copied().filter(|id| taken.insert(*id));
    }
    let places = Places::of(b);
    for (joint, pair) in a.joints().iter().zip(&mut pairs).filter(|(_, pair)| pair.is_none()) {
        *pair = places.near(joint.at, |id| taken.contains(&id));
        taken.extend(*pair);
    }
    let (at_a, at_b) = (at_joints(a), at_joints(b));
    // Each pair that is found may name the tubes of the next.
    while let Some((joint, other)) = by_tubes((a, &at_a), (b, &at_b), &pairs, &taken) {
        pairs[joint.index()] = Some(other);
        taken.insert(other);
    }
    pairs
}

/// The tubes at each joint, and the joint at the other end.
type AtJoints = Vec<Vec<(TubeId, JointId)>>;

fn at_joints(model: &Model) -> AtJoints {
    let mut at = vec![Vec::new(); model.joints().len()];
    for (id, tube) in model.tubes().iter_with_id() {
        at[tube.from.index()].push((id, tube.to));
        at[tube.to.index()].push((id, tube.from));
    }
    at
}

/// A joint of each model without a pair, of which the tubes that end there tell that they are one: all of them have the
/// same names, or run to the same joints.
fn by_tubes(
    (a, at_a): (&Model, &AtJoints),
    (b, at_b): (&Model, &AtJoints),
    pairs: &[Option<JointId>],
    taken: &BTreeSet<JointId>,
) -> Option<(JointId, JointId)> {
    let lonely: Vec<JointId> = a.joints().ids().filter(|id| pairs[id.index()].is_none()).collect();
    let others: Vec<JointId> = b.joints().ids().filter(|id| !taken.contains(id)).collect();
    if lonely.is_empty() || others.is_empty() {
        return None;
    }
    for joint in lonely {
        let here = &at_a[joint.index()];
        let names_here = names(a, here);
        let far_here: Option<BTreeSet<JointId>> = here.iter().map(|(_, far)| pairs[far.index()]).collect();
        let is = |other: &&JointId| {
            let there = &at_b[other.index()];
            if here.is_empty() || there.len() != here.len() {
                return false;
            }
            let near = distance(a.joints()[joint].at, b.joints()[**other].at) <= ONE_TUBE;
            let by_name = names_here == names(b, there);
            let far_there: BTreeSet<JointId> = there.iter().map(|(_, far)| *far).collect();
            let by_far = far_here.as_ref().is_some_and(|far| far.len() == here.len() && *far == far_there);
            (by_name || by_far) && (here.len() > 1 || near)
        };
        let mut found = others.iter().filter(is);
        // Two that fit are none.
        if let (Some(&other), None) = (found.next(), found.next()) {
            return Some((joint, other));
        }
    }
    None
}

fn names<'m>(model: &'m Model, at: &[(TubeId, JointId)]) -> BTreeSet<&'m str> {
    at.iter().map(|(tube, _)| model.tubes()[*tube].name.as_str()).collect()
}

fn tubes(a: &Model, b: &Model, joints: &[Option<JointId>]) -> Vec<Option<TubePair>> {
    let of = |id: JointId| joints[id.index()];
    let names: BTreeMap<&str, TubeId> = b.tubes().iter_with_id().map(|(id, tube)| (tube.name.as_str(), id)).collect();
    let mut between: BTreeMap<Ends, Vec<TubeId>> = BTreeMap::new();
    for (id, tube) in b.tubes().iter_with_id() {
        between.entry(sorted(Some(tube.from), Some(tube.to))).or_default().push(id);
    }
    let mut were: BTreeSet<Ends> = BTreeSet::new();
    for tube in a.tubes() {
        were.insert(sorted(of(tube.from), of(tube.to)));
    }
    let pair = |tube: &strutwork_model::model::Tube, other: TubeId| {
        let (from, to) = (of(tube.from), of(tube.to));
        let other_tube = &b.tubes()[other];
        let kept = usize::from(from == Some(other_tube.from)) + usize::from(to == Some(other_tube.to));
        let turned = usize::from(from == Some(other_tube.to)) + usize::from(to == Some(other_tube.from));
        TubePair { tube: other, reversed: turned > kept }
    };
    let mut taken = BTreeSet::new();
    let mut pairs: Vec<Option<TubePair>> = vec![None; a.tubes().len()];
    // By name where it runs between the same joints; else where no other tube runs where it ran, or none ran where it runs.
    for same_ends in [true, false] {
        for (tube, slot) in a.tubes().iter().zip(&mut pairs).filter(|(_, slot)| slot.is_none()) {
            let Some(&other) = names.get(tube.name.as_str()) else { continue };
            let here = sorted(of(tube.from), of(tube.to));
            let there = sorted(Some(b.tubes()[other].from), Some(b.tubes()[other].to));
            let dealt_anew = between.contains_key(&here) && were.contains(&there);
            if (here == there || (!same_ends && !dealt_anew)) && taken.insert(other) {
                *slot = Some(pair(tube, other));
            }
        }
    }
    for (tube, slot) in a.tubes().iter().zip(&mut pairs).filter(|(_, slot)| slot.is_none()) {
        let here = between.get(&sorted(of(tube.from), of(tube.to)));
        let other = here.into_iter().flatten().find(|id| !taken.contains(*id)).copied();
        if let Some(other) = other {
            taken.insert(other);
            *slot = Some(pair(tube, other));
        }
    }
    // What is left of one name is one tube that now runs elsewhere.
    for (tube, slot) in a.tubes().iter().zip(&mut pairs).filter(|(_, slot)| slot.is_none()) {
        let other = names.get(tube.name.as_str()).copied().filter(|id| taken.insert(*id));
        *slot = other.map(|other| pair(tube, other));
    }
    pairs
}
