//! The report as one HTML file: no network, no font of its own, no script but that of the frame to turn. It prints on A4.
//!
//! The same page in its short edition is what the PDF is made of: one set of words, tables and pictures, two forms.

mod account;
mod answers;
mod assumptions;
mod balance;
mod basis;
mod beside;
mod bodies;
mod calculations;
mod case;
pub mod compared;
mod envelope;
mod equivalents;
mod figures;
mod findings;
mod governing;
mod links;
mod loads;
mod masses;
mod maths;
mod model;
mod panels;
mod parts;
mod pick;
mod plain;
mod rig;
mod second_order;
mod since;
mod sources;
mod stiffness;
mod stock;
pub(super) mod study;
mod summary;
mod table;
mod trust;
mod turn;
mod validation;
mod vehicle;
mod welds;
mod words;
mod worth;

use askama::Template;
use strutwork_loads::MassModel;
use strutwork_model::model::Title;

use crate::figures::deformed::Rest;
use crate::figures::view::{self, View, shows_area};
use crate::figures::{Figure, frame, mass as mass_bars, spread, utilisation};
use crate::number::fixed;
use crate::run::{Run, RunInfo};
use crate::tally;
use crate::utilisation::Utilisations;

use account::AccountView;
use basis::BasisView;
use calculations::Calculations;
use case::CaseView;
use findings::Findings;
use governing::Governing;
use masses::MassView;
use parts::Parts;
use plain::Plain;
use rig::RigView;
use second_order::SecondOrderView;
use since::SinceView;
use sources::Source;
use stiffness::StiffnessView;
use summary::Summary;
use table::TableView;
use turn::TurnView;
use welds::WeldView;

/// The whole report. Everything that comes from the model is escaped.
pub fn report_html(run: &Run<'_>) -> String {
    page(run, Edition::Screen)
}

/// For whom a page is made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Edition {
    /// For a browser, in full.
    Screen,
    /// For paper: short, in HTML of the plain kind that pages are made of.
    Paper,
}

/// The page of an edition.
pub(super) fn page(run: &Run<'_>, edition: Edition) -> String {
    // Rendering into a String fails only where a value's own Display fails; none of ours does.
    Page::of(run, edition).render().unwrap_or_default()
}

#[derive(Template)]
#[template(path = "report.html")]
struct Page<'a> {
    /// Whether this is the edition for paper.
    paper: bool,
    running: String,
    title: &'a Title,
    info: &'a RunInfo,
    joints: usize,
    tubes: usize,
    case_count: usize,
    self_weight: &'static str,
    summary: Summary,
    since: Option<SinceView>,
    plain: Vec<Plain>,
    turn: Option<TurnView>,
    pictures: Vec<Figure>,
    flat: bool,
    model_tables: model::Tables,
    masses: MassView,
    basis: BasisView,
    cautions: Vec<(&'static str, &'static str)>,
    assumptions: Vec<String>,
    contents: Vec<(&'static str, String)>,
    conventions: &'static [(&'static str, &'static str)],
    cases: Vec<CaseView<'a>>,
    maps: Vec<Figure>,
    spread: Option<Figure>,
    mass_bars: Vec<Figure>,
    governing: Governing,
    calculations: Calculations<'a>,
    unjudged: usize,
    welds: Option<WeldView>,
    envelope: Option<TableView>,
    parts: Parts,
    stiffness: StiffnessView,
    rig: Option<RigView>,
    second_order: Option<SecondOrderView>,
    trust_cases: TableView,
    trust_systems: TableView,
    trust_words: &'static [(&'static str, &'static str)],
    validation: Option<TableView>,
    findings: Findings<'a>,
    sources: Vec<Source>,
    timings: Vec<(&'a str, String)>,
}

impl<'a> Page<'a> {
    fn of(run: &Run<'a>, edition: Edition) -> Self {
        let paper = edition == Edition::Paper;
        let model = run.model;
        let utilisations = Utilisations::of(run);
        let checks = tally::checks(run);
        let calculations = Calculations::of(run, &utilisations, &checks, edition);
        let mass = MassModel::of(model);
        let views = frame::views(model);
        let title = model.title();
        let cases = run.pairs().enumerate();
        Self {
            paper,
            running: css_text(&running(title, run.info)),
            title,
            info: run.info,
            joints: model.joints().len(),
            tubes: model.tubes().len(),
            case_count: run.cases.0.len(),
            self_weight: if model.options().self_weight { "acts" } else { "does not act" },
            plain: plain::of(run, &utilisations, &calculations),
            turn: if paper { None } else { TurnView::of(run, &utilisations, &calculations) },
            summary: Summary::of(run, &utilisations, &mass),
            since: SinceView::of(run, edition),
            pictures: views.iter().map(|view| frame::draw(run, *view)).collect(),
            flat: views.len() < View::ALL.len(),
            model_tables: model::Tables::of(run, edition),
            masses: MassView::of(run, &mass),
            basis: BasisView::of(run),
            cautions: words::cautions(model),
            assumptions: assumptions::of(run),
            contents: assumptions::contents(model),
            conventions: words::CONVENTIONS,
            cases: cases
                .map(|(place, (case, result))| {
                    let rest = match (paper, place) {
                        (true, _) => Rest::Drawn,
                        (false, 0) => Rest::Named,
                        (false, _) => Rest::AsNamed,
                    };
                    let account = paper.then(|| AccountView::of(run, &mass, case, result));
                    CaseView::of(run, &utilisations, place + 1, (case, result), rest, account)
                })
                .collect(),
            maps: maps(run, &utilisations),
            spread: spread::draw(run, &utilisations),
            mass_bars: mass_bars::draw(&mass, if paper { mass_bars::HALF } else { mass_bars::WHOLE }),
            findings: Findings::of(run, &checks, &calculations, edition),
            governing: Governing::of(run, &utilisations, &calculations, edition),
            calculations,
            unjudged: utilisations.unjudged(),
            welds: WeldView::of(run),
            envelope: envelope::by_group(run),
            parts: Parts::of(run),
            stiffness: StiffnessView::of(run, edition),
            rig: RigView::of(run),
            second_order: SecondOrderView::of(run),
            trust_cases: trust::cases(run),
            trust_systems: trust::systems(run),
            trust_words: words::TRUST,
            validation: validation::table(run),
            sources: sources::of(run, &checks),
            timings: run.info.timings_ms.iter().map(|(stage, ms)| (stage.as_str(), fixed(*ms, 1))).collect(),
        }
    }
}

fn maps(run: &Run<'_>, utilisations: &Utilisations<'_>) -> Vec<Figure> {
    if utilisations.items.is_empty() {
        return Vec::new();
    }
    let views = [View::Isometric, View::Plan, View::Side];
    let mut shown: Vec<View> = views.into_iter().filter(|view| shows_area(run.model, *view)).collect();
    if shown.is_empty() {
        shown.push(view::main(run.model));
    }
    shown.into_iter().map(|view| utilisation::draw(run, utilisations, view)).collect()
}

/// What stands on every printed page: title, revision, date.
fn running(title: &Title, info: &RunInfo) -> String {
    let mut parts = vec![title.title.as_str()];
    let revision = format!("revision {}", title.revision);
    if !title.revision.is_empty() {
        parts.push(&revision);
    }
    parts.push(&info.date);
    parts.join("  ·  ")
}

/// Text as the inside of a quoted string of a style sheet: all but plain letters, digits and spaces as code points.
fn css_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if c.is_ascii_alphanumeric() || matches!(c, ' ' | '.' | ',' | '-') {
            out.push(c);
        } else if !c.is_control() {
            out.push_str(&format!("\\{:x} ", u32::from(c)));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::css_text;

    #[test]
    fn a_title_cannot_leave_its_string_in_the_style_sheet() {
        let text = css_text("a\"; } </style><script>\\\n");
        assert_eq!(text, "a\\22 \\3b  \\7d  \\3c \\2f style\\3e \\3c script\\3e \\5c ");
    }
}
