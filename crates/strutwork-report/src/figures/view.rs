//! From a place in the frame to a place on the sheet.

use strutwork_model::Model;

use super::attached;

/// Where the reader stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum View {
    /// From above: x to the right, y up.
    Plan,
    /// From the right-hand side: x to the right, z up.
    Side,
    /// From the front: y to the right, z up.
    Front,
    /// From the front, right and above, all three axes to the same scale.
    Isometric,
}

impl View {
    /// All four, in the order in which they are printed.
    pub const ALL: [Self; 4] = [Self::Isometric, Self::Plan, Self::Side, Self::Front];

    /// Its heading.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Plan => "Plan, seen from above",
            Self::Side => "Side, seen from the right",
            Self::Front => "Front, seen from ahead",
            Self::Isometric => "Isometric, seen from the front, the right and above",
        }
    }

    /// Right, up and toward the reader, in the units of `at`. In the isometric view a length along an axis appears √(2/3)
    /// as long.
    pub fn project(self, [x, y, z]: [f64; 3]) -> [f64; 3] {
        match self {
            Self::Plan => [x, y, z],
            Self::Side => [x, z, -y],
            Self::Front => [y, z, x],
            Self::Isometric => [
                (x + y) * std::f64::consts::FRAC_1_SQRT_2,
                (y - x + 2.0 * z) / 6.0_f64.sqrt(),
                (x - y + z) / 3.0_f64.sqrt(),
            ],
        }
    }

    /// How long a length along an axis appears.
    pub fn axis_scale(self) -> f64 {
        if self == Self::Isometric { (2.0_f64 / 3.0).sqrt() } else { 1.0 }
    }
}

/// A view fitted to a sheet: px to the right and down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sheet {
    /// The view.
    pub view: View,
    /// px a metre (of projected length).
    pub scale: f64,
    /// Width of the drawing with its margins, px.
    pub width: f64,
    /// Height of the drawing with its margins, px.
    pub height: f64,
    left: f64,
    top: f64,
}

/// What has to fit on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shown {
    /// The joints.
    Frame,
    /// The joints, the bodies, the suspension and the wheels.
    Vehicle,
    /// All that, and the masses.
    Everything,
}

/// Limits of what is drawn, projected.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Extent {
    low: [f64; 2],
    high: [f64; 2],
}

impl Sheet {
    /// Fits what is shown into a sheet of this width and at most this height, `margin` px all round.
    pub fn fit(model: &Model, view: View, shown: Shown, size: (f64, f64), margin: f64) -> Self {
        Self::fit_all(&[model], view, shown, size, margin)
    }

    /// The same for several frames drawn over each other.
    pub fn fit_all(models: &[&Model], view: View, shown: Shown, (width, most_height): (f64, f64), margin: f64) -> Self {
        let mut extent = Extent { low: [f64::INFINITY; 2], high: [f64::NEG_INFINITY; 2] };
        for of in models.iter().map(|model| self::extent(model, view, shown)) {
            for axis in 0..2 {
                extent.low[axis] = extent.low[axis].min(of.low[axis]);
                extent.high[axis] = extent.high[axis].max(of.high[axis]);
            }
        }
        let size = |axis: usize| extent.high[axis] - extent.low[axis];
        let (inner_width, inner_height) = (width - 2.0 * margin, most_height - 2.0 * margin);
        let fits = [(inner_width, size(0)), (inner_height, size(1))];
        let scale = fits
            .into_iter()
            .filter(|(_, length)| *length > 0.0)
            .map(|(room, length)| room / length)
            .fold(f64::INFINITY, f64::min);
        let scale = if scale.is_finite() { scale } else { 1.0 };
        let height = size(1) * scale + 2.0 * margin;
        Self {
            view,
            scale,
            width,
            height,
            left: (width - size(0) * scale) / 2.0 - extent.low[0] * scale,
            top: margin + extent.high[1] * scale,
        }
    }

    /// Where a place of the frame lies on the sheet.
    pub fn at(&self, place: [f64; 3]) -> (f64, f64) {
        let [right, up, _] = self.view.project(place);
        (self.left + right * self.scale, self.top - up * self.scale)
    }

    /// How near the reader a place is, m.
    pub fn nearness(&self, place: [f64; 3]) -> f64 {
        self.view.project(place)[2]
    }
}

/// The view that shows the frame best by itself: isometric, or for a frame on one line the one along which it is longest.
pub fn main(model: &Model) -> View {
    if shows_area(model, View::Isometric) {
        return View::Isometric;
    }
    let length = |view: View| {
        let [wide, high] = size(model, view);
        wide.hypot(high)
    };
    let longer = |best: View, next: View| if length(next) > length(best) { next } else { best };
    FLAT.into_iter().fold(View::Side, longer)
}

/// Whether the frame shows more than a line in this view. A frame on one line, which is slanted in the isometric view, does
/// not.
pub fn shows_area(model: &Model, view: View) -> bool {
    if view == View::Isometric {
        return FLAT.into_iter().any(|flat| shows_area(model, flat));
    }
    let [wide, high] = size(model, view);
    let least = 1e-6 * wide.max(high);
    wide > least && high > least
}

const FLAT: [View; 3] = [View::Side, View::Plan, View::Front];

fn size(model: &Model, view: View) -> [f64; 2] {
    let extent = extent(model, view, Shown::Frame);
    [0, 1].map(|axis| extent.high[axis] - extent.low[axis])
}

fn extent(model: &Model, view: View, shown: Shown) -> Extent {
    let mut extent = Extent { low: [f64::INFINITY; 2], high: [f64::NEG_INFINITY; 2] };
    let joints = model.joints().iter().map(|joint| joint.at);
    let masses = model.masses().iter().map(|mass| mass.at).filter(|_| shown == Shown::Everything);
    let bodies = model.bodies().iter().map(|body| body.at);
    let attached = bodies.chain(attached::suspension_places(model)).filter(|_| shown != Shown::Frame);
    for place in joints.chain(attached).chain(masses) {
        let projected = view.project(place);
        for (axis, value) in projected.into_iter().take(2).enumerate() {
            extent.low[axis] = extent.low[axis].min(value);
            extent.high[axis] = extent.high[axis].max(value);
        }
    }
    if extent.low[0] > extent.high[0] {
        return Extent { low: [0.0; 2], high: [0.0; 2] };
    }
    extent
}

/// Size of the frame: the diagonal of the box that holds its joints, m.
pub fn frame_size(model: &Model) -> f64 {
    let mut low = [f64::INFINITY; 3];
    let mut high = [f64::NEG_INFINITY; 3];
    for joint in model.joints() {
        for axis in 0..3 {
            low[axis] = low[axis].min(joint.at[axis]);
            high[axis] = high[axis].max(joint.at[axis]);
        }
    }
    let squares = (0..3).map(|axis| (high[axis] - low[axis]).powi(2)).sum::<f64>();
    if squares.is_finite() { squares.sqrt() } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_view_is_right_handed_and_the_isometric_one_treats_axes_alike() {
        for view in View::ALL {
            let [x, y, z] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|e| view.project(e));
            // Columns are the images of the axes: their triple product is 1 where nothing is mirrored.
            let cross = [y[1] * z[2] - y[2] * z[1], y[2] * z[0] - y[0] * z[2], y[0] * z[1] - y[1] * z[0]];
            let triple: f64 = x.iter().zip(cross).map(|(a, b)| a * b).sum();
            assert!((triple - 1.0).abs() < 1e-12, "{view:?}: {triple}");
        }
        let lengths = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]].map(|e| {
            let [right, up, _] = View::Isometric.project(e);
            right.hypot(up)
        });
        for length in lengths {
            assert!((length - View::Isometric.axis_scale()).abs() < 1e-12);
        }
    }
}
