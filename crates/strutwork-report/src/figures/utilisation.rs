//! The frame with every tube coloured by its utilisation, darker and thicker where more is used, and every joint marked by what
//! happens at the tube ends there.

use strutwork_checks::Finding;
use strutwork_model::{IndexVec, JointId};

use super::furniture::{self, NOTHING, STRIP};
use super::labels::Labels;
use super::svg::{Anchor, Path, Svg};
use super::view::{Sheet, Shown, View};
use super::{Figure, MANY_JOINTS, WIDTH, colour, ink};
use crate::number::fixed;
use crate::run::Run;
use crate::utilisation::Utilisations;

/// Steps of a tenth, and one for what exceeds its limit.
const BANDS: usize = 11;
/// The last of them.
const OVER: usize = BANDS - 1;
/// Tubes and joints whose utilisation is written beside them, of each this many.
const NUMBERED: usize = 6;
const NUMBER_TEXT: f64 = 9.0;

/// The greatest utilisation of every tube and of the tube ends at every joint, over all cases, in one view.
pub fn draw(run: &Run<'_>, utilisations: &Utilisations<'_>, view: View) -> Figure {
    let model = run.model;
    let sheet = Sheet::fit(model, view, Shown::Frame, (WIDTH, 340.0), 22.0);
    let drawing = sheet.height.max(80.0);
    let label = format!("Greatest utilisation of every tube and every joint, {}", view.title());
    let joints = joints(run, utilisations);
    let strips = if joints.is_empty() { STRIP + 30.0 } else { STRIP + 54.0 };
    let mut svg = Svg::new(WIDTH, drawing + strips, "frame", &label);

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
    svg.path(&unjudged, NOTHING);
    for (band, path) in bands.iter().enumerate() {
        svg.path(path, &stroke(band));
    }
    // Over the limit, a light core runs along the dark line: seen without colour too.
    svg.path(&bands[OVER], &format!("stroke=\"{}\" stroke-width=\"1.3\" stroke-dasharray=\"5 4\"", ink::PAPER));
    svg.close();

    for (joint, finding) in joints.iter().rev() {
        mark(&mut svg, sheet.at(model.joints()[*joint].at), finding);
    }
    numbers(&mut svg, run, utilisations, &joints, &sheet);

    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, WIDTH - 26.0, drawing + 22.0);
    let over = !bands[OVER].is_empty() || joints.iter().any(|(_, finding)| finding.utilisation > Some(1.0));
    bar(&mut svg, (96.0, drawing + STRIP - 4.0), over);
    keys(&mut svg, drawing + STRIP + 2.0, !unjudged.is_empty(), &joints, over);
    Figure { svg: svg.finish(), wide: false, caption: caption(view, &joints) }
}

fn caption(view: View, joints: &[(JointId, &Finding)]) -> String {
    let mut text = format!(
        "{}. Lines: the greatest utilisation of every tube between its joints, over all load cases and checks; the darker and \
         thicker, the nearer to its limit.",
        view.title()
    );
    if !joints.is_empty() {
        text.push_str(
            " At joints: the greatest of what happens at the tube ends there, the wall, the weld and the steel beside it. A \
             disc lies within the scope of its clause; an open ring lies outside it and is no pass.",
        );
        if joints.len() == MANY_JOINTS {
            text.push_str(&format!(" Only the {MANY_JOINTS} worst joints are marked."));
        }
    }
    let numbered = if joints.is_empty() { "" } else { ", joints in black, tubes in blue" };
    text.push_str(&format!(" Numbers stand at the worst{numbered}."));
    text
}

/// The worst finding at the tube ends of every joint, the worst joint first; at most [`MANY_JOINTS`].
fn joints<'a>(run: &Run<'a>, utilisations: &Utilisations<'a>) -> Vec<(JointId, &'a Finding)> {
    let mut worst: IndexVec<JointId, Option<&Finding>> = run.model.joints().ids().map(|_| None).collect();
    for (tube, ends) in run.model.tubes().iter().zip(utilisations.by_end.iter()) {
        for (joint, finding) in [tube.from, tube.to].into_iter().zip(ends) {
            let slot = &mut worst[joint];
            if let Some(finding) = finding
                && slot.is_none_or(|known| finding.utilisation > known.utilisation)
            {
                *slot = Some(finding);
            }
        }
    }
    let mut joints: Vec<_> = worst.iter_with_id().filter_map(|(joint, finding)| Some((joint, (*finding)?))).collect();
    let used = |finding: &Finding| finding.utilisation.unwrap_or(0.0);
    joints.sort_by(|a, b| used(b.1).total_cmp(&used(a.1)));
    joints.truncate(MANY_JOINTS);
    joints
}

/// A disc; outside the scope of its clause an open ring; with a second ring round it where it is over its limit.
fn mark(svg: &mut Svg, at: (f64, f64), finding: &Finding) {
    sample(svg, at, band(finding.utilisation.unwrap_or(0.0)), finding.is_outside());
}

fn sample(svg: &mut Svg, at: (f64, f64), band: usize, outside: bool) {
    let ink = colour::hex(shade(band));
    let radius = radius(band);
    if outside {
        svg.open(&format!("fill=\"{}\" stroke=\"{ink}\" stroke-width=\"2\"", ink::PAPER));
        svg.circle(at, radius - 1.0);
    } else {
        svg.open(&format!("fill=\"{ink}\" stroke=\"{}\" stroke-width=\".8\"", ink::PAPER));
        svg.circle(at, radius);
    }
    svg.close();
    if band == OVER {
        svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\"", ink::RED));
        svg.circle(at, radius + 2.4);
        svg.close();
    }
}

fn radius(band: usize) -> f64 {
    2.6 + 0.26 * band as f64
}

/// The utilisation beside the worst tubes and joints.
fn numbers(
    svg: &mut Svg,
    run: &Run<'_>,
    utilisations: &Utilisations<'_>,
    joints: &[(JointId, &Finding)],
    sheet: &Sheet,
) {
    let mut labels = Labels::off_tubes(run.model, sheet);
    for (joint, finding) in joints {
        let half = radius(band(finding.utilisation.unwrap_or(0.0)));
        labels.occupy(sheet.at(run.model.joints()[*joint].at), half);
    }
    let mut tubes: Vec<_> =
        utilisations.by_tube.iter_with_id().filter_map(|(id, f)| Some((id, (*f)?.utilisation?))).collect();
    tubes.sort_by(|a, b| b.1.total_cmp(&a.1));
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{NUMBER_TEXT}\" font-weight=\"600\"", ink::INK));
    for (joint, finding) in joints.iter().take(NUMBERED) {
        let at = sheet.at(run.model.joints()[*joint].at);
        labels.around(svg, at, NUMBER_TEXT, &fixed(finding.utilisation.unwrap_or(0.0), 2));
    }
    svg.close();
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{NUMBER_TEXT}\" font-weight=\"600\"", ink::BLUE));
    for (tube, used) in tubes.into_iter().take(NUMBERED) {
        let [from, to] = run.model.tube_ends(tube).map(|end| sheet.at(end));
        labels.around(svg, ((from.0 + to.0) / 2.0, (from.1 + to.1) / 2.0), NUMBER_TEXT, &fixed(used, 2));
    }
    svg.close();
}

/// What the other signs mean, at the right of the scale.
fn keys(svg: &mut Svg, top: f64, unjudged: bool, joints: &[(JointId, &Finding)], over: bool) {
    let mut y = top;
    let mut meanings: Vec<(f64, &str)> = Vec::new();
    if unjudged {
        let mut path = Path::new();
        path.start((WIDTH - 166.0, y));
        path.to((WIDTH - 144.0, y));
        svg.open("fill=\"none\"");
        svg.path(&path, NOTHING);
        svg.close();
        meanings.push((y, "tube not judged"));
        y += 14.0;
    }
    if !joints.is_empty() {
        sample(svg, (WIDTH - 155.0, y), 5, false);
        meanings.push((y, "joint, within its clause"));
        y += 14.0;
        sample(svg, (WIDTH - 155.0, y), 5, true);
        meanings.push((y, "joint, outside: no pass"));
        y += 14.0;
        if over {
            sample(svg, (WIDTH - 155.0, y), OVER, false);
            meanings.push((y, "joint over 1"));
        }
    }
    svg.open(&format!("fill=\"{}\" font-size=\"9.5\"", ink::INK));
    for (y, text) in meanings {
        svg.text((WIDTH - 138.0, y + 3.3), Anchor::Start, text);
    }
    svg.close();
}

fn band(utilisation: f64) -> usize {
    if utilisation > 1.0 {
        return OVER;
    }
    ((utilisation.max(0.0) * 10.0).floor() as usize).min(OVER - 1)
}

fn shade(band: usize) -> colour::Rgb {
    colour::ramp((band as f64 + 0.5) / BANDS as f64)
}

fn stroke(band: usize) -> String {
    let colour = colour::hex(shade(band));
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
