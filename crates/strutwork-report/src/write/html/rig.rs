//! The twist rig against the model.

use crate::figures::{Figure, rig as picture};
use crate::run::Run;
use crate::table::Table;
use crate::tables::rig as tables;

use super::table::TableView;

/// What the rig's sheet says.
pub(super) struct RigView {
    /// The verdict, in sentences.
    pub(super) verdict: Vec<String>,
    /// What was held, loaded and fitted: term and text.
    pub(super) words: Vec<(&'static str, String)>,
    pub(super) figures: Vec<Figure>,
    pub(super) tables: Vec<TableView>,
    /// Code, what was found, what to do; warnings first.
    pub(super) remarks: Vec<(&'static str, &'static str, String, String)>,
}

/// Shown where the user says nothing.
const UNSAID: &str = "not said: write it under [rig] in model.toml. Without it the figure means little";

impl RigView {
    pub(super) fn of(run: &Run<'_>) -> Option<Self> {
        let (sheet, evidence) = run.rig()?;
        let said = |text: &str| if text.is_empty() { UNSAID.to_owned() } else { text.to_owned() };
        let mut words = vec![
            ("Held", said(&sheet.words.held)),
            ("Loaded", said(&sheet.words.loaded)),
            ("Fitted", said(&sheet.words.fitted)),
        ];
        words.extend(evidence.modelled.as_ref().map(|modelled| ("Model", modelled.how.clone())));
        let shown = |table: Table<'_>| TableView::where_any(&table, "rig.csv");
        let mut remarks: Vec<_> = evidence.judgement.remarks.iter().collect();
        remarks.sort_by_key(|remark| std::cmp::Reverse(remark.severity));
        Some(Self {
            verdict: evidence.judgement.verdict.clone(),
            words,
            figures: [picture::loop_of(sheet, evidence), picture::profile(sheet, evidence)]
                .into_iter()
                .flatten()
                .collect(),
            tables: [tables::stiffness(run), tables::stations(run), tables::bays(run)]
                .into_iter()
                .filter_map(shown)
                .collect(),
            remarks: remarks
                .into_iter()
                .map(|remark| {
                    (remark.severity.word(), remark.code.0, place(remark) + &remark.message, remark.remedy.clone())
                })
                .collect(),
        })
    }
}

fn place(remark: &strutwork_rig::Remark) -> String {
    if remark.place.1 > 0 { format!("{}, line {}: ", remark.place.0, remark.place.1) } else { String::new() }
}
