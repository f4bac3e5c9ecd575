//! The page of a study: the answers, what was asked, the variants, what the walls are worth, what parameters do.

mod answers;
mod asked;
mod cautions;
mod pictures;
mod variants;
mod words;

use askama::Template;

use crate::figures::Figure;
use crate::study::StudyRun;

use super::summary::Fact;
use super::table::TableView;
use super::worth::WorthView;
use super::{Edition, css_text};

pub(in crate::write) use pictures::pictures;

/// The part of the page that sorts and filters; without it the table stands as it is written.
const PROGRAM: &str =
    concat!(include_str!("../../../../viewer/reach.js"), include_str!("../../../../viewer/variants.js"));

/// Where the tubes stand that are not shown: they are of the model as it is, and not of the study.
const REST: &str = "worth.csv, which strutwork run writes for the model as it is";

/// The page of a study with its [`pictures`].
pub(in crate::write) fn page(run: &StudyRun<'_>, pictures: &[(String, Figure)], edition: Edition) -> String {
    // Rendering into a String fails only where a value's own Display fails; none of ours does.
    Page::of(run, pictures, edition).render().unwrap_or_default()
}

#[derive(Template)]
#[template(path = "study/page.html")]
struct Page<'a> {
    /// Whether this is the edition for paper.
    paper: bool,
    run: &'a StudyRun<'a>,
    running: String,
    title: String,
    revision: String,
    author: String,
    design: String,
    verdict: String,
    /// No variant keeps what is required, or none was solved.
    none: bool,
    facts: Vec<Fact>,
    remarks: Vec<String>,
    best: Option<TableView>,
    front_picture: Option<&'a Figure>,
    front: Option<TableView>,
    asked: asked::Asked,
    variants: variants::Variants,
    worth: Option<WorthView>,
    tornado: Option<&'a Figure>,
    /// Why nothing is said of walls.
    no_worth: String,
    effects: Vec<&'a Figure>,
    /// What the design does not tell apart.
    apart: Vec<String>,
    bands: Vec<&'a Figure>,
    cautions: Vec<(&'static str, String)>,
    program: &'static str,
}

impl<'a> Page<'a> {
    fn of(run: &'a StudyRun<'a>, pictures: &'a [(String, Figure)], edition: Edition) -> Self {
        let title = run.start.model.as_ref().map(|model| model.title());
        let worth = run.start.model.as_ref().zip(run.start.worth.as_ref().ok());
        let of = |kinds: &[&str]| -> Vec<&Figure> {
            let wanted = |(name, _): &&(String, Figure)| kinds.iter().any(|kind| name.starts_with(kind));
            pictures.iter().filter(wanted).map(|(_, figure)| figure).collect()
        };
        Self {
            paper: edition == Edition::Paper,
            run,
            running: css_text(&format!(
                "Study {}  ·  {}",
                run.study.name,
                title.map_or("", |title| title.title.as_str())
            )),
            title: title.map_or_else(String::new, |title| title.title.clone()),
            revision: title.map_or_else(String::new, |title| title.revision.clone()),
            author: title.map_or_else(String::new, |title| title.author.clone()),
            design: words::design(run.study),
            verdict: answers::verdict(run),
            none: answers::is_none(run),
            facts: answers::facts(run),
            remarks: answers::remarks(run),
            best: answers::best(run),
            front_picture: of(&["front"]).into_iter().next(),
            front: answers::front(run),
            asked: asked::Asked::of(run),
            variants: variants::Variants::of(run, edition),
            worth: worth.map(|(model, worth)| {
                let picture = of(&["worth"]).into_iter().cloned();
                WorthView::of_model(model, worth, REST, picture.collect())
            }),
            tornado: of(&["tornado"]).into_iter().next(),
            no_worth: run.start.worth.as_ref().err().cloned().unwrap_or_default(),
            effects: of(&["effects", "together"]),
            apart: pictures::apart(run),
            bands: of(&["band"]),
            cautions: cautions::of(run, run.study.design.is_sampled()),
            program: PROGRAM,
        }
    }
}
