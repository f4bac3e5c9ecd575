//! The page of a comparison: what was changed, both frames over each other, what that did.

use askama::Template;
use strutwork_revision::differences::{Difference, Fate};
use strutwork_revision::inputs::How;
use strutwork_revision::results::About;
use strutwork_revision::{Comparison, Kind};

use crate::compare::words::{Line, Told};
use crate::compare::{Compared, tables, words};
use crate::figures::{Figure, compared};
use crate::table::Cell;

use super::css_text;
use super::table::TableView;

/// Rows of one kind of results that the page shows; differences.csv has all.
const ROWS: usize = 25;

/// A comparison as one HTML file. Everything that comes from models and results is escaped.
pub fn compare_html(of: &Compared<'_>, version: &str) -> String {
    // Rendering into a String fails only where a value's own Display fails; none of ours does.
    Page::of(of, version).render().unwrap_or_default()
}

#[derive(Template)]
#[template(path = "compare.html")]
struct Page<'a> {
    version: &'a str,
    running: String,
    title: &'a str,
    sides: [Side<'a>; 2],
    same: bool,
    verdict: String,
    over: bool,
    deltas: Deltas,
    remarks: &'a [String],
    pictures: Vec<Figure>,
    changes: Option<Vec<ToldView>>,
    findings: Vec<FindingView>,
    kinds: Vec<(&'static str, TableView)>,
    compared: usize,
    differ: usize,
    left_out: Vec<String>,
}

/// A few figures before and after.
#[derive(Template)]
#[template(path = "deltas.html")]
pub(super) struct Deltas {
    pub(super) lines: Vec<Line>,
}

/// One of the two revisions.
struct Side<'a> {
    word: &'static str,
    label: &'a str,
    about: &'a About,
}

/// A change as the page shows it.
pub(super) struct ToldView {
    pub(super) word: &'static str,
    pub(super) class: &'static str,
    pub(super) subject: String,
    pub(super) happened: String,
}

struct FindingView {
    class: &'static str,
    word: &'static str,
    sentence: String,
    message: String,
}

impl<'a> Page<'a> {
    fn of(of: &Compared<'a>, version: &'a str) -> Self {
        let comparison = of.comparison;
        let title = match comparison.after.title.as_str() {
            "" => &comparison.before.title,
            title => title,
        };
        let pictures = match (of.models, &comparison.inputs) {
            ([Some(before), Some(after)], Some(inputs)) => compared::draw(before, after, inputs),
            _ => Vec::new(),
        };
        let names = of.names();
        Self {
            version,
            running: css_text(&format!("{title}  ·  {} to {}", names[0], names[1])),
            title,
            sides: [
                Side { word: "Before", label: of.labels[0], about: &comparison.before },
                Side { word: "After", label: of.labels[1], about: &comparison.after },
            ],
            same: comparison.is_same(),
            verdict: sentence(comparison),
            over: comparison.newly_over().next().is_some(),
            deltas: Deltas { lines: words::verdict(&comparison.verdict) },
            remarks: of.remarks,
            pictures,
            changes: comparison.inputs.as_ref().map(|inputs| words::changes(inputs).into_iter().map(told).collect()),
            findings: comparison.findings.iter().map(finding).collect(),
            kinds: kinds(comparison),
            compared: comparison.compared,
            differ: comparison.differences.len(),
            left_out: words::left_out(comparison),
        }
    }
}

/// The comparison in a sentence.
pub(super) fn sentence(of: &Comparison) -> String {
    if of.is_same() {
        return "Nothing changed: no input, no result, no finding.".to_owned();
    }
    let over = of.newly_over().count();
    let over = match over {
        0 => "No check exceeds its limit that did not before.".to_owned(),
        1 => "One check exceeds its limit now that did not before.".to_owned(),
        number => format!("{number} checks exceed their limits now that did not before."),
    };
    let changes = match of.inputs.as_ref().map(|inputs| inputs.changes.len()) {
        None => "What was changed in the model is not known.".to_owned(),
        Some(0) => "The model is the same.".to_owned(),
        Some(1) => "One change of the model.".to_owned(),
        Some(number) => format!("{number} changes of the model."),
    };
    format!("{changes} {over}")
}

pub(super) fn told(of: Told) -> ToldView {
    ToldView {
        word: of.how.word(),
        class: match of.how {
            How::Added => "physical",
            How::Gone => "error",
            How::Renamed | How::Reversed => "plain",
            How::Moved | How::Changed => "warning",
        },
        subject: of.subject,
        happened: match of.how {
            // The word stands beside it.
            How::Added | How::Gone => of.happened.trim_start_matches(of.how.word()).trim_start_matches(": ").to_owned(),
            _ => of.happened,
        },
    }
}

fn finding(of: &strutwork_revision::differences::FindingChange) -> FindingView {
    let (class, word) = match of.fate {
        Fate::Over => ("error", "over"),
        Fate::Within => ("physical", "within"),
        Fate::New => ("warning", "new"),
        Fate::Gone => ("plain", "gone"),
    };
    FindingView { class, word, sentence: words::finding(of), message: of.message.clone() }
}

/// The place of the quantity among the columns behind the kind.
const QUANTITY: usize = 3;

/// A table of differences for each kind that has any, what matters most first.
fn kinds(comparison: &Comparison) -> Vec<(&'static str, TableView)> {
    let mut all = Vec::new();
    for kind in Kind::ALL {
        let rows: Vec<&Difference> = comparison.of_kind(kind).collect();
        if rows.is_empty() {
            continue;
        }
        // The heading says what they are of.
        let mut table = tables::differences(rows.iter().copied()).without(&["kind"]);
        for row in &mut table.rows {
            if let Some(Cell::Text(name)) = row.get_mut(QUANTITY) {
                *name = words::quantity(name).into();
            }
        }
        table.caption = match rows.len() {
            1 => "One number differs".to_owned(),
            number => format!("{number} numbers differ; the largest first"),
        };
        all.push((heading(kind), TableView::cut(&table, ROWS, "differences.csv")));
    }
    all
}

fn heading(kind: Kind) -> &'static str {
    match kind {
        Kind::Frame => "The frame as a whole",
        Kind::Utilisation => "Utilisations, item by item",
        Kind::Case => "Load cases",
        Kind::Mode => "Natural modes, paired by shape",
        Kind::ModeUnder => "Natural modes under the forces of a case",
        Kind::Buckling => "Buckling",
        Kind::BucklingReversed => "Buckling under the cases turned round",
        Kind::Shift => "What the driver does to the modes",
        Kind::Mount => "Bolts of bodies",
        Kind::Link => "Suspension links",
        Kind::Reaction => "Reactions",
        Kind::Movement => "Measured movements",
        Kind::Twist => "Twist along the frame",
        Kind::Tube => "Forces and stresses of tubes",
        Kind::Joint => "Movements of joints",
        Kind::Panel => "Panels",
        Kind::Body => "Movements of bodies",
        Kind::Bay => "Bays",
        Kind::EffectiveLength => "Buckling lengths",
        Kind::SecondOrder => "Second order",
        Kind::Mass => "Masses",
        Kind::Weld => "Welds",
        Kind::SoftEnd => "Soft ends",
        Kind::Load => "What acts",
        Kind::Trust => "Trust",
    }
}
