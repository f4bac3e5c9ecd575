//! The cases of the load files, with self weight where the options ask for it.

use strutwork_model::Model;
use strutwork_model::units::STANDARD_GRAVITY;

use crate::body::body_loads;
use crate::case::{LoadCase, LoadCases, Nature, Step};

/// The cases written in the load files: the loads as written, the supports of `supports.csv`, and self weight where
/// [`Options::self_weight`](strutwork_model::model::Options) asks for it.
///
/// Self weight is ρ·A·g along −z on every tube, and each mass's weight spread to the joints that carry it.
///
/// # Signs and order
/// Cases in the order in which the files first name them. Within a case, what was written comes before self weight.
pub fn derive_plain(model: &Model) -> LoadCases {
    LoadCases(
        model
            .plain_cases()
            .iter()
            .map(|plain| {
                let mut case = LoadCase::new(plain.name.clone(), Nature::Plain, model.supports().to_vec());
                case.joint_loads.clone_from(&plain.joint_loads);
                case.tube_loads.clone_from(&plain.tube_loads);
                case.tube_point_loads.clone_from(&plain.tube_point_loads);
                case.temperatures.clone_from(&plain.temperatures);
                case.settlements.clone_from(&plain.settlements);
                case.derivation.steps.push(words("Loads, temperatures and settlements as written in the load files."));
                if model.options().self_weight {
                    add_self_weight(&mut case, model);
                } else {
                    case.derivation.steps.push(words("Self weight is left out, as the options say."));
                }
                case
            })
            .collect(),
    )
}

fn add_self_weight(case: &mut LoadCase, model: &Model) {
    let loads = body_loads(model, |_| [0.0, 0.0, -STANDARD_GRAVITY]);
    case.tube_loads.extend(loads.tube_loads);
    case.joint_loads.extend(loads.joint_loads);
    let tubes: f64 = model.tubes().ids().map(|tube| model.tube_mass(tube)).sum();
    let masses: f64 = model.masses().iter().map(|mass| mass.mass).sum();
    let weigh = |text: &str, mass: f64| Step {
        text: text.to_owned(),
        value: Some(mass * STANDARD_GRAVITY),
        unit: "N".to_owned(),
    };
    let steps = &mut case.derivation.steps;
    steps.push(weigh("Self weight of the tubes, along −z: sum of ρ·A·L·g, uniform along each tube.", tubes));
    if !model.masses().is_empty() {
        steps.push(weigh("Weight of the masses, along −z: sum of m·g, spread to the joints that carry each.", masses));
    }
}

fn words(text: &str) -> Step {
    Step { text: text.to_owned(), value: None, unit: String::new() }
}
