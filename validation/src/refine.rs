//! How an answer nears its limit as the model is divided more finely: the error of each division and the order observed.

use strutwork_model::files::InputFiles;

use crate::case::{Case, Quantity};
use crate::printed::Printed;
use crate::run::Problem;
use crate::solved::Solved;
use crate::unit::Unit;
use crate::what::What;

/// A study of how an answer nears its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Refine {
    /// What stands for the whole: straight tubes for an arc, bays for a web, pieces for a tube.
    pub divided: String,
    /// The unit of the limit and of our values.
    pub unit: Unit,
    /// What the answer nears.
    pub limit: Printed,
    /// The formula behind the limit; empty for none.
    pub formula: String,
    /// The order that theory promises: the error falls as the division to this power.
    pub order: f64,
    /// Why it is this order.
    pub because: String,
    /// The divisions, each finer than the one before.
    pub steps: Vec<Division>,
}

/// One division of the model.
#[derive(Debug, Clone, PartialEq)]
pub struct Division {
    /// Into how many parts.
    pub parts: usize,
    /// Which result of ours is compared.
    pub what: What,
    /// The files that take the place of the case's own of the same name; empty where the model is the case's.
    pub files: InputFiles,
}

/// What a study gave.
#[derive(Debug, Clone, PartialEq)]
pub struct Study {
    /// What it is a value of.
    pub what: String,
    /// What stands for the whole.
    pub divided: String,
    /// The unit of limit and values.
    pub unit: &'static str,
    /// The limit, as the case gives it.
    pub limit: String,
    /// The formula behind it; empty for none.
    pub formula: String,
    /// The order that theory promises.
    pub order: f64,
    /// Why it is this order.
    pub because: String,
    /// One for each division.
    pub steps: Vec<Refined>,
    /// Whether the last order observed, to one decimal, is at least the one promised.
    pub holds: bool,
}

/// One division's answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Refined {
    /// Into how many parts.
    pub parts: usize,
    /// Our value in the manner of the limit; empty where there is none.
    pub computed: String,
    /// Ours less the limit, over the limit; NaN where there is no value.
    pub error: f64,
    /// ln(e₁/e₂)/ln(n₂/n₁) between the division before and this one; NaN for the first.
    pub order: f64,
    /// Why there is no value; empty where there is one.
    pub problem: Problem,
}

impl Refine {
    /// Solves every division of a case's model.
    pub(crate) fn study(&self, case: &Case) -> Study {
        let mut steps: Vec<Refined> = Vec::new();
        // Divisions of one model are solved together: what they share is found once.
        let alike = self.steps.iter().all(|step| step.files.0.is_empty());
        let together = alike.then(|| solve(case, &self.steps.iter().collect::<Vec<_>>(), self.unit));
        for (place, step) in self.steps.iter().enumerate() {
            let value = match &together {
                Some(values) => values[place].clone(),
                None => solve(case, &[step], self.unit).swap_remove(0),
            };
            let error = value.as_ref().map_or(f64::NAN, |value| value / self.limit.value() - 1.0);
            let order = steps.last().map_or(f64::NAN, |before: &Refined| {
                (before.error / error).abs().ln() / (step.parts as f64 / before.parts as f64).ln()
            });
            steps.push(Refined {
                parts: step.parts,
                computed: value.as_ref().map_or_else(|_| String::new(), |&value| self.limit.beside(value)),
                error,
                order,
                problem: value.err().unwrap_or_default(),
            });
        }
        let last = steps.last().map_or(f64::NAN, |step| (10.0 * step.order).round() / 10.0);
        let name = self.steps.first().map_or_else(String::new, |step| step.what.to_string());
        Study {
            what: name,
            divided: self.divided.clone(),
            unit: self.unit.name,
            limit: self.limit.text().to_owned(),
            formula: self.formula.clone(),
            order: self.order,
            because: self.because.clone(),
            holds: last >= self.order && steps.iter().all(|step| step.problem.is_empty()),
            steps,
        }
    }
}

/// Our values of divisions that share their files, in `unit`.
fn solve(case: &Case, steps: &[&Division], unit: Unit) -> Vec<Result<f64, Problem>> {
    let mut divided = case.clone();
    for file in steps.iter().flat_map(|step| &step.files.0) {
        divided.files.0.retain(|own| own.name != file.name);
        divided.files.0.push(file.clone());
    }
    divided.quantities = steps.iter().map(|step| asked(&step.what, unit)).collect();
    match Solved::of(&divided) {
        Err(fault) => vec![Err(fault.to_string()); steps.len()],
        Ok(solved) => {
            let value = |step: &&Division| solved.value(&step.what, unit.dimension).map(|value| value / unit.size);
            steps.iter().map(value).collect()
        }
    }
}

/// A quantity that has this solved for; nothing is compared with it.
fn asked(what: &What, unit: Unit) -> Quantity {
    let printed = Printed::read("1.0").expect("bug: 1.0 is a printed value");
    Quantity { what: what.clone(), unit, printed, formula: String::new(), allowed: None, seen: None }
}
