//! `strutwork baseline record`: what a model comes to now becomes what is expected of it.

use std::path::Path;

use strutwork_model::{Diagnostic, Severity};
use strutwork_revision::baseline::{Baseline, Pattern, codes, every, hold, idle, record, write_baseline};

use super::{Measured, measure, options, place, read, repeated, told};
use crate::baseline_args::{RecordArgs, Repeated};
use crate::exit::{Failure, Outcome};
use crate::files;
use crate::render::{Sources, counted};
use crate::terminal::Terminal;

/// Records, or lists what can be kept.
///
/// # Errors
/// [`Failure::Occupied`] where a baseline is there and `--update` was not given; [`Failure::Input`] where a pattern keeps
/// nothing or the baseline that is there cannot be read; otherwise as [`crate::ran::solve`].
pub(super) fn run(args: &RecordArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let folder = &args.solve.of.folder;
    let path = place(folder);
    if path.exists() && !args.update && !args.list {
        return Err(Failure::Occupied {
            path,
            why: "a baseline is there already",
            help: "see what departs with `strutwork baseline check FOLDER`; to record it anew, give --update",
        });
    }
    let keep = patterns(&args.keep)?;
    let earlier = if args.update { read(folder)? } else { None };
    let Repeated { solve, asked } = how(args, earlier.as_ref(), folder)?;
    let measured = measure(&solve, &asked, terminal)?;
    if args.list {
        let lines: String = every(&measured.set).iter().map(told::listed).collect();
        terminal.result(&lines)?;
        return Ok(Outcome::Passed);
    }
    let keep = match &earlier {
        _ if !keep.is_empty() => keep,
        Some(earlier) if !earlier.keep.is_empty() => earlier.keep.clone(),
        _ => vec![Pattern::usual()],
    };
    refuse_idle(&measured, &keep)?;
    let baseline = record(&measured.set, &keep, &measured.of, earlier.as_ref());
    let text = write_baseline(&baseline);
    if let Some(earlier) = &earlier {
        let held = hold(earlier, &measured.set);
        terminal.result(&told::update(&held, &baseline))?;
        if files::read(&path)? == text.as_bytes() {
            terminal.result(&format!("Nothing to write: {} stays as it is.\n", path.display()))?;
            return Ok(Outcome::Passed);
        }
    }
    files::replace(&path, text.as_bytes()).map_err(|cause| Failure::write(&path, cause))?;
    let number = counted(baseline.entries.len(), "value");
    terminal.result(&format!("Recorded {number} in {}\n", path.display()))?;
    Ok(Outcome::Passed)
}

/// How the run is asked for: as typed, else as the baseline that is there says.
fn how(args: &RecordArgs, earlier: Option<&Baseline>, folder: &Path) -> Result<Repeated, Failure> {
    let typed = options::written(&args.solve, &args.asked);
    match earlier {
        Some(earlier) if typed.is_empty() => repeated(earlier, folder, args.solve.of.max_operations),
        _ => Ok(Repeated { solve: args.solve.clone(), asked: args.asked.clone() }),
    }
}

fn patterns(texts: &[String]) -> Result<Vec<Pattern>, Failure> {
    let read = |text: &String| Pattern::new(text);
    texts.iter().map(read).collect::<Result<_, _>>().map_err(|fault| Failure::Request {
        what: fault.to_string(),
        help: "`strutwork baseline record FOLDER --list` prints every name".into(),
    })
}

fn refuse_idle(measured: &Measured, keep: &[Pattern]) -> Result<(), Failure> {
    let faults: Vec<Diagnostic> = idle(&measured.set, keep)
        .into_iter()
        .map(|pattern| Diagnostic {
            code: codes::KEEPS_NOTHING,
            severity: Severity::Error,
            place: None,
            subject: pattern.to_string(),
            message: format!("the pattern `{pattern}` keeps nothing: no quantity of the run has such a name"),
            help: "`strutwork baseline record FOLDER --list` prints every name".to_owned(),
        })
        .collect();
    if faults.is_empty() { Ok(()) } else { Err(Failure::Input { faults, sources: Sources::default() }) }
}
