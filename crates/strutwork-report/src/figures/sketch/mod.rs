//! A sketch of a small model as a textbook draws it: the frame, how it is held, what acts with its size, main dimensions.
//!
//! - `plane`: the view that shows it, in its plane where it has one;
//! - `supports`: how joints are held, a sign for each kind;
//! - `loads`: arrows with their size;
//! - `sizes`: dimension lines;
//! - `arrows`: heads, turns, zigzags.

mod arrows;
mod loads;
mod plane;
mod sizes;
mod supports;

use strutwork_model::model::PlainCase;
use strutwork_model::{JointId, Model};

use super::furniture;
use super::labels::Labels;
use super::svg::{Path, Svg};
use super::view::{Sheet, Shown, View};
use super::{Figure, attached, ink, marks};
use plane::Plane;

/// Width of a sketch, px.
const WIDTH: f64 = 620.0;
/// Most that the frame takes of a sheet's height, px, its margins included.
const MOST_HEIGHT: f64 = 330.0;
/// Room round the frame for arrows, supports and dimensions, px.
const MARGIN: f64 = 74.0;
/// Strip below for the axes, px.
const STRIP: f64 = 46.0;
/// A frame with more joints than this shows dots and names of marked joints alone.
const FEW_JOINTS: usize = 26;
/// A frame with more tubes than this shows no names of tubes.
const FEW_TUBES: usize = 14;
/// A model with more masses than this shows them without their sizes.
const FEW_MASSES: usize = 8;
const TEXT: f64 = 10.0;

/// What a sketch shows.
#[derive(Debug, Clone, Copy)]
pub struct Sketched<'a> {
    /// The frame.
    pub model: &'a Model,
    /// What acts, as the load files say it.
    pub case: Option<&'a PlainCase>,
    /// Forces besides: place, m, and force, N, global axes.
    pub forces: &'a [([f64; 3], [f64; 3])],
    /// Joints that are named however many there are.
    pub marked: &'a [JointId],
    /// What the sketch shows, in a sentence, for readers who do not see it.
    pub label: &'a str,
}

/// Draws it.
pub fn draw(sketched: &Sketched<'_>) -> Figure {
    let model = sketched.model;
    let plane = Plane::of(sketched);
    let sheet = Sheet::fit(model, plane.view, Shown::Everything, (WIDTH, MOST_HEIGHT), MARGIN);
    let mut svg = Svg::new(WIDTH, sheet.height + STRIP, "sketch", sketched.label);
    let mut labels = Labels::default();
    for tube in model.tubes().ids() {
        let [from, to] = model.tube_ends(tube);
        labels.keep_off(sheet.at(from), sheet.at(to));
    }
    attached::panels(&mut svg, model, &sheet);
    attached::suspension(&mut svg, model, &sheet);
    tubes(&mut svg, model, &sheet);
    supports::draw(&mut svg, &mut labels, model, &sheet, plane);
    joints(&mut svg, model, &sheet);
    attached::bodies(&mut svg, model, &sheet);
    for mass in model.masses() {
        marks::mass(&mut svg, sheet.at(mass.at), 5.5);
        labels.occupy(sheet.at(mass.at), 6.0);
    }
    loads::draw(&mut svg, &mut labels, sketched, &sheet, plane);
    names(&mut svg, &mut labels, sketched, &sheet);
    sizes::draw(&mut svg, &mut labels, model, &sheet, plane);
    furniture::axes(&mut svg, plane.view, (24.0, sheet.height + 24.0));
    Figure { svg: svg.finish(), caption: caption(sketched, plane), wide: false }
}

fn tubes(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    let (mut lines, mut arms, mut hinges, mut springs) = (Path::new(), Path::new(), Vec::new(), Vec::new());
    for (id, tube) in model.tubes().iter_with_id() {
        let ends = model.tube_ends(id);
        let [from, to] = ends.map(|end| sheet.at(end));
        lines.start(from);
        lines.to(to);
        for (joint, end) in [tube.from, tube.to].into_iter().zip(ends) {
            let at = model.joints()[joint].at;
            if at != end {
                arms.start(sheet.at(at));
                arms.to(sheet.at(end));
            }
        }
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        let inset = (8.0 / length.max(1e-9)).min(0.25);
        let between = |share: f64| (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
        for (released, share) in [(&tube.release_from, inset), (&tube.release_to, 1.0 - inset)] {
            if released.0[3..].iter().any(|freed| *freed) {
                hinges.push(between(share));
            }
        }
        for (end, share) in [(&tube.end_from, inset), (&tube.end_to, 1.0 - inset)] {
            if end.springs.0.iter().any(Option::is_some) {
                springs.push(between(share));
            }
        }
    }
    svg.path(&arms, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.4\" stroke-dasharray=\"3 2\"", ink::INK));
    svg.path(&lines, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"2.2\"", ink::INK));
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1\"", ink::PAPER, ink::INK));
    // A hinge in each of a hundred bars would hide the bars.
    for at in hinges.into_iter().filter(|_| model.tubes().len() <= 4 * FEW_TUBES) {
        svg.circle(at, 2.6);
    }
    for at in springs {
        svg.rectangle((at.0 - 2.6, at.1 - 2.6), (5.2, 5.2), "");
    }
    svg.close();
}

fn joints(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    let radius = if model.joints().len() > FEW_JOINTS { 1.6 } else { 2.8 };
    svg.open(&format!("fill=\"{}\"", ink::INK));
    for joint in model.joints() {
        svg.circle(sheet.at(joint.at), radius);
    }
    svg.close();
}

fn names(svg: &mut Svg, labels: &mut Labels, sketched: &Sketched<'_>, sheet: &Sheet) {
    let model = sketched.model;
    let many = model.joints().len() > FEW_JOINTS;
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{TEXT}\"", ink::INK));
    for (id, joint) in model.joints().iter_with_id() {
        if !many || sketched.marked.contains(&id) {
            labels.occupy(sheet.at(joint.at), 2.8);
            labels.around(svg, sheet.at(joint.at), TEXT, &joint.name);
        }
    }
    svg.close();
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{}\"", ink::BLUE, TEXT - 1.0));
    if model.tubes().len() <= FEW_TUBES {
        for (id, tube) in model.tubes().iter_with_id() {
            let [from, to] = model.tube_ends(id);
            labels.along(svg, sheet.at(from), sheet.at(to), TEXT - 1.0, &tube.name);
        }
    }
    for mass in model.masses().iter().take(if model.masses().len() > FEW_MASSES { 0 } else { FEW_MASSES }) {
        let size = format!("{} kg", crate::number::as_given(mass.mass));
        labels.around(svg, sheet.at(mass.at), TEXT - 1.0, &size);
    }
    for body in model.bodies() {
        labels.occupy(sheet.at(body.at), 5.0);
        labels.around(svg, sheet.at(body.at), TEXT - 1.0, &body.name);
    }
    if model.panels().len() <= FEW_TUBES {
        for panel in model.panels() {
            let corners = panel.joints.len() as f64;
            let middle =
                [0, 1, 2].map(|axis| panel.joints.iter().map(|id| model.joints()[*id].at[axis]).sum::<f64>() / corners);
            labels.upon(svg, sheet.at(middle), TEXT - 1.0, &panel.name);
        }
    }
    svg.close();
}

/// What the sketch shows and its signs.
fn caption(sketched: &Sketched<'_>, plane: Plane) -> String {
    let model = sketched.model;
    let mut text = match plane.view {
        View::Isometric => String::from("Seen from the front, the right and above."),
        View::Side => String::from("Seen along y, from the right."),
        View::Plan => String::from("Seen from above."),
        View::Front => String::from("Seen along x, from ahead."),
    };
    if let Some(case) = sketched.case {
        text.push_str(&format!(" Load case “{}”.", case.name));
    }
    if model.options().self_weight {
        text.push_str(" Its own weight acts too.");
    }
    text.push_str(&supports::words(model, plane));
    let released = |tube: &strutwork_model::model::Tube| {
        [&tube.release_from, &tube.release_to].iter().any(|ends| ends.0[3..].iter().any(|freed| *freed))
    };
    if model.tubes().iter().any(released) {
        text.push_str(if model.tubes().len() <= 4 * FEW_TUBES {
            " Small open circle: a tube's end that turns freely."
        } else {
            " Ends of bars turn freely."
        });
    }
    let sprung = |tube: &strutwork_model::model::Tube| {
        [&tube.end_from, &tube.end_to].iter().any(|end| end.springs.0.iter().any(Option::is_some))
    };
    if model.tubes().iter().any(sprung) {
        text.push_str(" Small open square: a tube's end on springs.");
    }
    if model.tubes().iter().any(|tube| tube.end_from.offset != [0.0; 3] || tube.end_to.offset != [0.0; 3]) {
        text.push_str(" Short broken line: a rigid arm from a joint to a tube's end.");
    }
    if !model.panels().is_empty() {
        text.push_str(" Hatched: panels.");
    }
    if !model.bodies().is_empty() {
        text.push_str(" Diamond with broken arms: a body and its mounts.");
    }
    if !model.masses().is_empty() {
        text.push_str(" Quartered circle: a mass.");
    }
    text
}

#[cfg(test)]
mod tests {
    use strutwork_model::files::{InputFile, InputFiles};
    use strutwork_model::read_model;

    use super::*;

    const MODEL: &str = "title = \"t\"\n[sections.s]\nshape = \"square\"\nwidth_mm = 40.0\nwall_mm = 2.0\n\
                         [materials.m]\ngrade = \"S235JRH\"\n";
    const SUPPORTS: &str = "joint,ux,uy,uz,rx,ry,rz\na,fixed,fixed,fixed,fixed,fixed,fixed\n";

    /// A beam along x under a load at its end, sketched.
    fn sketch(load: &str, end: &str) -> Figure {
        let files = [
            ("model.toml", MODEL.to_owned()),
            ("joints.csv", format!("joint,x_mm,y_mm,z_mm\na,0,0,0\n{end},1000,0,0\n")),
            ("tubes.csv", format!("tube,from,to,section,material\nt,a,{end},s,m\n")),
            ("supports.csv", SUPPORTS.to_owned()),
            ("loads.csv", format!("case,joint,fx_n,fy_n,fz_n,mx_nm,my_nm,mz_nm\npush,{end},{load}\n")),
        ];
        let files = files.into_iter().map(|(name, text)| InputFile::new(name, text)).collect();
        let model = read_model(&InputFiles(files)).expect("a model").value;
        draw(&Sketched { model: &model, case: model.plain_cases().first(), forces: &[], marked: &[], label: "l" })
    }

    #[test]
    fn a_frame_is_seen_across_the_plane_in_which_it_and_its_loads_lie() {
        for (load, seen) in [
            ("0,0,-5000,0,0,0", "along y"),
            ("0,-5000,0,0,0,0", "from above"),
            ("0,-5000,10,0,0,0", "the right and above"),
            ("0,0,-5000,30,0,0", "the right and above"),
        ] {
            let figure = sketch(load, "b");
            assert!(figure.caption.contains(seen), "{load}: {}", figure.caption);
        }
    }

    #[test]
    fn loads_have_their_size_and_spans_theirs() {
        let svg = sketch("0,0,-5000,0,250,0", "b").svg;
        for text in [">5 kN<", ">250 N·m<", ">1000<", ">a<", ">b<"] {
            assert!(svg.contains(text), "{text} in {svg}");
        }
    }

    #[test]
    fn names_are_escaped() {
        let svg = sketch("0,0,-5,0,0,0", "<i>b</i>").svg;
        assert!(svg.contains("&lt;i&gt;b") && !svg.contains("<i>"));
    }
}
