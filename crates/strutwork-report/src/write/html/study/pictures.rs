//! The pictures of a study, each with the name of its files.

use strutwork_study::overview::{Effects, Estimate};
use strutwork_study::{Asked, Design};

use crate::figures::study::front::FrontPicture;
use crate::figures::study::{bands, effects, front, together, tornado};
use crate::figures::{Figure, view, worth};
use crate::study::StudyRun;

use super::{answers, words};

/// Every picture, in a fixed order: `front`, `tornado`, `worth`, `effects-1`, `together-1`, `band-1`, …
pub(in crate::write) fn pictures(run: &StudyRun<'_>) -> Vec<(String, Figure)> {
    let study = run.study;
    let mut pictures: Vec<(String, Figure)> = Vec::new();
    let mut add = |name: String, figure: Option<Figure>| pictures.extend(figure.map(|figure| (name, figure)));
    if let Some(plane) = run.overview.plane {
        let names = [plane.less, plane.more].map(|place| words::named(&study.responses[place]));
        let start = answers::as_it_is(run).and_then(|row| plane.at(row));
        let (all, cloud) = (&run.overview.front, &run.overview.cloud);
        add("front".to_owned(), front::draw(&FrontPicture { study, plane, names, front: all, cloud, start }));
    }
    if let (Some(model), Ok(worth)) = (&run.start.model, &run.start.worth) {
        add("tornado".to_owned(), tornado::draw(worth));
        add("worth".to_owned(), Some(worth::draw(model, worth, view::main(model))));
    }
    let parameters: Vec<&str> = study.parameters.iter().map(|parameter| parameter.name.as_str()).collect();
    for (place, of) in run.overview.effects.iter().enumerate() {
        let named = words::named(&study.responses[of.response]);
        add(format!("effects-{}", place + 1), effects::draw(of, &parameters, &named));
        add(format!("together-{}", place + 1), together::draw(of, &parameters, &named));
    }
    if study.design.is_sampled() {
        for (place, (spread, response)) in run.overview.spreads.iter().zip(&study.responses).enumerate() {
            add(
                format!("band-{}", place + 1),
                bands::draw(spread, &words::named(response), drawn(run, &response.asked)),
            );
        }
    }
    pictures
}

/// The answer of the model as it is, where it is known without solving it again.
fn drawn(run: &StudyRun<'_>, asked: &Asked) -> Option<f64> {
    let model = run.start.model.as_ref()?;
    match asked {
        Asked::TubesMass => Some(model.tubes().ids().map(|tube| model.tube_mass(tube)).sum()),
        Asked::TwistStiffness => run.start.worth.as_ref().ok().map(|worth| worth.stiffness_nm_per_deg),
        _ => None,
    }
}

/// What the design does not tell apart, in words; empty where it tells all.
pub(super) fn apart(run: &StudyRun<'_>) -> Vec<String> {
    let mut said = Vec::new();
    let Some(effects) = run.overview.effects.first() else { return said };
    let main = (0..effects.parts.len()).any(|parameter| effects.swing(parameter).is_some());
    if !main {
        said.push(match effects.estimate {
            Estimate::FromStart => {
                "No two variants differ by one parameter alone: this design does not tell what each of them does."
                    .to_owned()
            }
            Estimate::Means | Estimate::Samples => {
                "Each parameter has one value with an answer: there is nothing to compare.".to_owned()
            }
        });
        return said;
    }
    if effects.parts.len() > 1 && effects.strongest().is_empty() {
        said.push(reason(effects, &run.study.design));
    }
    said
}

/// Why pairs are not told apart.
fn reason(effects: &Effects, design: &Design) -> String {
    if effects.estimate == Estimate::Samples && effects.pairs.iter().any(|pair| effects.is_filled(pair)) {
        return "What two parameters do together beyond what each does alone does not stand out of the scatter of these samples.".to_owned();
    }
    let so = "What two parameters do together beyond what each does alone cannot be told";
    let instead = "A full grid, or subsets of two, would tell it";
    match design {
        Design::OneAtATime | Design::Subsets { .. } | Design::List(_) => {
            format!("{so}: no variant changes two parameters of which each was also changed by itself. {instead}.")
        }
        Design::LatinHypercube { .. } | Design::Sobol { .. } => format!(
            "{so}: {} are too few, for each pair of values needs eight. {instead}, or more samples.",
            words::counted(effects.whole.count, "sample", "samples")
        ),
        Design::FullGrid => format!("{so}: combinations are without an answer."),
    }
}
