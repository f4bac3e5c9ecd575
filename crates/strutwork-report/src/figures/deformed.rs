//! The deformed shape of a case, to a stated scale, over the frame at rest.

use strutwork_element::LocalAxes;
use strutwork_loads::LoadCase;
use strutwork_model::{Model, TubeId};
use strutwork_solve::CaseResult;
use strutwork_solve::results::TubeResult;

use super::furniture::{self, STRIP};
use super::svg::{Path, Svg};
use super::view::{self, Sheet, Shown, frame_size};
use super::{Figure, MANY_TUBES, WIDTH, ink, marks};
use crate::extremes;
use crate::number;
use crate::run::Run;

/// The largest displacement appears as about this share of the frame's size.
const SHOWN_SHARE: f64 = 0.08;
/// Straight pieces that a tube's bent axis is drawn with.
const PIECES: usize = 4;
/// A tube whose drawn axis leaves its chord by no more than this is drawn straight, px.
const STRAIGHT: f64 = 1.0;

/// Width, height and margin of a small sheet, px.
const SMALL: (f64, f64, f64) = (330.0, 260.0, 26.0);

/// How the frame at rest gets into a picture: it is the same in all of them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rest {
    /// Drawn, on a small sheet beside a table.
    Drawn,
    /// Drawn, with a name that other pictures of the same page can call it by.
    Named,
    /// By its name.
    AsNamed,
}

/// The name of the frame at rest on a page.
const NAME: &str = "frame-at-rest";

/// The deformed shape of one case. Displacements are enlarged by a round factor, which the caption states.
pub fn draw(run: &Run<'_>, case: &LoadCase, result: &CaseResult, at_rest: Rest) -> Figure {
    let model = run.model;
    let view = view::main(model);
    let (width, height, margin) = if at_rest == Rest::Drawn { SMALL } else { (WIDTH, 340.0, 44.0) };
    let sheet = Sheet::fit(model, view, Shown::Frame, (width, height), margin);
    let enlarged = enlargement(model, result);
    let drawing = sheet.height.max(130.0);
    let label = format!("Deformed shape, load case {}", case.name);
    let mut svg = Svg::new(width, drawing + STRIP, "frame", &label);

    let rest = straight(model, &sheet);
    svg.open("fill=\"none\"");
    let grey = format!("stroke=\"{}\" stroke-width=\".8\"", ink::GREY);
    match at_rest {
        Rest::Drawn => svg.path(&rest, &grey),
        Rest::Named => svg.path(&rest, &format!("id=\"{NAME}\" {grey}")),
        Rest::AsNamed => svg.again(NAME),
    }
    let bent = shape(model, result, &sheet, enlarged);
    svg.path(&bent, &format!("stroke=\"{}\" stroke-width=\"1.2\" stroke-linejoin=\"round\"", ink::INK));
    let bodies = moved_bodies(model, result, &sheet, enlarged);
    svg.path(&bodies, &format!("stroke=\"{}\" stroke-width=\"1.1\" stroke-dasharray=\"6 2\"", ink::BODY));
    svg.close();
    for support in &case.supports {
        marks::support(&mut svg, sheet.at(model.joints()[support.joint].at), support);
    }
    forces(&mut svg, model, case, &sheet);

    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, width - 26.0, drawing + 22.0);
    let scale = number::as_given(enlarged);
    let how =
        if enlarged == 1.0 { "to the scale of the frame".into() } else { format!("drawn {scale} times as large") };
    let arrows = if case.joint_loads.is_empty() && case.body_loads.is_empty() {
        ""
    } else {
        " Red arrows: forces applied at joints and bodies, all to one scale; self weight and inertia along tubes are not \
         drawn."
    };
    let held = if case.free {
        " The frame is free: rigid motion is taken out, what is left is its deformation."
    } else {
        " Signs: where the frame is held."
    };
    let broken = if model.bodies().is_empty() { "" } else { " Broken lines: bodies, from reference point to mounts." };
    if at_rest == Rest::Drawn {
        let red = if arrows.is_empty() { "" } else { "; red: applied forces" };
        let caption = format!("Displacements {how}; grey: at rest{red}.");
        return Figure { svg: svg.finish(), wide: false, caption };
    }
    Figure {
        svg: svg.finish(),
        wide: false,
        caption: format!("Deformed shape, displacements {how}; grey: the frame at rest.{held}{broken}{arrows}"),
    }
}

/// The frame at rest: every tube from end to end.
pub(super) fn straight(model: &Model, sheet: &Sheet) -> Path {
    let mut path = Path::new();
    for tube in model.tubes().ids() {
        let [from, to] = model.tube_ends(tube);
        path.start(sheet.at(from));
        path.to(sheet.at(to));
    }
    path
}

/// The round factor that displacements are enlarged by.
fn enlargement(model: &Model, result: &CaseResult) -> f64 {
    let largest =
        extremes::movements(result).into_iter().take(3).flatten().map(|(_, value)| value.abs()).fold(0.0, f64::max);
    // Bending between joints counts too: a beam between fixed ends moves nowhere else.
    let between = result
        .tubes
        .iter()
        .flat_map(|tube| &tube.stations)
        .flat_map(|station| station.displacement)
        .map(f64::abs)
        .fold(0.0, f64::max);
    let largest = largest.max(between);
    if largest > 0.0 { furniture::round_below(SHOWN_SHARE * frame_size(model) / largest) } else { 1.0 }
}

/// Distance of a place from the line through two others, px.
fn off_line(place: (f64, f64), from: (f64, f64), to: (f64, f64)) -> f64 {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy);
    let away = (place.0 - from.0, place.1 - from.1);
    if length == 0.0 { away.0.hypot(away.1) } else { (away.0 * dy - away.1 * dx).abs() / length }
}

fn shape(model: &Model, result: &CaseResult, sheet: &Sheet, enlarged: f64) -> Path {
    let pieces = if model.tubes().len() > MANY_TUBES { 1 } else { PIECES };
    let mut path = Path::new();
    for (id, tube) in result.tubes.iter_with_id() {
        let points: Vec<(f64, f64)> =
            axis_points(model, id, tube, pieces, enlarged).into_iter().map(|point| sheet.at(point)).collect();
        let [first, inner @ .., last] = points.as_slice() else { continue };
        path.start(*first);
        if inner.iter().any(|point| off_line(*point, *first, *last) > STRAIGHT) {
            inner.iter().for_each(|point| path.to(*point));
        }
        path.to(*last);
    }
    path
}

/// From each body's moved reference point to its moved mounts. A mount with a spring or a free freedom draws apart from the
/// body, so the arms of a body need not keep their lengths.
fn moved_bodies(model: &Model, result: &CaseResult, sheet: &Sheet, enlarged: f64) -> Path {
    let moved =
        |at: [f64; 3], movement: &[f64; 6]| sheet.at([0, 1, 2].map(|axis| at[axis] + enlarged * movement[axis]));
    let mut path = Path::new();
    for ((_, body), movement) in model.bodies().iter_with_id().zip(&result.bodies) {
        for mount in &body.mounts {
            let joint = model.mounts()[*mount].joint;
            path.start(moved(body.at, movement));
            path.to(moved(model.joints()[joint].at, &result.displacements[joint]));
        }
    }
    path
}

/// Points of a tube's bent axis, global, displacements enlarged.
///
/// ```text
/// u(s) = (1 − s)u₁ + s u₂
/// v(s) = H₁v₁ + H₂Lθz₁ + H₃v₂ + H₄Lθz₂      w likewise with −θy      + 16 s²(1 − s)² × what the load adds at the middle
/// ```
/// The cubic is exact between loads; the last term is exact for a uniform load and a fair picture of others.
pub(crate) fn axis_points(model: &Model, id: TubeId, tube: &TubeResult, pieces: usize, enlarged: f64) -> Vec<[f64; 3]> {
    let [from, to] = model.tube_ends(id);
    let Ok(axes) = LocalAxes::between(from, to, model.tubes()[id].roll) else { return Vec::new() };
    let cubic = |s: f64| cubic(&tube.end_displacements, axes.length, s);
    let middle = tube.stations.iter().find(|station| (station.at - 0.5).abs() < 1e-6);
    let added = middle.map_or([0.0; 3], |station| {
        let own = cubic(0.5);
        [0, 1, 2].map(|axis| station.displacement[axis] - own[axis])
    });
    (0..=pieces)
        .map(|piece| {
            let s = piece as f64 / pieces as f64;
            let bubble = 16.0 * (s * (1.0 - s)).powi(2);
            let own = cubic(s);
            let local = [0, 1, 2].map(|axis| (own[axis] + bubble * added[axis]) * enlarged);
            [0, 1, 2].map(|axis| {
                let moved: f64 = (0..3).map(|k| axes.rotation[(k, axis)] * local[k]).sum();
                from[axis] + (to[axis] - from[axis]) * s + moved
            })
        })
        .collect()
}

fn cubic(ends: &[f64; 12], length: f64, s: f64) -> [f64; 3] {
    let [u1, v1, w1, _, ty1, tz1, u2, v2, w2, _, ty2, tz2] = *ends;
    let h1 = 1.0 - 3.0 * s * s + 2.0 * s * s * s;
    let h2 = length * (s - 2.0 * s * s + s * s * s);
    let h3 = 3.0 * s * s - 2.0 * s * s * s;
    let h4 = length * (s * s * s - s * s);
    [u1 + (u2 - u1) * s, h1 * v1 + h2 * tz1 + h3 * v2 + h4 * tz2, h1 * w1 - h2 * ty1 + h3 * w2 - h4 * ty2]
}

/// Forces at joints and bodies as arrows that end where they act, the largest 46 px long.
fn forces(svg: &mut Svg, model: &Model, case: &LoadCase, sheet: &Sheet) {
    let at_joints = case.joint_loads.iter().map(|load| (model.joints()[load.joint].at, &load.load.0));
    let at_bodies = case.body_loads.iter().map(|load| (model.bodies()[load.body].at, &load.load.0));
    let all: Vec<([f64; 3], &[f64; 6])> = at_joints.chain(at_bodies).collect();
    let size = |load: &[f64; 6]| load[..3].iter().map(|f| f.abs()).fold(0.0, f64::max);
    let largest = all.iter().map(|(_, load)| size(load)).fold(0.0, f64::max);
    if largest <= 0.0 {
        return;
    }
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.1\"", ink::RED));
    for (at, load) in all {
        if size(load) < 0.02 * largest {
            continue;
        }
        let [fx, fy, fz, ..] = *load;
        let [right, up, _] = sheet.view.project([fx, fy, fz]);
        let tip = sheet.at(at);
        let scale = 46.0 / largest;
        furniture::arrow(svg, (tip.0 - right * scale, tip.1 + up * scale), tip, 5.0);
    }
    svg.close();
}

#[cfg(test)]
mod tests {
    use super::cubic;

    #[test]
    fn the_cubic_meets_its_ends_and_their_slopes() {
        let ends = [0.1, 0.2, 0.3, 0.0, 0.01, 0.02, -0.1, 0.5, 0.7, 0.0, -0.03, 0.04];
        let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
        assert_eq!(cubic(&ends, 2.0, 0.0), [0.1, 0.2, 0.3]);
        assert!(cubic(&ends, 2.0, 1.0).into_iter().zip([-0.1, 0.5, 0.7]).all(|(a, b)| near(a, b)));
        // dv/dx = θz and dw/dx = −θy at both ends, by a small difference over the length 2 m.
        let step = 1e-7;
        let slope = |s: f64, axis: usize| {
            (cubic(&ends, 2.0, s + step)[axis] - cubic(&ends, 2.0, s - step)[axis]) / (2.0 * step * 2.0)
        };
        assert!(near(slope(0.0, 1), 0.02) && near(slope(1.0, 1), 0.04));
        assert!(near(slope(0.0, 2), -0.01) && near(slope(1.0, 2), 0.03));
    }
}
