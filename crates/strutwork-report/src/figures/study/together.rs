//! What parameters do by twos: a square for each pair, and curves of the strongest.

use strutwork_study::overview::{Effects, Estimate, Pair};

use super::{Named, data};
use crate::figures::colour::{hex, ramp};
use crate::figures::furniture::cut;
use crate::figures::graph::{Axis, frame, rules};
use crate::figures::svg::{Anchor, Path, Svg};
use crate::figures::{Figure, WIDTH, ink};
use crate::number::significant;

/// Parameters that are set against each other.
const MOST: usize = 10;
const NAMES: f64 = 170.0;
const CELL: (f64, f64) = (52.0, 19.0);
const TOP: f64 = 40.0;
const LETTERS: usize = 28;
/// The darkest shade: a number must stay readable on it.
const DARKEST: f64 = 0.42;
/// Height of the curves of the strongest pair.
const CURVES: f64 = 220.0;
/// How curves of the values of the second parameter are told apart.
const DASHES: [&str; 8] = ["", "7 3", "2 3", "9 3 2 3", "12 4", "1 4", "5 2 5 6", "3 1"];

/// The picture; `None` where the design tells no pair apart.
pub fn draw(effects: &Effects, parameters: &[&str], response: &Named) -> Option<Figure> {
    let strongest = effects.strongest();
    let (most, first) = strongest.first().map(|(strength, pair)| (*strength, *pair))?;
    let mut shown: Vec<usize> = Vec::new();
    for (_, pair) in &strongest {
        for place in [pair.one, pair.other] {
            if shown.len() < MOST && !shown.contains(&place) {
                shown.push(place);
            }
        }
    }
    shown.sort_unstable();
    let grid = TOP + CELL.1 * shown.len() as f64 + 16.0;
    let label = format!("What parameters do to {} by twos, beyond what each does alone", response.title);
    let mut svg = Svg::new(WIDTH, grid + CURVES, "chart", &label);
    let of_pair = |one: usize, other: usize| {
        strongest.iter().find(|(_, pair)| (pair.one, pair.other) == (one.min(other), one.max(other)))
    };
    svg.open(&format!("stroke=\"{}\" stroke-width=\".6\"", ink::FAINT));
    for (row, one) in shown.iter().enumerate() {
        for (column, other) in shown.iter().enumerate().take(row) {
            let Some((strength, _)) = of_pair(*one, *other) else { continue };
            let corner = (NAMES + CELL.0 * column as f64, TOP + CELL.1 * row as f64);
            let shade = if most > 0.0 { (strength / most).sqrt() * DARKEST } else { 0.0 };
            let told = [
                ("one", parameters[*other].to_owned()),
                ("other", parameters[*one].to_owned()),
                data("beyond", *strength),
            ];
            svg.open_data("", &told);
            svg.rectangle(corner, CELL, &format!("fill=\"{}\"", hex(ramp(shade))));
            svg.close();
        }
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    svg.text((12.0, 16.0), Anchor::Start, &format!("{}: beyond what each does alone", response.whole()));
    for (row, one) in shown.iter().enumerate() {
        let base = TOP + CELL.1 * row as f64 + 13.0;
        svg.text((NAMES - 6.0, base), Anchor::End, &format!("{} {}", cut(parameters[*one], LETTERS), letter(row)));
        for (column, other) in shown.iter().enumerate().take(row) {
            if let Some((strength, _)) = of_pair(*one, *other) {
                let at = (NAMES + CELL.0 * (column as f64 + 0.5), base);
                svg.text(at, Anchor::Middle, &significant(*strength, 2));
            }
        }
        svg.text((NAMES + CELL.0 * (row as f64 + 0.5), base), Anchor::Middle, &letter(row).to_string());
    }
    svg.close();
    curves(&mut svg, effects, first, parameters, response, grid);
    Some(Figure { svg: svg.finish(), caption: caption(effects, response), wide: false })
}

fn letter(place: usize) -> char {
    char::from(b'A' + u8::try_from(place % 26).unwrap_or(0))
}

/// The answers over one parameter of a pair, a curve for each value of the other.
fn curves(svg: &mut Svg, effects: &Effects, pair: &Pair, parameters: &[&str], response: &Named, top: f64) {
    let (ones, others) = (&effects.parts[pair.one], &effects.parts[pair.other]);
    let cells = || (0..ones.len()).flat_map(|one| (0..others.len()).map(move |other| (one, other)));
    let answers = cells().filter_map(|(one, other)| effects.both(pair, one, other));
    let (left, right) = (76.0, 480.0);
    let Some(y) = Axis::fitted(answers, top + CURVES - 40.0, top + 26.0) else { return };
    let x = |part: usize| left + 24.0 + (right - left - 48.0) * (part as f64 + 0.5) / ones.len() as f64;
    rules(svg, Path::new(), &y, (left, right));
    frame(svg, &y, (left, right));
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\"", ink::BLUE));
    let sample = |other: usize| top + 44.0 + 16.0 * other as f64;
    for other in 0..others.len() {
        let dashes = DASHES[other % DASHES.len()];
        let dashes = if dashes.is_empty() { String::new() } else { format!("stroke-dasharray=\"{dashes}\"") };
        let mut path = Path::new();
        for (part, answer) in (0..ones.len()).filter_map(|one| Some((one, effects.both(pair, one, other)?))) {
            let at = (x(part), y.at(answer));
            if path.is_empty() { path.start(at) } else { path.to(at) }
        }
        svg.path(&path, &dashes);
        let mut key = Path::new();
        key.start((right + 22.0, sample(other)));
        key.to((right + 56.0, sample(other)));
        svg.path(&key, &dashes);
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    for (value, word) in y.ticks() {
        svg.text((left - 5.0, y.at(value) + 3.2), Anchor::End, &word);
    }
    for part in 0..ones.len() {
        svg.text((x(part), y.start + 13.0), Anchor::Middle, &cut(&ones.labels[part], 14));
    }
    svg.text(((left + right) / 2.0, y.start + 28.0), Anchor::Middle, parameters[pair.one]);
    svg.turned_text((14.0, (y.start + y.end) / 2.0), -90.0, &response.whole());
    svg.text((right + 22.0, top + 28.0), Anchor::Start, &cut(parameters[pair.other], LETTERS));
    for other in 0..others.len() {
        svg.text((right + 62.0, sample(other) + 3.2), Anchor::Start, &cut(&others.labels[other], 20));
    }
    svg.close();
    svg.open(&format!("fill=\"{}\"", ink::BLUE));
    for (one, other) in cells() {
        if let Some(answer) = effects.both(pair, one, other) {
            let told =
                [("one", ones.labels[one].clone()), ("other", others.labels[other].clone()), data("answer", answer)];
            svg.open_data("", &told);
            svg.circle((x(one), y.at(answer)), 2.6);
            svg.close();
        }
    }
    svg.close();
}

fn caption(effects: &Effects, response: &Named) -> String {
    let mut text = format!(
        "What two parameters do to {} together, beyond what each does alone: the largest such part of an answer, in the unit of the \
         answer. Below, the strongest pair: curves that run alongside each other do not mind each other.",
        response.title
    );
    text.push_str(match effects.estimate {
        Estimate::Means => " Means over every combination of the other parameters.",
        Estimate::FromStart => " From variants in which these two alone were changed.",
        Estimate::Samples => " Means over samples: what the other parameters do is scatter in them. Pairs are shown where a mean stands out of it by four standard errors or more; an empty square is one that does not.",
    });
    if effects.is_cut() {
        text.push_str(" Only the first parameters of the study are looked at by twos.");
    }
    text
}
