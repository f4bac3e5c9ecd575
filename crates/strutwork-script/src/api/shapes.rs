//! Natural modes and buckling.

use std::sync::Arc;

use rhai::plugin::*;
use rhai::{Array, Map};
use strutwork_loads::carried_inertia;
use strutwork_model::Model;
use strutwork_model::model::Support;
use strutwork_model::units::to_mm;
use strutwork_solve::buckling::{BucklingMode, EffectiveLength};
use strutwork_solve::modes::{Mode, ShiftedMode};
use strutwork_solve::{BucklingWanted, CaseResult, FrameLengths, Modes, ModesWanted, SolveError};

use super::Raised;
use crate::fault::Fault;
use crate::handle::{Frame, Solved, SolvedRun};
use crate::number::{map, optional, whole};
use crate::session::Session;

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
}

fn unsolved(model: &Model, error: SolveError) -> Fault {
    Fault::Solve { explained: strutwork_solve::explain::explain(model, &error), error }
}

fn length_map(model: &Model, of: &EffectiveLength) -> Map {
    let mut data = map([
        ("load_factor", of.factor),
        ("n_cr_n", of.critical),
        ("lcr_weak_mm", to_mm(of.lengths[0])),
        ("lcr_strong_mm", to_mm(of.lengths[1])),
        ("energy_share", of.energy),
    ]);
    for (key, axis) in ["lcr_y_mm", "lcr_z_mm"].into_iter().zip(of.axes) {
        data.insert(key.into(), optional(axis.map(|axis| to_mm(axis.length))));
    }
    data.insert("tube".into(), model.tubes()[of.tube].name.clone().into());
    data
}

fn mode_map(model: &Model, mode: &BucklingMode) -> Dynamic {
    let mut data = map([("load_factor", mode.factor)]);
    data.insert("error_bound".into(), optional(mode.error_bound));
    if let Some((tube, share)) = mode.bowing().first() {
        data.insert("tube".into(), model.tubes()[*tube].name.clone().into());
        data.insert("tube_energy_share".into(), (*share).into());
    }
    Dynamic::from(data)
}

/// Refuses modes of which the count shows that one is missing.
fn complete(found: &Modes) -> Result<(), Fault> {
    if found.proof.counted.is_some_and(|counted| counted != found.proof.found) {
        return Err(Fault::NoResult { case: "natural modes".to_owned(), what: "full set of modes" });
    }
    Ok(())
}

fn mode_maps(model: &Model, found: &Modes) -> Array {
    let of_mode = |mode: &Mode| {
        let [ex, ey, ez, erx, ery, erz] = mode.effective();
        let mut data = map([
            ("frequency_hz", mode.frequency),
            ("ex_kg", ex),
            ("ey_kg", ey),
            ("ez_kg", ez),
            ("erx_kg_m2", erx),
            ("ery_kg_m2", ery),
            ("erz_kg_m2", erz),
        ]);
        data.insert("name".into(), mode.name.words(model).into());
        if let Some((tube, share)) = mode.most_strained() {
            data.insert("tube".into(), model.tubes()[tube].name.clone().into());
            data.insert("tube_energy_share".into(), share.into());
        }
        Dynamic::from(data)
    };
    found.modes.iter().map(of_mode).collect()
}

#[export_module]
mod functions {
    use super::*;

    /// The lowest natural modes of the frame as its supports hold it, besides rigid ones: an array, lowest first.
    ///
    /// * A frame without supports is free: it has six rigid modes of 0 Hz, which are left out.
    /// * Tubes are divided into four pieces; their mass is consistent.
    /// * A mode that the count of all modes shows to be missing stops the script.
    ///
    /// # Units
    /// `frequency_hz` in Hz; `ex_kg`, `ey_kg`, `ez_kg`: effective masses in kg; `erx_kg_m2`, `ery_kg_m2`, `erz_kg_m2`:
    /// effective inertias in kg·m² about the middle of the joints; `name`: the shape in words; `tube`: the one with most
    /// strain energy, and `tube_energy_share` from 0 to 1.
    ///
    /// ```rhai
    /// for mode in model().modes(2) { print(`${fixed(mode.frequency_hz, 1)} Hz: ${mode.name}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn modes(context: NativeCallContext, frame: Frame, count: Dynamic) -> Result<Array, Raised> {
        Session::of(&context).only_free("modes")?;
        let count = whole("the number of modes", &count, 1, 500, "a whole number from 1 to 500")? as usize;
        let model = frame.model()?;
        let carried = carried_inertia(&model).map_err(Fault::Load)?;
        let wanted = ModesWanted { count, ..ModesWanted::default() };
        let found = strutwork_solve::natural_modes(&model, model.supports(), &carried, wanted)
            .map_err(|error| unsolved(&model, error))?;
        complete(&found)?;
        Ok(mode_maps(&model, &found))
    }

    /// The lowest natural modes of a frame under the forces of a solved case, held as the case is: an array, lowest first.
    ///
    /// * Compression takes stiffness away, tension gives some; a case that buckles the frame stops the script.
    /// * A free frame vibrates about its rigid motions, and the loads turn with it.
    /// * Tubes are divided into four pieces; their mass is consistent.
    ///
    /// # Units
    /// As `modes` has them.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for mode in r.modes_under("bending", 2) { print(`${fixed(mode.frequency_hz, 1)} Hz: ${mode.name}`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn modes_under(results: Solved, load_case: &str, count: Dynamic) -> Result<Array, Raised> {
        let count = whole("the number of modes", &count, 1, 500, "a whole number from 1 to 500")? as usize;
        let run = &results.0;
        let (supports, result) = case_of(&results, load_case)?;
        let carried = carried_inertia(run.model()).map_err(Fault::Load)?;
        let wanted = ModesWanted { count, ..ModesWanted::default() };
        let found = strutwork_solve::natural_modes_under(run.model(), supports, &carried, result, wanted)
            .map_err(|error| unsolved(run.model(), error))?;
        complete(&found)?;
        Ok(mode_maps(run.model(), &found))
    }

    /// How the lowest natural modes change when the driver sits in: an array, one entry for each of the `count` lowest modes
    /// with everything aboard; empty where no mass has `when` = driven in masses.csv.
    ///
    /// * Modes without and with are paired by shape; where no shape has half in common, `empty_hz` and `shift_percent` are ().
    ///
    /// # Units
    /// `driven_hz`, `empty_hz` in Hz; `shift_percent` of the empty frequency; `mac`: what the two shapes have in common, 0 to
    /// 1; `name`: the shape in words.
    ///
    /// ```rhai
    /// let frame = model();
    /// frame.set_mass("driver", #{ when: "driven" });
    /// for of in frame.frequency_shift(2) { print(`${of.name}: ${of.empty_hz} Hz becomes ${of.driven_hz} Hz`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn frequency_shift(context: NativeCallContext, frame: Frame, count: Dynamic) -> Result<Array, Raised> {
        Session::of(&context).only_free("frequency_shift")?;
        let count = whole("the number of modes", &count, 1, 500, "a whole number from 1 to 500")? as usize;
        let model = frame.model()?;
        let carried = carried_inertia(&model).map_err(Fault::Load)?;
        let wanted = ModesWanted { count, ..ModesWanted::default() };
        let found = strutwork_solve::frequency_shift(&model, model.supports(), &carried, wanted)
            .map_err(|error| unsolved(&model, error))?;
        let Some((driven, shift)) = found else { return Ok(Array::new()) };
        complete(&driven)?;
        complete(&shift.empty)?;
        let of_pair = |pair: &ShiftedMode| {
            let mode = &driven.modes[pair.driven?];
            let mut data = map([("driven_hz", mode.frequency), ("mac", pair.alike)]);
            let partner = shift.shift(pair, &driven);
            data.insert("empty_hz".into(), optional(partner.map(|[empty, ..]| empty)));
            data.insert("shift_percent".into(), optional(partner.map(|[_, _, change]| change * 100.0)));
            data.insert("name".into(), mode.name.words(&model).into());
            Some(Dynamic::from(data))
        };
        Ok(shift.pairs.iter().filter_map(of_pair).collect())
    }

    /// The lowest load factors at which a solved case would buckle the frame: an array, smallest first.
    ///
    /// * The case's loads times `load_factor` buckle it; below 1 it has buckled already.
    /// * Fewer come back where the case presses nothing more.
    /// * Each tube is divided into as many pieces as its own bowing needs.
    ///
    /// # Units
    /// `load_factor` without one; `error_bound`: the exact one lies between `load_factor` and that times 1 less the bound, `()`
    /// where no bound is known; `tube`: the one that bows most, and `tube_energy_share` of the strain energy from 0 to 1.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for mode in r.buckling("bending", 1) { print(`${fixed(mode.load_factor, 1)}: ${mode.tube} bows`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn buckling(results: Solved, load_case: &str, count: Dynamic) -> Result<Array, Raised> {
        let count = whole("the number of load factors", &count, 1, 100, "a whole number from 1 to 100")? as usize;
        let found = buckled(&results, load_case, count)?;
        Ok(found.positive.iter().map(|mode| mode_map(results.0.model(), mode)).collect())
    }

    /// The load factors at which a solved case turned round would buckle the frame: an array, nearest to 0 first, all negative.
    /// Otherwise as `buckling`.
    ///
    /// # Units
    /// As `buckling`.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for mode in r.buckling_reversed("bending", 1) { print(`${fixed(mode.load_factor, 1)}: ${mode.tube} bows`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn buckling_reversed(results: Solved, load_case: &str, count: Dynamic) -> Result<Array, Raised> {
        let count = whole("the number of load factors", &count, 1, 100, "a whole number from 1 to 100")? as usize;
        let found = buckled(&results, load_case, count)?;
        Ok(found.negative.iter().map(|mode| mode_map(results.0.model(), mode)).collect())
    }

    /// The same results, judged with buckling lengths from the lowest `count` load factors of the frame in each case, where a
    /// tube bows in one of them: see `effective_lengths`. A length that the model gives for a tube comes first.
    ///
    /// # Units
    /// `count` is a whole number without one.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending")).with_frame_lengths(3);
    /// print(r.findings().len());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn with_frame_lengths(results: Solved, count: Dynamic) -> Result<Solved, Raised> {
        let count = whole("the number of load factors", &count, 1, 100, "a whole number from 1 to 100")? as usize;
        let run = &results.0;
        let carried = carried_inertia(run.model()).map_err(Fault::Load)?;
        let wanted = BucklingWanted { count, ..BucklingWanted::default() };
        let found = strutwork_solve::buckle_cases(run.model(), run.cases(), &carried, run.results(), wanted)
            .map_err(|error| unsolved(run.model(), error))?;
        let lengths = FrameLengths::of(run.model(), run.results().cases.iter().zip(&found.cases));
        let solved = strutwork_study::Solved::new(Arc::clone(run.model()), run.cases().clone(), run.results().clone());
        Ok(Solved(Arc::new(SolvedRun(Arc::new(solved.with_lengths(lengths))))))
    }

    /// Buckling lengths of the tubes that bow in the lowest `count` load factors of a solved case: an array.
    ///
    /// * A tube that only holds others, or is bent by them, has none.
    ///
    /// # Units
    /// `tube`; `load_factor` without unit; `n_cr_n` in N; `lcr_weak_mm`, `lcr_strong_mm` in mm; `lcr_y_mm`, `lcr_z_mm` for bending
    /// about its y and its z in mm, `()` where it does not bow that way; `energy_share` from 0 to 1.
    ///
    /// ```rhai
    /// let frame = model();
    /// let r = frame.solve(frame.cases_of("bending"));
    /// for of in r.effective_lengths("bending", 1) { print(`${of.tube}: ${fixed(of.lcr_weak_mm, 0)} mm`); }
    /// ```
    #[rhai_fn(return_raw)]
    pub fn effective_lengths(results: Solved, load_case: &str, count: Dynamic) -> Result<Array, Raised> {
        let count = whole("the number of load factors", &count, 1, 100, "a whole number from 1 to 100")? as usize;
        let found = buckled(&results, load_case, count)?;
        let run = &results.0;
        let lengths = found.effective_lengths(run.model(), run.case(load_case)?);
        Ok(lengths.iter().map(|of| Dynamic::from(length_map(run.model(), of))).collect())
    }
}

/// The lowest load factors of a solved case.
fn buckled(results: &Solved, name: &str, count: usize) -> Result<strutwork_solve::Buckling, Fault> {
    let run = &results.0;
    let (supports, result) = case_of(results, name)?;
    let carried = carried_inertia(run.model())?;
    let wanted = BucklingWanted { count, ..BucklingWanted::default() };
    strutwork_solve::buckling(run.model(), supports, &carried, result, wanted)
        .map_err(|error| unsolved(run.model(), error))
}

/// A solved case, and how it is held.
fn case_of<'a>(results: &'a Solved, name: &str) -> Result<(&'a [Support], &'a CaseResult), Fault> {
    let run = &results.0;
    let result = run.case(name)?;
    let case = run.cases().0.iter().find(|case| case.name == name).expect("bug: a result without its case");
    Ok((&case.supports, result))
}
