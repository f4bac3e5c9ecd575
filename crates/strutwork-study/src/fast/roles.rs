//! Which parameters change no more than sections, panels, and which tubes are there, whatever the others do.

use strutwork_model::Model;
use strutwork_model::spec::ModelSpec;
use strutwork_model::validate::validate;

use crate::change::apply;
use crate::exact::Exact;
use crate::parameter::{Change, Levels, Parameter, Tubes};
use crate::study::Study;
use crate::value::Value;

/// Places of parameters among the study's.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Roles {
    /// What they change can be put onto a ground in any order.
    pub acting: Vec<usize>,
    /// All others: variants of one ground have these values in common.
    pub key: Vec<usize>,
}

impl Roles {
    /// Of a study; where the model as it is is faulty, everything is key.
    pub(super) fn of(study: &Study, exact: &Exact<'_>) -> Self {
        let places = 0..study.parameters.len();
        let start: Vec<Value> = study.parameters.iter().map(|parameter| parameter.as_it_is.clone()).collect();
        let base = if study.parameters.iter().any(|parameter| matches!(parameter.change, Change::Own)) {
            // A function of the caller's own is called with nothing that is not a value of its parameter.
            validate(&study.base).ok().map(|valid| valid.value)
        } else {
            exact.model(study, &start).ok().map(|model| Model::clone(&model))
        };
        let Some(base) = base else { return Self { acting: Vec::new(), key: places.collect() } };
        let acts = |place: &usize| {
            let parameter = &study.parameters[*place];
            let later = &study.parameters[place + 1..];
            later.iter().all(|other| commute(&study.base, parameter, other)) && acts(study, &base, parameter)
        };
        let (acting, key) = places.partition(acts);
        Self { acting, key }
    }

    /// The values that variants of one ground have in common.
    pub(super) fn key(&self, values: &[Value]) -> Vec<String> {
        // A number and a word that looks like it are told apart by their parameter.
        self.key.iter().map(|place| values[*place].to_string()).collect()
    }
}

/// Whether a parameter changes no more than sections, panels, and which tubes are there.
fn acts(study: &Study, base: &Model, parameter: &Parameter) -> bool {
    match &parameter.change {
        Change::Wall(_) | Change::Size(_) => samples(&parameter.levels).all(|value| {
            let mut spec = study.base.clone();
            apply(&mut spec, parameter, &value);
            // What is faulty is told when its turn comes.
            validate(&spec).map_or(true, |valid| base.differs_in_sections_alone(&valid.value))
        }),
        Change::Presence(_) | Change::Pattern(_) => true,
        Change::Thickness(_) | Change::Fixing(_) => matches!(parameter.levels, Levels::List(_)),
        Change::Shift { .. } | Change::Own => false,
    }
}

/// The listed values, or the ends of a range.
pub(super) fn samples(levels: &Levels) -> impl Iterator<Item = Value> {
    match levels {
        Levels::List(values) => values.clone(),
        Levels::Range { from, to } => vec![Value::Number(*from), Value::Number(*to)],
    }
    .into_iter()
}

/// Whether it makes no difference which of two parameters is put into a spec first.
fn commute(spec: &ModelSpec, one: &Parameter, two: &Parameter) -> bool {
    let sections = |change: &'_ Change| match change {
        Change::Wall(tubes) | Change::Size(tubes) => Some(tubes.clone()),
        _ => None,
    };
    let panel = |change: &'_ Change| match change {
        Change::Thickness(panel) | Change::Fixing(panel) => Some(panel.clone()),
        _ => None,
    };
    let (a, b) = (&one.change, &two.change);
    if matches!(a, Change::Own) || matches!(b, Change::Own) {
        return false;
    }
    if let (Some(a), Some(b)) = (panel(a), panel(b)) {
        return a != b;
    }
    let (Some(first), Some(second)) = (sections(a), sections(b)) else { return true };
    // Tubes that are taken by their section are other ones when sections change.
    let by_section = |tubes: &Tubes| matches!(tubes, Tubes::Section(_));
    let renamed = matches!(a, Change::Size(_)) || matches!(b, Change::Size(_));
    let renames = renamed && by_section(&first) && by_section(&second);
    let shares = spec.tubes.iter().any(|row| first.holds(row) && second.holds(row));
    !renames && !shares
}
