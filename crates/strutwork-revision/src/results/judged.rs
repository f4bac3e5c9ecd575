//! `findings.csv` and `governing.csv`: the judgements, and what governs each item; the utilisations in them as quantities.

use std::borrow::Cow;
use std::collections::BTreeMap;

use strutwork_model::InputFiles;

use super::table::{Met, Table};
use super::{Kind, Quantity, ResultSet};

/// A judgement.
#[derive(Debug, Clone, PartialEq)]
pub struct FindingRow {
    /// Its code: `D022`.
    pub code: String,
    /// `error` where a limit is exceeded, `warning`, `note`.
    pub severity: String,
    /// The case; empty where it holds for all.
    pub case: String,
    /// What it is about.
    pub subject: String,
    /// The value.
    pub value: Option<f64>,
    /// The limit.
    pub limit: Option<f64>,
    /// Value over limit.
    pub utilisation: Option<f64>,
    /// The clause.
    pub clause: String,
    /// In the fabricator's words; empty where another case governs the same item.
    pub message: String,
}

/// What governs an item.
#[derive(Debug, Clone, PartialEq)]
pub struct ItemRow {
    /// What kind of item: `tube`, `joint`, `weld`, `bolt`, `panel`, `movement`, `frame`.
    pub kind: String,
    /// Its name.
    pub item: String,
    /// The check that governs.
    pub code: String,
    /// In which case.
    pub case: String,
    /// Value over limit.
    pub utilisation: Option<f64>,
    /// `in` the scope of its clause, or `outside`: which is never a pass.
    pub scope: String,
    /// `error`, `warning` or `note`.
    pub severity: String,
}

pub(super) fn read(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    governing(files, set, met);
    findings(files, set, met);
}

fn governing(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "governing.csv", met) else { return };
    let names = ["kind", "item", "code", "case", "utilisation", "scope", "severity"];
    let Some([kind, item, code, case, utilisation, scope, severity]) = table.columns(names, met) else { return };
    let mut worst: Option<f64> = None;
    for row in table.rows() {
        let used = row.number(utilisation, met);
        if worst.is_none_or(|worst| used > Some(worst)) {
            worst = used;
        }
        let of = ItemRow {
            kind: row.text(kind).to_owned(),
            item: row.text(item).to_owned(),
            code: row.text(code).to_owned(),
            case: row.text(case).to_owned(),
            utilisation: used,
            scope: row.text(scope).to_owned(),
            severity: row.text(severity).to_owned(),
        };
        if let Some(value) = used {
            set.quantities.push(Quantity {
                kind: Kind::Utilisation,
                case: String::new(),
                subject: of.item.clone(),
                quantity: Cow::Owned(format!("{}_utilisation", of.kind)),
                unit: Cow::Borrowed(""),
                value,
            });
        }
        set.items.push(of);
    }
    if let Some(value) = worst {
        set.quantities.push(worst_of(Kind::Frame, "", value));
    }
}

fn worst_of(kind: Kind, case: &str, value: f64) -> Quantity {
    Quantity {
        kind,
        case: case.to_owned(),
        subject: String::new(),
        quantity: Cow::Borrowed("worst_utilisation"),
        unit: Cow::Borrowed(""),
        value,
    }
}

fn findings(files: &InputFiles, set: &mut ResultSet, met: &mut Met) {
    let Some(table) = Table::read(files, "findings.csv", met) else { return };
    let names = ["code", "severity", "case", "subject", "value", "limit", "utilisation", "clause", "message"];
    let Some([code, severity, case, subject, value, limit, utilisation, clause, message]) = table.columns(names, met)
    else {
        return;
    };
    let mut worst: BTreeMap<String, f64> = BTreeMap::new();
    for row in table.rows() {
        let finding = FindingRow {
            code: row.text(code).to_owned(),
            severity: row.text(severity).to_owned(),
            case: row.text(case).to_owned(),
            subject: row.text(subject).to_owned(),
            value: row.number(value, met),
            limit: row.number(limit, met),
            utilisation: row.number(utilisation, met),
            clause: row.text(clause).to_owned(),
            message: row.text(message).to_owned(),
        };
        // Findings of trust have limits too, but say nothing of strength.
        if let Some(used) = finding.utilisation
            && finding.code.starts_with('D')
            && !finding.case.is_empty()
        {
            let of_case = worst.entry(finding.case.clone()).or_insert(used);
            *of_case = of_case.max(used);
        }
        set.findings.push(finding);
    }
    set.quantities.extend(worst.iter().map(|(case, used)| worst_of(Kind::Case, case, *used)));
}
