//! What each parameter does to a response: a panel a parameter, all to one scale.

use strutwork_study::overview::{Effects, Estimate};

use super::{Named, data};
use crate::figures::furniture::cut;
use crate::figures::graph::{Axis, rules};
use crate::figures::svg::{Anchor, Path, Svg};
use crate::figures::{Figure, WIDTH, ink};
use crate::number::significant;

/// Parameters that are drawn.
const PANELS: usize = 16;
const COLUMNS: usize = 4;
const HIGH: f64 = 128.0;
const LEFT: f64 = 56.0;
const TOP: f64 = 30.0;
/// Room round the curve of a panel, px: left and right, above, below.
const INSIDE: (f64, f64, f64) = (12.0, 26.0, 26.0);
const LETTERS: usize = 25;
const VALUE_LETTERS: usize = 9;
/// So many standard errors on both sides of a mean hold it 95 times in 100.
const ERRORS: f64 = 1.96;

/// The picture; `None` where no parameter has answers at two of its values.
pub fn draw(effects: &Effects, parameters: &[&str], response: &Named) -> Option<Figure> {
    let mut order: Vec<(usize, f64)> =
        (0..parameters.len()).filter_map(|place| Some((place, effects.swing(place)?))).collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1));
    let hidden = order.len().saturating_sub(PANELS);
    order.truncate(PANELS);
    let answers = || order.iter().flat_map(|(parameter, _)| reaches(effects, *parameter));
    let rows = order.len().div_ceil(COLUMNS);
    let y = |row: usize| {
        let top = TOP + HIGH * row as f64;
        Axis::fitted(answers(), top + HIGH - INSIDE.2, top + INSIDE.1)
    };
    y(0)?;
    let label = format!("What each parameter does to {}", response.title);
    let mut svg = Svg::new(WIDTH, TOP + HIGH * rows as f64 + 4.0, "chart", &label);
    svg.open(&format!("fill=\"{}\" font-size=\"10.5\"", ink::INK));
    svg.text((12.0, 16.0), Anchor::Start, &response.whole());
    svg.close();
    for (place, (parameter, swing)) in order.iter().enumerate() {
        let left = LEFT + (WIDTH - LEFT - 8.0) / COLUMNS as f64 * (place % COLUMNS) as f64;
        let axis = y(place / COLUMNS)?;
        let panel = Panel { effects, parameter: *parameter, left, wide: (WIDTH - LEFT - 8.0) / COLUMNS as f64 - 8.0 };
        if place % COLUMNS == 0 {
            scale(&mut svg, &axis, left);
        }
        panel.frame(&mut svg, &axis);
        panel.curve(&mut svg, &axis, parameters[*parameter]);
        panel.words(&mut svg, &axis, parameters[*parameter], *swing);
    }
    Some(Figure { svg: svg.finish(), caption: caption(effects, response, hidden), wide: false })
}

/// Answers and the ends of their error bars.
fn reaches(effects: &Effects, parameter: usize) -> Vec<f64> {
    let parts = 0..effects.parts[parameter].len();
    parts
        .filter_map(|part| effects.at(parameter, part).map(|answer| (part, answer)))
        .flat_map(|(part, answer)| {
            let off = error(effects, parameter, part).unwrap_or(0.0);
            [answer - off, answer + off]
        })
        .collect()
}

/// Half the error bar of a mean of samples.
fn error(effects: &Effects, parameter: usize, part: usize) -> Option<f64> {
    let sums = effects.main[parameter][part];
    (effects.estimate == Estimate::Samples).then(|| sums.error().map(|error| ERRORS * error)).flatten()
}

fn scale(svg: &mut Svg, axis: &Axis, left: f64) {
    svg.open(&format!("fill=\"{}\" font-size=\"9\"", ink::INK));
    for (value, word) in axis.ticks() {
        svg.text((left - 5.0, axis.at(value) + 3.0), Anchor::End, &word);
    }
    svg.close();
}

struct Panel<'a> {
    effects: &'a Effects,
    parameter: usize,
    left: f64,
    wide: f64,
}

impl Panel<'_> {
    fn x(&self, part: usize) -> f64 {
        let parts = &self.effects.parts[self.parameter];
        let (from, to) = (self.left + INSIDE.0, self.left + self.wide - INSIDE.0);
        let share = match &parts.middles {
            Some(middles) if middles.len() > 1 => {
                let (first, last) = (middles[0], middles[middles.len() - 1]);
                (middles[part] - first) / (last - first)
            }
            _ if parts.len() > 1 => part as f64 / (parts.len() - 1) as f64,
            _ => 0.5,
        };
        from + (to - from) * share
    }

    fn frame(&self, svg: &mut Svg, axis: &Axis) {
        rules(svg, Path::new(), axis, (self.left, self.left + self.wide));
        svg.rectangle(
            (self.left, axis.end),
            (self.wide, axis.start - axis.end),
            &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".9\"", ink::GREY),
        );
    }

    fn curve(&self, svg: &mut Svg, axis: &Axis, name: &str) {
        let parts = &self.effects.parts[self.parameter];
        let (mut curve, mut bars) = (Path::new(), Path::new());
        let mut marks = Vec::new();
        for part in 0..parts.len() {
            let Some(answer) = self.effects.at(self.parameter, part) else { continue };
            let at = (self.x(part), axis.at(answer));
            if curve.is_empty() {
                curve.start(at)
            } else {
                curve.to(at)
            }
            if let Some(off) = error(self.effects, self.parameter, part) {
                bars.start((at.0, axis.at(answer - off)));
                bars.to((at.0, axis.at(answer + off)));
            }
            marks.push((part, at, answer));
        }
        // Words have no order: what joins them is broken.
        let dashes = if parts.middles.is_none() { " stroke-dasharray=\"3 3\"" } else { "" };
        svg.path(&curve, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\"{dashes}", ink::BLUE));
        svg.path(&bars, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1\"", ink::INK));
        for (part, at, answer) in marks {
            let fill = if self.effects.start_part(self.parameter) == Some(part) { ink::PAPER } else { ink::BLUE };
            let told = [("parameter", name.to_owned()), ("part", parts.labels[part].clone()), data("answer", answer)];
            svg.open_data(&format!("fill=\"{fill}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::BLUE), &told);
            svg.circle(at, 3.2);
            svg.close();
        }
    }

    fn words(&self, svg: &mut Svg, axis: &Axis, name: &str, swing: f64) {
        let parts = &self.effects.parts[self.parameter];
        svg.open(&format!("fill=\"{}\" font-size=\"9.5\" font-weight=\"600\"", ink::INK));
        svg.text((self.left, axis.end - 13.0), Anchor::Start, &cut(name, LETTERS));
        svg.close();
        svg.open(&format!("fill=\"{}\" font-size=\"9\"", ink::INK));
        svg.text((self.left, axis.end - 3.0), Anchor::Start, &format!("swing {}", significant(swing, 3)));
        let last = parts.len().saturating_sub(1);
        let base = axis.start + 11.0;
        let few = parts.len() <= 3;
        for part in 0..parts.len() {
            let (x, anchor) = match part {
                0 => (self.left + 2.0, Anchor::Start),
                _ if part == last => (self.left + self.wide - 2.0, Anchor::End),
                _ if few => (self.x(part), Anchor::Middle),
                _ => continue,
            };
            svg.text((x, base), anchor, &cut(&parts.labels[part], VALUE_LETTERS + usize::from(!few) * 6));
        }
        svg.close();
    }
}

fn caption(effects: &Effects, response: &Named, hidden: usize) -> String {
    let mut text = format!("What each parameter does to {}, the strongest first, all to one scale. ", response.title);
    text.push_str(match effects.estimate {
        Estimate::Means => {
            "Each mark is the mean over all variants with that value: every combination of the others is in it, so that they cancel."
        }
        Estimate::FromStart => "Each mark is one variant, in which only this parameter was changed. Open: the value that it starts from.",
        Estimate::Samples => {
            "Each mark is a mean over the samples in that part of the range; what the other parameters do is scatter in it, and its bar \
             holds the true mean 95 times in 100."
        }
    });
    if effects.estimate != Estimate::FromStart && effects.missing > 0 {
        text.push_str(&format!(
            " {} variants have no answer and are left out: the means are no longer over the same others, and must be read with care.",
            effects.missing
        ));
    }
    if hidden > 0 {
        text.push_str(&format!(" {hidden} parameters with less effect are left out."));
    }
    text
}
