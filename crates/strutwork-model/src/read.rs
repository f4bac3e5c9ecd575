//! The way in: files to model, with every fault of both steps.

use std::collections::BTreeSet;

use crate::codes;
use crate::diagnostic::{Code, Diagnostic, Faults, Severity, Warned};
use crate::files::{self, InputFiles, KNOWN_FILES};
use crate::model::Model;
use crate::spec;
use crate::validate::validate;

/// Reads a model folder: [`spec::parse`], then [`validate`].
///
/// # Errors
/// All diagnostics of both steps, in the order of the files and lines, where at least one is an error. What only follows
/// from a fault of reading is left out: a joint is not called unknown while a row of `joints.csv` cannot be read.
///
/// # Example
/// ```
/// use strutwork_model::{InputFile, InputFiles, read_model};
/// let files = InputFiles(vec![
///     InputFile::new("model.toml", "title = \"A bar\"
///         [sections.bar]\nshape = \"solid-round\"\ndiameter_mm = 20
///         [materials.mild]\ngrade = \"S235JRH\""),
///     InputFile::new("joints.csv", "joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,500,0,0\n"),
///     InputFile::new("tubes.csv", "tube,from,to,section,material\nAB,A,B,bar,mild\n"),
/// ]);
/// let model = read_model(&files)?.value;
/// assert_eq!(model.tubes().len(), 1);
/// # Ok::<(), strutwork_model::Faults>(())
/// ```
pub fn read_model(files: &InputFiles) -> Result<Warned<Model>, Faults> {
    let (spec, mut all) = spec::parse(files);
    let parsed = Parsed::of(&all);
    let (made, found) = match validate(&spec) {
        Ok(Warned { value, warnings }) => (Some(value), warnings),
        Err(Faults(faults)) => (None, faults),
    };
    let found: Vec<Diagnostic> = found.into_iter().filter(|fault| !parsed.explains(fault)).collect();
    all.extend(found);
    all.sort_by_key(order);
    let wrong = all.iter().any(|fault| fault.severity == Severity::Error);
    match made {
        Some(value) if !wrong => Ok(Warned { value, warnings: all }),
        _ => Err(Faults(all)),
    }
}

/// Files in their known order, unknown ones last; then lines, then columns. The frame as a whole comes last of all.
fn order(fault: &Diagnostic) -> (usize, usize, usize) {
    fault.place.as_ref().map_or((usize::MAX, 0, 0), |place| {
        let file = KNOWN_FILES.iter().position(|known| known.name == place.file).unwrap_or(KNOWN_FILES.len());
        (file, place.line, place.column)
    })
}

/// Which files must have been read without a fault before a code means what it says.
fn rests_on(code: Code) -> &'static [&'static str] {
    match code {
        codes::UNKNOWN_JOINT => &[files::JOINTS],
        codes::UNKNOWN_TUBE => &[files::TUBES],
        codes::UNKNOWN_SECTION
        | codes::UNKNOWN_MATERIAL
        | codes::UNKNOWN_BOLT
        | codes::NO_TITLE
        | codes::NO_VEHICLE
        | codes::LINKED_AND_CARRIED => &[files::MODEL],
        codes::UNKNOWN_BODY => &[files::BODIES],
        codes::CORNER_NOT_CARRIED | codes::LINK_COUNT | codes::UPRIGHT_NOT_LINKED => &[files::SUSPENSION],
        codes::LOOSE_JOINT | codes::SEPARATE_PARTS => &[files::JOINTS, files::TUBES, files::BODIES, files::PANELS],
        codes::UNUSED => &[files::TUBES, files::BODIES, files::PANELS],
        codes::FLOATS | codes::SETTLEMENT_NOT_FIXED => &[files::MODEL, files::SUPPORTS],
        _ => &[],
    }
}

/// What reading could not make sense of.
struct Parsed<'p> {
    /// File, line and column of every error; column 0 for a whole line.
    places: BTreeSet<(&'p str, usize, usize)>,
    /// Files that may have lost rows or names.
    lost: BTreeSet<&'p str>,
    /// Whether model.toml breaks a rule of TOML: its values are guesses then.
    broken: bool,
}

impl<'p> Parsed<'p> {
    fn of(faults: &'p [Diagnostic]) -> Self {
        let errors = || faults.iter().filter(|fault| fault.severity == Severity::Error);
        let places = errors().filter_map(|fault| fault.place.as_ref());
        let lossy = errors().filter(|fault| !KEEPS.contains(&fault.code)).filter_map(|fault| fault.place.as_ref());
        Self {
            places: places.map(|at| (at.file.as_str(), at.line, at.column)).collect(),
            lost: lossy.map(|at| at.file.as_str()).collect(),
            broken: errors().any(|fault| fault.code == codes::TOML_SYNTAX),
        }
    }

    /// Whether a fault of validation only follows from a fault of reading.
    fn explains(&self, fault: &Diagnostic) -> bool {
        if rests_on(fault.code).iter().any(|file| self.lost.contains(file)) {
            return true;
        }
        let Some(at) = &fault.place else { return false };
        let file = at.file.as_str();
        if self.broken && file == files::MODEL {
            return true;
        }
        let line = (file, at.line, 0);
        let here = if at.column == 0 {
            self.places.range(line..=(file, at.line, usize::MAX)).next().is_some()
        } else {
            self.places.contains(&line) || self.places.contains(&(file, at.line, at.column))
        };
        at.line > 0 && here
    }
}

/// Faults of reading that lose no row and no name.
const KEEPS: &[Code] = &[
    codes::NOT_A_NUMBER,
    codes::NOT_FINITE,
    codes::BLANK_CELL,
    codes::UNKNOWN_WORD,
    codes::UNKNOWN_COLUMN,
    codes::CELL_COUNT,
];
