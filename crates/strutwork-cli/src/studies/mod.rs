//! Running studies: the journal that is kept, the files that come of it, progress, and a way to stop.

pub(crate) mod journal;
pub(crate) mod merge;
pub(crate) mod pages;
pub(crate) mod progress;
pub(crate) mod results;
pub(crate) mod runner;
pub(crate) mod stop;
pub(crate) mod told;
