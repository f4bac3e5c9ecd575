//! Published problems, re-solved: the source, the printed value, ours.
//!
//! ```text
//! suite/ (data, embedded) ──read──▶ Case ──run──▶ CaseReport ──▶ REPORT.md, terminal, Book ──▶ HTML, PDF
//! ```
//! A [`Case`] is a model folder like a user's, a source, and the values that the source prints. The digits of a printed
//! value set the tolerance: half a unit of its last digit. Where a wider one is allowed, the case says why.
//!
//! # Example
//! ```
//! let case = &strutwork_validation::suite().cases[0];
//! let report = strutwork_validation::run(case);
//! assert_eq!(report.rows.len(), case.quantities.len());
//! ```

mod book;
mod case;
mod cases;
mod checked;
mod embedded;
mod fault;
mod formula;
mod frame;
mod lines;
mod part;
mod place;
mod printed;
mod property;
mod read;
mod refine;
mod report;
mod rig;
mod run;
mod shapes;
mod sizing;
mod solved;
mod standing;
mod unit;
mod what;

pub use book::{Block, Book, BookError, Cell, Chapter, Column, MARK as BOOK_MARK, Row as BookRow, Section, Table};
pub use case::{Allowed, Basis, Case, How, Quantity, Seen, Source, Suite, WheelForce};
pub use embedded::suite;
pub use fault::CaseFault;
pub use formula::Formula;
pub use part::{BayPart, Component, End, LinkPart, MountPart, PanelPart, RollPart, StressComponent};
pub use place::Place;
pub use printed::Printed;
pub use property::{MassProperty, SectionProperty};
pub use read::read_case;
pub use refine::{Division, Refine, Refined, Study};
pub use report::{markdown as report_markdown, same_report, text as report_text};
pub use rig::RigPart;
pub use run::{CaseReport, Row, run, run_all};
pub use sizing::{LeastStiffness, SizedPart, Sizes, Sizing};
pub use standing::{Family, standing};
pub use unit::{Dimension, Unit};
pub use what::{CaseWhat, What};
