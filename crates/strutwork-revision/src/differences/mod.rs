//! What differs between the results of two revisions, and what a change did to the frame.
//!
//! Results are compared under the names of the second revision: those of a renamed joint with those of its pair. A number
//! that differs by less than [`SAME`] of the greatest of its kind and unit is the same: so much rounding may leave.

mod findings;
mod modes;
mod naming;
mod turned;
mod verdict;

use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};

use strutwork_model::Model;

pub use findings::{Fate, FindingChange};
pub use verdict::{Verdict, Worst};

use crate::inputs::{Inputs, compare_models};
use crate::results::{About, Kind, Quantity, ResultSet};
use naming::Naming;

/// Share of the greatest value of its kind and unit below which a change of a number is none.
pub const SAME: f64 = 1e-9;

/// A revision: its results, and the model that they are of where it is at hand.
#[derive(Debug, Clone, Copy)]
pub struct Revision<'a> {
    /// What came out.
    pub results: &'a ResultSet,
    /// The model; `None` where only results are at hand.
    pub model: Option<&'a Model>,
    /// The text of the model's own case script; `None` where it has none.
    pub script: Option<&'a str>,
}

/// A number that differs.
#[derive(Debug, Clone, PartialEq)]
pub struct Difference {
    /// What it is of.
    pub kind: Kind,
    /// The load case; empty where it holds for all.
    pub case: String,
    /// What it is of, by the name of the second revision; empty for the whole.
    pub subject: String,
    /// Its name in the first revision, where that is another.
    pub old_subject: Option<String>,
    /// Which quantity.
    pub quantity: Cow<'static, str>,
    /// Its unit; empty for a ratio.
    pub unit: Cow<'static, str>,
    /// What it was.
    pub before: f64,
    /// What it is.
    pub after: f64,
    /// The greatest value of its kind and unit in both revisions.
    pub scale: f64,
}

impl Difference {
    /// How much it changed, in its unit.
    pub fn change(&self) -> f64 {
        self.after - self.before
    }

    /// The change as a share of the greatest of its kind and unit: what lists are ordered by.
    pub fn share(&self) -> f64 {
        self.change().abs() / self.scale
    }

    /// The change in per cent of what it was; `None` where that is as good as nothing.
    pub fn percent(&self) -> Option<f64> {
        (self.before.abs() > 1e-6 * self.scale).then(|| 100.0 * self.change() / self.before.abs())
    }
}

/// Everything that differs between two revisions.
#[derive(Debug, Clone, PartialEq)]
pub struct Comparison {
    /// What the first revision's results say of themselves.
    pub before: About,
    /// What the second's do.
    pub after: About,
    /// What was changed in the model; `None` where a model is not at hand.
    pub inputs: Option<Inputs>,
    /// Built-in case scripts and scripts from elsewhere whose text differs between the two runs.
    pub scripts: Vec<String>,
    /// What the change did, in a few numbers.
    pub verdict: Verdict,
    /// Every number that differs, what matters most first, and of each kind the largest first.
    pub differences: Vec<Difference>,
    /// How many numbers were held against each other.
    pub compared: usize,
    /// Findings that came, went, or crossed their limits.
    pub findings: Vec<FindingChange>,
    /// Cases that only the first revision has.
    pub cases_gone: Vec<String>,
    /// Cases that only the second has.
    pub cases_new: Vec<String>,
    /// Whether the tubes of both stand in another order: of equal tubes at a joint the first is the one that the others are
    /// welded to.
    pub tubes_reordered: bool,
    /// Numbers of one revision alone, in cases that both have: of tubes that are gone, of those that are new.
    pub alone: [usize; 2],
}

impl Comparison {
    /// Whether nothing differs: no input, no number, no finding.
    pub fn is_same(&self) -> bool {
        self.inputs.as_ref().is_none_or(|inputs| inputs.changes.is_empty())
            && self.scripts.is_empty()
            && self.differences.is_empty()
            && self.findings.is_empty()
            && self.cases_gone.is_empty()
            && self.cases_new.is_empty()
            && self.alone == [0, 0]
    }

    /// Findings that exceed their limits now and did not before.
    pub fn newly_over(&self) -> impl Iterator<Item = &FindingChange> {
        self.findings.iter().filter(|finding| finding.fate == Fate::Over)
    }

    /// The differences of one kind, the largest first.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &Difference> {
        self.differences.iter().filter(move |one| one.kind == kind)
    }
}

/// Compares two revisions.
pub fn compare(a: Revision<'_>, b: Revision<'_>) -> Comparison {
    let models = a.model.zip(b.model);
    let inputs = models.map(|(before, after)| compare_models(before, after, [a.script, b.script]));
    let naming = Naming::of(models, inputs.as_ref());
    let before = naming.told(&a.results.quantities);
    let (cases_gone, cases_new) = cases(a.results, b.results);
    let mut numbers = Numbers::new(before.iter().map(|(quantity, _)| quantity), &b.results.quantities);
    let left_out = |one: &Quantity| matches!(one.kind, Kind::Mode | Kind::Trust);
    let mut old: BTreeMap<Key<'_>, (&Quantity, &str)> = BTreeMap::new();
    for (quantity, own_name) in before.iter().filter(|(one, _)| !left_out(one)) {
        old.entry(key(quantity)).or_insert((quantity, own_name.as_str()));
    }
    let mut found = BTreeSet::new();
    for quantity in b.results.quantities.iter().filter(|one| !left_out(one)) {
        let key = key(quantity);
        match old.get(&key) {
            // A key that stands twice is compared once.
            Some((was, own_name)) => {
                if found.insert(key) {
                    numbers.hold(was, own_name, quantity);
                }
            }
            // What does not act is left out of the list of what acts.
            None if quantity.kind == Kind::Load && !cases_new.contains(&quantity.case) => {
                numbers.hold(&Quantity { value: 0.0, ..quantity.clone() }, &quantity.subject, quantity);
            }
            None => numbers.alone[1] += usize::from(!cases_new.contains(&quantity.case)),
        }
    }
    for (key, (was, own_name)) in old.iter().filter(|(key, _)| !found.contains(*key)) {
        if cases_gone.contains(&was.case) {
            continue;
        }
        if key.0 == Kind::Load {
            numbers.hold(was, own_name, &Quantity { value: 0.0, ..(*was).clone() });
        } else {
            numbers.alone[0] += 1;
        }
    }
    modes::compare(a.results, b.results, &naming, &mut numbers);
    let Numbers { mut differences, compared, alone, .. } = numbers;
    differences.sort_by(|a, b| {
        let names = (&a.case, &a.subject, &a.quantity).cmp(&(&b.case, &b.subject, &b.quantity));
        a.kind.cmp(&b.kind).then(b.share().total_cmp(&a.share())).then(names)
    });
    let findings = findings::compare(a.results, b.results, &naming);
    let places = inputs.iter().flat_map(|inputs| inputs.pairs.tubes.iter().flatten().map(|pair| pair.tube));
    let tubes_reordered = !places.is_sorted();
    Comparison {
        verdict: Verdict::of(a.results, b.results, &naming),
        before: a.results.about.clone(),
        after: b.results.about.clone(),
        scripts: scripts(&a.results.about, &b.results.about),
        inputs,
        differences,
        compared,
        findings,
        cases_gone,
        cases_new,
        tubes_reordered,
        alone,
    }
}

type Key<'q> = (Kind, &'q str, &'q str, &'q str);

fn key(one: &Quantity) -> Key<'_> {
    (one.kind, &one.case, &one.subject, &one.quantity)
}

/// Numbers as they are held against each other.
struct Numbers {
    scales: BTreeMap<(Kind, Cow<'static, str>), f64>,
    differences: Vec<Difference>,
    compared: usize,
    alone: [usize; 2],
}

impl Numbers {
    fn new<'q>(before: impl Iterator<Item = &'q Quantity>, after: &'q [Quantity]) -> Self {
        let mut scales: BTreeMap<(Kind, Cow<'static, str>), f64> = BTreeMap::new();
        for one in before.chain(after) {
            let scale = scales.entry((one.kind, one.unit.clone())).or_insert(0.0);
            *scale = scale.max(one.value.abs());
        }
        Self { scales, differences: Vec::new(), compared: 0, alone: [0, 0] }
    }

    /// Holds a number against its pair; `own_name` is its subject as the first revision has it.
    fn hold(&mut self, was: &Quantity, own_name: &str, is: &Quantity) {
        self.compared += 1;
        let scale = self.scales.get(&(is.kind, is.unit.clone())).copied().unwrap_or(0.0);
        if (is.value - was.value).abs() > SAME * scale {
            self.differences.push(Difference {
                kind: is.kind,
                case: is.case.clone(),
                subject: is.subject.clone(),
                old_subject: (own_name != is.subject).then(|| own_name.to_owned()),
                quantity: is.quantity.clone(),
                unit: is.unit.clone(),
                before: was.value,
                after: is.value,
                scale,
            });
        }
    }
}

/// Cases that only one of them has, in its order.
fn cases(a: &ResultSet, b: &ResultSet) -> (Vec<String>, Vec<String>) {
    let only = |of: &ResultSet, other: &ResultSet| {
        of.cases.iter().filter(|case| !other.cases.contains(case)).cloned().collect::<Vec<String>>()
    };
    (only(a, b), only(b, a))
}

/// Scripts that are no files of the model and whose hashes differ.
fn scripts(a: &About, b: &About) -> Vec<String> {
    let of = |about: &About| -> BTreeMap<String, String> {
        let foreign = about.inputs.iter().filter(|input| {
            strutwork_model::files::KNOWN_FILES.iter().all(|known| known.name != input.file)
                && (input.file.contains(".rhai") || input.file.ends_with("(built in)"))
        });
        foreign.map(|input| (input.file.clone(), input.sha256.clone())).collect()
    };
    let (before, after) = (of(a), of(b));
    let mut told = Vec::new();
    for (file, hash) in &after {
        match before.get(file) {
            Some(old) if old == hash => {}
            Some(_) => told.push(format!("{file}: another text")),
            None => told.push(format!("{file}: only in the second run")),
        }
    }
    told.extend(
        before.keys().filter(|file| !after.contains_key(*file)).map(|file| format!("{file}: only in the first run")),
    );
    told
}
