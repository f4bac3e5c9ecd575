//! A page in a real browser, in which a test does what a reader would do.

use std::path::{Path, PathBuf};

use crate::browser::{browser, console, requests};
use crate::harness::{put, text};

pub(crate) const WIDE: &str = "--window-size=1280,1000";
pub(crate) const PHONE: &str = "--window-size=390,844";

/// Opens a page, does `steps` in it (the body of an async function that returns a value, after `first`), and gives what they
/// returned. Nothing may stand on the console, and no request may leave the page. Profiles of the browser go into `folder`.
#[track_caller]
pub(crate) fn answer(page: &Path, folder: &Path, first: &str, steps: &str, size: &str) -> serde_json::Value {
    let driver = format!(
        "<script>addEventListener('load', async () => {{\
           {first}\
           const frame = () => new Promise((done) => setTimeout(done, 40));\
           let said; try {{ await frame(); said = await (async () => {{ {steps} }})(); }} catch (fault) {{ said = 'fault: ' + fault.stack; }}\
           document.title = 'answer ' + JSON.stringify(said) + ' end'; }});</script></body>"
    );
    let driven = page.with_file_name("driven.html");
    put(&driven, text(page).replace("</body>", &driver));
    let profile = folder.join(format!("profile-{}", std::fs::read_dir(folder).expect("a folder").count()));
    let ran = browser(&profile, &driven, &[size, "--dump-dom"]);
    ran.expect(0);
    assert_eq!(console(&ran), Vec::<&str>::new());
    assert_eq!(requests(&profile.with_extension("net")), Vec::<String>::new());
    let title = ran.stdout.split_once("<title>answer ").map(|(_, rest)| rest.split(" end</title>").next());
    let answer = title.flatten().unwrap_or_else(|| panic!("no answer:\n{:.3000}", ran.stdout));
    let plain = answer.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&").replace("&nbsp;", "\u{a0}");
    serde_json::from_str(&plain).unwrap_or_else(|fault| panic!("{fault}: {plain}"))
}

/// The checker for accessibility that `xtask/setup.sh` brings.
fn checker() -> String {
    let tools = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/tools");
    let found = std::fs::read_dir(&tools).ok().into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path()));
    let mut folders: Vec<PathBuf> = found.filter(|path| path.join("axe.min.js").is_file()).collect();
    folders.sort();
    let folder =
        folders.pop().unwrap_or_else(|| panic!("no axe-core in {}: run `bash xtask/setup.sh`", tools.display()));
    text(&folder.join("axe.min.js"))
}

/// Puts the checker for accessibility into a page.
pub(crate) fn with_checker(page: &Path) {
    let with = format!("<script>{}</script></body>", checker());
    put(page, text(page).replace("</body>", &with));
}

/// Asks the checker: how many of its rules passed, and what it found, to be returned by the steps.
pub(crate) const CHECK: &str = "const found = await axe.run(document, { resultTypes: ['violations'] });\
    return [found.passes.length, found.violations.map((one) => one.id + ': ' + one.nodes.map((node) => node.html).join(' '))];";
