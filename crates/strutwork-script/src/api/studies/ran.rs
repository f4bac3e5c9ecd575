//! What came out of a study.

use std::sync::{Arc, Mutex};

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_study::{Row, Status, Study, StudyFault, Tally};

use super::closures::dynamic;
use crate::api::Raised;
use crate::fault::Fault;
use crate::number::{PerhapsMap, optional};
use crate::session::lock;

/// Rows that are kept for the script; a study may have any number more.
const KEPT: usize = 10_000;

/// What came out of a study; copies of the handle are one thing.
#[derive(Clone)]
pub(crate) struct Ran(Arc<Mutex<Inside>>);

struct Inside {
    parameters: Vec<String>,
    responses: Vec<String>,
    tally: Tally,
    rows: Vec<Row>,
    /// For each response the rows of its least and its greatest value, of feasible variants where anything is required.
    ends: Vec<[Option<Row>; 2]>,
}

impl Ran {
    /// Of a study of which no variant was evaluated yet.
    pub(super) fn new(study: &Study) -> Self {
        Self(Arc::new(Mutex::new(Inside {
            parameters: study.parameters.iter().map(|parameter| parameter.name.clone()).collect(),
            responses: study.responses.iter().map(|response| response.name.clone()).collect(),
            tally: Tally::new(study.responses.len()),
            rows: Vec::new(),
            ends: vec![[None, None]; study.responses.len()],
        })))
    }

    /// Takes a variant.
    pub(super) fn add(&self, row: &Row) {
        let mut inside = lock(&self.0);
        inside.tally.add(row);
        if inside.rows.len() < KEPT {
            inside.rows.push(row.clone());
        }
        if row.outcome.feasible == Some(false) {
            return;
        }
        for (place, response) in row.outcome.responses.iter().enumerate() {
            let Some(value) = *response else { continue };
            for (end, sign) in inside.ends[place].iter_mut().zip([1.0, -1.0]) {
                let known = end.as_ref().and_then(|row| row.outcome.responses[place]);
                if known.is_none_or(|known| sign * value < sign * known) {
                    *end = Some(row.clone());
                }
            }
        }
    }

    fn end(&self, response: &str, which: usize) -> Result<PerhapsMap, Fault> {
        let inside = lock(&self.0);
        let names = || inside.responses.iter().map(String::as_str);
        let place = names().position(|name| name == response);
        let place = place.ok_or_else(|| StudyFault::unknown("response", response, names()))?;
        Ok(optional(inside.ends[place][which].as_ref().map(|row| inside.map(row))))
    }
}

impl Inside {
    fn map(&self, row: &Row) -> Map {
        let mut map = Map::new();
        let outcome = &row.outcome;
        map.insert("variant".into(), whole(row.variant).into());
        map.insert("status".into(), outcome.status.word().into());
        map.insert("note".into(), outcome.note.clone().into());
        map.insert("feasible".into(), optional(outcome.feasible));
        for (name, value) in self.parameters.iter().zip(&row.values) {
            map.insert(name.as_str().into(), dynamic(value));
        }
        for (place, name) in self.responses.iter().enumerate() {
            let response = outcome.responses.get(place).copied().flatten();
            map.insert(name.as_str().into(), optional(response));
        }
        map
    }
}

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn whole(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

#[export_module]
mod functions {
    use super::*;

    /// How many variants there were.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.run().count());
    /// ```
    pub fn count(ran: Ran) -> i64 {
        whole(lock(&ran.0).tally.variants)
    }

    /// How many variants were solved.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.run().solved());
    /// ```
    pub fn solved(ran: Ran) -> i64 {
        whole(lock(&ran.0).tally.count(Status::Solved))
    }

    /// How many variants keep everything that is required; 0 where nothing is.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// s.at_most("tubes_kg", 100);
    /// print(s.run().feasible());
    /// ```
    pub fn feasible(ran: Ran) -> i64 {
        whole(lock(&ran.0).tally.feasible)
    }

    /// The variants in their order, each a map with `variant`, `status`, `note`, `feasible`, and the names of parameters and
    /// responses; a response that the variant does not have is `()`.
    ///
    /// * Of a study with more than 10000 variants the first 10000; the files hold all.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// for row in s.run().rows() { print(`${row["diagonals.wall_mm"]} mm: ${fixed(row.tubes_kg, 2)} kg`); }
    /// ```
    pub fn rows(ran: Ran) -> Array {
        let inside = lock(&ran.0);
        inside.rows.iter().map(|row| Dynamic::from(inside.map(row))).collect()
    }

    /// The variant with the least value of a response, as a map like those of `rows`: of those that keep what is required; of
    /// equals the first. `()` where there is none.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.run().lowest("tubes_kg").tubes_kg);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn lowest(ran: Ran, response: &str) -> Result<PerhapsMap, Raised> {
        Ok(ran.end(response, 0)?)
    }

    /// The variant with the greatest value of a response, as `lowest` gives the least.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.run().highest("tubes_kg").tubes_kg);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn highest(ran: Ran, response: &str) -> Result<PerhapsMap, Raised> {
        Ok(ran.end(response, 1)?)
    }
}
