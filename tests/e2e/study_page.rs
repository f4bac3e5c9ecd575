//! `study.html` and the files of its pictures: the same bytes each time, over nothing that no study wrote; in a real browser the
//! table sorts, filters and is reached by keys.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use crate::browser::tool;
use crate::driven::{self, CHECK, PHONE, WIDE};
use crate::harness::{Ran, copy_of, entries, finish, program, put, strutwork, tests, text};

const LIMIT: std::time::Duration = std::time::Duration::from_secs(240);

/// A cart of eight joints, its tubes in groups.
pub(crate) fn cart() -> tempfile::TempDir {
    let place = copy_of(&tests().join("suite/_base/cart"));
    let tubes = text(&place.path().join("tubes.csv"));
    let grouped: Vec<String> = tubes
        .lines()
        .enumerate()
        .map(|(place, line)| match place {
            0 => format!("{line},group"),
            _ if line.contains("brace") => format!("{line},braces"),
            _ if line.contains("post") || line.contains("cross") => format!("{line},ends"),
            _ => format!("{line},rails"),
        })
        .collect();
    put(&place.path().join("tubes.csv"), grouped.join("\n") + "\n");
    place
}

/// A study of the cart that a script describes.
#[track_caller]
pub(crate) fn study(place: &Path, name: &str, described: &str, args: &[&str]) -> Ran {
    put(
        &place.join("s.rhai"),
        format!(
            "let s = open_model(arguments()[0]).new_study(\"{name}\");\n{described}\ns.ask_mass(); s.ask_stiffness();\ns.run();\n"
        ),
    );
    finish(program(place, &[&["study", "s.rhai", "."], args].concat()), LIMIT)
}

/// Three groups of three walls.
pub(crate) const GRID: &str = "for group in [\"rails\", \"braces\", \"ends\"] { s.vary_wall(group, [1.5, 2.0, 2.5]); }";

/// The columns of a study's table, by their names.
pub(crate) fn columns(file: &Path) -> BTreeMap<String, Vec<String>> {
    let mut reader = csv::Reader::from_path(file).expect("a table");
    let names: Vec<String> = reader.headers().expect("a header").iter().map(str::to_owned).collect();
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    names
        .into_iter()
        .enumerate()
        .map(|(at, name)| (name, rows.iter().map(|row| row[at].to_owned()).collect()))
        .collect()
}

pub(crate) fn numbers(columns: &BTreeMap<String, Vec<String>>, name: &str) -> Vec<f64> {
    columns[name].iter().map(|cell| cell.parse().expect("a number")).collect()
}

/// What the groups of a picture carry as data: all that have this attribute.
pub(crate) fn data(svg: &str, marked: &str) -> Vec<BTreeMap<String, String>> {
    let groups = svg.split("<g ").skip(1).filter_map(|tail| tail.split('>').next());
    let read = |group: &str| -> BTreeMap<String, String> {
        let pairs = group.split("data-").skip(1).filter_map(|tail| tail.split_once("=\""));
        pairs.map(|(name, rest)| (name.to_owned(), rest.split('"').next().unwrap_or_default().to_owned())).collect()
    };
    groups.map(read).filter(|group| group.contains_key(marked)).collect()
}

pub(crate) fn number(of: &BTreeMap<String, String>, name: &str) -> f64 {
    of[name].parse().unwrap_or_else(|_| panic!("no number {name}: {of:?}"))
}

#[test]
fn page_and_pictures_have_the_same_bytes_each_time_and_are_not_blank() {
    let place = cart();
    for (out, threads) in [("one", "1"), ("two", "3")] {
        study(place.path(), "grid", GRID, &["--out", out, "--threads", threads, "--pdf"]).expect(0);
    }
    let files = |out: &str| -> BTreeMap<String, Vec<u8>> {
        let folder = place.path().join(out);
        let all = entries(&folder).into_iter().chain(entries(&folder.join("pictures"))).filter(|path| path.is_file());
        all.map(|path| (path.strip_prefix(&folder).unwrap().display().to_string(), fs::read(&path).unwrap())).collect()
    };
    let (one, two) = (files("one"), files("two"));
    assert_eq!(one.keys().collect::<Vec<_>>(), two.keys().collect::<Vec<_>>());
    for (name, bytes) in &one {
        assert!(two[name] == *bytes, "{name} differs");
    }
    let names = ["front", "tornado", "worth", "effects-1", "together-1"];
    for name in names {
        let svg = String::from_utf8(one[&format!("pictures/grid-{name}.svg")].clone()).expect("text");
        assert!(svg.starts_with("<svg xmlns=\"http://www.w3.org/2000/svg\"") || svg.contains("xmlns="), "{name}");
        let decoder = png::Decoder::new(std::io::Cursor::new(&one[&format!("pictures/grid-{name}.png")]));
        let mut reader = decoder.read_info().expect("a PNG");
        let mut dots = vec![0; reader.output_buffer_size().expect("a size")];
        let about = reader.next_frame(&mut dots).expect("dots");
        assert_eq!(about.width, 1440, "{name}");
        let inked = dots.chunks(3).filter(|dot| dot.iter().any(|part| *part < 200)).count();
        let share = inked as f64 / f64::from(about.width * about.height);
        assert!((0.004..0.6).contains(&share), "{name}: {share} of it is inked");
    }
    let pages = finish(
        {
            let mut command = std::process::Command::new(tool(&["pdftotext"], "poppler-utils"));
            command.arg(place.path().join("one/study.pdf")).arg("-");
            command
        },
        LIMIT,
    );
    pages.expect(0);
    for words in ["27 variants, all solved", "Which tube earns its weight", "Read before use"] {
        assert!(pages.stdout.contains(words), "{words}");
    }
}

#[test]
fn what_no_study_wrote_stays_and_old_pictures_go() {
    let place = cart();
    let folder = place.path().join("studies");
    fs::create_dir(&folder).unwrap();
    put(&folder.join("study.html"), "mine");
    study(place.path(), "grid", GRID, &[]).expect(4).says("study.html").says("no study wrote it");
    assert_eq!(text(&folder.join("study.html")), "mine");
    assert!(!folder.join("grid.csv").exists(), "told before anything is solved");
    fs::remove_file(folder.join("study.html")).unwrap();
    study(place.path(), "grid", GRID, &[]).expect(0);
    assert!(folder.join("pictures/grid-together-1.png").exists());
    // Another study of the same folder has the page then; the pictures of the first stay.
    study(place.path(), "other", "s.vary_wall(\"rails\", [2.0, 2.5]);", &[]).expect(0);
    assert!(
        text(&folder.join("study.html")).contains("<h1>other</h1>") && folder.join("pictures/grid-front.svg").exists()
    );
    // A smaller question of the same name: what is no longer drawn goes.
    study(place.path(), "grid", "s.vary_wall(\"rails\", [2.0, 2.5]);", &["--fresh"]).expect(0);
    assert!(!folder.join("pictures/grid-together-1.png").exists() && folder.join("pictures/grid-front.png").exists());
    put(&folder.join("pictures/grid-front.svg"), "changed");
    study(place.path(), "grid", GRID, &["--fresh"]).expect(4).says("grid-front.svg");
    assert_eq!(text(&folder.join("pictures/grid-front.svg")), "changed");
}

#[test]
fn after_shards_are_put_together_the_same_command_writes_the_page() {
    let place = cart();
    study(place.path(), "grid", GRID, &["--out", "whole"]).expect(0);
    for k in ["1/2", "2/2"] {
        study(place.path(), "grid", GRID, &["--out", "parts", "--shard", k]).expect(0);
    }
    strutwork(place.path(), &["study", "merge", "parts"]).expect(0).says("study.html");
    assert!(!place.path().join("parts/study.html").exists());
    study(place.path(), "grid", GRID, &["--out", "parts"]).expect(0);
    for name in ["study.html", "pictures/grid-front.png", "grid.csv", "grid.json"] {
        let of = |out: &str| fs::read(place.path().join(out).join(name)).expect("a file");
        assert!(of("parts") == of("whole"), "{name}");
    }
}

#[test]
fn hostile_names_are_text_wherever_they_stand() {
    let place = cart();
    let hostile = "\"><script>alert(1)</script>&'";
    let tubes = text(&place.path().join("tubes.csv")).replace(",rails", ",\"\"\"><script>alert(1)</script>&'\"");
    put(&place.path().join("tubes.csv"), tubes);
    let model = text(&place.path().join("model.toml")).replace("\"Cart\"", "'Cart </title><script>'");
    put(&place.path().join("model.toml"), model);
    let described =
        "s.vary_wall(\"\\\"><script>alert(1)</script>&'\", [1.5, 2.0]); s.vary_wall(\"braces\", [1.5, 2.0, 2.5]);";
    study(place.path(), "<b onload=x>", described, &["--pdf"]).expect(0);
    let folder = place.path().join("studies");
    let page = text(&folder.join("study.html"));
    assert_eq!(page.matches("<script>").count(), 1, "the page's own");
    for raw in [hostile, "<b onload", "</title><script>"] {
        assert!(!page.contains(raw), "{raw}");
    }
    assert!(page.contains("&#60;script&#62;alert(1)") || page.contains("&lt;script&gt;alert(1)"));
    for picture in entries(&folder.join("pictures")).iter().filter(|path| path.extension() == Some("svg".as_ref())) {
        assert!(!text(picture).contains("<script>"), "{}", picture.display());
    }
    let answer = driven::answer(
        &folder.join("study.html"),
        place.path(),
        "",
        "return document.querySelectorAll('script').length;",
        WIDE,
    );
    // The page's own, and that of this test.
    assert_eq!(answer, 2);
}

#[test]
fn the_table_sorts_filters_and_is_reached_by_keys() {
    let place = cart();
    let described = format!("{GRID} s.ask_utilisation(); s.at_most(\"utilisation\", 0.25);");
    study(place.path(), "grid", &described, &[]).expect(0);
    let page = place.path().join("studies/study.html");
    let table = columns(&place.path().join("studies/grid.csv"));
    let steps = "const table = document.getElementById('variants'), form = document.getElementById('choose');\
        const names = [...table.tHead.rows[0].cells].map((head) => head.textContent), at = (name) => names.indexOf(name);\
        const shown = () => [...table.tBodies[0].rows].filter((row) => !row.hidden);\
        const column = (name) => shown().map((row) => row.cells[at(name)].textContent);\
        const button = (name) => table.tHead.rows[0].cells[at(name)].querySelector('button');\
        const said = () => document.getElementById('chosen').textContent;\
        const set = (name, value) => { form.elements[name].value = value; form.dispatchEvent(new Event('input', { bubbles: true })); };\
        const all = column('variant');\
        button('tubes_kg').focus(); const focused = document.activeElement === button('tubes_kg'); button('tubes_kg').click();\
        const up = column('tubes_kg').map(Number), sortedUp = table.tHead.rows[0].cells[at('tubes_kg')].getAttribute('aria-sort'), saidUp = said();\
        button('tubes_kg').click(); const down = column('tubes_kg').map(Number);\
        set('which', 'keeps'); const keeps = column('keeps all'), saidKeeps = said();\
        set('which', 'front'); const front = column('variant');\
        set('which', 'all'); form.elements.column.value = at('stiffness_nm_per_deg'); set('from', '3600'); const stiff = column('stiffness_nm_per_deg').map(Number);\
        form.reset(); await new Promise((done) => setTimeout(done, 30)); const again = column('variant').length;\
        set('text', '2.5'); const held = shown().every((row) => [...row.cells].some((cell) => cell.textContent.includes('2.5')));\
        return { names, all, focused, up, down, sortedUp, saidUp, keeps, saidKeeps, front, stiff, again, held, few: shown().length };";
    let answer = driven::answer(&page, place.path(), "", steps, WIDE);
    let list = |name: &str| answer[name].as_array().unwrap_or_else(|| panic!("{name}: {answer}")).clone();
    assert_eq!(list("all").len(), 27);
    assert_eq!(answer["focused"], true);
    let (up, down): (Vec<f64>, Vec<f64>) = {
        let read = |name: &str| list(name).iter().map(|one| one.as_f64().expect("a number")).collect();
        (read("up"), read("down"))
    };
    assert!(up.is_sorted() && down.is_sorted_by(|a, b| a >= b) && up.len() == 27, "{answer}");
    assert_eq!(answer["sortedUp"], "ascending");
    assert!(
        answer["saidUp"].as_str().is_some_and(|said| said.contains("27 of 27") && said.contains("tubes_kg")),
        "{answer}"
    );
    let kept = table["feasible"].iter().filter(|cell| *cell == "yes").count();
    assert!(list("keeps").iter().all(|cell| cell == "yes") && list("keeps").len() == kept && kept < 27, "{answer}");
    assert!(answer["saidKeeps"].as_str().is_some_and(|said| said.starts_with(&format!("{kept} of 27"))), "{answer}");
    let front = data(&text(&place.path().join("studies/pictures/grid-front.svg")), "variant");
    assert_eq!(list("front").len(), front.len());
    let stiff = numbers(&table, "stiffness_nm_per_deg").iter().filter(|k| **k >= 3600.0).count();
    assert!(list("stiff").len() == stiff && stiff > 0 && stiff < 27, "{answer}");
    assert_eq!((&answer["again"], &answer["held"]), (&27.into(), &true.into()), "{answer}");
    assert!(answer["few"].as_u64().is_some_and(|few| few > 0 && few < 27), "{answer}");
}

#[test]
fn a_checker_for_accessibility_finds_nothing_and_a_phone_shows_it() {
    let place = cart();
    let described = format!("{GRID} s.ask_utilisation(); s.at_most(\"utilisation\", 0.25);");
    study(place.path(), "grid", &described, &[]).expect(0);
    let page = place.path().join("studies/study.html");
    let answer =
        driven::answer(&page, place.path(), "", "return [document.documentElement.scrollWidth, innerWidth];", PHONE);
    assert!(answer[0].as_f64() <= answer[1].as_f64(), "the page scrolls sideways: {answer}");
    driven::with_checker(&page);
    let answer = driven::answer(&page, place.path(), "", CHECK, WIDE);
    assert!(answer[0].as_u64() > Some(20), "it looked at the page: {answer}");
    assert_eq!(answer[1], serde_json::json!([]));
}
