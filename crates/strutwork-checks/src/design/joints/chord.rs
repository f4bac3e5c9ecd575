//! Which tube of a joint is the chord.

use strutwork_model::Model;
use strutwork_model::model::{Section, Shape};

use super::ends::End;
use super::vectors::dot;

/// Two tubes are one chord that runs through, and a tube lies along another, where they bend by less than this, as a
/// cosine: 10°. Engineering judgement, no source.
pub(in crate::design) const STRAIGHT: f64 = 0.984_807_753_012_208;

/// The chord among the ends of a joint: the places of two that make one straight tube, or of one that ends there; `None`
/// where fewer than two tubes meet.
///
/// The tube that runs straight through is the chord, the largest of these; failing that, the largest that ends there. Larger
/// is first the one with the greater least side, then with the thicker wall, then with the greater area; the first of equals.
///
/// # Assumes
/// That the larger tube was laid first and the others are cut to it: common practice, no source.
pub(in crate::design) fn find(model: &Model, ends: &[End]) -> Option<(usize, Option<usize>)> {
    if ends.len() < 2 {
        return None;
    }
    let mut best: Option<(usize, Option<usize>)> = None;
    let mut keep = |place: usize, other: Option<usize>| {
        let size = |place: usize| size(ends[place].section(model));
        if best.is_none_or(|(known, _)| greater(size(place), size(known))) {
            best = Some((place, other));
        }
    };
    let mut through = false;
    for (place, end) in ends.iter().enumerate() {
        for (other, second) in ends.iter().enumerate().skip(place + 1) {
            if runs_through(model, end, second) {
                through = true;
                keep(place, Some(other));
            }
        }
    }
    if !through {
        (0..ends.len()).for_each(|place| keep(place, None));
    }
    best
}

/// Whether two ends make one straight tube: of one section, in one line, and with their faces in line.
fn runs_through(model: &Model, a: &End, b: &End) -> bool {
    let one_section = model.tubes()[a.tube].section == model.tubes()[b.tube].section;
    one_section && a.tube != b.tube && dot(a.out, b.out) <= -STRAIGHT && faces_in_line(a.section(model), a, b)
}

fn faces_in_line(section: &Section, a: &End, b: &End) -> bool {
    let Shape::Hollow { height, width, .. } = section.shape else { return true };
    let same = dot(a.across[1], b.across[1]).abs();
    // A quarter turn of a square tube changes nothing.
    let turned = if (height - width).abs() < 1e-9 { dot(a.across[1], b.across[0]).abs() } else { 0.0 };
    same.max(turned) >= STRAIGHT
}

/// What makes a tube the larger: least side, wall, area, m and m².
fn size(section: &Section) -> [f64; 3] {
    let least = match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => height.min(width),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => diameter,
        Shape::Properties => 0.0,
    };
    [least, section.thickness().unwrap_or(0.0), section.area]
}

fn greater(a: [f64; 3], b: [f64; 3]) -> bool {
    a.iter().zip(&b).find(|(a, b)| a != b).is_some_and(|(a, b)| a > b)
}
