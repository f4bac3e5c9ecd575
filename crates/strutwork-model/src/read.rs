//! The way in: files to model, with every fault of both steps.

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
    let parsed = all.clone();
    let (made, found) = match validate(&spec) {
        Ok(Warned { value, warnings }) => (Some(value), warnings),
        Err(Faults(faults)) => (None, faults),
    };
    all.extend(found.into_iter().filter(|fault| !follows(fault, &parsed)));
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
        codes::UNKNOWN_SECTION | codes::UNKNOWN_MATERIAL | codes::NO_TITLE => &[files::MODEL],
        codes::LOOSE_JOINT | codes::SEPARATE_PARTS => &[files::JOINTS, files::TUBES],
        codes::UNUSED => &[files::TUBES],
        codes::FLOATS | codes::SETTLEMENT_NOT_FIXED => &[files::MODEL, files::SUPPORTS],
        _ => &[],
    }
}

/// Whether a fault of validation only follows from a fault of reading.
fn follows(fault: &Diagnostic, parsed: &[Diagnostic]) -> bool {
    let errors = || parsed.iter().filter(|earlier| earlier.severity == Severity::Error);
    let rests = rests_on(fault.code);
    let rotten = errors().any(|earlier| earlier.place.as_ref().is_some_and(|at| hides(earlier, &at.file, rests)));
    let here = fault.place.as_ref().is_some_and(|place| {
        place.line > 0
            && errors().filter_map(|earlier| earlier.place.as_ref()).any(|earlier| {
                earlier.file == place.file
                    && earlier.line == place.line
                    && (earlier.column == 0 || place.column == 0 || earlier.column == place.column)
            })
    });
    // After a break in model.toml its values are guesses.
    let broken = fault.place.as_ref().is_some_and(|place| place.file == files::MODEL)
        && errors().any(|earlier| earlier.code == codes::TOML_SYNTAX);
    rotten || here || broken
}

/// Whether a fault of reading may have lost rows or names of one of these files. A number that cannot be read loses none.
fn hides(earlier: &Diagnostic, file: &str, rests: &[&str]) -> bool {
    const KEEPS: &[Code] = &[
        codes::NOT_A_NUMBER,
        codes::NOT_FINITE,
        codes::BLANK_CELL,
        codes::UNKNOWN_WORD,
        codes::UNKNOWN_COLUMN,
        codes::CELL_COUNT,
    ];
    rests.contains(&file) && !KEEPS.contains(&earlier.code)
}
