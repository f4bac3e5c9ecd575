//! Studies, sizing and tolerances: described step by step, then run.

mod ask;
mod closures;
mod derived;
mod design;
mod handle;
mod ran;
mod sized;
mod sizes;
pub(super) mod sizing;
pub(super) mod tolerances;
mod vary;

use rhai::plugin::*;

pub(crate) use handle::{Described, StudyHandle};
pub(crate) use ran::Ran;
pub(crate) use sizing::SizingHandle;
pub(crate) use tolerances::TolerancesHandle;

use super::Raised;
use crate::handle::Frame;
use crate::session::Session;

/// What a reader needs before the functions.
pub(super) const INTRO: &str = "\
Many variants of a frame: what is varied (`vary_…`), which variants there are (`full_grid` and its kin), what is asked of each \
(`ask_…`), what is required (`at_least`, `at_most`), and `run`. Nothing of the frame itself is changed. A variant that is a \
mechanism or makes no valid model is a result like any other. `strutwork study SCRIPT` runs such a script with shards and \
`--fresh`; with `strutwork script` it runs as well. Finished variants are kept in a journal: a run that was stopped goes on where \
it was. For free-standing scripts only.

Values are an array: `[1.5, 2, \"16 swg\"]` for walls, texts for sizes; or a range `#{ from: 1.0, to: 3.0 }` for the sampled designs \
`latin_hypercube` and `sobol`. Names of columns have their unit: `floor.wall_mm`, `tubes_kg`.";

pub(super) fn register(engine: &mut Engine) {
    engine.register_global_module(exported_module!(functions).into());
    vary::register(engine);
    design::register(engine);
    ask::register(engine);
    ran::register(engine);
}

#[export_module]
mod functions {
    use super::*;

    /// A new study of a frame as it is now, in which nothing is varied and nothing asked yet. Its name is that of its files.
    ///
    /// * All load cases that a run of the model would solve, the full grid of what is varied.
    ///
    /// ```rhai
    /// let s = model().new_study("floor");
    /// s.vary_wall("diagonals", [1.5, 2]);
    /// s.ask_mass();
    /// print(s.run().count());
    /// ```
    #[rhai_fn(return_raw)]
    pub fn new_study(context: NativeCallContext, frame: Frame, name: &str) -> Result<StudyHandle, Raised> {
        Session::of(&context).only_free("new_study")?;
        // Faults of the frame itself are told here, and not as many times as there are variants.
        frame.model()?;
        let study = strutwork_study::Study::new(name, frame.spec("new_study")?);
        Ok(StudyHandle::new(Described::new(study, frame.own_cases())))
    }
}
