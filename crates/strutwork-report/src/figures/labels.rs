//! Names on a drawing, set where they do not overlap; names that find no room are counted.

use strutwork_model::Model;

use super::MANY_JOINTS;
use super::svg::{Anchor, Svg};
use super::view::Sheet;

/// Sizes of letters of the page's font, em.
const LETTER_WIDTH: f64 = 0.56;
const LETTER_HEIGHT: f64 = 0.78;

/// Keeps the places that are taken.
#[derive(Debug, Default)]
pub struct Labels {
    taken: Vec<Area>,
    lines: Vec<((f64, f64), (f64, f64))>,
    /// Names that found no room.
    pub left_out: usize,
}

/// An upright rectangle, px.
#[derive(Debug, Clone, Copy)]
struct Area {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Area {
    fn meets(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether a straight line passes through it.
    fn is_crossed(&self, (from, to): ((f64, f64), (f64, f64))) -> bool {
        if from.0.max(to.0) < self.left
            || from.0.min(to.0) > self.right
            || from.1.max(to.1) < self.top
            || from.1.min(to.1) > self.bottom
        {
            return false;
        }
        // All four corners on one side: no crossing.
        let side = |x: f64, y: f64| (to.0 - from.0) * (y - from.1) - (to.1 - from.1) * (x - from.0);
        let sides = [
            side(self.left, self.top),
            side(self.right, self.top),
            side(self.left, self.bottom),
            side(self.right, self.bottom),
        ];
        !(sides.iter().all(|s| *s > 0.0) || sides.iter().all(|s| *s < 0.0))
    }
}

impl Labels {
    /// Names that keep off the tubes of a frame; of a large one, where they could not, off nothing.
    pub fn off_tubes(model: &Model, sheet: &Sheet) -> Self {
        let mut labels = Self::default();
        for tube in model.tubes().ids().filter(|_| model.joints().len() <= MANY_JOINTS) {
            let [from, to] = model.tube_ends(tube);
            labels.keep_off(sheet.at(from), sheet.at(to));
        }
        labels
    }

    /// A line of the drawing; names keep off lines where they can.
    pub fn keep_off(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.lines.push((from, to));
    }

    /// A place that no name may cover.
    pub fn occupy(&mut self, centre: (f64, f64), half: f64) {
        self.taken.push(Area {
            left: centre.0 - half,
            top: centre.1 - half,
            right: centre.0 + half,
            bottom: centre.1 + half,
        });
    }

    /// Sets a name near a point: of eight places round it, the free one that crosses the fewest lines.
    pub fn around(&mut self, svg: &mut Svg, at: (f64, f64), size: f64, text: &str) {
        let (width, height) = extent(text, size);
        let (near, far) = (4.0, 9.0);
        let mut best = None::<(usize, Area, (f64, f64), Anchor)>;
        for gap in [near, far] {
            let places = [
                (gap, -gap, Anchor::Start),
                (gap, gap + height, Anchor::Start),
                (-gap, -gap, Anchor::End),
                (-gap, gap + height, Anchor::End),
                (0.0, -gap - 2.0, Anchor::Middle),
                (0.0, gap + height + 2.0, Anchor::Middle),
                (gap + 2.0, height / 2.0, Anchor::Start),
                (-gap - 2.0, height / 2.0, Anchor::End),
            ];
            for (dx, dy, anchor) in places {
                let base = (at.0 + dx, at.1 + dy);
                let area = area(base, anchor, width, height);
                if !self.is_free(svg, &area) {
                    continue;
                }
                let crossed = self.lines.iter().filter(|line| area.is_crossed(**line)).count();
                if best.as_ref().is_none_or(|(least, ..)| crossed < *least) {
                    best = Some((crossed, area, base, anchor));
                }
            }
            if best.as_ref().is_some_and(|(crossed, ..)| *crossed == 0) {
                break;
            }
        }
        self.set(svg, best.map(|(_, area, base, anchor)| (area, base, anchor)), text);
    }

    /// Sets a name on a point, centred; left out where the place is taken.
    pub fn upon(&mut self, svg: &mut Svg, at: (f64, f64), size: f64, text: &str) {
        let (width, height) = extent(text, size);
        let base = (at.0, at.1 + height / 2.0);
        let area = area(base, Anchor::Middle, width, height);
        let found = self.is_free(svg, &area).then_some((area, base, Anchor::Middle));
        self.set(svg, found, text);
    }

    /// Sets a name along a line, just above it; left out where the line is too short or the place is taken.
    pub fn along(&mut self, svg: &mut Svg, from: (f64, f64), to: (f64, f64), size: f64, text: &str) {
        let (width, height) = extent(text, size);
        // From left to right, so that no name stands on its head.
        let (from, to) = if (from.0, to.1) <= (to.0, from.1) { (from, to) } else { (to, from) };
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let length = dx.hypot(dy);
        if length < width + 4.0 {
            self.left_out += 1;
            return;
        }
        let (ex, ey) = (dx / length, dy / length);
        let room = (length - width) / length / 2.0;
        let found = [0.0, -0.5, 0.5, -0.9, 0.9].into_iter().find_map(|shift| {
            let along = 0.5 + shift * room;
            let base = (from.0 + dx * along + ey * 2.4, from.1 + dy * along - ex * 2.4);
            let tiles = tiles(base, (ex, ey), width, height);
            tiles.iter().all(|tile| self.is_free(svg, tile)).then_some((base, tiles))
        });
        if let Some((base, tiles)) = found {
            svg.turned_text(base, ey.atan2(ex).to_degrees(), text);
            self.taken.extend(tiles);
        } else {
            self.left_out += 1;
        }
    }

    fn set(&mut self, svg: &mut Svg, found: Option<(Area, (f64, f64), Anchor)>, text: &str) {
        if let Some((area, base, anchor)) = found {
            svg.text(base, anchor, text);
            self.taken.push(area);
        } else {
            self.left_out += 1;
        }
    }

    fn is_free(&self, svg: &Svg, area: &Area) -> bool {
        area.left > 1.0
            && area.top > 1.0
            && area.right < svg.width() - 1.0
            && area.bottom < svg.height() - 1.0
            && !self.taken.iter().any(|other| other.meets(area))
    }
}

fn extent(text: &str, size: f64) -> (f64, f64) {
    (text.chars().count() as f64 * LETTER_WIDTH * size + 1.0, LETTER_HEIGHT * size)
}

/// Small squares that together cover a turned text.
fn tiles(base: (f64, f64), (ex, ey): (f64, f64), width: f64, height: f64) -> Vec<Area> {
    let count = (width / height).ceil().max(1.0) as usize;
    let half = height * 0.5;
    (0..count)
        .map(|tile| {
            let along = ((tile as f64 + 0.5) / count as f64 - 0.5) * width;
            let centre = (base.0 + ex * along + ey * half, base.1 + ey * along - ex * half);
            Area { left: centre.0 - half, top: centre.1 - half, right: centre.0 + half, bottom: centre.1 + half }
        })
        .collect()
}

fn area(base: (f64, f64), anchor: Anchor, width: f64, height: f64) -> Area {
    let left = match anchor {
        Anchor::Start => base.0,
        Anchor::Middle => base.0 - width / 2.0,
        Anchor::End => base.0 - width,
    };
    Area { left, top: base.1 - height, right: left + width, bottom: base.1 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_along_a_line_lies_above_it_and_is_never_upside_down() {
        for to in [(180.0, 50.0), (20.0, 50.0), (100.0, 95.0), (100.0, 5.0), (30.0, 90.0)] {
            let mut svg = Svg::new(200.0, 100.0, "figure", "test");
            let mut labels = Labels::default();
            labels.along(&mut svg, (100.0, 50.0), to, 6.0, "T1");
            let out = svg.finish();
            let turn = out.split("rotate(").nth(1).and_then(|tail| tail.split(')').next()).unwrap();
            assert!((-90.0..=90.0).contains(&turn.parse::<f64>().unwrap()), "{out}");
        }
        let mut svg = Svg::new(200.0, 100.0, "figure", "test");
        let mut labels = Labels::default();
        labels.along(&mut svg, (100.0, 50.0), (108.0, 50.0), 10.0, "long-name");
        assert_eq!((labels.left_out, labels.taken.len()), (1, 0));
    }

    #[test]
    fn names_never_overlap_and_what_has_no_room_is_counted() {
        let mut svg = Svg::new(200.0, 100.0, "figure", "test");
        let mut labels = Labels::default();
        for _ in 0..40 {
            labels.around(&mut svg, (100.0, 50.0), 10.0, "joint-12");
        }
        let set = labels.taken.len();
        assert!(set >= 4 && set + labels.left_out == 40, "{set} set");
        for (place, area) in labels.taken.iter().enumerate() {
            assert!(!labels.taken[place + 1..].iter().any(|other| other.meets(area)));
        }
    }

    #[test]
    fn a_name_keeps_off_lines_where_it_can() {
        let mut svg = Svg::new(200.0, 100.0, "figure", "test");
        let mut labels = Labels::default();
        labels.keep_off((100.0, 50.0), (140.0, 10.0));
        labels.around(&mut svg, (100.0, 50.0), 10.0, "J1");
        assert!(!labels.taken[0].is_crossed(labels.lines[0]));
    }
}
