//! The frame with every tube coloured by its utilisation: darker and thicker where more is used.

use super::furniture::{self, Key, STRIP};
use super::svg::{Anchor, Path, Svg};
use super::view::{Sheet, Shown, View};
use super::{Figure, WIDTH, colour, ink};
use crate::run::Run;
use crate::utilisation::Utilisations;

/// Steps of a tenth, and one for what exceeds its limit.
const BANDS: usize = 11;
/// The last of them.
const OVER: usize = BANDS - 1;

/// The greatest utilisation of every tube over all cases, in one view.
pub fn draw(run: &Run<'_>, utilisations: &Utilisations<'_>, view: View) -> Figure {
    let model = run.model;
    let sheet = Sheet::fit(model, view, Shown::Frame, (WIDTH, 340.0), 22.0);
    let drawing = sheet.height.max(80.0);
    let label = format!("Greatest utilisation of every tube, {}", view.title());
    let mut svg = Svg::new(WIDTH, drawing + STRIP + 44.0, "frame", &label);

    let mut bands = vec![Path::new(); BANDS];
    let mut unjudged = Path::new();
    for (id, finding) in utilisations.by_tube.iter_with_id() {
        let [from, to] = model.tube_ends(id);
        let value = finding.and_then(|finding| finding.utilisation);
        let path = value.map_or(&mut unjudged, |value| &mut bands[band(value)]);
        path.start(sheet.at(from));
        path.to(sheet.at(to));
    }
    svg.open("fill=\"none\" stroke-linecap=\"round\"");
    svg.path(&unjudged, UNJUDGED);
    for (band, path) in bands.iter().enumerate() {
        svg.path(path, &stroke(band));
    }
    // Over the limit, a light core runs along the dark line: seen without colour too.
    svg.path(&bands[OVER], &format!("stroke=\"{}\" stroke-width=\"1.3\" stroke-dasharray=\"5 4\"", ink::PAPER));
    svg.close();

    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, WIDTH - 26.0, drawing + 22.0);
    bar(&mut svg, (96.0, drawing + STRIP - 4.0), !bands[OVER].is_empty());
    if !unjudged.is_empty() {
        let key = Key { stroke: UNJUDGED.into(), text: "not judged".into() };
        let mut sample = Path::new();
        sample.start((WIDTH - 110.0, drawing + STRIP + 2.0));
        sample.to((WIDTH - 80.0, drawing + STRIP + 2.0));
        svg.open("fill=\"none\"");
        svg.path(&sample, &key.stroke);
        svg.close();
        svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
        svg.text((WIDTH - 74.0, drawing + STRIP + 5.3), Anchor::Start, &key.text);
        svg.close();
    }
    Figure {
        svg: svg.finish(),
        wide: false,
        caption: format!(
            "{}. Greatest utilisation of every tube over all load cases and all checks made: the darker and thicker, \
             the nearer to its limit.",
            view.title()
        ),
    }
}

const UNJUDGED: &str = "stroke=\"#6b747c\" stroke-width=\"1\" stroke-dasharray=\"1.5 2.5\"";

fn band(utilisation: f64) -> usize {
    if utilisation > 1.0 {
        return OVER;
    }
    ((utilisation.max(0.0) * 10.0).floor() as usize).min(OVER - 1)
}

fn stroke(band: usize) -> String {
    let colour = colour::hex(colour::ramp((band as f64 + 0.5) / BANDS as f64));
    let width = if band == OVER { 5.6 } else { 1.6 + 0.28 * band as f64 };
    format!("stroke=\"{colour}\" stroke-width=\"{width:.1}\"")
}

/// The scale: a sample of every band, numbered at its edges.
fn bar(svg: &mut Svg, corner: (f64, f64), over: bool) {
    const STEP: f64 = 36.0;
    svg.open("fill=\"none\"");
    let shown = if over { BANDS } else { OVER };
    for band in 0..shown {
        let gap = if band == OVER { 14.0 } else { 0.0 };
        let x = corner.0 + STEP * band as f64 + gap;
        let mut path = Path::new();
        path.start((x + 2.0, corner.1 + 6.0));
        path.to((x + STEP - 2.0, corner.1 + 6.0));
        svg.path(&path, &stroke(band));
        if band == OVER {
            svg.path(&path, &format!("stroke=\"{}\" stroke-width=\"1.3\" stroke-dasharray=\"5 4\"", ink::PAPER));
        }
    }
    svg.close();
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    svg.text((corner.0 - 8.0, corner.1 + 9.3), Anchor::End, "utilisation");
    for edge in 0..=10_u8 {
        let text = format!("{:.1}", f64::from(edge) / 10.0);
        svg.text((corner.0 + STEP * f64::from(edge), corner.1 + 22.0), Anchor::Middle, &text);
    }
    if over {
        svg.text((corner.0 + STEP * 10.5 + 14.0, corner.1 + 22.0), Anchor::Middle, "over 1");
    }
    svg.close();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exactly_the_limit_is_not_over_it() {
        assert_eq!(band(1.0), OVER - 1);
        assert_eq!(band(1.000_001), OVER);
        assert_eq!(band(0.0), 0);
        assert_eq!(band(0.55), 5);
    }
}
