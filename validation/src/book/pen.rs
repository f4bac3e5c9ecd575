//! A pen for drawings of parts: areas, rings, lines, loads, sizes, texts.

use strutwork_report::figures::furniture::arrow;
use strutwork_report::figures::svg::{Anchor, Path, Svg};
use strutwork_report::figures::{Figure, ink};

/// Width of a drawing, px.
pub(super) const WIDTH: f64 = 460.0;

/// A drawing of a part.
pub(super) struct Pen {
    svg: Svg,
}

impl Pen {
    pub(super) fn new(height: f64, label: &str) -> Self {
        Self { svg: Svg::new(WIDTH, height, "sketch", label) }
    }

    pub(super) fn finish(self, caption: &str) -> Figure {
        Figure { svg: self.svg.finish(), caption: caption.to_owned(), wide: false }
    }

    fn polygon(&mut self, points: &[(f64, f64)], attributes: &str) {
        let mut path = Path::new();
        for (place, &point) in points.iter().enumerate() {
            if place == 0 { path.start(point) } else { path.to(point) }
        }
        path.shut();
        self.svg.path(&path, attributes);
    }

    pub(super) fn area(&mut self, points: &[(f64, f64)]) {
        self.polygon(points, &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.4\"", ink::TINT, ink::INK));
    }

    pub(super) fn outline(&mut self, points: &[(f64, f64)], tinted: bool) {
        let fill = if tinted { ink::TINT } else { ink::PAPER };
        self.polygon(points, &format!("fill=\"{fill}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::INK));
    }

    pub(super) fn ring(&mut self, at: (f64, f64), radius: f64, tinted: bool) {
        let fill = if tinted { ink::TINT } else { ink::PAPER };
        self.svg.open(&format!("fill=\"{fill}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::INK));
        self.svg.circle(at, radius.max(0.0));
        self.svg.close();
    }

    pub(super) fn line(&mut self, points: &[(f64, f64)]) {
        let mut path = Path::new();
        for (place, &point) in points.iter().enumerate() {
            if place == 0 { path.start(point) } else { path.to(point) }
        }
        self.svg.path(&path, &format!("fill=\"none\" stroke=\"{}\" stroke-width=\"2\"", ink::INK));
    }

    pub(super) fn dot(&mut self, at: (f64, f64)) {
        self.ring(at, 4.0, false);
    }

    pub(super) fn load(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.5\"", ink::RED));
        arrow(&mut self.svg, from, to, 8.0);
        self.svg.close();
    }

    pub(super) fn size(&mut self, from: (f64, f64), to: (f64, f64), text: &str) {
        self.svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\".8\"", ink::INK));
        self.svg.line(from, to);
        for (x, y) in [from, to] {
            self.svg.line((x - 3.0, y + 3.0), (x + 3.0, y - 3.0));
        }
        self.svg.close();
        self.text(((from.0 + to.0) / 2.0, from.1 - 4.0), Anchor::Middle, text);
    }

    pub(super) fn text(&mut self, at: (f64, f64), anchor: Anchor, text: &str) {
        self.svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"10.5\"", ink::INK));
        self.svg.text(at, anchor, text);
        self.svg.close();
    }

    /// A brace from the face of a chord: its foot's middle, its depth in px, its angle, and the side it leans to.
    pub(super) fn brace(&mut self, foot: (f64, f64), (depth, degrees, side): (f64, f64, f64), text: &str) {
        const LENGTH: f64 = 118.0;
        let angle = degrees.to_radians();
        let (ex, ey) = (side * angle.cos().abs(), -angle.sin());
        let half = depth / (2.0 * angle.sin().abs());
        let far = (foot.0 + ex * LENGTH, foot.1 + ey * LENGTH);
        let corner = |sign: f64| {
            // The edge through the foot's corner, as long as the middle line up to a square cut.
            let start = (foot.0 + sign * half, foot.1);
            let along = (far.0 - start.0) * ex + (far.1 - start.1) * ey;
            (start, (start.0 + ex * along, start.1 + ey * along))
        };
        let ((l0, l1), (r0, r1)) = (corner(-1.0), corner(1.0));
        self.area(&[l0, r0, r1, l1]);
        let out = (far.0 + ex * 14.0, far.1 + ey * 14.0);
        let anchor = if ex < -0.2 {
            Anchor::End
        } else if ex > 0.2 {
            Anchor::Start
        } else {
            Anchor::Middle
        };
        self.text(out, anchor, text);
    }
}
