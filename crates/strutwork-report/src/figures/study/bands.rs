//! How the answers of samples are spread: columns of counts, with the band that holds nine of ten.

use strutwork_study::overview::Spread;

use super::{Named, data};
use crate::figures::graph::Axis;
use crate::figures::svg::{Anchor, Path, Svg};
use crate::figures::{Figure, WIDTH, ink};
use crate::number::significant;
use crate::opening::opening;

const HEIGHT: f64 = 190.0;
/// Room round the field, px: left, top, right, bottom.
const ROOM: [f64; 4] = [48.0, 34.0, 16.0, 40.0];
/// Columns, at most.
const COLUMNS: usize = 40;
/// The band: per cent below its ends, and its middle.
const BAND: [f64; 3] = [5.0, 50.0, 95.0];

/// A response's band; `None` where no sample has it, or all have the same. `drawn`: the answer of the model as it is.
pub fn draw(spread: &Spread, response: &Named, drawn: Option<f64>) -> Option<Figure> {
    let columns = spread.histogram(COLUMNS);
    let width = columns.width();
    let most = columns.parts().map(|(_, count)| count).max().filter(|_| columns.parts().count() > 1)?;
    let [left, top, right, bottom] = ROOM;
    let ends = columns.parts().flat_map(|(from, _)| [from, from + width]).chain(drawn);
    let x = Axis::fitted(ends, left, WIDTH - right)?;
    let (base, high) = (HEIGHT - bottom, HEIGHT - bottom - top);
    let label = format!("How {} is spread over the samples", response.title);
    let mut svg = Svg::new(WIDTH, HEIGHT, "chart", &label);
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\".8\"", ink::TINT, ink::BODY));
    for (from, count) in columns.parts() {
        let tall = high * count as f64 / most as f64;
        svg.open_data("", &[data("from", from), data("to", from + width), ("count", count.to_string())]);
        svg.rectangle((x.at(from), base - tall), (x.at(from + width) - x.at(from), tall), "");
        svg.close();
    }
    svg.close();
    let mut frame = Path::new();
    frame.start((left, base));
    frame.to((WIDTH - right, base));
    svg.path(&frame, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.2\"", ink::INK));
    let percentiles: Vec<_> = BAND.iter().filter_map(|percent| spread.percentile(*percent)).collect();
    for percentile in &percentiles {
        let at = x.at(percentile.value);
        let mut line = Path::new();
        line.start((at, base));
        line.to((at, top - 6.0));
        let told = [data("percent", percentile.percent), data("value", percentile.value)];
        svg.open_data(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\"", ink::BLUE), &told);
        svg.path(&line, if percentile.percent == 50.0 { "" } else { "stroke-dasharray=\"6 3\"" });
        svg.close();
    }
    if let Some(drawn) = drawn {
        let at = x.at(drawn);
        let mut mark = Path::new();
        mark.start((at, base + 1.0));
        mark.to((at - 5.0, base + 10.0));
        mark.to((at + 5.0, base + 10.0));
        mark.shut();
        svg.path(&mark, &format!("fill=\"{}\"", ink::INK));
    }
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    for (value, word) in x.ticks() {
        svg.text((x.at(value), base + 22.0), Anchor::Middle, &word);
    }
    svg.text(((left + WIDTH - right) / 2.0, HEIGHT - 5.0), Anchor::Middle, &response.whole());
    svg.text((left - 6.0, base - high + 3.0), Anchor::End, &most.to_string());
    svg.text((left - 6.0, base), Anchor::End, "0");
    svg.close();
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"9.5\"", ink::BLUE));
    for (percentile, anchor) in percentiles.iter().zip([Anchor::End, Anchor::Middle, Anchor::Start]) {
        let nudge = match anchor {
            Anchor::End => 3.0,
            Anchor::Middle => 0.0,
            Anchor::Start => -3.0,
        };
        let said = format!("{} %: {}", percentile.percent, significant(percentile.value, 4));
        let row = if anchor == Anchor::Middle { top - 20.0 } else { top - 9.0 };
        svg.text((x.at(percentile.value) + nudge, row), anchor, &said);
    }
    svg.close();
    Some(Figure { svg: svg.finish(), caption: caption(spread, response, drawn, &percentiles), wide: false })
}

fn caption(
    spread: &Spread,
    response: &Named,
    drawn: Option<f64>,
    percentiles: &[strutwork_study::robustness::Percentile],
) -> String {
    let mut text = format!("{} of {} samples, counted in equal parts.", opening(&response.whole()), spread.sums.count);
    if let [low, _, high] = percentiles {
        text.push_str(&format!(
            " Nine of ten lie between {} and {} (broken lines); the full line halves them.",
            significant(low.value, 4),
            significant(high.value, 4)
        ));
        let between = |percentile: &strutwork_study::robustness::Percentile| match percentile.between {
            Some([from, to]) => format!("{} to {}", significant(from, 4), significant(to, 4)),
            None => "not told by so few samples".to_owned(),
        };
        text.push_str(&format!(
            " With other samples the two would lie within {} and {}, 95 times in 100.",
            between(low),
            between(high)
        ));
    }
    if let Some(deviation) = spread.sums.deviation() {
        text.push_str(&format!(
            " Mean {}, standard deviation {}.",
            significant(spread.sums.mean, 4),
            significant(deviation, 3)
        ));
    }
    if drawn.is_some() {
        text.push_str(" Triangle: the model as it is.");
    }
    if spread.infinite > 0 {
        text.push_str(&format!(" {} samples beyond all bounds are left out.", spread.infinite));
    }
    if !spread.is_exact() {
        text.push_str(&format!(" Percentiles are off by no more than {}.", significant(spread.step() / 2.0, 2)));
    }
    text.push_str(" The spread is that of the samples: it is no bound, and as true as what was varied and how far.");
    text
}
