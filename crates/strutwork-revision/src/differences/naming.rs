//! What is told by which name: the subjects of the first revision by the names of the second.

use std::borrow::Cow;
use std::collections::BTreeMap;

use strutwork_model::Model;
use strutwork_model::ids::Id;

use super::turned::Turns;
use crate::inputs::{Inputs, Part};
use crate::results::{Kind, Quantity};

/// Names of the first revision, and what the second calls the same. Empty where the models are not at hand.
#[derive(Default)]
pub(super) struct Naming {
    joints: BTreeMap<String, String>,
    tubes: BTreeMap<String, String>,
    /// `TUBE at JOINT`.
    ends: BTreeMap<String, String>,
    /// `BODY at JOINT`.
    mounts: BTreeMap<String, String>,
    /// By what was renamed besides.
    others: BTreeMap<(Part, String), String>,
    turns: Turns,
}

impl Naming {
    pub(super) fn of(models: Option<(&Model, &Model)>, inputs: Option<&Inputs>) -> Self {
        let (Some((a, b)), Some(inputs)) = (models, inputs) else { return Self::default() };
        let pairs = &inputs.pairs;
        let joint =
            |id: strutwork_model::JointId| pairs.joint(id).map_or(&a.joints()[id].name, |to| &b.joints()[to].name);
        let mut naming = Self { turns: Turns::of(a, b, pairs), ..Self::default() };
        for (id, of) in a.joints().iter_with_id() {
            naming.joints.insert(of.name.clone(), joint(id).clone());
        }
        for change in &inputs.changes {
            if let Some(old) = &change.old_name {
                naming.others.insert((change.part, old.clone()), change.name.clone());
            }
        }
        for (id, of) in a.tubes().iter_with_id() {
            let name = pairs.tubes[id.index()].map_or(&of.name, |pair| &b.tubes()[pair.tube].name);
            naming.tubes.insert(of.name.clone(), name.clone());
            for end in [of.from, of.to] {
                let own = format!("{} at {}", of.name, a.joints()[end].name);
                naming.ends.insert(own, format!("{name} at {}", joint(end)));
            }
        }
        for mount in a.mounts() {
            let body = &a.bodies()[mount.body].name;
            let own = format!("{body} at {}", a.joints()[mount.joint].name);
            let told = format!("{} at {}", naming.other(Part::Body, body), joint(mount.joint));
            naming.mounts.insert(own, told);
        }
        naming
    }

    fn other(&self, part: Part, name: &str) -> String {
        self.others.get(&(part, name.to_owned())).map_or(name, String::as_str).to_owned()
    }

    /// All quantities by the names of the second revision, each with its own name; those of tubes that run the other way
    /// turned round.
    pub(super) fn told(&self, all: &[Quantity]) -> Vec<(Quantity, String)> {
        all.iter()
            .filter_map(|one| {
                let mut told = match one.kind {
                    Kind::Tube => self.turns.turn(one)?,
                    _ => one.clone(),
                };
                told.subject = self.subject(one).into_owned();
                Some((told, one.subject.clone()))
            })
            .collect()
    }

    /// The subject of a quantity by its name in the second revision.
    fn subject<'q>(&self, one: &'q Quantity) -> Cow<'q, str> {
        let subject = one.subject.as_str();
        let from = |map: &BTreeMap<String, String>| {
            map.get(subject).map_or(Cow::Borrowed(subject), |to| Cow::Owned(to.clone()))
        };
        match one.kind {
            Kind::Joint | Kind::Reaction | Kind::Movement => from(&self.joints),
            Kind::Tube | Kind::EffectiveLength | Kind::SecondOrder => from(&self.tubes),
            Kind::Weld | Kind::SoftEnd => from(&self.ends),
            Kind::Mount => from(&self.mounts),
            Kind::Body => Cow::Owned(self.other(Part::Body, subject)),
            Kind::Panel => Cow::Owned(self.other(Part::Panel, subject)),
            Kind::Link => Cow::Owned(self.other(Part::Link, subject)),
            Kind::Twist => self.parts(subject, " and "),
            Kind::Bay => self.bay(subject),
            Kind::Mass => self.prefixed(subject, &[("carried ", Part::Mass), ("panel ", Part::Panel)]),
            Kind::Load => self.load(subject),
            Kind::Utilisation => self.item(one.quantity.strip_suffix("_utilisation").unwrap_or_default(), subject),
            Kind::Frame
            | Kind::Case
            | Kind::Mode
            | Kind::ModeUnder
            | Kind::Buckling
            | Kind::BucklingReversed
            | Kind::Shift
            | Kind::Trust => Cow::Borrowed(subject),
        }
    }

    /// An item of a check by its name in the second revision; `kind` as governing.csv has it.
    pub(super) fn item<'q>(&self, kind: &str, subject: &'q str) -> Cow<'q, str> {
        let maps: &[&BTreeMap<String, String>] = match kind {
            "tube" => &[&self.tubes],
            "joint" | "weld" => &[&self.ends, &self.joints, &self.tubes],
            "bolt" => &[&self.mounts],
            "movement" => &[&self.joints],
            "panel" => return Cow::Owned(self.other(Part::Panel, subject)),
            // Of a finding only its subject is known.
            "" => &[&self.tubes, &self.ends, &self.mounts, &self.joints],
            _ => &[],
        };
        let told = maps.iter().find_map(|map| map.get(subject));
        told.map_or(Cow::Borrowed(subject), |to| Cow::Owned(to.clone()))
    }

    /// The plain name of a mode by the names of the second revision: that of a local mode names tubes.
    pub(super) fn mode(&self, name: &str) -> String {
        let Some((head, tubes)) = name.split_once("tube ").or_else(|| name.split_once("tubes ")) else {
            return name.to_owned();
        };
        let word = &name[head.len()..name.len() - tubes.len()];
        let (list, more) =
            tubes.split_once(" and ").map_or((tubes, String::new()), |(list, more)| (list, format!(" and {more}")));
        let told: Vec<&str> = list.split(", ").map(|tube| self.tubes.get(tube).map_or(tube, String::as_str)).collect();
        format!("{head}{word}{}{more}", told.join(", "))
    }

    fn joint(&self, name: &str) -> String {
        self.joints.get(name).map_or(name, String::as_str).to_owned()
    }

    fn parts<'q>(&self, subject: &'q str, between: &str) -> Cow<'q, str> {
        match subject.split_once(between) {
            Some((left, right)) => Cow::Owned(format!("{}{between}{}", self.joint(left), self.joint(right))),
            None => Cow::Borrowed(subject),
        }
    }

    /// Corners of a bay, sorted as the reader has them.
    fn bay<'q>(&self, subject: &'q str) -> Cow<'q, str> {
        let mut names: Vec<String> = subject.split(' ').map(|name| self.joint(name)).collect();
        names.sort();
        Cow::Owned(names.join(" "))
    }

    fn prefixed<'q>(&self, subject: &'q str, kinds: &[(&str, Part)]) -> Cow<'q, str> {
        for (prefix, part) in kinds {
            if let Some(name) = subject.strip_prefix(prefix) {
                return Cow::Owned(format!("{prefix}{}", self.other(*part, name)));
            }
        }
        Cow::Borrowed(subject)
    }

    fn load<'q>(&self, subject: &'q str) -> Cow<'q, str> {
        let (kind, name) = subject.split_once(' ').unwrap_or((subject, ""));
        let told = match kind {
            "joint" | "settlement" => self.joint(name),
            "tube" | "tube-point" | "temperature" => self.tubes.get(name).map_or(name, String::as_str).to_owned(),
            "body" => self.other(Part::Body, name),
            _ => return Cow::Borrowed(subject),
        };
        Cow::Owned(format!("{kind} {told}"))
    }
}
