//! The numbers that the pictures of a study show are those of its table, and of differences.

use crate::harness::{put, strutwork, text};
use crate::study_page::{GRID, cart, columns, data, number, numbers, study};

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

/// The couple of the twist case follows from a vehicle's masses, and so from the walls: each variant's own counts.
#[test]
fn the_stiffness_of_a_vehicles_variant_is_that_of_a_run() {
    let place = cart();
    study(place.path(), "one", "s.vary_wall(\"braces\", [1.9, 2.0, 2.7]);", &[]).expect(0);
    let told = numbers(&columns(&place.path().join("studies/one.csv")), "stiffness_nm_per_deg");
    let (model, tubes) = (text(&place.path().join("model.toml")), text(&place.path().join("tubes.csv")));
    for (wall, told) in [1.9, 2.0, 2.7].into_iter().zip(told) {
        let other = format!("{model}\n[sections.other]\nshape = \"square\"\nwidth_mm = 30.0\nwall_mm = {wall:.1}\n");
        put(&place.path().join("model.toml"), other);
        let braces =
            |line: &str| if line.ends_with(",braces") { line.replace(",rail,", ",other,") } else { line.to_owned() };
        put(&place.path().join("tubes.csv"), tubes.lines().map(braces).collect::<Vec<_>>().join("\n") + "\n");
        strutwork(place.path(), &["run", "."]).expect_done();
        let cases = csv::Reader::from_path(place.path().join("results/cases.csv")).expect("a table").into_records();
        let rows: Vec<csv::StringRecord> = cases.map(|row| row.expect("a row")).collect();
        let run = rows.iter().find(|row| &row[1] == "torsional_stiffness").expect("a stiffness")[2]
            .parse::<f64>()
            .expect("a number");
        assert!((told / run - 1.0).abs() < 1e-9, "wall {wall}: {told} and {run}");
    }
}
