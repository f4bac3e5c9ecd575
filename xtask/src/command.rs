//! Running other programs: loudly, or for what they print.

use std::path::Path;
use std::process::{Command, ExitStatus, Stdio};

use crate::failure::Failure;

/// The cargo that started this chore.
pub(crate) fn cargo(root: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.args(args).current_dir(root);
    command
}

/// Runs a command that shows its own output, and stops unless it succeeds.
pub(crate) fn loudly(mut command: Command) -> Result<(), Failure> {
    let status = status(&mut command)?;
    if status.success() { Ok(()) } else { Err(ended(&command, status)) }
}

/// Runs a command that shows its own output, for its exit code.
pub(crate) fn status(command: &mut Command) -> Result<ExitStatus, Failure> {
    command.stdin(Stdio::null()).status().map_err(|cause| Failure::Start { command: named(command), cause })
}

/// Runs a command for what it prints; its standard error is shown.
pub(crate) fn output(mut command: Command) -> Result<String, Failure> {
    let output = command
        .stdin(Stdio::null())
        .stderr(Stdio::inherit())
        .output()
        .map_err(|cause| Failure::Start { command: named(&command), cause })?;
    if !output.status.success() {
        return Err(ended(&command, output.status));
    }
    String::from_utf8(output.stdout)
        .map_err(|cause| Failure::Output { command: named(&command), why: cause.to_string() })
}

/// A command that ended badly.
pub(crate) fn ended(command: &Command, status: ExitStatus) -> Failure {
    Failure::Ended { command: named(command), how: status.to_string() }
}

/// A command as it would be typed.
pub(crate) fn named(command: &Command) -> String {
    let program = Path::new(command.get_program()).file_name().unwrap_or_default().to_string_lossy();
    let args = command.get_args().map(|arg| arg.to_string_lossy());
    std::iter::once(program).chain(args).collect::<Vec<_>>().join(" ")
}
