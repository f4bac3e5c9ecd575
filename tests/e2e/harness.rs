//! Running the program: a temporary copy of a folder, a clean environment, a time limit.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A run of the program never takes this long unless it hangs.
const LIMIT: Duration = Duration::from_secs(60);

/// The date that runs are given unless a test says otherwise: 2024-01-02 in UTC.
pub(crate) const EPOCH: &str = "1704153600";

/// What a run left behind.
#[derive(Debug)]
pub(crate) struct Ran {
    /// Exit code; −1 where it was ended by a signal or by the time limit.
    pub code: i32,
    /// Standard output.
    pub stdout: String,
    /// Standard error.
    pub stderr: String,
}

/// The program with these arguments, in this folder, in an environment that says nothing.
pub(crate) fn program(folder: &Path, args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_strutwork-under-test"));
    command
        .args(args)
        .current_dir(folder)
        .env_clear()
        .env("LC_ALL", "C")
        .env("PATH", std::env::var_os("PATH").unwrap_or_default())
        .env("SOURCE_DATE_EPOCH", EPOCH)
        .stdin(Stdio::null());
    command
}

/// Runs the program with these arguments in this folder.
pub(crate) fn strutwork(folder: &Path, args: &[&str]) -> Ran {
    finish(program(folder, args), LIMIT)
}

/// Runs a command to its end, or ends it at the limit.
pub(crate) fn finish(mut command: Command, limit: Duration) -> Ran {
    let mut child = command
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|cause| panic!("{command:?} does not start: {cause}"));
    let stdout = text_of(child.stdout.take().expect("piped"));
    let stderr = text_of(child.stderr.take().expect("piped"));
    let started = Instant::now();
    let code = loop {
        if let Some(status) = child.try_wait().expect("a child of ours") {
            break status.code().unwrap_or(-1);
        }
        if started.elapsed() > limit {
            child.kill().expect("a child of ours");
            child.wait().expect("a child of ours");
            break -1;
        }
        std::thread::sleep(Duration::from_millis(2));
    };
    Ran { code, stdout: stdout.join().expect("reads"), stderr: stderr.join().expect("reads") }
}

/// Reads a stream to its end, beside the test.
fn text_of(mut stream: impl std::io::Read + Send + 'static) -> std::thread::JoinHandle<String> {
    std::thread::spawn(move || {
        let mut bytes = Vec::new();
        // A pipe that breaks ends the text; what was read counts.
        let _ = stream.read_to_end(&mut bytes);
        String::from_utf8_lossy(&bytes).into_owned()
    })
}

impl Ran {
    /// Stops the test unless the run ended with this exit code.
    #[track_caller]
    pub(crate) fn expect(&self, code: i32) -> &Self {
        assert_eq!(self.code, code, "exit code\n--- stdout\n{}\n--- stderr\n{}", self.stdout, self.stderr);
        self
    }

    /// Stops the test unless the run wrote its results, whether or not findings exceed limits.
    #[track_caller]
    pub(crate) fn expect_done(&self) -> &Self {
        assert!(matches!(self.code, 0 | 1), "exit code {}\n--- stderr\n{}", self.code, self.stderr);
        self
    }

    /// Stops the test unless standard error holds this text.
    #[track_caller]
    pub(crate) fn says(&self, text: &str) -> &Self {
        assert!(self.stderr.contains(text), "`{text}` is not in standard error:\n{}", self.stderr);
        self
    }
}

/// The folder `tests`.
pub(crate) fn tests() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The folder of the whole project.
pub(crate) fn project() -> PathBuf {
    tests().parent().expect("tests stands in the project").to_owned()
}

/// A copy of a folder (results left out) that is gone after the test.
pub(crate) fn copy_of(folder: &Path) -> tempfile::TempDir {
    let copy = tempfile::tempdir().expect("a temporary folder");
    overlay(folder, copy.path());
    copy
}

/// Copies the files of a folder, and of its sub-folders but `results`, over another folder.
pub(crate) fn overlay(from: &Path, to: &Path) {
    for path in entries(from) {
        let target = to.join(path.file_name().expect("an entry has a name"));
        if path.is_dir() {
            if path.file_name().is_some_and(|name| name != "results") {
                fs::create_dir_all(&target).expect("a folder of ours");
                overlay(&path, &target);
            }
        } else {
            fs::copy(&path, &target).unwrap_or_else(|cause| panic!("{}: {cause}", path.display()));
        }
    }
}

/// The entries of a folder, in the order of their names.
pub(crate) fn entries(folder: &Path) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = fs::read_dir(folder)
        .unwrap_or_else(|cause| panic!("{}: {cause}", folder.display()))
        .map(|entry| entry.expect("an entry").path())
        .collect();
    all.sort();
    all
}

/// The text of a file.
pub(crate) fn text(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|cause| panic!("{}: {cause}", path.display()))
}

/// Writes a file.
pub(crate) fn put(path: &Path, content: impl AsRef<[u8]>) {
    fs::write(path, content).unwrap_or_else(|cause| panic!("{}: {cause}", path.display()));
}

/// A fresh folder with the starter model in it, as `new` writes it.
pub(crate) fn starter() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    strutwork(folder.path(), &["new", "frame"]).expect(0);
    folder
}
