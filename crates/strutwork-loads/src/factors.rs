//! Factors of `model.toml` that no case asked for: most often a slip in the name.

use strutwork_model::nearest::nearest;
use strutwork_model::{Code, Diagnostic, Model, Place, Severity};

use crate::case::LoadCases;

/// A warning (L011) for each factor that the user set and no case asked for.
///
/// # Signs and order
/// In the order of `model.toml`.
pub fn unused_factors(model: &Model, cases: &LoadCases) -> Vec<Diagnostic> {
    let asked: Vec<&str> =
        cases.0.iter().flat_map(|case| case.derivation.factors.iter().map(|factor| factor.name.as_str())).collect();
    model
        .factors()
        .iter()
        .filter(|factor| !asked.contains(&factor.name.as_str()))
        .map(|factor| Diagnostic {
            code: Code("L011"),
            severity: Severity::Warning,
            place: Some(Place::file("model.toml")),
            subject: factor.name.clone(),
            message: format!("no load case asks for the factor `{}`, so it changes nothing", factor.name),
            help: match nearest(&factor.name, asked.iter().copied()) {
                Some(name) => format!("did you mean `{name}`?"),
                None => "take it out, or check its name against the case scripts".to_owned(),
            },
        })
        .collect()
}
