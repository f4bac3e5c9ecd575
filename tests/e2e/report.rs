//! The report in a real browser: it shows something, says nothing on the console, asks the network for nothing, prints.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::browser::{LIMIT, browser, console, requests, tool};
use crate::harness::{finish, program, put, starter, strutwork, text};

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

/// Shapes of modes and buckling stand still until they are let go; who wants no movement sees the other way that they bend.
#[test]
fn shapes_swing_when_they_are_let_go_and_stand_still_on_paper() {
    let place = starter();
    strutwork(place.path(), &["run", "frame", "--modes", "2", "--buckling", "1"]).expect(0);
    let still = place.path().join("frame/results/report.html");
    let html = text(&still);
    assert!(html.matches("<figure class=\"swinging\">").count() >= 3, "modes and buckling are drawn");
    assert!(html.matches("@keyframes mode-1-").count() >= 1 && html.contains("prefers-reduced-motion"));
    // Only the pictures, so that the window shows them; let go as a click or the space bar does.
    let head = &html[..html.find("<body>").unwrap()];
    let figures: String = html.split("<figure class=\"swinging\">").skip(1).take(2).fold(String::new(), |all, part| {
        all + "<figure class=\"swinging\">" + part.split("</figure>").next().unwrap() + "</figure>"
    });
    let shot = |name: &str, checked: &str, flags: &[&str]| {
        let page = place.path().join(format!("{name}.html"));
        put(&page, format!("{head}<body>{}</body></html>", figures.replace("type=\"checkbox\"", checked)));
        let file = place.path().join(format!("{name}.png"));
        let mut all = vec!["--window-size=900,1000".to_owned(), format!("--screenshot={}", file.display())];
        all.extend(flags.iter().map(|flag| (*flag).to_owned()));
        let all: Vec<&str> = all.iter().map(String::as_str).collect();
        let ran = browser(&place.path().join(format!("profile-{name}")), &page, &all);
        ran.expect(0);
        assert_eq!(console(&ran), Vec::<&str>::new());
        std::fs::read(&file).expect("a screenshot")
    };
    let go = "type=\"checkbox\" checked";
    let calm = ["--force-prefers-reduced-motion"];
    let (rest, turned) = (shot("rest", "type=\"checkbox\"", &calm), shot("turned", go, &calm));
    // The box itself turns blue: more than it must have changed.
    assert!(changed(&rest, &turned) > 2000, "{} pixels", changed(&rest, &turned));
    let again = shot("again", go, &calm);
    assert_eq!(changed(&turned, &again), 0, "who wants no movement is shown one");
}

/// How many pixels differ between two pictures of one size.
fn changed(a: &[u8], b: &[u8]) -> usize {
    let pixels = |png: &[u8]| {
        let mut reader = png::Decoder::new(std::io::Cursor::new(png.to_vec())).read_info().expect("a PNG");
        let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
        let info = reader.next_frame(&mut pixels).expect("a frame");
        pixels.truncate(info.buffer_size());
        (info.color_type.samples(), pixels)
    };
    let ((samples, a), (_, b)) = (pixels(a), pixels(b));
    assert_eq!(a.len(), b.len());
    a.chunks_exact(samples).zip(b.chunks_exact(samples)).filter(|(a, b)| a != b).count()
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
