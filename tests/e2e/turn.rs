//! The frame to turn, in a real browser: chosen by mouse, by search and by keys, on a wide page and on a phone.

use std::path::PathBuf;

use crate::driven::{self, CHECK, PHONE, WIDE};
use crate::harness::{copy_of, put, starter, strutwork, tests};

/// A report, and what is to be done in it: the script's last value, as text.
struct Driven {
    place: tempfile::TempDir,
    page: PathBuf,
}

impl Driven {
    fn starter() -> Self {
        let place = starter();
        strutwork(place.path(), &["run", "frame"]).expect(0);
        let page = place.path().join("frame/results/report.html");
        Self { place, page }
    }

    /// Opens the page, does `steps` in it, and gives what they returned.
    #[track_caller]
    fn answer(&self, steps: &str, size: &str) -> serde_json::Value {
        const FIRST: &str = "const view = window.turnView, find = (part) => view.find(part);";
        driven::answer(&self.page, self.place.path(), FIRST, steps, size)
    }
}

/// A press and a release of the pointer at a place of the stage.
const PRESS: &str = "const press = (x, y) => { const stage = find('stage'), box = stage.getBoundingClientRect();\
    stage.setPointerCapture = () => {};\
    for (const kind of ['pointerdown', 'pointerup']) stage.dispatchEvent(new PointerEvent(kind,\
      { bubbles: true, pointerId: 1, clientX: box.left + stage.clientLeft + x, clientY: box.top + stage.clientTop + y })); };";

#[test]
fn a_click_on_a_tube_shows_its_forces_in_every_case() {
    let page = Driven::starter();
    let steps = format!(
        "{PRESS} view.eye.stand('side'); await frame();\
         const tube = view.frame.tubes.findIndex((one) => one.name === 'brace-left');\
         const [x, y] = view.eye.project(view.movedTube(tube, 0.4)); press(x, y); await frame();\
         return [find('card').querySelector('h4').textContent, find('card').querySelectorAll('tbody tr').length,\
           view.frame.cases.length, find('said').textContent];"
    );
    let answer = page.answer(&steps, WIDE);
    let heading = answer[0].as_str().expect("a heading");
    // From the side the two braces lie behind one another; the nearer one, on the right, may be the one that was hit.
    assert!(heading == "Tube brace-left" || heading == "Tube brace-right", "{heading}");
    assert_eq!(answer[1], answer[2], "a row a case");
    assert!(answer[3].as_str().is_some_and(|said| said.contains("utilisation")), "{answer}");
}

#[test]
fn cases_are_switched_and_the_frame_moves() {
    let page = Driven::starter();
    let steps = "const at = () => view.eye.project(view.movedJoint(view.frame.joints.length - 1)).join();\
        const still = at(); const select = find('case');\
        select.value = view.frame.cases[0].key; select.dispatchEvent(new Event('change')); await frame(); const moved = at();\
        find('scale').value = 0; find('scale').dispatchEvent(new Event('input')); await frame(); const none = at();\
        for (let i = 0; i < 60 && !view.root.dataset.draws; i += 1) await frame();\
        return [still !== moved, still === none, find('said').textContent, view.frame.cases[0].title, view.root.dataset.draws];";
    let answer = page.answer(steps, WIDE);
    assert_eq!(answer[0], true, "the frame is drawn deformed");
    assert_eq!(answer[1], true, "a scale of nothing is the frame at rest");
    assert_eq!(answer[2], answer[3], "the case is said aloud");
    let draws: usize = answer[4].as_str().and_then(|text| text.parse().ok()).expect("a count");
    assert!((1..=4).contains(&draws), "{draws} draw calls a frame");
}

#[test]
fn a_tube_is_found_by_its_name_and_by_keys_alone() {
    let page = Driven::starter();
    let steps = "const heading = () => find('card').querySelector('h4')?.textContent ?? '';\
        const search = find('search'); search.value = 'brace-right'; search.dispatchEvent(new Event('change')); await frame();\
        const found = heading(); search.value = 'nothing-of-this-name'; search.dispatchEvent(new Event('change'));\
        const missed = find('said').textContent;\
        const key = (name, shift) => find('stage').dispatchEvent(new KeyboardEvent('keydown', { key: name, shiftKey: !!shift, bubbles: true }));\
        find('stage').focus(); key('Escape'); key('n'); const first = heading(); key('n'); const second = heading(); key('p'); const back = heading();\
        const before = view.eye.turn; key('ArrowLeft'); const turned = view.eye.turn !== before;\
        const scale = view.eye.scale; key('+'); const nearer = view.eye.scale > scale;\
        const shown = view.key; key(']'); const other = view.key !== shown;\
        return { found, missed, first, second, back, turned, nearer, other, focus: document.activeElement === find('stage') };";
    let answer = page.answer(steps, WIDE);
    assert_eq!(answer["found"], "Tube brace-right");
    assert!(answer["missed"].as_str().is_some_and(|said| said.contains("nothing-of-this-name")), "{answer}");
    assert_eq!(answer["first"], answer["back"]);
    assert_ne!(answer["first"], answer["second"]);
    for part in ["turned", "nearer", "other", "focus"] {
        assert_eq!(answer[part], true, "{part}: {answer}");
    }
}

#[test]
fn tables_lead_into_the_view_and_groups_can_be_hidden() {
    let page = Driven::starter();
    let steps = "const cells = document.querySelectorAll('button.to-view'); cells[0].click(); await frame();\
        const name = cells[0].textContent.trim().replace(/^tube /, '').replace(/ at joint .*$/, '');\
        const shown = () => view.frame.tubes.filter((_, tube) => view.isShown(tube)).length;\
        const all = shown(); find('groups').querySelector('input').click(); const some = shown();\
        return [find('card').querySelector('h4').textContent, 'Tube ' + name, cells.length, all, some];";
    let answer = page.answer(steps, WIDE);
    assert_eq!(answer[0], answer[1]);
    assert!(answer[2].as_u64() > Some(3), "{answer}");
    assert!(answer[4].as_u64() < answer[3].as_u64(), "{answer}");
}

#[test]
fn on_a_phone_nothing_is_wider_than_the_screen() {
    let page = Driven::starter();
    let steps = "view.seek('brace-left'); await frame();\
        return [view.root.getBoundingClientRect().right, innerWidth, find('stage').clientHeight, innerHeight,\
          document.documentElement.scrollWidth];";
    let answer = page.answer(steps, PHONE);
    let of = |place: usize| answer[place].as_f64().expect("a number");
    assert!(of(0) <= of(1) + 0.5, "{answer}");
    assert!(of(4) <= of(1) + 0.5, "the page scrolls sideways: {answer}");
    assert!(of(2) < 0.8 * of(3), "the stage leaves room to scroll past it: {answer}");
}

#[test]
fn a_checker_for_accessibility_finds_nothing() {
    let page = Driven::starter();
    let shapes = ["run", "frame", "--modes", "3", "--buckling", "2"];
    strutwork(page.place.path(), &shapes).expect(0);
    driven::with_checker(&page.page);
    let answer = page.answer(&format!("view.seek('brace-left'); await frame(); {CHECK}"), WIDE);
    assert!(answer[0].as_u64() > Some(20), "it looked at the page: {answer}");
    assert_eq!(answer[1], serde_json::json!([]));
}

/// Colours by what stiffness costs, where a case measures a twist; elsewhere nobody is asked to choose them.
#[test]
fn tubes_are_coloured_by_what_stiffness_costs() {
    let place = copy_of(&tests().join("suite/_base/cart"));
    strutwork(place.path(), &["run", "."]).expect_done();
    let page = Driven { page: place.path().join("results/report.html"), place };
    let steps = "const colour = find('colour'); colour.value = 'worth'; colour.dispatchEvent(new Event('change')); await frame();\
        const { grams, edges } = view.frame.worth, tubes = view.frame.tubes.map((tube) => tube.name);\
        view.pick('tube', tubes.indexOf('brace-L')); await frame();\
        const cheap = [...grams.keys()].reduce((best, i) => (grams[i] < grams[best] ? i : best));\
        const dark = (i) => view.paint.colours[i].reduce((all, part) => all + part);\
        return { legend: find('legend').textContent, keys: find('legend').querySelectorAll('li').length, edges,\
          grams: Object.fromEntries(tubes.map((name, i) => [name, grams[i]])), darkest: view.paint.colours.every((_, i) => dark(cheap) <= dark(i)),\
          kinds: new Set(view.paint.colours.map(String)).size, card: find('card').textContent };";
    let answer = page.answer(steps, WIDE);
    assert!(answer["legend"].as_str().is_some_and(|legend| legend.contains("N·m/deg")), "{answer}");
    assert_eq!(answer["keys"], answer["kinds"], "a key for every colour");
    assert_eq!(answer["darkest"], true, "{answer}");
    assert!(answer["card"].as_str().is_some_and(|card| card.contains("g for each N·m/deg")), "{answer}");
    // The same prices as in the table.
    let mut table = csv::Reader::from_path(page.place.path().join("results/worth.csv")).expect("a table");
    let mut rows = 0;
    for row in table.records().map(|row| row.expect("a row")) {
        let [told, drawn] =
            [row[3].parse::<f64>().expect("a price"), answer["grams"][&row[0]].as_f64().expect("a price")];
        assert!((drawn / told - 1.0).abs() < 2e-5, "{row:?} {drawn}");
        rows += 1;
    }
    assert_eq!(rows, 18);
    let without = Driven::starter();
    let answer = without.answer("return [...find('colour').options].map((option) => option.value);", WIDE);
    assert!(answer.as_array().is_some_and(|all| all.len() > 3 && !all.contains(&"worth".into())), "{answer}");
}

/// The box under a shape, as a click or the space bar turns it: the curves move, and stand again when it is turned back.
#[test]
fn a_shape_swings_when_it_is_let_go() {
    let page = Driven::starter();
    strutwork(page.place.path(), &["run", "frame", "--modes", "2"]).expect(0);
    let steps = "const box = document.getElementById('mode-1'), curve = document.querySelector('#mode-1 ~ svg .swing');\
        const wait = (ms) => new Promise((done) => setTimeout(done, ms));\
        const at = () => getComputedStyle(curve).d, label = document.querySelector('label[for=mode-1]').textContent;\
        const rest = at(); await wait(60); const still = at();\
        box.click(); await wait(300); const one = at(); await wait(200); const two = at();\
        box.click(); await wait(60);\
        return [rest === still, one !== rest && one !== two, at() === rest, label, one.split('c').length === rest.split('c').length];";
    let answer = page.answer(steps, WIDE);
    assert_eq!((&answer[0], &answer[1], &answer[2]), (&true.into(), &true.into(), &true.into()), "{answer}");
    assert!(answer[3].as_str().is_some_and(|label| label.contains("Mode 1, ")), "{answer}");
}

/// A beam between walls: no joint moves, and the tube bows in the middle, by w L⁴ / 384 E I; a strut of the same tube bows where
/// it buckles.
#[test]
fn a_tube_whose_joints_stand_still_bows_under_its_load_and_where_it_buckles() {
    let place = tempfile::tempdir().unwrap();
    let frame = place.path().join("frame");
    std::fs::create_dir(&frame).unwrap();
    put(
        &frame.join("model.toml"),
        "title = \"Beam and strut\"\nsections.t = { shape = \"properties\", area_mm2 = 100.0, iy_mm4 = 10000.0, iz_mm4 = 10000.0, j_mm4 = 20000.0 }\nmaterials.m = { grade = \"S235JRH\" }\noptions.self_weight = false\n",
    );
    put(&frame.join("joints.csv"), "joint,x_mm,y_mm,z_mm\na,0,0,0\nb,1000,0,0\nd,0,1000,0\n");
    put(&frame.join("tubes.csv"), "tube,from,to,section,material\nbeam,a,b,t,m\nstrut,a,d,t,m\n");
    put(
        &frame.join("supports.csv"),
        "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,fixed,fixed\nb,fixed,fixed,fixed,fixed,fixed,fixed\n\
         d,fixed,free,fixed,fixed,fixed,fixed\n",
    );
    put(&frame.join("loads.csv"), "case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\nload,d,0,-10,0,0,0,0\n");
    put(&frame.join("tube_loads.csv"), "case,tube,axes,wx_n_per_m,wy_n_per_m,wz_n_per_m\nload,beam,global,0,0,-1000\n");
    strutwork(place.path(), &["run", "frame", "--buckling", "1"]).expect_done();
    let page = frame.join("results/report.html");
    let page = Driven { place, page };
    let steps = "const bow = (name, t) => { const i = view.frame.tubes.findIndex((one) => one.name === name);\
        const ends = [0, 1].map((t) => view.movedTube(i, t)), at = view.movedTube(i, t);\
        return Math.hypot(...at.map((v, k) => v - (ends[0][k] * (1 - t) + ends[1][k] * t))) / view.enlarged; };\
        view.show('case-1'); const beam = [0.25, 0.5, 0.75].map((t) => bow('beam', t)), straight = bow('strut', 0.5);\
        const most = view.shape.most;\
        view.show('buckling-1'); const strut = [0.25, 0.5, 0.75].map((t) => bow('strut', t) / view.shape.most);\
        return { beam, straight, most, strut, drawn: view.solids.gl.getError() };";
    let answer = page.answer(steps, WIDE);
    let of = |key: &str, place: usize| answer[key][place].as_f64().expect("a number");
    // 1 N/mm · (1000 mm)⁴ / (384 · 210000 MPa · 10000 mm⁴); a quarter along 9/16 of it.
    let middle = 1e12 / (384.0 * 210_000.0 * 1e4);
    assert!((of("beam", 1) - middle).abs() < 1e-3 * middle, "{answer}");
    assert!((of("beam", 0) - 0.5625 * middle).abs() < 1e-3 * middle, "{answer}");
    assert!(answer["straight"].as_f64().expect("a number") < 1e-3 * middle, "{answer}");
    assert!(
        (answer["most"].as_f64().expect("a number") - middle).abs() < 1e-3 * middle,
        "the scale knows of it: {answer}"
    );
    // Between walls it buckles as 1 − cos: all of it in the middle, half of it a quarter along.
    assert!((of("strut", 1) - 1.0).abs() < 0.02 && (of("strut", 0) - 0.5).abs() < 0.08, "{answer}");
    assert_eq!(answer["drawn"], 0, "the graphics took it");
}
