//! The scripting front end as a whole, on a host in memory.

mod checks;
mod common;
mod errors;
mod functions;
mod hostile;
mod language;
mod standard_cases;
mod studies;
mod vibration;
