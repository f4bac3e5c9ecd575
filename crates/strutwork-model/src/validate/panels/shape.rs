//! Whether corners go round a convex edge, and how far they are from one plane.

/// Below this share of the longest edge's square there is no area, and below this share of the area a corner does not
/// point outwards.
const NONE: f64 = 1e-3;

/// Why corners make no panel.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Fault {
    /// A place that is not finite.
    NoNumbers,
    /// All on one line.
    NoArea,
    /// In this order they would go round.
    Crossing([usize; 4]),
    /// This corner points inwards or lies on the line of its neighbours.
    Inward(usize),
}

/// How far four corners are from one plane.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Warp {
    /// Distance between the lines of the diagonals over the shorter diagonal.
    pub(super) share: f64,
    /// That distance, m.
    pub(super) gap: f64,
}

/// Judges three or four corners, m.
pub(super) fn judge(corners: &[[f64; 3]]) -> Result<Warp, Fault> {
    if corners.iter().flatten().any(|number| !number.is_finite()) {
        return Err(Fault::NoNumbers);
    }
    let distances = corners.iter().flat_map(|a| corners.iter().map(move |b| length(minus(*b, *a))));
    let size = distances.fold(0.0, f64::max);
    if corners.len() == 3 {
        let area = length(cross(minus(corners[1], corners[0]), minus(corners[2], corners[0]))) / 2.0;
        return if area > NONE * size * size { Ok(Warp { share: 0.0, gap: 0.0 }) } else { Err(Fault::NoArea) };
    }
    let of = |order: [usize; 4]| order.map(|corner| corners[corner]);
    let given = of([0, 1, 2, 3]);
    let Some(inward) = inward(&given) else { return Ok(warp(&given)) };
    for order in [[0, 2, 1, 3], [0, 1, 3, 2]] {
        if self::inward(&of(order)).is_none() {
            return Err(Fault::Crossing(order));
        }
    }
    let widest = (0..4).map(|left_out| {
        let [a, b, c] = [1, 2, 3].map(|step| corners[(left_out + step) % 4]);
        length(cross(minus(b, a), minus(c, a))) / 2.0
    });
    if widest.fold(0.0, f64::max) > NONE * size * size { Err(Fault::Inward(inward)) } else { Err(Fault::NoArea) }
}

/// The first corner at which the edge does not turn outwards, seen along the normal of both diagonals; the least of all
/// where the diagonals have none.
fn inward(corners: &[[f64; 3]; 4]) -> Option<usize> {
    let normal = cross(minus(corners[2], corners[0]), minus(corners[3], corners[1]));
    let twice = length(normal);
    let cut = [0, 1, 2, 3].map(|i| {
        let (before, after) = (minus(corners[i], corners[(i + 3) % 4]), minus(corners[(i + 1) % 4], corners[i]));
        dot(normal, cross(before, after))
    });
    let least = (0..4).min_by(|&a, &b| cut[a].total_cmp(&cut[b])).unwrap_or(0);
    (cut[least] <= NONE * twice * twice).then_some(least)
}

fn warp(corners: &[[f64; 3]; 4]) -> Warp {
    let [first, second] = [minus(corners[2], corners[0]), minus(corners[3], corners[1])];
    let normal = cross(first, second);
    let gap = dot(normal, minus(corners[1], corners[0])).abs() / length(normal);
    Warp { share: gap / length(first).min(length(second)), gap }
}

pub(super) fn minus(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [0, 1, 2].map(|axis| a[axis] - b[axis])
}

pub(super) fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(super) fn length(a: [f64; 3]) -> f64 {
    dot(a, a).sqrt()
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: [f64; 3] = [0.0, 0.0, 0.0];
    const B: [f64; 3] = [0.5, 0.0, 0.0];
    const C: [f64; 3] = [0.5, 0.4, 0.0];
    const D: [f64; 3] = [0.0, 0.4, 0.0];

    #[test]
    fn a_flat_bay_is_not_warped() {
        assert_eq!(judge(&[A, B, C, D]), Ok(Warp { share: 0.0, gap: 0.0 }));
        assert_eq!(judge(&[A, B, C]), Ok(Warp { share: 0.0, gap: 0.0 }));
    }

    #[test]
    fn the_right_order_is_found_for_crossed_edges() {
        assert_eq!(judge(&[A, C, B, D]), Err(Fault::Crossing([0, 2, 1, 3])));
        assert_eq!(judge(&[A, B, D, C]), Err(Fault::Crossing([0, 1, 3, 2])));
    }

    #[test]
    fn inward_corners_lines_and_nothing_are_told_apart() {
        assert_eq!(judge(&[A, B, [0.1, 0.1, 0.0], D]), Err(Fault::Inward(2)));
        assert_eq!(judge(&[A, [0.25, 0.0, 0.0], B, C]), Err(Fault::Inward(1)));
        assert_eq!(judge(&[A, B, [0.2, 0.0, 0.0], [0.7, 0.0, 0.0]]), Err(Fault::NoArea));
        assert_eq!(judge(&[A, B, [0.2, 0.0, 0.0]]), Err(Fault::NoArea));
        assert_eq!(judge(&[A, B, [f64::NAN, 0.0, 0.0], D]), Err(Fault::NoNumbers));
    }

    /// One corner of a 3-4-5 rectangle raised by 20 mm: the diagonals pass 10 mm apart.
    #[test]
    fn warp_is_the_gap_of_the_diagonals() {
        let warp = judge(&[A, [0.3, 0.0, 0.0], [0.3, 0.4, 0.02], D]).expect("a panel");
        assert!((warp.gap - 0.01).abs() < 1e-4 && (warp.share - 0.02).abs() < 1e-4, "{warp:?}");
    }
}
