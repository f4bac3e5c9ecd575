//! The browser without a window, and the other programs that look at what we write as a person would.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use crate::harness::{Ran, finish, text};

pub(crate) const LIMIT: Duration = Duration::from_secs(90);

/// A program of the environment, by name; the message says how to get it.
pub(crate) fn tool(names: &[&str], package: &str) -> PathBuf {
    let path = std::env::var_os("PATH").unwrap_or_default();
    std::env::split_paths(&path)
        .flat_map(|folder| names.iter().map(move |name| folder.join(name)))
        .find(|file| file.is_file())
        .unwrap_or_else(|| {
            panic!("none of {names:?} is on PATH: install the Debian package `{package}` (apt-get install {package})")
        })
}

/// What the page asked the network for, from the browser's own log of it. What the browser asks for by itself is left out:
/// only requests of a page from a file carry that file's key.
pub(crate) fn requests(log: &Path) -> Vec<String> {
    text(log)
        .lines()
        .filter(|line| line.contains("\"network_isolation_key\":\"file://"))
        .filter_map(|line| Some(line.split_once("\"url\":\"")?.1.split('"').next()?.to_owned()))
        .filter(|url| !["file:", "data:", "blob:"].iter().any(|local| url.starts_with(local)))
        .collect()
}

/// Software drawing, so that pictures work on a machine without a graphics processor.
const DRAWING: [&str; 3] = ["--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"];

/// The browser without a window, with a profile of its own and no network, on a page.
pub(crate) fn browser(profile: &Path, page: &Path, flags: &[&str]) -> Ran {
    let mut command = Command::new(tool(&["chromium", "chromium-browser"], "chromium"));
    command
        .args(["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars"])
        .args(["--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"])
        .args(["--host-resolver-rules=MAP * ~NOTFOUND", "--enable-logging=stderr", "--v=0"])
        .args(DRAWING)
        .args(["--virtual-time-budget=8000", "--timeout=60000"])
        .arg(format!("--user-data-dir={}", profile.display()))
        .arg(format!("--log-net-log={}", profile.with_extension("net").display()))
        .args(flags)
        .arg(format!("file://{}", page.display()))
        .env("HOME", profile);
    finish(command, LIMIT)
}

/// What the page said on the console: errors, warnings, failed requests. Software drawing copies each picture back, and its driver
/// complains of the pace: that is no word of the page.
pub(crate) fn console(ran: &Ran) -> Vec<&str> {
    let of_driver = |line: &&str| line.contains("GL Driver Message (OpenGL, Performance");
    ran.stderr.lines().filter(|line| line.contains(":CONSOLE") && !of_driver(line)).collect()
}
