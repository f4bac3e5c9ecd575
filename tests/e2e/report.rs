//! The report in a real browser: it shows something, says nothing on the console, asks the network for nothing, prints.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use crate::harness::{Ran, finish, program, put, starter, strutwork, text};

const LIMIT: Duration = Duration::from_secs(90);

/// A program of the environment, by name; the message says how to get it.
fn tool(names: &[&str], package: &str) -> PathBuf {
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
fn requests(log: &Path) -> Vec<String> {
    text(log)
        .lines()
        .filter(|line| line.contains("\"network_isolation_key\":\"file://"))
        .filter_map(|line| Some(line.split_once("\"url\":\"")?.1.split('"').next()?.to_owned()))
        .filter(|url| !["file:", "data:", "blob:"].iter().any(|local| url.starts_with(local)))
        .collect()
}

/// The browser without a window, with a profile of its own and no network, on a page.
fn browser(profile: &Path, page: &Path, flags: &[&str]) -> Ran {
    let mut command = Command::new(tool(&["chromium", "chromium-browser"], "chromium"));
    command
        .args(["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--hide-scrollbars"])
        .args(["--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"])
        .args(["--host-resolver-rules=MAP * ~NOTFOUND", "--enable-logging=stderr", "--v=0"])
        .args(["--virtual-time-budget=8000", "--timeout=60000"])
        .arg(format!("--user-data-dir={}", profile.display()))
        .arg(format!("--log-net-log={}", profile.with_extension("net").display()))
        .args(flags)
        .arg(format!("file://{}", page.display()))
        .env("HOME", profile);
    finish(command, LIMIT)
}

/// What the page said on the console: errors, warnings, failed requests.
fn console(ran: &Ran) -> Vec<&str> {
    ran.stderr.lines().filter(|line| line.contains(":CONSOLE")).collect()
}

/// A report to look at, in a folder that is gone after the test.
fn report() -> (tempfile::TempDir, PathBuf) {
    let place = starter();
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let page = place.path().join("frame/results/report.html");
    (place, page)
}

#[test]
fn the_report_shows_something_and_the_console_stays_empty() {
    let (place, page) = report();
    let shot = place.path().join("shot.png");
    let ran = browser(
        &place.path().join("profile"),
        &page,
        &["--window-size=1280,2400", &format!("--screenshot={}", shot.display())],
    );
    ran.expect(0);
    assert_eq!(console(&ran), Vec::<&str>::new());
    assert_eq!(requests(&place.path().join("profile.net")), Vec::<String>::new());
    let (width, height, colours) = picture(&shot);
    assert_eq!(width, 1280);
    assert!(height >= 2000, "{height} pixels high");
    assert!(colours.len() > 20, "a page of {} colours is blank", colours.len());
    let commonest = colours.iter().max().copied().unwrap_or(0);
    let share = commonest as f64 / f64::from(width * height);
    assert!(share < 0.98, "{:.1} % of the page is one colour", share * 100.0);
}

/// Width, height, and how many pixels there are of each colour.
fn picture(file: &Path) -> (u32, u32, Vec<usize>) {
    let mut decoder = png::Decoder::new(std::io::BufReader::new(std::fs::File::open(file).expect("a screenshot")));
    decoder.set_transformations(png::Transformations::normalize_to_color8());
    let mut reader = decoder.read_info().expect("a PNG");
    let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
    let info = reader.next_frame(&mut pixels).expect("a frame");
    let samples = info.color_type.samples();
    let mut counts = std::collections::BTreeMap::new();
    for pixel in pixels[..info.buffer_size()].chunks_exact(samples) {
        *counts.entry(pixel.to_vec()).or_insert(0) += 1;
    }
    (info.width, info.height, counts.into_values().collect())
}

#[test]
fn the_report_asks_the_network_for_nothing() {
    let (_place, page) = report();
    let html = text(&page);
    for asks in [
        "src=\"http",
        "src='http",
        "src=\"//",
        "href=\"http",
        "url(http",
        "url(\"http",
        "url(//",
        "@import",
        "fetch(",
        "XMLHttpRequest",
        "WebSocket",
        "<link",
    ] {
        assert!(!html.contains(asks), "the report holds `{asks}`");
    }
}

#[test]
fn a_page_that_complains_or_asks_the_network_is_noticed() {
    let place = tempfile::tempdir().unwrap();
    let page = place.path().join("bad.html");
    let image = "<img src='http://example.invalid/a.png'>";
    put(&page, format!("<!doctype html><title>t</title><script>console.error('heard')</script>{image}"));
    let profile = place.path().join("profile");
    let ran = browser(&profile, &page, &["--dump-dom"]);
    ran.expect(0);
    assert!(console(&ran).join("\n").contains("heard"), "the console is not heard:\n{}", ran.stderr);
    assert_eq!(requests(&profile.with_extension("net")), ["http://example.invalid/a.png"]);
}

#[test]
fn hostile_names_are_shown_and_not_run() {
    let place = starter();
    let hostile = "<script>document.title='taken'</script>";
    let image = "\"><img src=x onerror=\"document.title='taken'\">";
    for name in ["joints.csv", "tubes.csv", "supports.csv", "loads.csv", "masses.csv"] {
        let file = place.path().join("frame").join(name);
        let quoted = format!("\"{}\"", image.replace('"', "\"\""));
        let changed = text(&file).replace("rear-left-top", hostile).replace("brace-left", &quoted);
        put(&file, changed);
    }
    // Names in the list of masses are parted by spaces, so a name with none is used there.
    assert!(!hostile.contains(' '));
    strutwork(place.path(), &["run", "frame"]).expect(0);
    let page = place.path().join("frame/results/report.html");
    assert!(!text(&page).contains(hostile), "a name stands unescaped in the report");
    let ran = browser(&place.path().join("profile"), &page, &["--dump-dom"]);
    ran.expect(0);
    assert!(!ran.stdout.contains("<title>taken"), "a name was run");
    assert_eq!(console(&ran), Vec::<&str>::new());
}

#[test]
fn the_report_prints_on_pages_with_its_words() {
    let (place, page) = report();
    let pdf = place.path().join("report.pdf");
    let ran = browser(
        &place.path().join("profile"),
        &page,
        &[&format!("--print-to-pdf={}", pdf.display()), "--no-pdf-header-footer"],
    );
    ran.expect(0);
    let mut info = Command::new(tool(&["pdfinfo"], "poppler-utils"));
    info.arg(&pdf);
    let info = finish(info, LIMIT);
    let pages: u32 = info
        .expect(0)
        .stdout
        .lines()
        .find_map(|line| line.strip_prefix("Pages:"))
        .and_then(|number| number.trim().parse().ok())
        .expect("pdfinfo tells the number of pages");
    assert!(pages > 1, "{pages} page");
    let mut words = Command::new(tool(&["pdftotext"], "poppler-utils"));
    words.arg(&pdf).arg("-");
    let words = finish(words, LIMIT);
    words.expect(0);
    for part in ["Braced bay", "push-sideways", "rear-left-foot"] {
        assert!(words.stdout.contains(part), "`{part}` is not on paper");
    }
}

#[test]
fn a_report_of_a_folder_with_odd_letters_is_written() {
    let place = tempfile::tempdir().unwrap();
    strutwork(place.path(), &["new", "Ä frame & co"]).expect(0);
    finish(program(place.path(), &["run", "Ä frame & co"]), LIMIT).expect(0);
    assert!(place.path().join("Ä frame & co/results/report.html").is_file());
}
