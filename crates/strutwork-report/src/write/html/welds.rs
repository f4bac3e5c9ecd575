//! The list of welds, summed up for the workshop.

use strutwork_checks::design::weld_list::{WeldItem, weld_list};
use strutwork_model::model::Section;
use strutwork_model::units::to_mm;
use strutwork_model::{MaterialId, SectionId};

use crate::number::significant;
use crate::run::Run;
use crate::table::{Cell, Column, Digits, Table};

use super::table::TableView;

/// All welds in a few figures.
pub(super) struct WeldView {
    pub(super) words: String,
    /// By section and material of the tube that ends there.
    pub(super) by_tube: TableView,
}

/// Welds of tubes of one section and material.
struct Group<'w> {
    section: SectionId,
    material: MaterialId,
    welds: Vec<&'w WeldItem>,
}

impl WeldView {
    /// `None` where nothing is welded.
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let list = weld_list(run.model);
        (!list.is_empty()).then(|| Self { words: words(&list), by_tube: by_tube(run, &list) })
    }
}

/// What of a number of welds is known, added up.
fn sum(welds: &[&WeldItem], read: impl Fn(&WeldItem) -> Option<f64>) -> f64 {
    welds.iter().filter_map(|weld| read(weld)).sum()
}

fn words(list: &[WeldItem]) -> String {
    let all: Vec<&WeldItem> = list.iter().collect();
    let unknown = all.iter().filter(|weld| weld.length.is_none()).count();
    let assumed = all.iter().filter(|weld| !weld.throat_given).count();
    let mut text = format!(
        "{} of tubes all round: {} m of weld, {} kg of weld metal.",
        if all.len() == 1 { "1 weld".to_owned() } else { format!("{} welds", all.len()) },
        significant(sum(&all, |weld| weld.length), 4),
        significant(sum(&all, |weld| weld.metal), 3),
    );
    if assumed > 0 {
        text.push_str(&format!(
            " No throat is given for {assumed} of them: the wall of the tube is assumed, and the shop has to make it so."
        ));
    }
    if unknown > 0 {
        text.push_str(&format!(" The length of {unknown} is not known: their sections are given by properties."));
    }
    text
}

fn by_tube(run: &Run<'_>, list: &[WeldItem]) -> TableView {
    let mut groups: Vec<Group<'_>> = Vec::new();
    for weld in list {
        let tube = &run.model.tubes()[weld.tube];
        match groups.iter_mut().find(|group| (group.section, group.material) == (tube.section, tube.material)) {
            Some(group) => group.welds.push(weld),
            None => groups.push(Group { section: tube.section, material: tube.material, welds: vec![weld] }),
        }
    }
    let rows = groups.iter().map(|group| {
        let section: &Section = &run.model.sections()[group.section];
        vec![
            Cell::text(&section.name),
            Cell::text(&section.label),
            Cell::text(&run.model.materials()[group.material].name),
            Cell::Number(group.welds.len() as f64),
            Cell::Number(sum(&group.welds, |weld| weld.length)),
            Cell::Number(sum(&group.welds, |weld| weld.metal) * 1e3),
            range(&group.welds, |weld| weld.throat),
            range(&group.welds, |weld| weld.full_strength_throat),
        ]
    });
    let table = Table {
        name: "weld_sums",
        caption:
            "Welds by the tube that ends there. Full strength: the throat at which a fillet is as strong as the tube's \
                  wall. Weld by weld: welds.csv"
                .into(),
        columns: vec![
            Column::text("section", "section"),
            Column::text("label", "shape, mm"),
            Column::text("material", "material"),
            Column::number("welds", "welds", "", Digits::Decimals(0)),
            Column::number("length_m", "length", "m", Digits::Decimals(2)),
            Column::number("metal_g", "weld metal", "g", Digits::Decimals(0)),
            Column::text("throat", "throat, mm"),
            Column::text("full_strength_throat", "full-strength throat, mm"),
        ],
        rows: rows.collect(),
    };
    TableView::of(&table, "welds.csv")
}

/// The least and the greatest of a length, mm; nothing where none is known.
fn range<'a>(welds: &[&WeldItem], read: impl Fn(&WeldItem) -> Option<f64>) -> Cell<'a> {
    let known = || welds.iter().filter_map(|weld| read(weld)).map(to_mm);
    let Some(greatest) = known().reduce(f64::max) else { return Cell::Empty };
    let least = known().fold(greatest, f64::min);
    let [least, greatest] = [least, greatest].map(|length| significant(length, 3));
    if least == greatest { Cell::from(least) } else { Cell::from(format!("{least} to {greatest}")) }
}
