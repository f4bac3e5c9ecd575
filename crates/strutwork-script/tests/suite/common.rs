//! A host in memory: model folders, scripts, what was written, what was printed, a clock that stands still.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex};

use strutwork_model::files::{InputFile, InputFiles};
use strutwork_script::{Host, HostError, Limits, Outcome, ScriptError, run_script};
use strutwork_testkit::buggy;

/// A host in memory.
#[derive(Default)]
pub(crate) struct Memory {
    pub(crate) models: BTreeMap<String, InputFiles>,
    pub(crate) scripts: BTreeMap<String, String>,
    pub(crate) written: Mutex<BTreeMap<String, String>>,
    pub(crate) lines: Mutex<Vec<String>>,
    pub(crate) seconds: f64,
}

impl Memory {
    /// With the buggy in the folder `my-frame`.
    pub(crate) fn new() -> Self {
        let models = BTreeMap::from([("my-frame".to_owned(), buggy().files())]);
        Self { models, ..Self::default() }
    }

    pub(crate) fn with_script(mut self, path: &str, text: &str) -> Self {
        self.scripts.insert(path.to_owned(), text.to_owned());
        self
    }

    pub(crate) fn lines(&self) -> Vec<String> {
        self.lines.lock().expect("no test panics with it").clone()
    }
}

impl Host for Memory {
    fn read_below(&self, path: &str) -> Result<Vec<u8>, HostError> {
        let found = self.scripts.get(path).map(|text| text.clone().into_bytes());
        found.ok_or_else(|| missing(path))
    }

    fn read_model_folder(&self, path: &str) -> Result<InputFiles, HostError> {
        self.models.get(path).cloned().ok_or_else(|| missing(path))
    }

    fn read_results(&self, path: &str) -> Result<(InputFiles, Option<InputFiles>), HostError> {
        let mass = match path {
            "old/results" => "7",
            "new/results" => "7.5",
            "no/results" => return Ok((InputFiles::default(), None)),
            _ => return Err(missing(path)),
        };
        let total = "kind,item,kg,x_mm,y_mm,z_mm,ixx_kg_m2,iyy_kg_m2,izz_kg_m2,ixy_kg_m2,ixz_kg_m2,iyz_kg_m2\n";
        let run = r#"{"version":"0.1.0","model":{"title":"Buggy"},"inputs":[]}"#;
        let files = vec![
            InputFile::new("run.json", run),
            InputFile::new("mass_table.csv", format!("{total}total,,{mass},1,2,3,1,2,3,0,0,0\n")),
        ];
        Ok((InputFiles(files), Some(buggy().files())))
    }

    fn write_below(&self, path: &str, bytes: &[u8]) -> Result<(), HostError> {
        let text = String::from_utf8_lossy(bytes).into_owned();
        self.written.lock().expect("no test panics with it").insert(path.to_owned(), text);
        Ok(())
    }

    fn print(&self, line: &str) {
        self.lines.lock().expect("no test panics with it").push(line.to_owned());
    }

    fn elapsed_seconds(&self) -> f64 {
        self.seconds
    }
}

fn missing(path: &str) -> HostError {
    HostError { path: path.to_owned(), reason: "there is no such file or folder".to_owned(), environment: false }
}

/// Runs a script with the buggy open, under the default limits.
pub(crate) fn run(text: &str) -> Result<Outcome, ScriptError> {
    run_within(text, Limits::default())
}

/// Runs a script with the buggy open.
pub(crate) fn run_within(text: &str, limits: Limits) -> Result<Outcome, ScriptError> {
    run_on(Arc::new(Memory::new()), text, limits)
}

/// Runs a script with the model in `my-frame` open, on the script's first line.
pub(crate) fn run_on(host: Arc<Memory>, text: &str, limits: Limits) -> Result<Outcome, ScriptError> {
    run_script(host, "test.rhai", &format!("open_model(\"my-frame\");{text}"), &[], limits)
}

/// What a script prints, with the buggy open.
pub(crate) fn printed(text: &str) -> Vec<String> {
    let host = Arc::new(Memory::new());
    run_on(Arc::clone(&host), text, Limits::default()).unwrap_or_else(|error| panic!("{error:?}"));
    host.lines()
}
