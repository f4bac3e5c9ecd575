//! The frame with every tube coloured by what stiffness costs on it: grams of wall for each N·m/deg, dark and thick where it is
//! cheap.

use strutwork_model::{Model, TubeId};
use strutwork_study::sensitivity::Worth;

use super::furniture::{self, NOTHING, STRIP};
use super::labels::Labels;
use super::svg::{Anchor, Path, Svg};
use super::view::{Sheet, Shown, View};
use super::{Figure, WIDTH, colour, ink};
use crate::number::{as_given, significant};

/// Bounds between steps, at most.
const MOST: usize = 7;
/// Tubes whose price is written beside them.
const NUMBERED: usize = 10;
const NUMBER_TEXT: f64 = 9.0;
/// Of 100 tubes so many are cheaper than the first bound, or dearer than the last.
const OUTSIDE: f64 = 0.08;

/// The steps in which prices are told: bounds of round size, g for each N·m/deg.
#[derive(Debug, Clone, PartialEq)]
pub struct Steps {
    /// From the cheapest up; a step below the first, one above the last.
    pub edges: Vec<f64>,
}

impl Steps {
    /// Steps that part the tubes of a frame.
    pub fn of(worth: &Worth) -> Self {
        // A wall without weight costs nothing, and no power of ten is as low as that.
        let told = |grams: &f64| grams.is_finite() && *grams > 0.0;
        let mut prices: Vec<f64> = worth.grams.iter().copied().flatten().filter(told).collect();
        prices.sort_by(f64::total_cmp);
        Self::between(&prices)
    }

    fn between(sorted: &[f64]) -> Self {
        let (Some(first), Some(last)) = (sorted.first(), sorted.last()) else { return Self { edges: vec![1.0] } };
        let at = |share: f64| sorted[((sorted.len() - 1) as f64 * share).round() as usize];
        let (low, high) = (at(OUTSIDE).max(first * (1.0 + 1e-9)), at(1.0 - OUTSIDE).min(*last));
        // 1, 2 and 5 in every power of ten; where these are too many, powers of ten alone, then every second of them.
        for (steps, every) in
            [(&[1.0, 2.0, 5.0][..], 1_i32), (&[1.0, 3.0], 1), (&[1.0], 1), (&[1.0], 2), (&[1.0], 4), (&[1.0], 100)]
        {
            let decades = (low.log10().floor() as i32 - 1)..=(high.log10().ceil() as i32);
            let all = decades
                .filter(|decade| decade.rem_euclid(every) == 0)
                .flat_map(|decade| steps.iter().map(move |step| step * 10.0_f64.powi(decade)));
            let edges: Vec<f64> = all.filter(|edge| (low * 0.999..=high * 1.001).contains(edge)).map(rounded).collect();
            if edges.len() <= MOST && !edges.is_empty() {
                return Self { edges };
            }
        }
        Self { edges: vec![rounded(10.0_f64.powi(low.log10().round() as i32))] }
    }

    /// The step of a price.
    fn place(&self, grams: f64) -> usize {
        self.edges.partition_point(|edge| *edge <= grams)
    }

    fn len(&self) -> usize {
        self.edges.len() + 1
    }

    fn shade(&self, step: usize) -> colour::Rgb {
        colour::ramp(0.97 - 0.92 * step as f64 / self.edges.len() as f64)
    }

    fn stroke(&self, step: usize) -> String {
        let width = 5.4 - 4.0 * step as f64 / self.edges.len() as f64;
        format!("stroke=\"{}\" stroke-width=\"{width:.1}\"", colour::hex(self.shade(step)))
    }

    fn words(&self, step: usize) -> String {
        match (step.checked_sub(1).map(|below| self.edges[below]), self.edges.get(step)) {
            (None, Some(edge)) => format!("under {}", as_given(*edge)),
            (Some(edge), Some(next)) => format!("{} to {}", as_given(edge), as_given(*next)),
            (Some(edge), None) => format!("{} and more", as_given(edge)),
            (None, None) => String::new(),
        }
    }
}

/// Without the last bits that a power of ten brings.
fn rounded(edge: f64) -> f64 {
    format!("{edge:.3e}").parse().unwrap_or(edge)
}

/// The frame in one view; each tube's price in steps, the cheapest numbered.
pub fn draw(model: &Model, worth: &Worth, view: View) -> Figure {
    let sheet = Sheet::fit(model, view, Shown::Frame, (WIDTH, 360.0), 22.0);
    let drawing = sheet.height.max(80.0);
    let steps = Steps::of(worth);
    let label = format!("What stiffness costs on every tube, {}", view.title());
    let mut svg = Svg::new(WIDTH, drawing + STRIP + 36.0, "frame", &label);
    let mut paths = vec![Path::new(); steps.len()];
    let mut nothing = Path::new();
    for (id, grams) in worth.grams.iter_with_id() {
        let [from, to] = model.tube_ends(id);
        let path = grams.map_or(&mut nothing, |grams| &mut paths[steps.place(grams)]);
        path.start(sheet.at(from));
        path.to(sheet.at(to));
    }
    svg.open("fill=\"none\" stroke-linecap=\"round\"");
    svg.path(&nothing, NOTHING);
    for (step, path) in paths.iter().enumerate().rev() {
        svg.path(path, &steps.stroke(step));
    }
    svg.close();
    numbers(&mut svg, model, worth, &sheet);
    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, WIDTH - 26.0, drawing + 22.0);
    legend(&mut svg, &steps, &paths, !nothing.is_empty(), drawing + STRIP - 4.0);
    let caption = format!(
        "{}. What torsional stiffness costs: grams of wall for each N·m/deg more, were the wall of this tube alone a little thicker \
         (case {}). Dark and thick: stiffness is cheap here, the tube earns its weight; pale and thin: it is dear here, and weight \
         may be saved. It says nothing of strength.",
        view.title(),
        worth.case
    );
    Figure { svg: svg.finish(), caption, wide: false }
}

/// The price beside the cheapest tubes.
fn numbers(svg: &mut Svg, model: &Model, worth: &Worth, sheet: &Sheet) {
    let mut labels = Labels::off_tubes(model, sheet);
    let mut priced: Vec<(TubeId, f64)> =
        worth.grams.iter_with_id().filter_map(|(id, grams)| Some((id, (*grams)?))).collect();
    priced.sort_by(|a, b| a.1.total_cmp(&b.1));
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{NUMBER_TEXT}\" font-weight=\"600\"", ink::INK));
    for (tube, grams) in priced.into_iter().take(NUMBERED) {
        let [from, to] = model.tube_ends(tube).map(|end| sheet.at(end));
        labels.around(svg, ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0), NUMBER_TEXT, &significant(grams, 3));
    }
    svg.close();
}

fn legend(svg: &mut Svg, steps: &Steps, paths: &[Path], nothing: bool, top: f64) {
    let room = (WIDTH - 24.0) / (steps.len() + usize::from(nothing)) as f64;
    let sample = |place: usize| {
        let mut path = Path::new();
        path.start((14.0 + room * place as f64, top + 18.0));
        path.to((14.0 + room * (place as f64 + 0.8), top + 18.0));
        path
    };
    svg.open("fill=\"none\"");
    for step in 0..paths.len() {
        svg.path(&sample(step), &steps.stroke(step));
    }
    if nothing {
        svg.path(&sample(steps.len()), NOTHING);
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    svg.text((14.0, top + 9.0), Anchor::Start, "g for each N·m/deg");
    for step in 0..paths.len() {
        svg.text((14.0 + room * (step as f64 + 0.4), top + 33.0), Anchor::Middle, &steps.words(step));
    }
    if nothing {
        svg.text((14.0 + room * (steps.len() as f64 + 0.4), top + 33.0), Anchor::Middle, "brings none");
    }
    svg.close();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bounds_are_round_few_and_part_the_prices() {
        for (prices, wanted) in [
            (vec![4.0, 6.0, 8.0, 15.0, 30.0, 45.0], vec![5.0, 10.0, 20.0]),
            (vec![1.5, 40.0, 1e3, 3e4], vec![1e1, 1e2, 1e3, 1e4]),
            (vec![], vec![1.0]),
            (vec![7.0], vec![10.0]),
        ] {
            assert_eq!(Steps::between(&prices).edges, wanted, "{prices:?}");
        }
        let wide = Steps::between(&[1e-300, 1.0, 1e3, 1e300]);
        assert!(wide.edges.len() <= MOST && !wide.edges.is_empty() && wide.edges.is_sorted(), "{wide:?}");
        let steps = Steps { edges: vec![5.0, 10.0] };
        assert_eq!([1.0, 5.0, 9.9, 10.0].map(|grams| steps.place(grams)), [0, 1, 1, 2]);
        assert_eq!([0, 1, 2].map(|step| steps.words(step)), ["under 5", "5 to 10", "10 and more"]);
    }

    #[test]
    fn walls_without_weight_are_cheaper_than_every_bound() {
        let of = |grams: &[f64]| Worth {
            case: "twist".to_owned(),
            stiffness_nm_per_deg: 1.0,
            tubes: Vec::new(),
            groups: Vec::new(),
            grams: grams.iter().map(|grams| Some(*grams)).collect(),
            energy: grams.iter().map(|_| 0.0).collect(),
        };
        assert_eq!(Steps::of(&of(&[0.0; 30])).edges, [1.0]);
        let some = Steps::of(&of(&[[0.0; 20].as_slice(), &[4.0, 6.0, 8.0, 15.0, 30.0, 45.0]].concat()));
        assert_eq!(some.edges, [5.0, 10.0, 20.0]);
        assert_eq!(some.place(0.0), 0);
    }
}
