//! Outlines of sections with their sizes, side by side to one scale.

use strutwork_model::model::{Section, Shape};
use strutwork_model::units;

use super::svg::{Anchor, Path, Svg};
use super::{Figure, ink};
use crate::number::as_given;

/// Width of the drawing, px.
const WIDTH: f64 = 620.0;
/// Most sections in a drawing.
const MOST: usize = 8;
/// Sections in a row.
const ROW: usize = 4;
/// Greatest height and width of an outline, px.
const GREATEST: f64 = 92.0;
/// Room below and above an outline, px.
const ROOM: f64 = 66.0;

/// The outlines of at most eight sections, those with a shape; the caption says how many there are besides.
pub fn outlines(sections: &[&Section], label: &str) -> Option<Figure> {
    let with_shape: Vec<&&Section> = sections.iter().filter(|section| size(section).is_some()).collect();
    let drawn = &with_shape[..with_shape.len().min(MOST)];
    let largest = drawn.iter().filter_map(|section| size(section)).fold(0.0, |most: f64, [h, w]| most.max(h).max(w));
    if drawn.is_empty() || largest <= 0.0 {
        return None;
    }
    let scale = GREATEST / largest;
    let rows = drawn.len().div_ceil(ROW);
    let columns = drawn.len().min(ROW);
    let mut svg = Svg::new(WIDTH, rows as f64 * (GREATEST + ROOM), "sketch", label);
    for (place, section) in drawn.iter().enumerate() {
        let x = WIDTH * ((place % ROW) as f64 + 0.5) / columns as f64;
        let y = (place / ROW) as f64 * (GREATEST + ROOM) + 18.0 + GREATEST / 2.0;
        one(&mut svg, section, (x, y), scale);
    }
    let rest = with_shape.len() - drawn.len();
    let mut caption = String::from("To one scale, sizes in mm. y to the right, z up.");
    if rest > 0 {
        caption.push_str(&format!(" {rest} more stand in the table."));
    }
    Some(Figure { svg: svg.finish(), caption, wide: false })
}

/// Height and width over all, m.
fn size(section: &Section) -> Option<[f64; 2]> {
    match section.shape {
        Shape::Hollow { height, width, .. } | Shape::Flat { height, width } => Some([height, width]),
        Shape::Round { diameter, .. } | Shape::SolidRound { diameter } => Some([diameter; 2]),
        Shape::Properties => None,
    }
}

fn one(svg: &mut Svg, section: &Section, centre: (f64, f64), scale: f64) {
    let Some([height, width]) = size(section) else { return };
    let mut area = Path::new();
    let mut words = vec![section.name.clone()];
    let mm = |value: f64| as_given(units::to_mm(value));
    match section.shape {
        Shape::Hollow { height, width, wall, outer_radius } => {
            rounded(&mut area, centre, [width * scale, height * scale], outer_radius * scale, false);
            let inner = (outer_radius - wall).max(0.0);
            rounded(
                &mut area,
                centre,
                [width - 2.0 * wall, height - 2.0 * wall].map(|x| x * scale),
                inner * scale,
                true,
            );
            words.push(format!("{} × {} × {}, r {}", mm(height), mm(width), mm(wall), mm(outer_radius)));
        }
        Shape::Round { diameter, wall } => {
            circle(&mut area, centre, diameter / 2.0 * scale, false);
            circle(&mut area, centre, (diameter / 2.0 - wall) * scale, true);
            words.push(format!("⌀ {} × {}", mm(diameter), mm(wall)));
        }
        Shape::SolidRound { diameter } => {
            circle(&mut area, centre, diameter / 2.0 * scale, false);
            words.push(format!("⌀ {}", mm(diameter)));
        }
        Shape::Flat { height, width } => {
            rounded(&mut area, centre, [width * scale, height * scale], 0.0, false);
            words.push(format!("{} × {}", mm(height), mm(width)));
        }
        Shape::Properties => {}
    }
    svg.path(&area, &format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::TINT, ink::INK));
    let (half_w, half_h) = (width / 2.0 * scale + 7.0, height / 2.0 * scale + 7.0);
    let mut axes = Path::new();
    axes.start((centre.0 - half_w, centre.1));
    axes.to((centre.0 + half_w, centre.1));
    axes.start((centre.0, centre.1 - half_h));
    axes.to((centre.0, centre.1 + half_h));
    svg.path(
        &axes,
        &format!("fill=\"none\" stroke=\"{}\" stroke-width=\".7\" stroke-dasharray=\"6 2 1 2\"", ink::BLUE),
    );
    svg.open(&format!("fill=\"{}\" font-size=\"10\"", ink::INK));
    for (line, text) in words.iter().enumerate() {
        svg.text((centre.0, centre.1 + GREATEST / 2.0 + 20.0 + 13.0 * line as f64), Anchor::Middle, text);
    }
    svg.close();
}

/// A rectangle with round corners, as a closed line; a hole runs the other way round, so that it is not filled.
fn rounded(path: &mut Path, centre: (f64, f64), [width, height]: [f64; 2], radius: f64, hole: bool) {
    const PARTS: u32 = 6;
    let radius = radius.min(width / 2.0).min(height / 2.0).max(0.0);
    let corners = [(1.0, 1.0), (-1.0, 1.0), (-1.0, -1.0), (1.0, -1.0)];
    let mut points = Vec::new();
    for (place, (sx, sy)) in corners.into_iter().enumerate() {
        let middle = (centre.0 + sx * (width / 2.0 - radius), centre.1 + sy * (height / 2.0 - radius));
        for part in 0..=PARTS {
            let angle = (place as f64 + f64::from(part) / f64::from(PARTS)) * std::f64::consts::FRAC_PI_2;
            points.push((middle.0 + radius * angle.cos(), middle.1 + radius * angle.sin()));
        }
    }
    closed(path, points, hole);
}

fn circle(path: &mut Path, centre: (f64, f64), radius: f64, hole: bool) {
    const PARTS: u32 = 48;
    let place = |part: u32| {
        let angle = f64::from(part) / f64::from(PARTS) * std::f64::consts::TAU;
        (centre.0 + radius * angle.cos(), centre.1 + radius * angle.sin())
    };
    closed(path, (0..PARTS).map(place).collect(), hole);
}

fn closed(path: &mut Path, mut points: Vec<(f64, f64)>, reversed: bool) {
    if reversed {
        points.reverse();
    }
    for (place, point) in points.into_iter().enumerate() {
        if place == 0 { path.start(point) } else { path.to(point) }
    }
    path.shut();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sections_without_a_shape_are_not_drawn_and_many_are_counted() {
        let tubes: Vec<Section> =
            (0..11).map(|i| Section::round("tube", 0.03 + 0.001 * f64::from(i), 0.002).unwrap()).collect();
        let all: Vec<&Section> = tubes.iter().collect();
        let figure = outlines(&all, "tubes").unwrap();
        assert!(figure.caption.contains("3 more") && figure.svg.matches("⌀").count() == 8);
        let bare = Section { shape: Shape::Properties, ..tubes[0].clone() };
        assert_eq!(outlines(&[&bare], "none"), None);
    }
}
