//! One load case: how its loads came about, what acts, how the frame answers.

use strutwork_loads::LoadCase;
use strutwork_model::model::Wheel;
use strutwork_model::units::{to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_solve::CaseResult;
use strutwork_solve::results::MeasureResult;

use crate::extremes;
use crate::figures::deformed::Rest;
use crate::figures::{Figure, deformed, wheels};
use crate::number::{fixed, power, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tables;
use crate::utilisation::Utilisations;

use super::Edition;
use super::account::AccountView;
use super::answers::{self, TwistView};
use super::balance::{self, BalanceView};
use super::summary::{Fact, largest_slide};
use super::table::TableView;
use super::{governing, links, loads, model, panels, words};

/// Tubes shown of each case.
const WORST: usize = 3;

/// Reactions shown of each case.
const REACTIONS: usize = 40;

/// Up to this many supports are told in a sentence.
const FEW_SUPPORTS: usize = 6;

/// One load case.
pub(super) struct CaseView<'a> {
    pub(super) number: usize,
    pub(super) name: &'a str,
    pub(super) title: &'a str,
    pub(super) nature: &'static str,
    pub(super) nature_means: &'static str,
    pub(super) facts: Vec<Fact>,
    pub(super) remarks: Vec<RemarkView<'a>>,
    pub(super) factors: Option<TableView>,
    pub(super) steps: Vec<StepView<'a>>,
    pub(super) wheels: Option<Figure>,
    pub(super) wheel_table: Option<TableView>,
    pub(super) balance_first: Option<BalanceView>,
    pub(super) links: Option<TableView>,
    pub(super) springs: Option<TableView>,
    pub(super) mounts: Option<TableView>,
    pub(super) panels: Option<TableView>,
    pub(super) buckled: String,
    pub(super) held: Option<TableView>,
    pub(super) held_words: String,
    /// Whether nothing holds it but its inertia.
    pub(super) free: bool,
    pub(super) loads: Vec<TableView>,
    pub(super) axes_note: &'static str,
    pub(super) reactions: Option<TableView>,
    pub(super) balance: TableView,
    pub(super) imbalance: String,
    pub(super) shape: Figure,
    pub(super) movements: TableView,
    pub(super) governing: Option<TableView>,
    /// The same in a line; on paper alone.
    pub(super) governs: String,
    pub(super) worst: Option<TableView>,
    pub(super) stresses: Option<TableView>,
    pub(super) twists: Vec<TwistView>,
    /// What acts, line by line; on paper alone.
    pub(super) account: Option<AccountView>,
}

pub(super) struct RemarkView<'a> {
    pub(super) code: &'static str,
    pub(super) text: &'a str,
}

pub(super) struct StepView<'a> {
    pub(super) text: &'a str,
    pub(super) value: Option<String>,
    pub(super) unit: &'a str,
}

impl<'a> CaseView<'a> {
    pub(super) fn of(
        run: &Run<'a>,
        utilisations: &Utilisations<'a>,
        number: usize,
        (case, result): (&'a LoadCase, &CaseResult),
        rest: Rest,
        account: Option<AccountView>,
    ) -> Self {
        let edition = if account.is_some() { Edition::Paper } else { Edition::Screen };
        let derivation = &case.derivation;
        let worst = extremes::worst_tubes(result, WORST);
        let supports = model::supports(run, &case.supports, "How the frame is held in this case");
        Self {
            number,
            name: &case.name,
            title: &case.title,
            nature: case.nature.word(),
            nature_means: words::nature(case.nature),
            facts: facts(run, utilisations, case, result),
            remarks: derivation
                .remarks
                .iter()
                .map(|remark| RemarkView { code: remark.code, text: &remark.text })
                .collect(),
            factors: (!derivation.factors.is_empty()).then(|| factors(case)),
            steps: derivation
                .steps
                .iter()
                // The account says these, too.
                .filter(|step| account.is_none() || !step.accounted)
                .map(|step| StepView {
                    text: &step.text,
                    value: step.value.map(|value| significant(value, 4)),
                    unit: &step.unit,
                })
                .collect(),
            wheels: wheels::draw(case, if edition == Edition::Paper { wheels::NARROW } else { wheels::WIDE }),
            wheel_table: derivation.wheel_forces.map(|forces| wheel_table(&forces)),
            balance_first: balance::of(run, case, result),
            links: shown(
                &worst_first(tables::links::of_case(run, case), &["force_n", "fx_n", "fy_n", "fz_n"]),
                "links.csv",
            )
            .filter(|_| links::are_loaded(case)),
            springs: links::springs(run, case),
            mounts: shown(&worst_first(tables::mounts::of_case(run, result), &["axial_n", "shear_n"]), "mounts.csv"),
            panels: shown(&worst_first(tables::panels::of_case(run, result), &["buckling_ratio"]), "panels.csv"),
            buckled: panels::buckled(run, result),
            held: (case.supports.len() > FEW_SUPPORTS).then(|| TableView::of(&supports, "supports.csv")),
            held_words: held_words(run, case),
            free: case.free && case.supports.is_empty(),
            loads: loads::tables(run, case, edition),
            axes_note: loads::axes_note(case),
            reactions: Some(tables::reactions::of_case(run, result))
                .filter(|table| !table.rows.is_empty())
                .map(|table| TableView::cut(&table, REACTIONS, "reactions.csv")),
            balance: loads::balance(case, result),
            imbalance: power(result.trust.imbalance),
            shape: deformed::draw(run, case, result, rest),
            movements: answers::movements(run, result),
            governs: match edition {
                Edition::Paper => governing::line(run, utilisations.kinds_in_case(&case.name)),
                Edition::Screen => String::new(),
            },
            governing: governing::worst(
                run,
                utilisations.kinds_in_case(&case.name),
                false,
                "What governs in this case: of each kind of item the one nearest to its limit".to_owned(),
            ),
            worst: (!worst.is_empty()).then(|| answers::worst_forces(run, utilisations, case, &worst)),
            stresses: (!worst.is_empty()).then(|| answers::worst_stresses(run, &worst)),
            twists: answers::twists(run, case, result, edition),
            account,
        }
    }
}

fn facts(run: &Run<'_>, utilisations: &Utilisations<'_>, case: &LoadCase, result: &CaseResult) -> Vec<Fact> {
    let mut facts = Vec::new();
    facts.extend(balance::fact(case));
    let mut add = |what: &str, value: String, unit, note: String, over| {
        facts.push(Fact { what: what.into(), value, unit, note, over });
    };
    for measure in &result.measures {
        match measure {
            MeasureResult::Twist { stiffness, twist, .. } => add(
                "Torsional stiffness",
                significant(to_nm_per_deg(*stiffness), 4),
                "N·m/deg",
                format!("twist {}°", significant(to_deg(*twist), 3)),
                false,
            ),
            MeasureResult::Movement { joint, movement } => {
                let slides = [0, 1, 2].map(|axis| significant(to_mm(movement[axis]), 3)).join(" / ");
                add("Movement read", slides, "mm", format!("x / y / z of joint {}", run.joint(*joint)), false);
            }
        }
    }
    if let Some((joint, dof, value)) = largest_slide(result) {
        let note = format!("{} of joint {}", dof.name(), run.joint(joint));
        add("Largest movement", significant(to_mm(value), 3), "mm", note, false);
    }
    if let Some(worst) = extremes::worst_stress(result) {
        let stress = significant(to_mpa(worst.stress.von_mises), 3);
        add("Largest von Mises stress", stress, "MPa", format!("tube {}", run.tube(worst.tube)), false);
    }
    if let Some(finding) = utilisations.in_case(&case.name)
        && let Some(value) = finding.utilisation
    {
        let scope = if finding.is_outside() { ", outside scope" } else { "" };
        let note = format!("{}{scope}", run.about(finding.subject));
        add("Worst utilisation", fixed(value, 2), "of the limit", note, value > 1.0);
    }
    facts
}

/// Bolts, links, or panels shown of each case; the rest stands in the file.
const SHOWN: usize = 4;

/// The rows with the greatest numbers in some of the columns first; equals stay in order.
fn worst_first<'a>(mut table: Table<'a>, keys: &[&str]) -> Table<'a> {
    if table.rows.len() <= SHOWN {
        return table;
    }
    let places: Vec<usize> = (0..table.columns.len()).filter(|at| keys.contains(&table.columns[*at].key)).collect();
    let size =
        |row: &Vec<Cell<'_>>| places.iter().filter_map(|at| row[*at].as_number()).map(f64::abs).fold(0.0, f64::max);
    table.rows.sort_by(|a, b| size(b).total_cmp(&size(a)));
    table.caption.push_str(". The greatest first");
    table
}

/// A table that has rows.
fn shown(table: &Table<'_>, file: &str) -> Option<TableView> {
    (!table.rows.is_empty()).then(|| TableView::cut(table, SHOWN, file))
}

fn held_words(run: &Run<'_>, case: &LoadCase) -> String {
    match case.supports.len() {
        0 if case.free => "Nothing holds the vehicle: what acts is balanced by its inertia.".to_owned(),
        0 => "Nothing holds the frame.".to_owned(),
        few if few <= FEW_SUPPORTS => {
            let each = case
                .supports
                .iter()
                .map(|support| format!("{} {}", run.joint(support.joint), model::support_words(support)));
            format!("Held at joint {}.", each.collect::<Vec<_>>().join("; at "))
        }
        _ => String::new(),
    }
}

fn factors<'a>(case: &'a LoadCase) -> TableView {
    let rows = case.derivation.factors.iter().map(|factor| {
        vec![
            Cell::text(&factor.name),
            Cell::Number(factor.value),
            Cell::text(&factor.unit),
            Cell::text(if factor.overridden { "set by the model" } else { "" }),
            Cell::text(&factor.source),
            Cell::text(factor.mark.words()),
        ]
    });
    let table: Table<'a> = Table {
        name: "factors",
        caption: "Values that the case rests on".into(),
        columns: vec![
            Column::text("factor", "factor"),
            Column::number("value", "value", "", Digits::Given),
            Column::text("unit", "unit"),
            Column::text("set", "override"),
            Column::text("source", "source, or the user's reason"),
            Column::text("mark", "mark"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "the case script")
}

fn wheel_table(forces: &[[f64; 3]; 4]) -> TableView {
    let digits = Digits::Column(4);
    let rows = Wheel::ALL.into_iter().zip(forces).map(|(wheel, force)| {
        let mut row = vec![Cell::text(wheel.name())];
        row.extend(force.map(Cell::Number));
        row
    });
    let table = Table {
        name: "wheels",
        caption: "Force of the road on each wheel".into(),
        columns: vec![
            Column::text("wheel", "wheel"),
            Column::number("fx_n", "Fx", "N", digits),
            Column::number("fy_n", "Fy", "N", digits),
            Column::number("fz_n", "Fz", "N", digits),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "cases.csv")
}
