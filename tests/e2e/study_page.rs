//! `study.html` and the pictures of a study: their numbers are those of the tables, their bytes the same each time, and in a
//! real browser the table sorts, filters and is reached by keys.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use crate::browser::tool;
use crate::driven::{self, CHECK, PHONE, WIDE};
use crate::harness::{Ran, copy_of, entries, finish, program, put, strutwork, tests, text};

const LIMIT: std::time::Duration = std::time::Duration::from_secs(240);

/// A cart of eight joints, its tubes in groups.
fn cart() -> tempfile::TempDir {
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
fn study(place: &Path, name: &str, described: &str, args: &[&str]) -> Ran {
    put(
        &place.join("s.rhai"),
        format!(
            "let s = open_model(arguments()[0]).new_study(\"{name}\");\n{described}\ns.ask_mass(); s.ask_stiffness();\ns.run();\n"
        ),
    );
    finish(program(place, &[&["study", "s.rhai", "."], args].concat()), LIMIT)
}

/// Three groups of three walls.
const GRID: &str = "for group in [\"rails\", \"braces\", \"ends\"] { s.vary_wall(group, [1.5, 2.0, 2.5]); }";

/// The columns of a study's table, by their names.
fn columns(file: &Path) -> BTreeMap<String, Vec<String>> {
    let mut reader = csv::Reader::from_path(file).expect("a table");
    let names: Vec<String> = reader.headers().expect("a header").iter().map(str::to_owned).collect();
    let rows: Vec<csv::StringRecord> = reader.records().map(|row| row.expect("a row")).collect();
    names
        .into_iter()
        .enumerate()
        .map(|(at, name)| (name, rows.iter().map(|row| row[at].to_owned()).collect()))
        .collect()
}

fn numbers(columns: &BTreeMap<String, Vec<String>>, name: &str) -> Vec<f64> {
    columns[name].iter().map(|cell| cell.parse().expect("a number")).collect()
}

/// What the groups of a picture carry as data: all that have this attribute.
fn data(svg: &str, marked: &str) -> Vec<BTreeMap<String, String>> {
    let groups = svg.split("<g ").skip(1).filter_map(|tail| tail.split('>').next());
    let read = |group: &str| -> BTreeMap<String, String> {
        let pairs = group.split("data-").skip(1).filter_map(|tail| tail.split_once("=\""));
        pairs.map(|(name, rest)| (name.to_owned(), rest.split('"').next().unwrap_or_default().to_owned())).collect()
    };
    groups.map(read).filter(|group| group.contains_key(marked)).collect()
}

fn number(of: &BTreeMap<String, String>, name: &str) -> f64 {
    of[name].parse().unwrap_or_else(|_| panic!("no number {name}: {of:?}"))
}

#[test]
fn the_numbers_of_the_pictures_are_those_of_the_table() {
    let place = cart();
    let described = format!("{GRID} s.ask_utilisation(); s.at_most(\"utilisation\", 0.25);");
    study(place.path(), "grid", &described, &[]).expect(0).says("study.html");
    let folder = place.path().join("studies");
    let table = columns(&folder.join("grid.csv"));
    let (mass, stiff) = (numbers(&table, "tubes_kg"), numbers(&table, "stiffness_nm_per_deg"));
    let keeps: Vec<bool> = table["feasible"].iter().map(|cell| cell == "yes").collect();
    assert!(keeps.contains(&true) && keeps.contains(&false), "{keeps:?}");

    let front = data(&text(&folder.join("pictures/grid-front.svg")), "variant");
    let beaten = |one: usize| {
        (0..mass.len()).any(|other| {
            let (lighter, stiffer) = (mass[other] <= mass[one], stiff[other] >= stiff[one]);
            keeps[other] && lighter && stiffer && (mass[other] < mass[one] || stiff[other] > stiff[one])
        })
    };
    let mut wanted: Vec<usize> = (0..mass.len()).filter(|one| keeps[*one] && !beaten(*one)).collect();
    wanted.sort_by(|a, b| mass[*a].total_cmp(&mass[*b]));
    let drawn: Vec<usize> = front.iter().map(|member| number(member, "variant") as usize).collect();
    assert_eq!(drawn, wanted);
    for member in &front {
        let variant = number(member, "variant") as usize;
        assert_eq!((number(member, "x"), number(member, "y")), (mass[variant], stiff[variant]));
    }

    // The second response that is looked at: the utilisation is asked first, so that stiffness is the second picture.
    let svg = text(&folder.join("pictures/grid-effects-2.svg"));
    let marks = data(&svg, "parameter");
    assert_eq!(marks.len(), 9);
    for mark in &marks {
        let walls = numbers(&table, &mark["parameter"]);
        let level: f64 = mark["part"].parse().expect("a wall");
        let of_level: Vec<f64> =
            walls.iter().zip(&stiff).filter(|(wall, _)| **wall == level).map(|(_, k)| *k).collect();
        let mean = of_level.iter().sum::<f64>() / of_level.len() as f64;
        assert!((number(mark, "answer") / mean - 1.0).abs() < 1e-12, "{mark:?} {mean}");
    }
    let cells = data(&text(&folder.join("pictures/grid-together-2.svg")), "beyond");
    assert_eq!(cells.len(), 3, "three pairs of three parameters");
    let whole = stiff.iter().sum::<f64>() / stiff.len() as f64;
    for cell in &cells {
        let (one, other) = (numbers(&table, &cell["one"]), numbers(&table, &cell["other"]));
        let mean = |which: &dyn Fn(usize) -> bool| {
            let of: Vec<f64> = (0..stiff.len()).filter(|row| which(*row)).map(|row| stiff[row]).collect();
            of.iter().sum::<f64>() / of.len() as f64
        };
        let mut largest = 0.0_f64;
        for a in [1.5, 2.0, 2.5] {
            for b in [1.5, 2.0, 2.5] {
                let both = mean(&|row| one[row] == a && other[row] == b);
                largest = largest.max((both - mean(&|row| one[row] == a) - mean(&|row| other[row] == b) + whole).abs());
            }
        }
        assert!((number(cell, "beyond") - largest).abs() < 1e-6 * largest.max(1.0), "{cell:?} {largest}");
    }
    let page = text(&folder.join("study.html"));
    assert!(page.contains("27 variants, all solved.") && page.contains("no pass"), "the verdict");
    for place in ["http-equiv", " src=", "url(", "@import"] {
        assert!(!page.contains(place), "{place}");
    }
    assert!(page.len() < 2_000_000);
}

#[test]
fn the_tornado_agrees_with_differences() {
    let place = cart();
    let step = 0.004;
    let described = format!(
        "for group in [\"rails\", \"braces\", \"ends\"] {{ s.vary_wall(group, [{}, 2.0, {}]); }} s.one_at_a_time();",
        2.0 - step,
        2.0 + step
    );
    study(place.path(), "step", &described, &[]).expect(0);
    let folder = place.path().join("studies");
    let table = columns(&folder.join("step.csv"));
    let (mass, stiff) = (numbers(&table, "tubes_kg"), numbers(&table, "stiffness_nm_per_deg"));
    let bars = data(&text(&folder.join("pictures/step-tornado.svg")), "group");
    assert_eq!(bars.len(), 3);
    for bar in &bars {
        let walls = numbers(&table, &format!("{}.wall_mm", bar["group"]));
        let at = |wall: f64| walls.iter().position(|one| *one == wall).expect("a variant");
        let (low, high) = (at(2.0 - step), at(2.0 + step));
        let slope = (stiff[high] - stiff[low]) / (2.0 * step);
        assert!((number(bar, "per-mm") / slope - 1.0).abs() < 1e-5, "{bar:?} {slope}");
        let grams = 1000.0 * (mass[high] - mass[low]) / (2.0 * step);
        assert!((number(bar, "grams-per-mm") / grams - 1.0).abs() < 1e-5, "{bar:?} {grams}");
    }
    // One at a time tells no pair apart: said, and not drawn.
    let page = text(&folder.join("study.html"));
    assert!(page.contains("cannot be told: no variant changes two parameters"), "{page:.200}");
    assert!(!folder.join("pictures/step-together-1.svg").exists());
}

#[test]
fn a_band_is_that_of_its_samples() {
    let place = cart();
    let described = "s.vary_wall(\"rails\", #{ from: 1.8, to: 2.2 }); s.vary_wall(\"braces\", #{ from: 1.8, to: 2.2 }); s.latin_hypercube(120, 5);";
    study(place.path(), "band", described, &[]).expect(0);
    let folder = place.path().join("studies");
    let mut stiff = numbers(&columns(&folder.join("band.csv")), "stiffness_nm_per_deg");
    stiff.sort_by(f64::total_cmp);
    let svg = text(&folder.join("pictures/band-band-2.svg"));
    let percentiles = data(&svg, "percent");
    let told: Vec<(f64, f64)> = percentiles.iter().map(|one| (number(one, "percent"), number(one, "value"))).collect();
    // The ranks ⌈n p⌉ of 120: 6, 60, 114.
    assert_eq!(told, [(5.0, stiff[5]), (50.0, stiff[59]), (95.0, stiff[113])]);
    let bars = data(&svg, "count");
    for bar in &bars {
        let inside = stiff.iter().filter(|k| (number(bar, "from")..number(bar, "to")).contains(*k)).count();
        assert_eq!(number(bar, "count") as usize, inside, "{bar:?}");
    }
    assert_eq!(bars.iter().map(|bar| number(bar, "count")).sum::<f64>(), 120.0);
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
