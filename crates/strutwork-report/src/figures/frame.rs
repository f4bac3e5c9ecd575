//! The frame with its names: line weight by section, gaps where a nearer tube crosses.

use std::collections::BTreeMap;

use strutwork_model::ids::Id;
use strutwork_model::model::{Mass, Panel, Point, Suspension};
use strutwork_model::{JointId, Model, TubeId};

use super::furniture::{self, Key, STRIP};
use super::labels::Labels;
use super::svg::{Path, Svg};
use super::view::{self, Sheet, Shown, View, shows_area};
use super::weights::{self, Weight};
use super::{Figure, MANY_JOINTS, MANY_TUBES, WIDE, WIDE_TUBES, WIDTH, attached, ink, marks};
use crate::run::Run;

/// With more masses than this, the isometric view shows the frame alone.
const FEW_MASSES: usize = 8;
const JOINT_TEXT: f64 = 10.0;
const TUBE_TEXT: f64 = 8.5;
/// A nearer tube's gap stops this far from its joints, px, so that the joint itself stays whole.
const GAP_ENDS: f64 = 8.0;

/// The views in which the frame shows more than a line; the isometric one first, and always one at least.
pub fn views(model: &Model) -> Vec<View> {
    let mut views: Vec<View> = View::ALL.into_iter().filter(|view| shows_area(model, *view)).collect();
    if views.is_empty() {
        views.push(view::main(model));
    }
    views
}

/// The frame in one view.
pub fn draw(run: &Run<'_>, view: View) -> Figure {
    let model = run.model;
    let wide = model.tubes().len() > WIDE_TUBES;
    let (width, most_height) = if wide { (WIDE, 540.0) } else { (WIDTH, 460.0) };
    // Masses by the dozen would hide the frame in the isometric view; the others show them.
    let bare = view == View::Isometric && model.masses().len() > FEW_MASSES;
    let shown = if bare { Shown::Vehicle } else { Shown::Everything };
    let sheet = Sheet::fit(model, view, shown, (width, most_height), 40.0);
    let (weights, used) = weights::of_sections(model);
    let keys: Vec<Key> = used
        .iter()
        .map(|id| {
            let section = &model.sections()[*id];
            Key { stroke: weights[id.index()].stroke(ink::INK), text: format!("{}: {}", section.name, section.label) }
        })
        .collect();
    let legend = furniture::legend_height(&keys, width);
    let drawing = sheet.height.max(90.0);
    let label = format!("{}: {}", view.title(), model.title().title);
    let mut svg = Svg::new(width, drawing + STRIP + legend, "frame", &label);

    attached::panels(&mut svg, model, &sheet);
    attached::suspension(&mut svg, model, &sheet);
    tubes(&mut svg, model, &sheet, &weights);
    joints(&mut svg, model, &sheet);
    attached::bodies(&mut svg, model, &sheet);
    for support in model.supports() {
        marks::support(&mut svg, sheet.at(model.joints()[support.joint].at), support);
    }
    let masses = if bare { &[] } else { model.masses() };
    for mass in masses {
        marks::mass(&mut svg, sheet.at(mass.at), 5.5);
    }
    marks::wheel_names(&mut svg, run, &sheet);
    let left_out = names(&mut svg, model, masses, &sheet);

    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, width - 26.0, drawing + 22.0);
    furniture::legend(&mut svg, &keys, drawing + STRIP - 4.0);
    Figure { svg: svg.finish(), caption: caption(run, view, bare, left_out), wide }
}

fn tubes(svg: &mut Svg, model: &Model, sheet: &Sheet, weights: &[Weight]) {
    let ends = |id: TubeId| {
        let [from, to] = model.tube_ends(id);
        (from, to)
    };
    svg.open("fill=\"none\"");
    svg.path(&arms(model, sheet), &format!("stroke=\"{}\" stroke-width=\"1\" stroke-dasharray=\"2 1.5\"", ink::INK));
    if model.tubes().len() > MANY_TUBES {
        let mut paths = vec![Path::new(); weights.len()];
        for (id, tube) in model.tubes().iter_with_id() {
            let (from, to) = ends(id);
            let path = &mut paths[tube.section.index()];
            path.start(sheet.at(from));
            path.to(sheet.at(to));
        }
        for (path, weight) in paths.iter().zip(weights) {
            svg.path(path, &weight.stroke(ink::INK));
        }
    } else {
        // The farthest first, so that a nearer one passes in front of it.
        let mut order: Vec<TubeId> = model.tubes().ids().collect();
        let nearness = |id: TubeId| {
            let (from, to) = ends(id);
            sheet.nearness(from) + sheet.nearness(to)
        };
        order.sort_by(|a, b| nearness(*a).total_cmp(&nearness(*b)));
        for id in order {
            let (from, to) = ends(id);
            one_tube(svg, sheet.at(from), sheet.at(to), &weights[model.tubes()[id].section.index()]);
        }
    }
    svg.close();
}

/// From a joint to the end of a tube that is set off from it.
fn arms(model: &Model, sheet: &Sheet) -> Path {
    let mut path = Path::new();
    for (id, tube) in model.tubes().iter_with_id() {
        for (joint, end) in [tube.from, tube.to].into_iter().zip(model.tube_ends(id)) {
            let at = model.joints()[joint].at;
            if at != end {
                path.start(sheet.at(at));
                path.to(sheet.at(end));
            }
        }
    }
    path
}

fn one_tube(svg: &mut Svg, from: (f64, f64), to: (f64, f64), weight: &Weight) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = dx.hypot(dy);
    if length > 3.0 * GAP_ENDS {
        let inset = (dx * GAP_ENDS / length, dy * GAP_ENDS / length);
        let mut gap = Path::new();
        gap.start((from.0 + inset.0, from.1 + inset.1));
        gap.to((to.0 - inset.0, to.1 - inset.1));
        svg.path(&gap, &format!("stroke=\"{}\" stroke-width=\"{:.1}\"", ink::PAPER, weight.width + 3.4));
    }
    let mut path = Path::new();
    path.start(from);
    path.to(to);
    svg.path(&path, &weight.stroke(ink::INK));
}

fn joints(svg: &mut Svg, model: &Model, sheet: &Sheet) {
    let radius = if model.joints().len() > MANY_JOINTS { 1.1 } else { 2.2 };
    svg.open(&format!("fill=\"{}\"", ink::INK));
    for joint in model.joints() {
        svg.circle(sheet.at(joint.at), radius);
    }
    svg.close();
}

/// Writes the names that find room; returns how many did not.
fn names(svg: &mut Svg, model: &Model, masses: &[Mass], sheet: &Sheet) -> usize {
    let mut labels = Labels::default();
    for tube in model.tubes().ids() {
        let [from, to] = model.tube_ends(tube);
        labels.keep_off(sheet.at(from), sheet.at(to));
    }
    for mass in masses {
        labels.occupy(sheet.at(mass.at), 6.0);
    }
    for body in model.bodies() {
        labels.occupy(sheet.at(body.at), 5.0);
    }
    let many = model.joints().len() > MANY_JOINTS;
    let chosen: Vec<JointId> = if many { marked(model) } else { model.joints().ids().collect() };
    // Joints behind one another share one label.
    let joints = together(chosen.into_iter().map(|id| {
        let joint = &model.joints()[id];
        (sheet.at(joint.at), joint.name.as_str())
    }));
    if !many {
        for (at, _) in &joints {
            labels.occupy(*at, 2.6);
        }
    }
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{JOINT_TEXT}\"", ink::INK));
    for (at, names) in &joints {
        labels.around(svg, *at, JOINT_TEXT, &listed(names));
    }
    svg.close();
    if !many {
        svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"{TUBE_TEXT}\"", ink::BLUE));
        for mass in masses {
            labels.around(svg, sheet.at(mass.at), TUBE_TEXT, &mass.name);
        }
        for body in model.bodies() {
            labels.around(svg, sheet.at(body.at), TUBE_TEXT, &body.name);
        }
        let middles = together(model.tubes().iter_with_id().map(|(id, tube)| {
            let ends = model.tube_ends(id).map(|end| sheet.at(end));
            let middle = ((ends[0].0 + ends[1].0) / 2.0, (ends[0].1 + ends[1].1) / 2.0);
            (middle, (tube.name.as_str(), ends))
        }));
        for (_, tubes) in &middles {
            let [from, to] = tubes[0].1;
            let names: Vec<&str> = tubes.iter().map(|(name, _)| *name).collect();
            labels.along(svg, from, to, TUBE_TEXT, &listed(&names));
        }
        let panels = together(model.panels().iter().map(|panel| (sheet.at(middle(model, panel)), panel.name.as_str())));
        for (at, names) in &panels {
            labels.around(svg, *at, TUBE_TEXT, &listed(names));
        }
        svg.close();
    }
    labels.left_out
}

/// The mean of a panel's corners, m.
fn middle(model: &Model, panel: &Panel) -> [f64; 3] {
    let corners = panel.joints.len() as f64;
    [0, 1, 2].map(|axis| panel.joints.iter().map(|id| model.joints()[*id].at[axis]).sum::<f64>() / corners)
}

/// Joints that carry a support or a wheel.
fn marked(model: &Model) -> Vec<JointId> {
    let supports = model.supports().iter().map(|support| support.joint);
    let corners = model.vehicle().into_iter().flat_map(|v| {
        v.corners.iter().filter_map(|c| match c.spring {
            Point::Joint(joint) => Some(joint),
            Point::OnBody { .. } => None,
        })
    });
    let mut marked: Vec<JointId> = supports.chain(corners).collect();
    marked.sort_unstable();
    marked.dedup();
    marked.truncate(MANY_JOINTS);
    marked
}

/// Gathers what lies on the same px, in order of first appearance.
fn together<T>(items: impl Iterator<Item = ((f64, f64), T)>) -> Vec<((f64, f64), Vec<T>)> {
    let mut places = BTreeMap::new();
    let mut out: Vec<((f64, f64), Vec<T>)> = Vec::new();
    for (at, item) in items {
        let key = ((at.0 / 2.0).round() as i64, (at.1 / 2.0).round() as i64);
        let place = *places.entry(key).or_insert_with(|| {
            out.push((at, Vec::new()));
            out.len() - 1
        });
        out[place].1.push(item);
    }
    out
}

/// At most three names, then how many more there are.
fn listed(names: &[&str]) -> String {
    let mut text = names.iter().take(3).copied().collect::<Vec<_>>().join(" · ");
    if names.len() > 3 {
        text.push_str(&format!(" +{}", names.len() - 3));
    }
    text
}

fn caption(run: &Run<'_>, view: View, bare: bool, left_out: usize) -> String {
    let model = run.model;
    let mut text = format!("{}. Line weight by section", view.title());
    if model.joints().len() > MANY_JOINTS {
        text.push_str("; names of supported and wheel joints only, for want of room");
    } else {
        text.push_str("; names of joints in black, all others in blue");
    }
    if left_out > 0 {
        let (names, these) = if left_out == 1 { ("name", "it stands") } else { ("names", "they stand") };
        text.push_str(&format!("; {left_out} {names} found no room here, {these} in the tables"));
    }
    text.push('.');
    if !model.supports().is_empty() {
        text.push_str(" Square: held in all six freedoms; triangle: held in some.");
    }
    if !model.panels().is_empty() {
        text.push_str(" Hatched: panels.");
    }
    if !model.bodies().is_empty() {
        text.push_str(" Diamond with broken arms: a body and its mounts (small squares).");
    }
    if let Some(vehicle) = model.vehicle() {
        text.push_str(" Open circle: a wheel's contact patch");
        let linked = vehicle.corners.iter().any(|corner| matches!(corner.suspension, Suspension::Linked(_)));
        text.push_str(if linked { "; thin lines: suspension links, a zigzag for a spring." } else { "." });
    }
    if model.tubes().iter().any(|tube| tube.end_from.offset != [0.0; 3] || tube.end_to.offset != [0.0; 3]) {
        text.push_str(" Short broken lines: from a joint to the end of a tube set off from it.");
    }
    if bare {
        text.push_str(" Masses stand in the other views.");
    } else if !model.masses().is_empty() {
        text.push_str(" Quartered circle: a mass that the frame carries.");
    }
    text
}
