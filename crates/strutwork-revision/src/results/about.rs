//! `run.json`: when, with what and from which inputs a run was made.

use serde_json::Value;
use strutwork_model::InputFiles;

use super::RUN;
use super::table::Met;
use crate::codes;

/// When, with what and from which inputs a run was made.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct About {
    /// The model's title.
    pub title: String,
    /// The model's revision; empty for none.
    pub revision: String,
    /// Who made the model; empty for none.
    pub author: String,
    /// Version of the program.
    pub version: String,
    /// The date of the run.
    pub date: String,
    /// The command as it was typed.
    pub command: String,
    /// Options in force, in words; empty for none.
    pub options: String,
    /// Every file that the run read.
    pub inputs: Vec<InputHash>,
}

/// A file that a run read.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct InputHash {
    /// Its name.
    pub file: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

pub(super) fn read(files: &InputFiles, met: &mut Met) -> About {
    let Some(bytes) = files.get(RUN) else {
        met.error(codes::NO_RUN, RUN, 0, format!("`{RUN}` is not there: no finished run has written this folder"));
        return About::default();
    };
    match serde_json::from_slice::<Value>(bytes) {
        Ok(run) => of(&run).unwrap_or_else(|lacks| {
            met.error(codes::BAD_RUN, RUN, 0, format!("`{RUN}` has no `{lacks}`, which every run writes into it"));
            About::default()
        }),
        Err(fault) => {
            met.error(codes::BAD_RUN, RUN, fault.line(), format!("`{RUN}` cannot be read as JSON: {fault}"));
            About::default()
        }
    }
}

fn of(run: &Value) -> Result<About, &'static str> {
    let text = |value: &Value, key: &str| value[key].as_str().unwrap_or_default().to_owned();
    let model = &run["model"];
    if !model.is_object() {
        return Err("model");
    }
    let inputs = run["inputs"].as_array().ok_or("inputs")?;
    Ok(About {
        title: text(model, "title"),
        revision: text(model, "revision"),
        author: text(model, "author"),
        version: run["version"].as_str().ok_or("version")?.to_owned(),
        date: text(run, "date"),
        command: text(run, "command"),
        options: text(&run["options"], "text"),
        inputs: inputs
            .iter()
            .map(|input| InputHash { file: text(input, "file"), sha256: text(input, "sha256") })
            .collect(),
    })
}
