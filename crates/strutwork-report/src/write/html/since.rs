//! What changed since an older run, for the summary of the report.

use crate::compare::words;
use crate::run::Run;

use super::Edition;
use super::compared::{Deltas, ToldView, sentence, told};

/// Changes that are told; on paper fewer.
const CHANGES: usize = 40;
const CHANGES_ON_PAPER: usize = 15;
/// Findings that are told.
const FINDINGS: usize = 12;

/// The comparison with an older run in short.
pub(super) struct SinceView {
    pub(super) name: String,
    pub(super) label: String,
    pub(super) date: String,
    pub(super) sentence: String,
    pub(super) same: bool,
    pub(super) remarks: Vec<String>,
    pub(super) verdict: Deltas,
    pub(super) changes: Option<Vec<ToldView>>,
    pub(super) more: usize,
    pub(super) findings: Vec<String>,
    pub(super) more_findings: usize,
    pub(super) left_out: Vec<String>,
}

impl SinceView {
    /// `None` where no older run was named.
    pub(super) fn of(run: &Run<'_>, edition: Edition) -> Option<Self> {
        let since = run.info.since.as_ref()?;
        let of = &since.comparison;
        let most = if edition == Edition::Paper { CHANGES_ON_PAPER } else { CHANGES };
        let changes = of.inputs.as_ref().map(words::changes);
        let (shown, more) = match &changes {
            None => (None, 0),
            Some(all) => {
                let shown = all.iter().take(most).cloned().map(told).collect();
                (Some(shown), all.iter().skip(most).map(|one| one.number).sum())
            }
        };
        Some(Self {
            name: match of.before.revision.as_str() {
                "" => "an older run".to_owned(),
                revision => format!("revision {revision}"),
            },
            label: since.label.clone(),
            date: of.before.date.clone(),
            sentence: sentence(of),
            same: of.is_same(),
            remarks: since.remarks.clone(),
            verdict: Deltas { lines: words::verdict(&of.verdict) },
            changes: shown,
            more,
            findings: of.findings.iter().take(FINDINGS).map(words::finding).collect(),
            more_findings: of.findings.len().saturating_sub(FINDINGS),
            left_out: words::left_out(of),
        })
    }
}

#[cfg(test)]
mod tests {
    use askama::Template;
    use strutwork_revision::inputs::How;

    use super::*;
    use crate::compare::words::Told;

    #[derive(Template)]
    #[template(path = "since.html")]
    struct Page {
        since: Option<SinceView>,
    }

    #[test]
    fn what_is_gone_without_more_to_say_ends_there() {
        let of = |how, subject: &str, happened: &str| {
            told(Told { how, subject: subject.to_owned(), happened: happened.to_owned(), number: 1 })
        };
        let changes = vec![
            of(How::Gone, "case braking", "gone"),
            of(How::Added, "vehicle", "added"),
            of(How::Gone, "joint J1", "gone: was at (0, 0, 0) mm"),
            of(How::Changed, "tube t1", "wall 1.5 → 2 mm"),
        ];
        let since = SinceView {
            name: "revision A".to_owned(),
            label: "a/results".to_owned(),
            date: String::new(),
            sentence: String::new(),
            same: false,
            remarks: Vec::new(),
            verdict: Deltas { lines: Vec::new() },
            changes: Some(changes),
            more: 0,
            findings: Vec::new(),
            more_findings: 0,
            left_out: Vec::new(),
        };
        let page = Page { since: Some(since) }.render().unwrap();
        let told: Vec<&str> = page.split("<li>").skip(1).filter_map(|item| item.split("</li>").next()).collect();
        assert_eq!(
            told,
            ["case braking gone", "vehicle added", "joint J1 gone: was at (0, 0, 0) mm", "tube t1: wall 1.5 → 2 mm"]
        );
    }
}
