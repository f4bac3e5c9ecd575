//! Two revisions of a frame drawn over each other: what is new, gone, moved and changed, told apart by the pattern of its line
//! as well as by its colour.

use std::collections::BTreeSet;

use strutwork_model::ids::Id;
use strutwork_model::{JointId, Model, TubeId};
use strutwork_revision::inputs::{How, Inputs, Part};

use super::furniture::{self, Key, STRIP};
use super::labels::Labels;
use super::svg::{Path, Svg};
use super::view::{self, Sheet, Shown, View, shows_area};
use super::{Figure, WIDE, WIDE_TUBES, WIDTH, ink};

/// More tubes than this of one fate are told apart by their lines alone.
const NAMED: usize = 30;
/// Places nearer than this are the same, m.
const SAME: f64 = 1e-9;

/// What became of a tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Fate {
    Same,
    /// Where it was, of a tube that moved.
    Was,
    Moved,
    Changed,
    Gone,
    Added,
}

impl Fate {
    const ALL: [Self; 6] = [Self::Same, Self::Was, Self::Moved, Self::Changed, Self::Gone, Self::Added];

    fn stroke(self, fine: f64) -> String {
        let (colour, width, dashes) = match self {
            Self::Same => (ink::GREY, 0.9, ""),
            Self::Was => (ink::INK, 1.2, "1 2.6"),
            Self::Moved => (ink::INK, 1.9, "11 2.5"),
            Self::Changed => (ink::BLUE, 2.6, "9 2.5 2 2.5"),
            Self::Gone => (ink::RED, 2.0, "4 3"),
            Self::Added => (ink::BLUE, 3.0, ""),
        };
        let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
        format!("stroke=\"{colour}\" stroke-width=\"{:.2}\"{dashes}", width * fine)
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Same => "as it was",
            Self::Was => "where a moved tube was",
            Self::Moved => "moved or connected elsewhere",
            Self::Changed => "changed: section, material, group, ends",
            Self::Gone => "gone",
            Self::Added => "added",
        }
    }
}

/// A tube as it is drawn.
struct Line<'m> {
    fate: Fate,
    from: [f64; 3],
    to: [f64; 3],
    name: &'m str,
}

/// Both frames in every view in which they show more than a line.
pub fn draw(before: &Model, after: &Model, inputs: &Inputs) -> Vec<Figure> {
    let lines = lines(before, after, inputs);
    let mut views: Vec<View> = [View::Isometric, View::Side, View::Plan]
        .into_iter()
        .filter(|view| shows_area(before, *view) || shows_area(after, *view))
        .collect();
    if views.is_empty() {
        views.push(view::main(after));
    }
    views.into_iter().map(|view| one(before, after, inputs, &lines, view)).collect()
}

fn lines<'m>(before: &'m Model, after: &'m Model, inputs: &Inputs) -> Vec<Line<'m>> {
    let of = inputs.changes.iter().filter(|change| change.part == Part::Tube && change.how == How::Changed);
    let changed: BTreeSet<&str> = of.map(|change| change.name.as_str()).collect();
    let redefined = redefined(inputs);
    let mut from = vec![None; after.tubes().len()];
    for id in before.tubes().ids() {
        if let Some(pair) = inputs.pairs.tube(id) {
            from[pair.tube.index()] = Some((id, pair.reversed));
        }
    }
    let line = |model: &'m Model, id: TubeId, fate: Fate| {
        let [from, to] = model.tube_ends(id);
        Line { fate, from, to, name: &model.tubes()[id].name }
    };
    let mut lines = Vec::new();
    for (id, tube) in after.tubes().iter_with_id() {
        let Some((old, reversed)) = from[id.index()] else {
            lines.push(line(after, id, Fate::Added));
            continue;
        };
        let is = after.tube_ends(id);
        let mut was = before.tube_ends(old);
        if reversed {
            was.reverse();
        }
        let moved = was.iter().zip(&is).any(|(was, is)| moved(was, is));
        let section = redefined.contains(&(Part::Section, after.sections()[tube.section].name.as_str()));
        let material = redefined.contains(&(Part::Material, after.materials()[tube.material].name.as_str()));
        if moved {
            lines.push(line(before, old, Fate::Was));
            lines.push(line(after, id, Fate::Moved));
        } else if changed.contains(tube.name.as_str()) || section || material {
            lines.push(line(after, id, Fate::Changed));
        } else {
            lines.push(line(after, id, Fate::Same));
        }
    }
    for id in before.tubes().ids().filter(|id| inputs.pairs.tube(*id).is_none()) {
        lines.push(line(before, id, Fate::Gone));
    }
    lines
}

/// Whether a place is another one, m: farther off than rounding leaves a coordinate, as in the list of changes.
fn moved(was: &[f64; 3], is: &[f64; 3]) -> bool {
    was.iter().zip(is).any(|(was, is)| (was - is).abs() > SAME)
}

/// Sections and materials whose own definition changed.
fn redefined(inputs: &Inputs) -> BTreeSet<(Part, &str)> {
    let of = inputs
        .changes
        .iter()
        .filter(|change| matches!(change.part, Part::Section | Part::Material) && change.how == How::Changed);
    of.map(|change| (change.part, change.name.as_str())).collect()
}

fn one(before: &Model, after: &Model, inputs: &Inputs, lines: &[Line<'_>], view: View) -> Figure {
    let wide = before.tubes().len().max(after.tubes().len()) > WIDE_TUBES;
    let (width, most_height) = if wide { (WIDE, 540.0) } else { (WIDTH, 460.0) };
    let sheet = Sheet::fit_all(&[before, after], view, Shown::Frame, (width, most_height), 40.0);
    let fine = if lines.len() > 150 { 0.75 } else { 1.0 };
    let used = Fate::ALL.into_iter().filter(|fate| lines.iter().any(|line| line.fate == *fate));
    let keys: Vec<Key> = used
        .map(|fate| {
            let number = lines.iter().filter(|line| line.fate == fate).count();
            let count = if fate == Fate::Was { String::new() } else { format!(" ({number})") };
            Key { stroke: fate.stroke(fine), text: format!("{}{count}", fate.words()) }
        })
        .collect();
    let legend = furniture::legend_height(&keys, width);
    let drawing = sheet.height.max(90.0);
    let label = format!("{}: {} before and after", view.title(), after.title().title);
    let mut svg = Svg::new(width, drawing + STRIP + legend, "frame", &label);
    for fate in Fate::ALL {
        let mut path = Path::new();
        for line in lines.iter().filter(|line| line.fate == fate) {
            path.start(sheet.at(line.from));
            path.to(sheet.at(line.to));
        }
        svg.path(&path, &format!("fill=\"none\" {}", fate.stroke(fine)));
    }
    let joints = joints(&mut svg, before, after, inputs, &sheet);
    let left_out = names(&mut svg, lines, &joints, &sheet);
    furniture::axes(&mut svg, view, (26.0, drawing + 24.0));
    furniture::scale_bar(&mut svg, &sheet, width - 26.0, drawing + 22.0);
    furniture::legend(&mut svg, &keys, drawing + STRIP - 4.0);
    let mut caption = format!("{}. Both frames over each other", view.title());
    if !joints.is_empty() {
        caption.push_str("; an open circle is where a joint was, a full one where it is");
    }
    if left_out > 0 {
        let names = if left_out == 1 { "name" } else { "names" };
        caption.push_str(&format!("; {left_out} {names} found no room here and stand in the list of changes"));
    }
    caption.push('.');
    Figure { svg: svg.finish(), caption, wide }
}

/// Joints that moved, came or went; where each is to be named.
fn joints<'m>(
    svg: &mut Svg,
    before: &'m Model,
    after: &'m Model,
    inputs: &Inputs,
    sheet: &Sheet,
) -> Vec<((f64, f64), &'m str)> {
    let mut named = Vec::new();
    let mut came_from: Vec<Option<JointId>> = vec![None; after.joints().len()];
    for id in before.joints().ids() {
        if let Some(other) = inputs.pairs.joint(id) {
            came_from[other.index()] = Some(id);
        }
    }
    let (mut open, mut full) = (Vec::new(), Vec::new());
    for (id, joint) in after.joints().iter_with_id() {
        let was = came_from[id.index()].map(|was| before.joints()[was].at);
        match was {
            Some(was) if !moved(&was, &joint.at) => continue,
            Some(was) => open.push(sheet.at(was)),
            None => {}
        }
        full.push(sheet.at(joint.at));
        named.push((sheet.at(joint.at), joint.name.as_str()));
    }
    for (id, joint) in before.joints().iter_with_id() {
        if inputs.pairs.joint(id).is_none() {
            open.push(sheet.at(joint.at));
            named.push((sheet.at(joint.at), joint.name.as_str()));
        }
    }
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1\"", ink::PAPER, ink::INK));
    open.iter().for_each(|at| svg.circle(*at, 3.0));
    svg.close();
    svg.open(&format!("fill=\"{}\"", ink::INK));
    full.iter().for_each(|at| svg.circle(*at, 2.6));
    svg.close();
    named
}

/// Names what moved, came, went or changed; returns how many names found no room.
fn names(svg: &mut Svg, lines: &[Line<'_>], joints: &[((f64, f64), &str)], sheet: &Sheet) -> usize {
    let mut labels = Labels::default();
    for line in lines.iter().filter(|line| line.fate != Fate::Was) {
        labels.keep_off(sheet.at(line.from), sheet.at(line.to));
    }
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"10\"", ink::INK));
    for (at, name) in joints {
        labels.around(svg, *at, 10.0, name);
    }
    svg.close();
    for (fate, colour) in [(Fate::Added, ink::BLUE), (Fate::Gone, ink::RED), (Fate::Changed, ink::BLUE)] {
        // A section that changed touches tubes by the dozen: the list names it once.
        if lines.iter().filter(|line| line.fate == fate).count() > NAMED {
            continue;
        }
        svg.open(&format!("class=\"names\" fill=\"{colour}\" font-size=\"8.5\""));
        for line in lines.iter().filter(|line| line.fate == fate) {
            labels.along(svg, sheet.at(line.from), sheet.at(line.to), 8.5, line.name);
        }
        svg.close();
    }
    labels.left_out
}

#[cfg(test)]
mod tests {
    use strutwork_model::{InputFile, InputFiles, read_model};
    use strutwork_revision::compare_models;

    use super::*;

    fn bar(x_mm: &str) -> Model {
        let files = [
            (
                "model.toml",
                "title = \"bar\"\n[materials.mild]\ngrade = \"S235JRH\"\n[sections.bar]\nshape = \"round\"\n\
                 diameter_mm = 30\nwall_mm = 2\n"
                    .to_owned(),
            ),
            ("joints.csv", format!("joint,x_mm,y_mm,z_mm\nA,0,0,0\nB,{x_mm},0,0\n")),
            ("tubes.csv", "tube,from,to,section,material\nAB,A,B,bar,mild\n".to_owned()),
        ];
        read_model(&InputFiles(files.map(|(name, text)| InputFile::new(name, text)).into())).unwrap().value
    }

    #[test]
    fn a_tube_moves_where_its_joint_does_and_where_the_list_says_so() {
        let before = bar("500");
        let circles = |after: &Model, inputs: &Inputs| draw(&before, after, inputs)[0].svg.matches("<circle").count();
        for (x_mm, fates, listed) in [
            ("500.0001", vec![Fate::Was, Fate::Moved], 1),
            ("500.00001", vec![Fate::Was, Fate::Moved], 1),
            ("500.0000001", vec![Fate::Same], 0),
        ] {
            let after = bar(x_mm);
            let inputs = compare_models(&before, &after, [None, None]);
            assert_eq!(inputs.changes.len(), listed, "{x_mm}");
            let drawn: Vec<Fate> = lines(&before, &after, &inputs).iter().map(|line| line.fate).collect();
            assert_eq!(drawn, fates, "{x_mm}");
            // An open circle and a full one; the drawing of the axes has some of its own.
            let marked = circles(&after, &inputs) - circles(&before, &compare_models(&before, &before, [None, None]));
            assert_eq!(marked, 2 * listed, "{x_mm}");
        }
    }
}
