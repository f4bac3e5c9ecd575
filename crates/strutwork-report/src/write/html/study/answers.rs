//! The answers first: how many, the best of each kind, the front, and what must be known with them.

use strutwork_study::overview::{Best, Better};
use strutwork_study::{Asked, Row, Status};

use crate::study::StudyRun;

use super::super::summary::Fact;
use super::super::table::TableView;
use super::words;

/// Members of the front that are listed.
const FRONT: usize = 40;

fn is_constrained(run: &StudyRun<'_>) -> bool {
    !run.study.constraints.is_empty()
}

/// Whether there is no answer: nothing solved, or nothing that keeps what is required.
pub(super) fn is_none(run: &StudyRun<'_>) -> bool {
    let tally = &run.overview.tally;
    tally.count(Status::Solved) == 0 || (is_constrained(run) && tally.feasible == 0)
}

/// How the study ended, in a sentence or two.
pub(super) fn verdict(run: &StudyRun<'_>) -> String {
    let tally = &run.overview.tally;
    let solved = tally.count(Status::Solved);
    let all = words::counted(tally.variants, "variant", "variants");
    if solved == 0 {
        return format!("None of {all} could be solved: the reasons stand below.");
    }
    let mut text =
        if solved == tally.variants { format!("{all}, all solved.") } else { format!("{all}, {solved} solved.") };
    match (is_constrained(run), tally.feasible) {
        (false, _) => {}
        (true, 0) => text.push_str(" No variant keeps what is required."),
        (true, 1) => text.push_str(" One keeps what is required."),
        (true, kept) => text.push_str(&format!(" {} keep what is required.", crate::number::fixed(kept as f64, 0))),
    }
    let ends = run.overview.plane.map_or_else(Vec::new, |plane| vec![plane.less, plane.more]);
    for best in telling(run).filter(|best| ends.contains(&best.response)) {
        if let Some(row) = first(best).filter(|row| keeps(row)) {
            text.push_str(&format!(" {}", told(run, best, row)));
        }
    }
    text
}

/// The best by an answer in a sentence.
fn told(run: &StudyRun<'_>, best: &Best, row: &Row) -> String {
    let named = words::named(&run.study.responses[best.response]);
    let side = if best.better == Better::Less { "Least" } else { "Greatest" };
    let value = words::answer(row, best.response, words::decimals(run, best.response));
    let unit = if named.unit.is_empty() { String::new() } else { format!(" {}", named.unit) };
    format!("{side} {}: {value}{unit}, variant {} ({}).", named.title, row.variant, words::changed(run.study, row))
}

/// The best by answers that somebody would choose by.
fn telling<'a>(run: &StudyRun<'a>) -> impl Iterator<Item = &'a Best> {
    let study = run.study;
    run.overview.chosen.best.iter().filter(|best| study.responses[best.response].asked != Asked::OutsideScope)
}

/// The best of a response, where that says something: of those that keep what is required, if any does.
fn first(best: &Best) -> Option<&Row> {
    best.rows.first()
}

fn keeps(row: &Row) -> bool {
    row.outcome.feasible != Some(false)
}

/// The large figures.
pub(super) fn facts(run: &StudyRun<'_>) -> Vec<Fact> {
    let study = run.study;
    let tally = &run.overview.tally;
    let mut facts = vec![Fact {
        what: "Variants".into(),
        value: crate::number::fixed(tally.variants as f64, 0),
        unit: "",
        note: format!("{} solved", tally.count(Status::Solved)),
        over: false,
    }];
    if is_constrained(run) {
        facts.push(Fact {
            what: "Keep what is required".into(),
            value: crate::number::fixed(tally.feasible as f64, 0),
            unit: "",
            note: "of all that was tried".into(),
            over: tally.feasible == 0,
        });
    }
    for best in telling(run).take(4) {
        let Some(row) = first(best) else { continue };
        let named = words::named(&study.responses[best.response]);
        let side = if best.better == Better::Less { "Least" } else { "Greatest" };
        let failing = if keeps(row) { "" } else { "; keeps not all that is required" };
        facts.push(Fact {
            what: format!("{side} {}", named.title),
            value: words::answer(row, best.response, words::decimals(run, best.response)),
            unit: named.unit,
            note: format!("variant {}{failing}", row.variant),
            over: !keeps(row),
        });
    }
    if run.overview.plane.is_some() {
        facts.push(Fact {
            what: "On the front".into(),
            value: run.overview.front.members.len().to_string(),
            unit: "",
            note: "variants that no other beats in both".into(),
            over: false,
        });
    }
    facts
}

/// What must be known with the answers.
pub(super) fn remarks(run: &StudyRun<'_>) -> Vec<String> {
    let tally = &run.overview.tally;
    let mut remarks = Vec::new();
    for (status, variant, note) in &tally.notes {
        let count = words::counted(tally.count(*status), "variant", "variants");
        remarks.push(format!("{count}: {}. The first, variant {variant}: {note}", status.word()));
    }
    let outside = run.study.responses.iter().position(|response| response.asked == Asked::OutsideScope);
    let most = outside.and_then(|place| tally.extremes[place]).map_or(0.0, |extremes| extremes.greatest.0);
    if most > 0.0 {
        remarks.push(format!(
            "Up to {} items of a variant are within their limits but outside the scope of a clause they are judged by: that is no pass, \
             and the column of it says for which variant how many.",
            crate::number::fixed(most, 0)
        ));
    }
    remarks
}

fn columns(run: &StudyRun<'_>, lead: &[(&str, bool)]) -> Vec<(String, &'static str, bool)> {
    let mut columns: Vec<_> = lead.iter().map(|(title, number)| ((*title).to_owned(), "", *number)).collect();
    columns.extend(run.study.responses.iter().map(|response| {
        let named = words::named(response);
        (named.title, named.unit, true)
    }));
    columns.push(("what it changes".to_owned(), "", false));
    columns
}

fn cells(run: &StudyRun<'_>, row: &Row, lead: Vec<String>) -> Vec<String> {
    let mut cells = lead;
    let places = 0..run.study.responses.len();
    cells.extend(places.map(|place| words::answer(row, place, words::decimals(run, place))));
    cells.push(words::changed(run.study, row));
    cells
}

/// The best by each answer, beside the model as it is where it is among the variants.
pub(super) fn best(run: &StudyRun<'_>) -> Option<TableView> {
    let mut rows = Vec::new();
    for best in telling(run) {
        let Some(row) = first(best) else { continue };
        let side = if best.better == Better::Less { "least" } else { "greatest" };
        let name = words::named(&run.study.responses[best.response]).title;
        let failing = if keeps(row) { "" } else { " (keeps not all that is required)" };
        rows.push(cells(run, row, vec![format!("{side} {name}{failing}"), row.variant.to_string()]));
    }
    if rows.is_empty() {
        return None;
    }
    if let Some(row) = as_it_is(run) {
        rows.insert(0, cells(run, row, vec!["the model as it is".into(), row.variant.to_string()]));
    }
    let caption = if is_constrained(run) {
        "The best by each answer, of the variants that keep what is required where any does; of equals the first"
    } else {
        "The best by each answer; of equals the first"
    };
    Some(TableView::written("", caption.into(), columns(run, &[("which", false), ("variant", true)]), rows))
}

/// The variant that changes nothing, if it is among those that are shown.
pub(super) fn as_it_is<'a>(run: &StudyRun<'a>) -> Option<&'a Row> {
    let same = |row: &Row| {
        row.values.iter().zip(&run.study.parameters).all(|(value, parameter)| *value == parameter.as_it_is)
            && row.outcome.status == Status::Solved
    };
    run.overview.shown().into_iter().find(|row| same(row))
}

/// The front as a table.
pub(super) fn front(run: &StudyRun<'_>) -> Option<TableView> {
    let members = &run.overview.front.members;
    if members.is_empty() {
        return None;
    }
    let rows = members.iter().take(FRONT).map(|member| cells(run, &member.row, vec![member.row.variant.to_string()]));
    let cut = if members.len() > FRONT { format!(", the first {FRONT} of {}", members.len()) } else { String::new() };
    let caption = format!("The front: no other variant beats these in both answers{cut}");
    Some(TableView::written("", caption, columns(run, &[("variant", true)]), rows.collect()))
}
