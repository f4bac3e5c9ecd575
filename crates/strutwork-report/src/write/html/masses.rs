//! What the vehicle weighs: item by item, where its centre is, how it resists turning.

use strutwork_loads::MassModel;
use strutwork_loads::masses::{MassItem, MassKind, Scale, Weighing, weighing};
use strutwork_loads::wheels::{StaticLoads, static_loads};
use strutwork_model::model::Wheel;
use strutwork_model::units::{STANDARD_GRAVITY, to_deg, to_mm};

use crate::number::fixed;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// Rows of items that are shown; the rest stands in the file.
const SHOWN: usize = 60;

/// The masses of a model.
pub(super) struct MassView {
    pub(super) tables: Vec<TableView>,
    /// What has no mass and might be expected to, in words.
    pub(super) massless: Vec<String>,
    /// Shares of the axles and sides, in a sentence; empty where there is no vehicle.
    pub(super) wheel_words: String,
    pub(super) weighed: Vec<TableView>,
    /// What the explanations of a weighed frame add up to, in a sentence; empty where none was weighed.
    pub(super) likely: String,
    /// What the scales say beyond that, in sentences.
    pub(super) scales: Vec<String>,
}

impl MassView {
    pub(super) fn of(run: &Run<'_>, mass: &MassModel) -> Self {
        let mut tables = vec![
            TableView::of(&total(mass), FILE),
            TableView::cut(&items(mass), SHOWN, FILE),
            TableView::of(&inertia(mass), FILE),
        ];
        let wheel_words = match run.model.vehicle().map(|_| static_loads(run.model)) {
            None => String::new(),
            Some(Err(error)) => format!("Static wheel loads cannot be told: {error}."),
            Some(Ok(loads)) => {
                tables.push(TableView::of(&wheels(&loads), "cases.csv"));
                let [front, left] = [loads.front, loads.left].map(|share| fixed(share * 100.0, 1));
                format!("At rest {front} % of the weight stands on the front axle, {left} % on the left wheels.")
            }
        };
        let weighing = weighing(run.model);
        Self {
            tables,
            massless: mass.massless.iter().map(|one| one.words(run.model)).collect(),
            wheel_words,
            weighed: {
                let parts = TableView::where_any(&crate::tables::weighed_parts::table(run), "weighed_parts.csv");
                weighed(&weighing).into_iter().chain(parts).collect()
            },
            likely: likely(&weighing).unwrap_or_default(),
            scales: scales(run),
        }
    }
}

const FILE: &str = "mass_table.csv";

/// An item's name as a reader expects it.
fn item_name(item: &MassItem) -> String {
    match (item.kind, item.name.as_str()) {
        (MassKind::Tubes, "") => "tubes without a group".to_owned(),
        (MassKind::Tubes, group) => format!("tubes of group {group}"),
        (MassKind::Panel, name) => format!("panel {name}"),
        (MassKind::Carried, name) => name.to_owned(),
    }
}

fn columns() -> Vec<Column> {
    vec![
        Column::text("item", "item"),
        Column::number("kg", "mass", "kg", Digits::Column(5)),
        Column::number("x_mm", "x", "mm", Digits::Decimals(0)),
        Column::number("y_mm", "y", "mm", Digits::Decimals(0)),
        Column::number("z_mm", "z", "mm", Digits::Decimals(0)),
    ]
}

fn row(name: String, kilograms: f64, centre: [f64; 3]) -> Vec<Cell<'static>> {
    let mut row = vec![Cell::from(name), Cell::Number(kilograms)];
    row.extend(centre.map(|metres| Cell::Number(to_mm(metres))));
    row
}

fn total(mass: &MassModel) -> Table<'static> {
    Table {
        name: "mass",
        caption: "Total mass and centre of gravity".into(),
        columns: columns(),
        rows: vec![row("total".into(), mass.total, mass.centre)],
    }
}

fn items(mass: &MassModel) -> Table<'static> {
    let rows = mass.items.iter().map(|item| row(item_name(item), item.mass, item.centre));
    Table {
        name: "mass_items",
        caption: "What the total is made of, each with its own centre of gravity".into(),
        columns: columns(),
        rows: rows.collect(),
    }
}

fn inertia(mass: &MassModel) -> Table<'static> {
    let rows = ["x", "y", "z"].into_iter().zip(mass.inertia).map(|(axis, parts)| {
        let mut row = vec![Cell::text(axis)];
        row.extend(parts.map(Cell::Number));
        row
    });
    Table {
        name: "inertia",
        caption:
            "Inertia tensor about the centre of gravity, tensor components (products carry a minus sign: Ixy = −∫xy dm)"
                .into(),
        columns: vec![
            Column::text("axis", "about"),
            Column::number("x", "x", "kg·m²", Digits::Column(4)),
            Column::number("y", "y", "kg·m²", Digits::Column(4)),
            Column::number("z", "z", "kg·m²", Digits::Column(4)),
        ],
        rows: rows.collect(),
    }
}

fn wheels(loads: &StaticLoads) -> Table<'static> {
    let rows = Wheel::ALL.into_iter().map(|wheel| {
        let place = wheel as usize;
        vec![
            Cell::text(wheel.name()),
            Cell::Number(loads.loads[place]),
            Cell::Number(loads.loads[place] / STANDARD_GRAVITY),
            Cell::Number(loads.shares[place] * 100.0),
        ]
    });
    Table {
        name: "static_wheels",
        caption: "What the wheels carry at rest".into(),
        columns: vec![
            Column::text("wheel", "wheel"),
            Column::number("load_n", "load", "N", Digits::Decimals(0)),
            Column::number("load_kg", "on scales", "kg", Digits::Decimals(1)),
            Column::number("share", "share", "%", Digits::Decimals(1)),
        ],
        rows: rows.collect(),
    }
}

/// The comparison with the scales, and what usually explains the difference of a bare frame.
fn weighed(weighing: &Weighing) -> Vec<TableView> {
    let rows = weighing.rows.iter().map(|row| {
        vec![
            Cell::from(match row.what {
                Scale::Frame => "bare frame, against the tubes".to_owned(),
                Scale::Vehicle => "whole vehicle".to_owned(),
                Scale::Corner(wheel) => format!("wheel {}", wheel.name()),
            }),
            Cell::Number(row.model),
            Cell::Number(row.weighed),
            Cell::Number(row.difference()),
            Cell::from(row.share().map(|share| share * 100.0)),
        ]
    });
    let compared = Table {
        name: "weighed",
        caption: "The model beside the scales. Difference: weighed less model".into(),
        columns: vec![
            Column::text("what", "what"),
            Column::number("model_kg", "model", "kg", Digits::Column(4)),
            Column::number("weighed_kg", "weighed", "kg", Digits::Column(4)),
            Column::number("difference_kg", "difference", "kg", Digits::Column(4)),
            Column::number("share", "of weighed", "%", Digits::Decimals(1)),
        ],
        rows: rows.collect(),
    };
    let rows = weighing.explanations.iter().map(|one| {
        let [least, greatest] = one.adds.map(Cell::Number);
        vec![Cell::text(one.what), least, greatest, Cell::text(one.source), Cell::text(one.mark.words())]
    });
    let explained = Table {
        name: "explanations",
        caption: "What usually lies between a weighed bare frame and its tubes' centre lines: what each adds to the model, from \
                  least to greatest"
            .into(),
        columns: vec![
            Column::text("what", "what"),
            Column::number("least_kg", "from", "kg", Digits::Decimals(2)),
            Column::number("greatest_kg", "to", "kg", Digits::Decimals(2)),
            Column::text("source", "source"),
            Column::text("mark", "mark"),
        ],
        rows: rows.collect(),
    };
    let filled = [compared, explained].into_iter().filter(|table| !table.rows.is_empty());
    filled.map(|table| TableView::of(&table, "model.toml")).collect()
}

fn likely(weighing: &Weighing) -> Option<String> {
    let [least, greatest] = weighing.likely()?.map(|kilograms| fixed(kilograms, 1));
    Some(format!(
        "Together they make a difference of {least} to {greatest} kg likely. One beyond that wants an explanation of its own: a \
         wrong wall, a tube that is missing or counted twice."
    ))
}

/// Centre of gravity from the scales, its height, the diagonal, and what was found.
fn scales(run: &Run<'_>) -> Vec<String> {
    let Some(sheet) = run.scales() else { return Vec::new() };
    let mm = |value: f64| fixed(to_mm(value), 0);
    let mut said = Vec::new();
    if let (Some(centre), Some(sum)) = (sheet.centre, sheet.corners) {
        said.push(format!(
            "The four corners add up to {} kg and give a centre of gravity at x {} ± {} mm, y {} ± {} mm; the model says x {} mm, y {} mm.",
            fixed(sum, 1),
            mm(centre.at[0]),
            mm(centre.uncertainty[0]),
            mm(centre.at[1]),
            mm(centre.uncertainty[1]),
            mm(centre.model[0]),
            mm(centre.model[1])
        ));
    }
    if let Some([weighed, model]) = sheet.cross {
        let [weighed, model] = [weighed, model].map(|share| fixed(share * 100.0, 1));
        said.push(format!(
            "The diagonal front left to rear right carries {weighed} % on the scales, {model} % in the model."
        ));
    }
    if let Some(height) = sheet.height {
        said.push(format!(
            "With one axle raised by {}° the lower one took {} kg more: the centre of gravity is {} ± {} mm above the ground (h = r + ΔW·L/(W·tan θ), derived); the model says {} mm.",
            fixed(to_deg(height.tilt), 1),
            fixed(height.shifted, 1),
            mm(height.height),
            mm(height.uncertainty),
            mm(height.model)
        ));
    }
    let found = |remark: &strutwork_rig::Remark| {
        format!("{} {}: {}. What to do: {}.", remark.severity.word(), remark.code, remark.message, remark.remedy)
    };
    said.extend(sheet.remarks.iter().map(found));
    said
}
