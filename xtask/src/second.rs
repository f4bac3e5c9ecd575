//! The second calculation of modes, load factors and element matrices: `tests/second/`, in Python.

use std::process::Command;

use crate::command::{self, loudly};
use crate::failure::Failure;
use crate::workspace::Workspace;

/// Where a Python with the libraries may be: the one on the path may be another than the system's.
const PYTHONS: [&str; 3] = ["python3", "/usr/bin/python3", "python"];
/// What it must know.
const LIBRARIES: &str = "import numpy, scipy, sympy, mpmath, tomllib";

/// Runs it: `check` or `write`.
pub(crate) fn run(workspace: &Workspace, word: &str) -> Result<(), Failure> {
    let fits = |python: &&str| {
        let mut command = Command::new(python);
        command.args(["-c", LIBRARIES]).stderr(std::process::Stdio::null());
        command::status(&mut command).is_ok_and(|status| status.success())
    };
    let Some(python) = PYTHONS.into_iter().find(fits) else {
        return Err(Failure::Output {
            command: PYTHONS.join(", "),
            why: format!("none of them can `{LIBRARIES}`: bash xtask/setup.sh installs what is missing"),
        });
    };
    let mut command = Command::new(python);
    command.args(["-B", "tests/second/main.py", word]).current_dir(&workspace.root);
    loudly(command)
}
