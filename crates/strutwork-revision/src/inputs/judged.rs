//! Settings: factors, options, what the frame is judged by, the title block.

use strutwork_model::model::{BasisKind, Detail as Weld, Gamma, Moved, SoftWhen};
use strutwork_model::units::{to_mm, to_mpa};

use super::facts::{Fact, Item, number, text, yes};
use super::names::Side;

/// Factors that replace those of case scripts.
pub(super) fn factors(side: &Side<'_>) -> Vec<Item> {
    let facts = |factor: &strutwork_model::model::Factor| {
        vec![number("value", factor.value, ""), text("source", factor.source.clone())]
    };
    side.model.factors().iter().map(|factor| Item { name: factor.name.clone(), facts: facts(factor) }).collect()
}

/// `[options]` and `[soft_joints]`.
pub(super) fn options(side: &Side<'_>) -> Item {
    let options = side.model.options();
    let when = match options.soft_joints.when {
        SoftWhen::Off => "off",
        SoftWhen::Band => "band",
        SoftWhen::Always => "always",
    };
    let facts = vec![
        yes("self weight", options.self_weight),
        yes("standard cases", options.standard_cases),
        number("margin on yield", options.yield_margin, ""),
        yes("inertia relief", options.inertia_relief),
        text("soft joints", when),
        number("soft joints where narrower than", options.soft_joints.narrower_than, ""),
    ];
    Item { name: String::new(), facts }
}

/// `[basis]`, `[members]`, `[welds]` and what is common to all of `[fatigue]`.
pub(super) fn basis(side: &Side<'_>) -> Item {
    let (basis, members) = (side.model.basis(), side.model.members());
    let (welds, fatigue) = (side.model.welds(), side.model.fatigue());
    let mut facts = vec![text("basis", basis.kind.word())];
    let mut gamma = |name: &'static str, of: &Gamma| {
        facts.push(number(name, of.value, ""));
        facts.push(text(format!("source of {name}"), of.source.clone()));
    };
    if basis.kind == BasisKind::Eurocode {
        gamma("γ_F", &basis.gamma_f);
        gamma("γ_M0", &basis.gamma_m0);
        gamma("γ_M1", &basis.gamma_m1);
        gamma("γ_M2", &basis.gamma_m2);
        gamma("γ_M5", &basis.gamma_m5);
    }
    gamma("γ_Mf", &basis.gamma_mf);
    let list = |groups: &[String]| {
        let mut groups = groups.to_vec();
        groups.sort();
        groups.join(", ")
    };
    facts.extend([
        text("groups that are braces", list(&members.braces)),
        text("groups that are chords", list(&members.chords)),
        number("limit of slenderness", members.slenderness_limit, ""),
        yes("ends may sway", members.sway),
        text("welds", welds.kind.word()),
        text("method for welds", welds.method.word()),
        text("welded by", welds.process.word()),
        number("factor on stress ranges", fatigue.moment_factor, ""),
    ]);
    facts.extend(welds.throat.map(|throat| number("throat of welds", to_mm(throat), "mm")));
    for own in &welds.groups {
        facts.extend(own.kind.map(|kind| text(format!("welds of group {}", own.group), kind.word())));
        let throat = own.throat.map(|throat| number(format!("throat of group {}", own.group), to_mm(throat), "mm"));
        facts.extend(throat);
    }
    detail("detail for fatigue", fatigue.detail, &mut facts);
    for (group, of) in &fatigue.groups {
        detail(&format!("detail for fatigue of group {group}"), *of, &mut facts);
    }
    Item { name: String::new(), facts }
}

fn detail(what: &str, of: Weld, facts: &mut Vec<Fact>) {
    facts.push(number(what.to_owned(), to_mpa(of.category), "MPa"));
    facts.push(text(format!("curve of {what}"), of.curve.word()));
}

/// Checks that are switched off, with their reasons.
pub(super) fn switched_off(side: &Side<'_>) -> Vec<Item> {
    let of = |off: &strutwork_model::model::SwitchedOff| Item {
        name: off.check.clone(),
        facts: vec![text("reason", off.reason.clone())],
    };
    side.model.switched_off().iter().map(of).collect()
}

/// Pairs of cases for fatigue.
pub(super) fn fatigue(side: &Side<'_>) -> Vec<Item> {
    let facts = |pair: &strutwork_model::model::FatiguePair| {
        vec![
            text("from", pair.from.clone()),
            text("to", pair.to.clone().unwrap_or_else(|| "the unloaded frame".to_owned())),
            number("cycles", pair.cycles, ""),
            number("share", pair.share, ""),
            text("source", pair.source.clone()),
        ]
    };
    side.model.fatigue().pairs.iter().map(|pair| Item { name: pair.name.clone(), facts: facts(pair) }).collect()
}

/// Limits on movement.
pub(super) fn limits(side: &Side<'_>) -> Vec<Item> {
    let facts = |limit: &strutwork_model::model::MovementLimit| {
        let of = match limit.moved {
            Moved::Joint { joint, from, along } => {
                let from = from.map_or_else(String::new, |from| format!(" from {}", side.joint(from)));
                format!("joint {}{from} along {}", side.joint(joint), along.word())
            }
            Moved::Distance(joints) => {
                let mut names = joints.map(|joint| side.joint(joint));
                names.sort_unstable();
                format!("distance of {} and {}", names[0], names[1])
            }
        };
        let mut cases = limit.cases.clone();
        cases.sort();
        vec![
            text("of", of),
            number("most", to_mm(limit.most), "mm"),
            text("in cases", if cases.is_empty() { "all".to_owned() } else { cases.join(", ") }),
            text("source", limit.source.clone()),
        ]
    };
    side.model.limits().iter().map(|limit| Item { name: limit.name.clone(), facts: facts(limit) }).collect()
}

/// The title block but for the revision, which tells the two apart anyway.
pub(super) fn title(side: &Side<'_>) -> Item {
    let title = side.model.title();
    let facts = vec![
        text("title", title.title.clone()),
        text("author", title.author.clone()),
        text("notes", title.notes.join(" · ")),
        text("outside the model", title.outside.join(" · ")),
    ];
    Item { name: String::new(), facts }
}
