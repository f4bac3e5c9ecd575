//! The force of the road on each wheel, in plan.

use strutwork_loads::LoadCase;
use strutwork_model::model::Wheel;

use super::furniture;
use super::marks::short_name;
use super::svg::{Anchor, Svg};
use super::{Figure, ink};
use crate::number;

/// A sheet, and the distances of the wheels' centres along x and along y, px.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    size: (f64, f64),
    base: f64,
    track: f64,
}

/// Beside a table of the same page.
pub const WIDE: Plan = Plan { size: (360.0, 170.0), base: 180.0, track: 92.0 };
/// In a narrow column.
pub const NARROW: Plan = Plan { size: (250.0, 160.0), base: 116.0, track: 84.0 };

/// The four wheels from above: vertical force as a disc of that area, force along the ground as an arrow.
pub fn draw(case: &LoadCase, plan: Plan) -> Option<Figure> {
    let forces = case.derivation.wheel_forces?;
    let label = format!("Force of the road on each wheel, load case {}", case.name);
    let mut svg = Svg::new(plan.size.0, plan.size.1, "wheels", &label);
    let largest_up = forces.iter().map(|force| force[2].abs()).fold(0.0, f64::max);
    let along = |force: &[f64; 3]| force[0].abs().max(force[1].abs());
    let largest_along = forces.iter().map(along).fold(0.0, f64::max);

    let centre = (plan.size.0 / 2.0, plan.size.1 / 2.0);
    let at = |wheel: Wheel| {
        let (front, left) = match wheel {
            Wheel::FrontLeft => (1.0, 1.0),
            Wheel::FrontRight => (1.0, -1.0),
            Wheel::RearLeft => (-1.0, 1.0),
            Wheel::RearRight => (-1.0, -1.0),
        };
        (centre.0 + front * plan.base / 2.0, centre.1 - left * plan.track / 2.0)
    };
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\".9\"", ink::GREY));
    svg.line(at(Wheel::FrontLeft), at(Wheel::FrontRight));
    svg.line(at(Wheel::RearLeft), at(Wheel::RearRight));
    svg.line((at(Wheel::RearLeft).0, centre.1), (at(Wheel::FrontLeft).0, centre.1));
    furniture::arrow(&mut svg, (at(Wheel::FrontLeft).0, centre.1), (at(Wheel::FrontLeft).0 + 34.0, centre.1), 6.0);
    svg.close();

    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1\"", ink::PAPER, ink::INK));
    for wheel in Wheel::ALL {
        let (x, y) = at(wheel);
        svg.rectangle((x - 17.0, y - 6.0), (34.0, 12.0), "rx=\"3\"");
    }
    svg.close();
    // A wheel that would have to pull on the road gets an open red ring.
    for (wheel, force) in Wheel::ALL.into_iter().zip(&forces) {
        if largest_up > 0.0 {
            let radius = 15.0 * (force[2].abs() / largest_up).sqrt();
            let style = if force[2] < 0.0 {
                format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.6\" stroke-dasharray=\"3 2\"", ink::RED)
            } else {
                format!("fill=\"{}\" fill-opacity=\".2\" stroke=\"{}\" stroke-width=\"1\"", ink::BLUE, ink::BLUE)
            };
            svg.open(&style);
            svg.circle(at(wheel), radius);
            svg.close();
        }
    }
    svg.open(&format!("fill=\"none\" stroke=\"{}\" stroke-width=\"1.5\"", ink::RED));
    for (wheel, force) in Wheel::ALL.into_iter().zip(&forces) {
        if along(force) > 0.01 * largest_along && largest_along > 0.0 {
            let (x, y) = at(wheel);
            let scale = 34.0 / largest_along;
            furniture::arrow(&mut svg, (x, y), (x + force[0] * scale, y - force[1] * scale), 5.5);
        }
    }
    svg.close();
    svg.open(&format!("class=\"names\" fill=\"{}\" font-size=\"10\"", ink::INK));
    for (wheel, force) in Wheel::ALL.into_iter().zip(&forces) {
        let (x, y) = at(wheel);
        let left = matches!(wheel, Wheel::FrontLeft | Wheel::RearLeft);
        let line = if left { y - 22.0 } else { y + 30.0 };
        let text = format!("{} {} N", short_name(wheel), number::fixed(force[2], 0));
        svg.text((x, line), Anchor::Middle, &text);
    }
    svg.text((at(Wheel::FrontLeft).0 + 40.0, centre.1 + 3.5), Anchor::Start, "x");
    svg.close();
    if plan == NARROW {
        let caption = "Road on the wheels, from above: Fz as a disc and a number, along the ground as an arrow.";
        return Some(Figure { svg: svg.finish(), caption: caption.to_owned(), wide: false });
    }
    let mut caption =
        String::from("Force of the road on each wheel, from above. Disc: the vertical force, by area; number: Fz");
    if largest_along > 0.0 {
        caption.push_str("; red arrow: the force along the ground");
    }
    if forces.iter().any(|force| force[2] < 0.0) {
        caption.push_str("; broken red ring: a wheel that would have to pull on the road");
    }
    caption.push('.');
    Some(Figure { svg: svg.finish(), caption, wide: false })
}
