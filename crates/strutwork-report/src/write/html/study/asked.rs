//! What was asked: parameters, answers, requirements.

use crate::figures::study::limit;
use crate::study::StudyRun;

use super::super::table::TableView;
use super::words;

/// What was asked.
pub(super) struct Asked {
    pub(super) parameters: TableView,
    pub(super) responses: TableView,
    pub(super) constraints: Option<TableView>,
    pub(super) cases: String,
}

fn text(title: &str) -> (String, &'static str, bool) {
    (title.to_owned(), "", false)
}

impl Asked {
    pub(super) fn of(run: &StudyRun<'_>) -> Self {
        let study = run.study;
        let parameters = study.parameters.iter().map(|parameter| {
            vec![
                parameter.name.clone(),
                words::varied(parameter),
                words::levels(parameter),
                words::value(&parameter.as_it_is),
                words::value(&parameter.start),
            ]
        });
        let responses = study.responses.iter().enumerate().map(|(place, response)| {
            let extremes = run.overview.tally.extremes.get(place).copied().flatten();
            let end = |value: Option<f64>| match value {
                None => "–".to_owned(),
                Some(value) if value.is_finite() => crate::number::fixed(value, words::decimals(run, place)),
                Some(_) => "∞".to_owned(),
            };
            vec![
                response.name.clone(),
                words::asked(response),
                words::better(study.better(place)).to_owned(),
                end(extremes.map(|of| of.least.0)),
                end(extremes.map(|of| of.greatest.0)),
            ]
        });
        let constraints = study.constraints.iter().map(|bound| {
            let name = study.responses.get(bound.response).map_or("", |response| response.name.as_str());
            vec![name.to_owned(), limit(bound.limit)]
        });
        let required: Vec<Vec<String>> = constraints.collect();
        let number = |title: &str| (title.to_owned(), "", true);
        Self {
            parameters: TableView::written(
                "",
                "What was varied".into(),
                vec![text("parameter"), text("what"), text("values tried"), text("the model has"), text("starts from")],
                parameters.collect(),
            ),
            responses: TableView::written(
                "",
                "What was asked of each variant, and the ends of the answers".into(),
                vec![text("answer"), text("what"), text("better"), number("least"), number("greatest")],
                responses.collect(),
            ),
            constraints: (!required.is_empty()).then(|| {
                TableView::written("", "What is required".into(), vec![text("answer"), text("bound")], required)
            }),
            cases: words::cases(study),
        }
    }
}
