//! What is varied and asked, in words.

use strutwork_study::overview::Better;
use strutwork_study::{Asked, Cases, Change, Design, Levels, MountForce, Parameter, Response, Row, Study, Value};

use crate::figures::study::Named;
use crate::number::{as_given, decimals_for, fixed};

/// Values of a parameter that are listed; of more, the ends.
const LISTED: usize = 12;

/// Changes of a variant that are told one by one.
const CHANGES: usize = 8;

/// A number of variants with its word.
pub(super) fn counted(count: u64, one: &str, many: &str) -> String {
    format!("{} {}", fixed(count as f64, 0), if count == 1 { one } else { many })
}

/// What a response is called in pictures.
pub(super) fn named(response: &Response) -> Named {
    let named = |title: &str, unit| Named { title: title.to_owned(), unit };
    match &response.asked {
        Asked::TubesMass => named("mass of the tubes", "kg"),
        Asked::TotalMass => named("whole mass", "kg"),
        Asked::TwistStiffness => named("torsional stiffness K", "N·m/deg"),
        Asked::Frequency(n) => Named { title: format!("frequency of mode {n}"), unit: "Hz" },
        Asked::Utilisation(None) => named("worst utilisation", ""),
        Asked::OutsideScope => named("items outside scope", ""),
        // Their names hold what and where, and the unit.
        _ => named(&response.name, ""),
    }
}

/// What is asked, in a sentence without a full stop.
pub(super) fn asked(response: &Response) -> String {
    match &response.asked {
        Asked::TubesMass => "mass of the tubes, kg".to_owned(),
        Asked::TotalMass => "mass of the frame with everything that it carries, kg".to_owned(),
        Asked::TwistStiffness => {
            "torsional stiffness, N·m/deg: of the first case that measures a twist, or by itself between the spring places".to_owned()
        }
        Asked::Frequency(n) => format!("frequency of natural mode {n} besides the rigid ones, Hz"),
        Asked::Buckling(None) => "lowest load factor of all cases but notional ones".to_owned(),
        Asked::Buckling(Some(case)) => format!("lowest load factor of case {case}"),
        Asked::Utilisation(None) => "worst utilisation of all checks and cases".to_owned(),
        Asked::Utilisation(Some(check)) => format!("worst utilisation of check {check}"),
        Asked::OutsideScope => "items within their limits but outside the scope of a clause: no pass".to_owned(),
        Asked::Movement { case, joint, dof } => format!("movement {} of joint {joint} in case {case}", dof.name()),
        Asked::Mount { case, body, joint, force } => {
            let part = match force {
                MountForce::Force => "force on",
                MountForce::Axial => "force along",
                MountForce::Shear => "force across",
                MountForce::Moment => "moment on",
            };
            format!("{part} the bolt of {body} at joint {joint} in case {case}")
        }
        Asked::Own => "what the script's own function makes of it".to_owned(),
    }
}

/// Which side is better.
pub(super) const fn better(better: Option<Better>) -> &'static str {
    match better {
        Some(Better::Less) => "less",
        Some(Better::More) => "more",
        None => "–",
    }
}

/// What is varied.
pub(super) fn varied(parameter: &Parameter) -> String {
    match &parameter.change {
        Change::Wall(tubes) => format!("wall of the tubes of {}", tubes.name()),
        Change::Size(tubes) => format!("size of the tubes of {}", tubes.name()),
        Change::Presence(tubes) => format!("whether {} is there", tubes.join(", ")),
        Change::Pattern(_) => "which pattern of tubes is there".to_owned(),
        Change::Shift { joint, axis, partner } => {
            let partner =
                partner.as_ref().map_or_else(String::new, |partner| format!(", and {partner} on the other side"));
            format!("joint {joint} moved along {}{partner}", ["x", "y", "z"].get(*axis).unwrap_or(&"?"))
        }
        Change::Thickness(panel) => format!("thickness of panel {panel}"),
        Change::Fixing(panel) => format!("fixing of panel {panel}"),
        Change::Own => "what the script's own function makes of it".to_owned(),
    }
}

/// The values that are tried.
pub(super) fn levels(parameter: &Parameter) -> String {
    match &parameter.levels {
        Levels::Range { from, to } => format!("{} to {}", as_given(*from), as_given(*to)),
        Levels::List(values) if values.len() <= LISTED => values.iter().map(value).collect::<Vec<_>>().join(", "),
        Levels::List(values) => {
            let ends = [values.first(), values.last()].map(|end| end.map(value).unwrap_or_default());
            format!("{}, …, {}: {} values", ends[0], ends[1], values.len())
        }
    }
}

/// A value as its author wrote it.
pub(super) fn value(value: &Value) -> String {
    match value {
        Value::Number(number) => as_given(*number),
        Value::Word(word) if word.is_empty() => "none".to_owned(),
        Value::Word(word) => word.clone(),
    }
}

/// Which variants there are.
pub(super) fn design(study: &Study) -> String {
    match &study.design {
        Design::FullGrid => "every combination of the values".to_owned(),
        Design::OneAtATime => {
            "one at a time: the start values, then every other value of each parameter by itself".to_owned()
        }
        Design::LatinHypercube { count, seed } => {
            format!("{}, seed {seed} (Latin hypercube)", counted(*count, "random sample", "random samples"))
        }
        Design::Sobol { count, seed } => {
            format!("{} of a scrambled Sobol sequence, seed {seed}", counted(*count, "point", "points"))
        }
        Design::List(_) => "a list of variants".to_owned(),
        Design::Subsets { most } => format!(
            "diagonals switched by up to {most} at once; for each set every combination of the other parameters"
        ),
    }
}

/// Which load cases are solved.
pub(super) fn cases(study: &Study) -> String {
    match &study.cases {
        Cases::All => "all that a run of the model would solve, as far as an answer needs them".to_owned(),
        Cases::Named(names) => names.join(", "),
    }
}

/// What a variant changes; `as it is` for one that changes nothing.
pub(super) fn changed(study: &Study, row: &Row) -> String {
    let changed = study.parameters.iter().zip(&row.values).filter(|(parameter, value)| **value != parameter.as_it_is);
    let told: Vec<String> = changed.map(|(parameter, set)| format!("{} {}", parameter.name, value(set))).collect();
    match told.len() {
        0 => "the model as it is".to_owned(),
        few if few <= CHANGES => told.join(", "),
        many => format!("{} and {} more", told[..CHANGES].join(", "), many - CHANGES),
    }
}

/// An answer with these decimals; `–` where there is none.
pub(super) fn answer(row: &Row, response: usize, decimals: usize) -> String {
    match row.outcome.responses.get(response).copied().flatten() {
        None => "–".to_owned(),
        Some(value) if value.is_finite() => fixed(value, decimals),
        Some(value) if value > 0.0 => "∞".to_owned(),
        Some(_) => "\u{2212}∞".to_owned(),
    }
}

/// Decimals that leave the largest answer of a response five digits.
pub(super) fn decimals(run: &crate::study::StudyRun<'_>, response: usize) -> usize {
    let Some(extremes) = run.overview.tally.extremes.get(response).copied().flatten() else { return 0 };
    let sizes = [extremes.least.0.abs(), extremes.greatest.0.abs()];
    let largest = sizes.into_iter().filter(|size| size.is_finite()).fold(0.0, f64::max);
    match run.study.responses[response].asked {
        Asked::OutsideScope => 0,
        _ => decimals_for(largest, 5).min(6),
    }
}
