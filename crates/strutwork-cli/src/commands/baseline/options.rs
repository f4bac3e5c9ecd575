//! How a run was asked for, as rows of a baseline, and back.

use std::ffi::OsString;
use std::path::{Component, Path, PathBuf};

use clap::Parser as _;
use strutwork_model::{Diagnostic, Place, Severity};
use strutwork_revision::baseline::{FILE, Setting, codes};

use crate::args::{AskedArgs, SolveArgs};
use crate::baseline_args::Repeated;

/// The option whose value is a path.
const CASES: &str = "cases";

/// The options that are not as they are without any, in the order of `--help`.
pub(super) fn written(solve: &SolveArgs, asked: &AskedArgs) -> Vec<Setting> {
    let flag = |set: bool| set.then(String::new);
    let script = solve.of.cases.as_deref().map(|file| from_folder(file, &solve.of.folder));
    let list = [
        (CASES, script),
        ("second-order", flag(solve.second_order)),
        ("passes", solve.second_order.then(|| solve.passes.to_string())),
        ("tolerance", solve.second_order.then(|| format!("{:e}", solve.tolerance))),
        ("modes", asked.modes.map(|modes| modes.to_string())),
        ("modes-under", asked.modes_under.clone()),
        ("buckling", asked.buckling.map(|factors| factors.to_string())),
        ("pieces", asked.pieces.map(|pieces| pieces.to_string())),
        ("lumped", flag(asked.lumped)),
    ];
    let set = list.into_iter().filter_map(|(name, value)| Some((name, value?)));
    set.map(|(name, value)| Setting { name: name.to_owned(), value, line: 0 }).collect()
}

/// Reads them as if they had been typed for this folder.
///
/// # Errors
/// Every option that is not known or has a value that it cannot have.
pub(super) fn repeated(settings: &[Setting], folder: &Path, operations: u64) -> Result<Repeated, Vec<Diagnostic>> {
    let mut all: Vec<OsString> = vec!["--max-operations".into(), operations.to_string().into()];
    let mut wrong = Vec::new();
    for setting in settings {
        let typed = typed(setting, folder);
        // One by one, so that each fault has its line; what one needs of another is seen below.
        match Repeated::try_parse_from(typed.iter().cloned().chain(["--".into(), folder.into()])) {
            Err(error) if error.kind() != clap::error::ErrorKind::MissingRequiredArgument => {
                wrong.push(fault(setting.line, &format!("the option `{}`: {}", setting.name, first_line(&error))));
            }
            _ => all.extend(typed),
        }
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    all.extend(["--".into(), folder.into()]);
    Repeated::try_parse_from(all)
        .map_err(|error| vec![fault(settings.first().map_or(0, |setting| setting.line), &first_line(&error))])
}

fn typed(setting: &Setting, folder: &Path) -> Vec<OsString> {
    let mut typed = vec![OsString::from(format!("--{}", setting.name))];
    if setting.name == CASES {
        typed.push(folder.join(&setting.value).into_os_string());
    } else if !setting.value.is_empty() {
        typed.push((&setting.value).into());
    }
    typed
}

fn first_line(error: &clap::Error) -> String {
    let text = error.render().to_string();
    let lines: Vec<&str> = text.lines().map(str::trim).take_while(|line| !line.is_empty()).collect();
    lines.join(" ").trim_start_matches("error: ").to_owned()
}

fn fault(line: usize, message: &str) -> Diagnostic {
    Diagnostic {
        code: codes::BAD_OPTION,
        severity: Severity::Error,
        place: Some(Place::line(FILE, line)),
        subject: String::new(),
        message: message.to_owned(),
        help: "options are those of `strutwork baseline record --help`, without dashes; mend the row, or record anew"
            .to_owned(),
    }
}

/// A file as it is found from a folder: with `/` and `..`, so that a baseline holds wherever the project lies.
fn from_folder(file: &Path, folder: &Path) -> String {
    let whole =
        |path: &Path| path.canonicalize().or_else(|_| std::path::absolute(path)).unwrap_or_else(|_| path.into());
    let (file, folder) = (whole(file), whole(folder));
    let (of_file, of_folder): (Vec<Component<'_>>, Vec<Component<'_>>) =
        (file.components().collect(), folder.components().collect());
    let shared = of_file.iter().zip(&of_folder).take_while(|(a, b)| a == b).count();
    let up = std::iter::repeat_n(Component::ParentDir, of_folder.len() - shared);
    let path: PathBuf = up.chain(of_file.into_iter().skip(shared)).collect();
    path.to_string_lossy().replace('\\', "/")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setting(name: &str, value: &str) -> Setting {
        Setting { name: name.to_owned(), value: value.to_owned(), line: 7 }
    }

    #[test]
    fn what_is_written_reads_back() {
        let settings = [
            setting("second-order", ""),
            setting("passes", "30"),
            setting("tolerance", "1e-8"),
            setting("modes", "6"),
            setting("modes-under", "-a"),
            setting("lumped", ""),
        ];
        let Repeated { solve, asked } = repeated(&settings[..4], Path::new("frame"), 9).unwrap();
        assert_eq!((solve.of.folder.as_path(), solve.of.max_operations), (Path::new("frame"), 9));
        let bare: Vec<_> = settings[..4].iter().map(|setting| Setting { line: 0, ..setting.clone() }).collect();
        assert_eq!(written(&solve, &asked), bare);
        let under = [setting("modes", "2"), setting("modes-under", "kerb"), setting("lumped", "")];
        assert_eq!(repeated(&under, Path::new("frame"), 9).unwrap().asked.modes_under.as_deref(), Some("kerb"));
    }

    #[test]
    fn what_cannot_be_repeated_is_told_with_its_line() {
        let settings = [setting("modes", "many"), setting("out", "x"), setting("buckling", "3")];
        let wrong = repeated(&settings, Path::new("frame"), 9).unwrap_err();
        assert_eq!(wrong.len(), 2, "{wrong:?}");
        assert!(wrong.iter().all(|one| one.place.as_ref().unwrap().line == 7));
        assert!(wrong[0].message.contains("many") && wrong[1].message.contains("out"), "{wrong:?}");
    }

    #[test]
    fn a_script_is_found_from_the_models_folder() {
        let place = tempfile::tempdir().unwrap();
        let folder = place.path().join("a/frame");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(place.path().join("cases.rhai"), "").unwrap();
        assert_eq!(from_folder(&place.path().join("cases.rhai"), &folder), "../../cases.rhai");
        assert_eq!(from_folder(&folder.join("own.rhai"), &folder), "own.rhai");
    }
}
