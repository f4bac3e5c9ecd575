//! What a script can read of a finding: its properties, and how it is printed.

use rhai::Array;
use rhai::plugin::*;
use strutwork_checks::Finding;
use strutwork_checks::calculation::Unit;

use crate::handle::Judgement;
use crate::number::{map, optional};

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(properties).into());
}

/// The properties of a finding, as a script names them.
pub(crate) const PROPERTIES: [&str; 14] = [
    "code",
    "severity",
    "kind",
    "subject",
    "load_case",
    "value",
    "limit",
    "unit",
    "utilisation",
    "clause",
    "outside",
    "standing",
    "entered",
    "message",
];

/// A finding in a line: `D001 tube rail-left, bending: 0.42`.
fn line_of(judgement: &Judgement) -> String {
    let finding = judgement.finding();
    let subject = finding.subject.name(judgement.run.model());
    let mut line = format!("{} {} {subject}", finding.code, finding.kind().word());
    for (before, part) in [(", ", finding.case.clone()), (": ", finding.utilisation.map_or_else(String::new, two))] {
        if !part.is_empty() {
            line.push_str(before);
            line.push_str(&part);
        }
    }
    line
}

fn two(utilisation: f64) -> String {
    format!("{utilisation:.2}")
}

fn entered(finding: &Finding) -> Array {
    let number = |&(symbol, value, unit): &(&str, f64, Unit)| {
        let mut data = map([("value", unit.of(value))]);
        data.insert("symbol".into(), symbol.into());
        data.insert("unit".into(), unit.name.into());
        Dynamic::from(data)
    };
    finding.entered.iter().map(number).collect()
}

#[export_module]
mod properties {
    use super::*;

    #[rhai_fn(name = "to_string", name = "print", name = "to_debug", name = "debug", pure)]
    pub fn line(finding: &mut Judgement) -> String {
        line_of(finding)
    }

    #[rhai_fn(get = "code", pure)]
    pub fn code(finding: &mut Judgement) -> String {
        finding.finding().code.0.to_owned()
    }

    #[rhai_fn(get = "severity", pure)]
    pub fn severity(finding: &mut Judgement) -> String {
        finding.finding().severity.word().to_owned()
    }

    #[rhai_fn(get = "kind", pure)]
    pub fn kind(finding: &mut Judgement) -> String {
        finding.finding().kind().word().to_owned()
    }

    #[rhai_fn(get = "subject", pure)]
    pub fn subject(finding: &mut Judgement) -> String {
        finding.finding().subject.name(finding.run.model()).into_owned()
    }

    #[rhai_fn(get = "load_case", pure)]
    pub fn load_case(finding: &mut Judgement) -> String {
        finding.finding().case.clone()
    }

    #[rhai_fn(get = "value", pure)]
    pub fn value(finding: &mut Judgement) -> f64 {
        finding.finding().value
    }

    #[rhai_fn(get = "limit", pure)]
    pub fn limit(finding: &mut Judgement) -> Dynamic {
        optional(finding.finding().limit)
    }

    #[rhai_fn(get = "unit", pure)]
    pub fn unit(finding: &mut Judgement) -> String {
        finding.finding().unit.to_owned()
    }

    #[rhai_fn(get = "utilisation", pure)]
    pub fn utilisation(finding: &mut Judgement) -> Dynamic {
        optional(finding.finding().utilisation)
    }

    #[rhai_fn(get = "clause", pure)]
    pub fn clause(finding: &mut Judgement) -> String {
        finding.finding().clause.clone()
    }

    #[rhai_fn(get = "outside", pure)]
    pub fn outside(finding: &mut Judgement) -> bool {
        finding.finding().is_outside()
    }

    #[rhai_fn(get = "standing", pure)]
    pub fn standing(finding: &mut Judgement) -> Dynamic {
        optional(finding.standing.map(|standing| standing.word()))
    }

    #[rhai_fn(get = "entered", pure)]
    pub fn numbers(finding: &mut Judgement) -> Array {
        entered(finding.finding())
    }

    #[rhai_fn(get = "message", pure)]
    pub fn message(finding: &mut Judgement) -> String {
        finding.finding().message.clone()
    }
}
