//! What the frame was judged by and how its items stand, for `run.json`.

use crate::basis;
use crate::run::Run;
use crate::tally;
use crate::utilisation::Utilisations;

use super::fields::{CheckCounts, FactorField, ItemCounts, JudgingFields, NatureFields, SwitchedOffField, WorstField};

pub(super) fn of<'a>(run: &Run<'a>) -> JudgingFields<'a> {
    let utilisations = Utilisations::of(run);
    JudgingFields {
        basis: run.model.basis().kind.word(),
        factors: basis::factors(run)
            .into_iter()
            .map(|factor| FactorField { name: factor.name, value: factor.value, on: factor.on, source: factor.source })
            .collect(),
        by_nature: basis::by_nature(run)
            .into_iter()
            .map(|of| NatureFields {
                nature: of.nature.word(),
                cases: of.cases,
                margin: of.margin,
                gamma_m0: of.partial.m0,
                gamma_m1: of.partial.m1,
                gamma_m2: of.partial.m2,
                gamma_m5: of.partial.m5,
            })
            .collect(),
        switched_off: run
            .model
            .switched_off()
            .iter()
            .map(|off| SwitchedOffField { check: &off.check, reason: &off.reason })
            .collect(),
        checks: tally::checks(run)
            .iter()
            .map(|check| {
                let [errors, warnings, notes] = check.severities;
                CheckCounts {
                    code: check.code,
                    title: check.title,
                    errors,
                    warnings,
                    notes,
                    outside_scope: check.outside,
                }
            })
            .collect(),
        items: utilisations
            .standings()
            .into_iter()
            .map(|of| ItemCounts {
                kind: of.kind.word(),
                exceeded: of.exceeded,
                outside_scope: of.outside,
                passed: of.passed,
                not_judged: of.unjudged,
            })
            .collect(),
        worst: utilisations
            .worst_by_kind()
            .map(|(kind, item)| WorstField {
                kind: kind.word(),
                item: run.subject(item.governing.subject),
                code: item.governing.code.0,
                case: &item.governing.case,
                utilisation: item.governing.utilisation,
                clause: &item.governing.clause,
                scope: item.governing.scope(),
            })
            .collect(),
    }
}
