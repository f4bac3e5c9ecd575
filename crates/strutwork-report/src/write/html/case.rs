//! One load case: how its loads came about, what acts, how the frame answers.

use strutwork_loads::LoadCase;
use strutwork_loads::case::Measure;
use strutwork_model::model::Wheel;
use strutwork_model::units::{STANDARD_GRAVITY, to_deg, to_mm, to_mpa, to_nm_per_deg};
use strutwork_solve::CaseResult;
use strutwork_solve::results::MeasureResult;

use crate::extremes::{self, WorstStation};
use crate::figures::{Figure, deformed, twist, wheels};
use crate::number::{as_given, fixed, power, significant};
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};
use crate::tables;
use crate::utilisation::Utilisations;

use super::summary::{Fact, largest_slide};
use super::table::TableView;
use super::{loads, model, words};

/// Tubes shown of each case.
const WORST: usize = 10;

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
    pub(super) acceleration: Option<TableView>,
    pub(super) held: Option<TableView>,
    pub(super) held_words: String,
    pub(super) loads: Vec<TableView>,
    pub(super) axes_note: &'static str,
    pub(super) reactions: TableView,
    pub(super) balance: TableView,
    pub(super) imbalance: String,
    pub(super) shape: Figure,
    pub(super) movements: TableView,
    pub(super) worst: Option<TableView>,
    pub(super) stresses: Option<TableView>,
    pub(super) twists: Vec<TwistView>,
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

/// A torsional stiffness, and what it rests on.
pub(super) struct TwistView {
    pub(super) stiffness: String,
    pub(super) couple: String,
    pub(super) twist: String,
    pub(super) front: String,
    pub(super) rear: String,
    pub(super) figure: Option<Figure>,
    pub(super) table: TableView,
}

impl<'a> CaseView<'a> {
    pub(super) fn of(
        run: &Run<'a>,
        utilisations: &Utilisations<'a>,
        number: usize,
        case: &'a LoadCase,
        result: &CaseResult,
    ) -> Self {
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
                .map(|step| StepView {
                    text: &step.text,
                    value: step.value.map(|value| significant(value, 4)),
                    unit: &step.unit,
                })
                .collect(),
            wheels: wheels::draw(case),
            wheel_table: derivation.wheel_forces.map(|forces| wheel_table(&forces)),
            acceleration: derivation.acceleration.map(|a| acceleration(&a)),
            held: (case.supports.len() > FEW_SUPPORTS).then(|| TableView::of(&supports, "supports.csv")),
            held_words: held_words(run, case),
            loads: loads::tables(run, case),
            axes_note: loads::axes_note(case),
            reactions: TableView::of(&tables::reactions::of_case(run, result), "reactions.csv"),
            balance: loads::balance(result),
            imbalance: power(result.trust.imbalance),
            shape: deformed::draw(run, case, result),
            movements: movements(run, result),
            worst: (!worst.is_empty()).then(|| worst_forces(run, utilisations, case, &worst)),
            stresses: (!worst.is_empty()).then(|| worst_stresses(run, &worst)),
            twists: twists(run, case, result),
        }
    }
}

fn facts(
    run: &Run<'_>,
    utilisations: &Utilisations<'_>,
    case: &LoadCase,
    result: &CaseResult,
) -> Vec<Fact> {
    let mut facts = Vec::new();
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
        let note = run.subject(finding.subject).to_owned();
        add("Worst utilisation", fixed(value, 2), "of the limit", note, value > 1.0);
    }
    facts
}

fn held_words(run: &Run<'_>, case: &LoadCase) -> String {
    match case.supports.len() {
        0 => "Nothing holds the frame.".to_owned(),
        few if few <= FEW_SUPPORTS => {
            let each = case.supports.iter().map(|support| {
                format!("{} {}", run.joint(support.joint), model::support_words(support))
            });
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
            Cell::text(&factor.source),
            Cell::text(if factor.overridden { "set by the model" } else { "" }),
        ]
    });
    let table: Table<'a> = Table {
        name: "factors",
        caption: "Values that the case rests on".into(),
        columns: vec![
            Column::text("factor", "factor"),
            Column::number("value", "value", "", Digits::Given),
            Column::text("unit", "unit"),
            Column::text("source", "source"),
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

fn acceleration(a: &[f64; 6]) -> TableView {
    let digits = Digits::Column(4);
    let mut row = vec![Cell::text("at the centre of gravity")];
    row.extend(a[..3].iter().map(|value| Cell::Number(value / STANDARD_GRAVITY)));
    row.extend(a[3..].iter().map(|value| Cell::Number(*value)));
    let table = Table {
        name: "acceleration",
        caption: "Acceleration of the vehicle; its inertia balances the loads".into(),
        columns: vec![
            Column::text("where", "where"),
            Column::number("ax_g", "ax", "g", digits),
            Column::number("ay_g", "ay", "g", digits),
            Column::number("az_g", "az", "g", digits),
            Column::number("arx", "about x", "rad/s²", digits),
            Column::number("ary", "about y", "rad/s²", digits),
            Column::number("arz", "about z", "rad/s²", digits),
        ],
        rows: vec![row],
    };
    TableView::of(&table, "cases.csv")
}

fn movements(run: &Run<'_>, result: &CaseResult) -> TableView {
    let largest = extremes::movements(result);
    let name = |place: usize| largest[place].map_or(Cell::Empty, |(joint, _)| Cell::text(run.joint(joint)));
    let mut values = vec![Cell::text("movement")];
    values.extend(largest.iter().enumerate().map(|(place, slot)| {
        Cell::from(slot.map(|(_, value)| if place < 3 { to_mm(value) } else { to_deg(value) }))
    }));
    let mut joints = vec![Cell::text("joint")];
    joints.extend((0..6).map(name));
    let mut columns = vec![Column::text("what", "largest")];
    columns.extend(tables::displacements::COLUMNS);
    let table = Table {
        name: "movements",
        caption: "Largest movements of joints, global axes. All of them: displacements.csv".into(),
        columns,
        rows: vec![values, joints],
    };
    TableView::of(&table, "displacements.csv")
}

fn worst_forces(
    run: &Run<'_>,
    utilisations: &Utilisations<'_>,
    case: &LoadCase,
    worst: &[WorstStation<'_>],
) -> TableView {
    let digits = Digits::Column(4);
    let model = run.model;
    let rows = worst.iter().map(|worst| {
        let forces = worst.station.forces;
        let section = model.tubes()[worst.tube].section;
        let finding = utilisations.of_tube(worst.tube, &case.name);
        vec![
            Cell::text(run.tube(worst.tube)),
            Cell::text(&model.sections()[section].name),
            Cell::Number(to_mm(worst.station.at * model.length(worst.tube))),
            Cell::Number(forces.n),
            Cell::Number(forces.vy),
            Cell::Number(forces.vz),
            Cell::Number(forces.t),
            Cell::Number(forces.my),
            Cell::Number(forces.mz),
            Cell::from(finding.and_then(|finding| finding.utilisation)),
        ]
    });
    let table = Table {
        name: "worst_forces",
        caption: format!(
            "Most stressed tubes: forces where the von Mises stress is greatest. Utilisation against yield / {}. All \
             tubes: member_forces.csv",
            as_given(model.options().yield_margin)
        ),
        columns: vec![
            Column::text("tube", "tube"),
            Column::text("section", "section"),
            Column::number("x_mm", "at x", "mm", Digits::Decimals(0)),
            Column::number("n_n", "N", "N", digits),
            Column::number("vy_n", "Vy", "N", digits),
            Column::number("vz_n", "Vz", "N", digits),
            Column::number("t_nm", "T", "N·m", digits),
            Column::number("my_nm", "My", "N·m", digits),
            Column::number("mz_nm", "Mz", "N·m", digits),
            Column::number("utilisation", "utilisation", "", Digits::Utilisation),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "member_forces.csv")
}

fn worst_stresses(run: &Run<'_>, worst: &[WorstStation<'_>]) -> TableView {
    let digits = Digits::Decimals(1);
    let rows = worst.iter().map(|worst| {
        let s = worst.stress;
        let mut row = vec![Cell::text(run.tube(worst.tube))];
        let parts =
            [s.axial, s.bending_y, s.bending_z, s.sigma_max, s.torsion, s.shear, s.tau_max, s.von_mises];
        row.extend(parts.map(|pascals| Cell::Number(to_mpa(pascals))));
        row
    });
    let column = |key, title| Column::number(key, title, "MPa", digits);
    let table = Table {
        name: "worst_stresses",
        caption: "The same tubes: what the stress is made of. Round sections carry all bending under y".into(),
        columns: vec![
            Column::text("tube", "tube"),
            column("axial", "axial"),
            column("bending_y", "bending y"),
            column("bending_z", "bending z"),
            column("sigma", "σ greatest"),
            column("torsion", "torsion"),
            column("shear", "shear"),
            column("tau", "τ greatest"),
            column("von_mises", "von Mises"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "member_forces.csv")
}

fn twists(run: &Run<'_>, case: &LoadCase, result: &CaseResult) -> Vec<TwistView> {
    let pair = |joints: [strutwork_model::JointId; 2]| {
        let x = joints.map(|joint| fixed(to_mm(run.model.joints()[joint].at[0]), 0));
        format!("{} and {} (x = {} and {} mm)", run.joint(joints[0]), run.joint(joints[1]), x[0], x[1])
    };
    let measures = case.measures.iter().zip(&result.measures);
    measures
        .filter_map(|(asked, read)| match (asked, read) {
            (
                Measure::Twist { front, rear, .. },
                MeasureResult::Twist { couple, twist, stiffness, profile },
            ) => Some(TwistView {
                stiffness: significant(to_nm_per_deg(*stiffness), 4),
                couple: significant(*couple, 4),
                twist: significant(to_deg(*twist), 4),
                front: pair(*front),
                rear: pair(*rear),
                figure: twist::draw(run, &case.name, profile),
                table: TableView::of(
                    &tables::twist::of_profile(run, &twist::widest_pairs(run, profile)),
                    "twist.csv",
                ),
            }),
            _ => None,
        })
        .collect()
}
