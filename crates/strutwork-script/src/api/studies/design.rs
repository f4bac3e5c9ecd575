//! Which variants there are, which load cases are solved, and the run.

use rhai::plugin::*;
use rhai::{Array, FnPtr, Map};
use strutwork_study::{Cases, Design, StudyFault, Value};

use super::closures::Closures;
use super::vary::value;
use super::{Ran, StudyHandle};
use crate::api::Raised;
use crate::fault::Fault;
use crate::number::{kind, text, whole};
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn set(study: &StudyHandle, design: Design) -> Result<(), Fault> {
    study.add(|described| {
        described.study.design = design;
        Ok(())
    })
}

fn seed_of(seed: &Dynamic) -> Result<u32, Fault> {
    whole("the seed", seed, 0, u32::MAX, "a whole number from 0 to 4294967295")
}

fn count_of(count: &Dynamic) -> Result<u64, Fault> {
    whole("the number of variants", count, 1, u32::MAX, "a whole number from 1 to 4294967295").map(u64::from)
}

#[export_module]
mod functions {
    use super::*;

    /// Every combination of the values; the last parameter turns fastest. What a study has unless it is told otherwise.
    ///
    /// ```rhai
    /// model().new_study("s").full_grid();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn full_grid(study: StudyHandle) -> Result<(), Raised> {
        Ok(set(&study, Design::FullGrid)?)
    }

    /// The frame as it is, then every other value of each parameter by itself.
    ///
    /// ```rhai
    /// model().new_study("s").one_at_a_time();
    /// ```
    #[rhai_fn(return_raw)]
    pub fn one_at_a_time(study: StudyHandle) -> Result<(), Raised> {
        Ok(set(&study, Design::OneAtATime)?)
    }

    /// So many random samples, of which each parameter takes each part of its range equally often. The same seed gives the
    /// same samples.
    ///
    /// # Units
    /// Whole numbers.
    ///
    /// ```rhai
    /// model().new_study("s").latin_hypercube(200, 1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn latin_hypercube(study: StudyHandle, count: Dynamic, seed: Dynamic) -> Result<(), Raised> {
        let design = Design::LatinHypercube { count: count_of(&count)?, seed: seed_of(&seed)?.into() };
        Ok(set(&study, design)?)
    }

    /// The first so many points of a Sobol sequence, which fill the space evenly; at most 65536, best a power of two. The same
    /// seed gives the same points.
    ///
    /// # Units
    /// Whole numbers.
    ///
    /// ```rhai
    /// model().new_study("s").sobol(256, 1);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn sobol(study: StudyHandle, count: Dynamic, seed: Dynamic) -> Result<(), Raised> {
        Ok(set(&study, Design::Sobol { count: count_of(&count)?, seed: seed_of(&seed)? })?)
    }

    /// Exactly these variants: an array of maps from a parameter's name to its value. What is not named is as it is.
    ///
    /// * The parameters must have been named before.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.listed([#{ "diagonals.wall_mm": 1.5 }, #{ "diagonals.wall_mm": 3 }]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn listed(study: StudyHandle, variants: Array) -> Result<(), Raised> {
        Ok(study.add(|described| {
            let study = &described.study;
            let row = |item: &Dynamic| -> Result<Vec<Value>, Fault> {
                let Ok(map) = item.as_map_ref() else {
                    let what = "a variant".to_owned();
                    return Err(Fault::WrongType { what, expected: "a map", got: kind(item) });
                };
                let mut values: Vec<Value> = study.parameters.iter().map(|parameter| parameter.start.clone()).collect();
                let map: &Map = &map;
                for (name, given) in map {
                    let names = || study.parameters.iter().map(|parameter| parameter.name.as_str());
                    let place = names().position(|known| known == name.as_str());
                    let place = place.ok_or_else(|| StudyFault::unknown("parameter", name, names()))?;
                    let given = value(name, given)?;
                    study.parameters[place].takes(&study.base, &given)?;
                    values[place] = given;
                }
                Ok(values)
            };
            let rows = variants.iter().map(row).collect::<Result<_, _>>()?;
            described.study.design = Design::List(rows);
            Ok(())
        })?)
    }

    /// All sets of up to so many of the tubes of `vary_presence` that are switched from how they start: none, each by itself,
    /// each pair, … For every set the full grid of what else is varied.
    ///
    /// # Units
    /// A whole number of tubes.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_presence("left", "diagonal-left");
    /// s.vary_presence("right", "diagonal-right");
    /// s.subsets(2);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn subsets(study: StudyHandle, most: Dynamic) -> Result<(), Raised> {
        let most = whole("the largest set", &most, 0, 10_000, "a whole number from 0 to 10000")? as usize;
        Ok(set(&study, Design::Subsets { most })?)
    }

    /// Solves these load cases alone, by name: an array of texts.
    ///
    /// ```rhai
    /// model().new_study("s").solve_only(["twist", "bending"]);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn solve_only(study: StudyHandle, cases: Array) -> Result<(), Raised> {
        let names = cases.iter().map(|name| text("the name of a load case", name).map(|name| name.to_string()));
        let names = names.collect::<Result<Vec<_>, Fault>>()?;
        Ok(study.add(|described| {
            described.study.cases = Cases::Named(names);
            Ok(())
        })?)
    }

    /// Solves the load cases that a function of the script builds: it is called with the frame of each variant, and gives an
    /// array of load cases.
    ///
    /// ```rhai
    /// model().new_study("s").build_cases(|frame| frame.cases_of("twist"));
    /// ```
    #[rhai_fn(return_raw)]
    pub fn build_cases(study: StudyHandle, build: FnPtr) -> Result<(), Raised> {
        Ok(study.add(|described| {
            described.builds = Some(build);
            Ok(())
        })?)
    }

    /// How many variants the study has.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.size());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn size(study: StudyHandle) -> Result<i64, Raised> {
        let count = study.described().study.count().map_err(Fault::from)?;
        Ok(i64::try_from(count).unwrap_or(i64::MAX))
    }

    /// Evaluates every variant, on all cores, and writes `NAME.csv` and `NAME.parquet` into the output folder.
    ///
    /// * A run that was stopped goes on where it was. Of a shard, and of a run that is stopped, nothing that follows in the
    ///   script is done.
    /// * The time of the study does not count as the script's; each variant has the whole budget of operations.
    ///
    /// ```rhai
    /// let s = model().new_study("s");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// s.ask_stiffness();
    /// let r = s.run();
    /// print(r.lowest("tubes_kg").variant);
    /// ```
    #[rhai_fn(return_raw)]
    pub fn run(context: NativeCallContext, study: StudyHandle) -> Result<Ran, Raised> {
        let session = Session::of(&context);
        session.only_free("run")?;
        let described = study.described();
        Closures::new(&context, &session, &described).run()
    }
}
