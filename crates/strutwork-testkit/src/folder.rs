//! A model folder written in a test.

use strutwork_loads::derive_plain;
use strutwork_model::files::{InputFile, InputFiles};
use strutwork_model::{Faults, Model, Warned, read_model};
use strutwork_solve::{Results, SolveError, solve_cases};

/// A model folder in the making: file names and their texts.
#[derive(Debug, Clone, Default)]
pub struct Folder(Vec<(String, String)>);

impl Folder {
    /// Steel tubes `rail` (square 30 × 2) and `bar` (properties), materials `mild` and `plain`; no joints yet.
    pub fn steel() -> Self {
        Self::default().with(
            "model.toml",
            "title = \"test\"\n\
             [options]\nself_weight = false\n\
             [materials.mild]\ngrade = \"S235JRH\"\n\
             [sections.rail]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = 2.0\n",
        )
    }

    /// With this file, replacing one of the same name.
    #[must_use]
    pub fn with(mut self, name: &str, text: impl Into<String>) -> Self {
        self.0.retain(|(other, _)| other != name);
        self.0.push((name.to_owned(), text.into()));
        self
    }

    /// With these lines added to a table.
    #[must_use]
    pub fn and(mut self, name: &str, lines: &str) -> Self {
        match self.0.iter_mut().find(|(other, _)| other == name) {
            Some((_, text)) => text.push_str(lines),
            None => self.0.push((name.to_owned(), lines.to_owned())),
        }
        self
    }

    /// The texts as the reader takes them.
    pub fn files(&self) -> InputFiles {
        let file = |(name, text): &(String, String)| InputFile { name: name.clone(), bytes: text.clone().into_bytes() };
        InputFiles(self.0.iter().map(file).collect())
    }

    /// Reads and validates.
    ///
    /// # Errors
    /// Every fault.
    pub fn read(&self) -> Result<Warned<Model>, Faults> {
        read_model(&self.files())
    }

    /// The model; for folders that a test knows to be right.
    #[track_caller]
    pub fn model(&self) -> Model {
        self.read().unwrap_or_else(|faults| panic!("the test's folder is faulty:\n{faults}")).value
    }
}

/// Solves the cases of the load files.
///
/// # Errors
/// What the solver says.
pub fn solve(model: &Model) -> Result<Results, SolveError> {
    let cases = derive_plain(model).unwrap_or_else(|error| panic!("the test's load files do not make cases: {error}"));
    solve_cases(model, &cases)
}
