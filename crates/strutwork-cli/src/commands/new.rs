//! `strutwork new`: a small working model to start from.

use std::fs;
use std::io::Write as _;

use crate::args::NewArgs;
use crate::exit::{Failure, Outcome};
use crate::files::whole::make_folder;
use crate::starter;
use crate::terminal::Terminal;

/// Writes the starter model.
///
/// # Errors
/// [`Failure::Occupied`] when one of its files stands there already, [`Failure::File`] when the system refuses.
pub(crate) fn run(args: &NewArgs, terminal: &Terminal) -> Result<Outcome, Failure> {
    let folder = &args.folder;
    for (name, _) in starter::FILES {
        let path = folder.join(name);
        if path.symlink_metadata().is_ok() {
            return Err(Failure::Occupied {
                path,
                why: "it is not overwritten",
                help: "give the name of a folder that is new or empty",
            });
        }
    }
    make_folder(folder)?;
    for (name, text) in starter::FILES {
        let path = folder.join(name);
        // `create_new` also refuses a file that appeared since the look above.
        fs::File::create_new(&path)
            .and_then(|mut file| file.write_all(text.as_bytes()))
            .map_err(|cause| Failure::write(path, cause))?;
    }
    let shown = folder.display();
    let list: String = starter::FILES.iter().map(|(name, _)| format!("  {shown}/{name}\n")).collect();
    terminal.result(&format!("Wrote a braced bay to start from:\n{list}"))?;
    terminal.note(&format!("Next: strutwork run {shown}\n"));
    Ok(Outcome::Passed)
}
