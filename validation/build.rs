//! Embeds the suite: writes a table of every file below `suite/`, so that the binary can re-solve it anywhere.

use std::error::Error;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let suite = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?).join("suite");
    println!("cargo::rerun-if-changed={}", suite.display());
    let mut table = String::from("&[\n");
    for family in entries(&suite)? {
        for case in entries(&family)? {
            writeln!(table, "    Folder {{ family: {:?}, name: {:?}, files: &[", name(&family), name(&case))?;
            for file in entries(&case)? {
                if !file.is_dir() {
                    writeln!(table, "        ({:?}, include_str!({:?})),", name(&file), file)?;
                    continue;
                }
                // A model of a refinement: its files are known by folder and name.
                for inner in entries(&file)? {
                    let both = format!("{}/{}", name(&file), name(&inner));
                    writeln!(table, "        ({both:?}, include_str!({inner:?})),")?;
                }
            }
            table.push_str("    ] },\n");
        }
    }
    table.push_str("]\n");
    fs::write(PathBuf::from(env::var("OUT_DIR")?).join("suite.rs"), table)?;
    Ok(())
}

/// What a folder holds, by name.
fn entries(folder: &Path) -> Result<Vec<PathBuf>, Box<dyn Error>> {
    let mut found = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<Result<Vec<_>, std::io::Error>>()?;
    found.sort();
    Ok(found)
}

/// The last part of a path.
fn name(path: &Path) -> String {
    path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}
