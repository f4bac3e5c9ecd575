//! Lines against a public reference set, a second program, closed forms and laws.

use proptest::prelude::*;
use strutwork_rig::line::{median, steady_line, student};
use strutwork_rig::{Sample, fit_line};

/// NIST Statistical Reference Datasets, linear regression, "Norris": y, x.
const NORRIS: [[f64; 2]; 36] = [
    [0.1, 0.2],
    [338.8, 337.4],
    [118.1, 118.2],
    [888.0, 884.6],
    [9.2, 10.1],
    [228.1, 226.5],
    [668.5, 666.3],
    [998.5, 996.3],
    [449.1, 448.6],
    [778.9, 777.0],
    [559.2, 558.2],
    [0.3, 0.4],
    [0.1, 0.6],
    [778.1, 775.5],
    [668.8, 666.9],
    [339.3, 338.0],
    [448.9, 447.5],
    [10.8, 11.6],
    [557.7, 556.0],
    [228.3, 228.1],
    [998.0, 995.8],
    [888.8, 887.6],
    [119.6, 120.2],
    [0.3, 0.3],
    [0.6, 0.3],
    [557.6, 556.8],
    [339.3, 339.1],
    [888.0, 887.2],
    [998.5, 999.0],
    [778.9, 779.0],
    [10.2, 11.1],
    [117.6, 118.3],
    [228.9, 229.2],
    [668.4, 669.1],
    [449.2, 448.9],
    [0.2, 0.5],
];

#[test]
fn meets_the_certified_values_of_norris() {
    let samples: Vec<Sample> = NORRIS.iter().map(|[y, x]| Sample { x: *x, y: *y, group: 0 }).collect();
    let line = fit_line(&samples).expect("a line");
    let close =
        |value: f64, certified: f64| assert!((value / certified - 1.0).abs() < 1e-11, "{value} is not {certified}");
    close(line.slope, 1.002_116_818_020_45);
    close(line.error, 0.429_796_848_199_937e-3);
    close(line.levels[0].1, -0.262_323_073_774_029);
    close(line.scatter, 0.884_796_396_144_373);
    close(line.taken_up, 0.999_993_745_883_712);
    assert_eq!(line.freedom, 34);
}

/// `tests/second/student.csv`: quantiles and lines of `scipy.stats`, written by `tests/second/student.py`.
#[test]
fn meets_a_second_program() {
    let table = include_str!("../second/student.csv");
    let mut seen = 0;
    for row in table.lines().filter(|line| !line.starts_with(['#', 'k'])) {
        let cells: Vec<&str> = row.split(',').collect();
        let number = |place: usize| cells[place].parse::<f64>().expect("a number");
        let (ours, theirs) = match cells[0] {
            "quantile" => (student(number(2), cells[1].parse().expect("a number")), number(3)),
            "slope" | "error" => {
                let samples: Vec<Sample> = cells[1..cells.len() - 1]
                    .chunks(2)
                    .map(|pair| Sample { x: pair[0].parse().expect("x"), y: pair[1].parse().expect("y"), group: 0 })
                    .collect();
                let line = fit_line(&samples).expect("a line");
                (if cells[0] == "slope" { line.slope } else { line.error }, number(cells.len() - 1))
            }
            other => panic!("{other}"),
        };
        // The library finds quantiles by iteration; it is out by 1e-9 for one degree of freedom, where nothing is stated.
        let within = if cells[0] == "quantile" { 1e-8 } else { 1e-12 };
        assert!((ours / theirs - 1.0).abs() < within, "{row}: {ours}");
        seen += 1;
    }
    assert_eq!(seen, 28);
}

#[test]
fn too_few_readings_make_no_line() {
    let at = |x: f64, group: usize| Sample { x, y: 2.0 * x, group };
    assert!(fit_line(&[]).is_none());
    assert!(fit_line(&[at(1.0, 0), at(2.0, 0)]).is_none(), "no degree of freedom is left");
    assert!(fit_line(&[at(1.0, 0), at(1.0, 0), at(1.0, 0)]).is_none(), "one x");
    assert!(fit_line(&[at(1.0, 0), at(2.0, 1), at(3.0, 2)]).is_none(), "a group each");
    let line = fit_line(&[at(1.0, 0), at(2.0, 0), at(3.0, 0)]).expect("a line");
    assert!((line.slope - 2.0).abs() < 1e-15 && line.scatter < 1e-14);
    assert_eq!(median(vec![3.0, 1.0, f64::NAN, 2.0, 10.0]), Some(2.5));
    assert_eq!(median(Vec::new()), None);
}

proptest! {
    /// A level added to a group moves that level alone; a slope added to all adds to the slope.
    #[test]
    fn levels_and_slopes_add(
        ys in proptest::collection::vec(-1.0..1.0_f64, 12), level in -5.0..5.0_f64, slope in -3.0..3.0_f64,
    ) {
        let samples: Vec<Sample> =
            ys.iter().enumerate().map(|(place, y)| Sample { x: (place / 2) as f64, y: *y, group: place % 2 }).collect();
        let moved: Vec<Sample> = samples
            .iter()
            .map(|s| Sample { y: s.y + slope * s.x + if s.group == 1 { level } else { 0.0 }, ..*s })
            .collect();
        let (one, other) = (fit_line(&samples).unwrap(), fit_line(&moved).unwrap());
        prop_assert!((other.slope - one.slope - slope).abs() < 1e-12);
        prop_assert!((other.scatter - one.scatter).abs() < 1e-12);
        prop_assert!((other.levels[1].1 - one.levels[1].1 - level).abs() < 1e-11);
        prop_assert!((other.levels[0].1 - one.levels[0].1).abs() < 1e-11);
    }

    /// The normal equations: what is left over is perpendicular to every column.
    #[test]
    fn what_is_left_is_perpendicular(ys in proptest::collection::vec(-1.0..1.0_f64, 15)) {
        let samples: Vec<Sample> =
            ys.iter().enumerate().map(|(place, y)| Sample { x: (place * place) as f64, y: *y, group: place % 3 }).collect();
        let line = fit_line(&samples).unwrap();
        let left = |s: &Sample| s.y - line.at(s.x, s.group).unwrap();
        prop_assert!(samples.iter().map(|s| s.x * left(s)).sum::<f64>().abs() < 1e-9);
        for group in 0..3 {
            prop_assert!(samples.iter().filter(|s| s.group == group).map(left).sum::<f64>().abs() < 1e-11);
        }
    }

    /// Three wild readings of twelve do not move the steady line.
    #[test]
    fn wild_readings_do_not_move_the_steady_line(wild in proptest::collection::vec(0_usize..12, 3), by in -1e3..1e3_f64) {
        let mut samples: Vec<Sample> =
            (0..12).map(|place| Sample { x: f64::from(place), y: 0.5 * f64::from(place) + 1.0, group: 0 }).collect();
        for place in wild {
            samples[place].y += by;
        }
        let line = steady_line(&samples).unwrap();
        prop_assert!((line.slope - 0.5).abs() < 1e-12);
        prop_assert!((line.at(3.0, 0).unwrap() - 2.5).abs() < 1e-9);
    }
}
