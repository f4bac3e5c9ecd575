//! Signs: masses, supports, names of wheels.

use strutwork_model::Dof;
use strutwork_model::model::{Hold, Support, Wheel};

use super::ink;
use super::svg::{Anchor, Path, Svg};
use super::view::Sheet;
use crate::run::Run;

/// A centre of mass: a circle with two dark quarters.
pub(super) fn mass(svg: &mut Svg, at: (f64, f64), radius: f64) {
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\".9\"", ink::PAPER, ink::INK));
    svg.circle(at, radius);
    svg.close();
    let quarter = |sx: f64, sy: f64| {
        let mut path = Path::new();
        path.start(at);
        for step in 0..=6 {
            let angle = std::f64::consts::FRAC_PI_2 * f64::from(step) / 6.0;
            path.to((at.0 + sx * radius * angle.cos(), at.1 + sy * radius * angle.sin()));
        }
        path.shut();
        path
    };
    svg.open(&format!("fill=\"{}\"", ink::INK));
    svg.path(&quarter(1.0, -1.0), "");
    svg.path(&quarter(-1.0, 1.0), "");
    svg.close();
}

/// How a joint is held: a square where all six freedoms are fixed, otherwise a triangle.
pub(super) fn support(svg: &mut Svg, at: (f64, f64), support: &Support) {
    svg.open(&format!("fill=\"{}\" stroke=\"{}\" stroke-width=\"1.2\"", ink::PAPER, ink::BLUE));
    if Dof::ALL.into_iter().all(|dof| support.holds[dof] == Hold::Fixed) {
        svg.rectangle((at.0 - 5.0, at.1 - 5.0), (10.0, 10.0), "");
    } else {
        let mut path = Path::new();
        path.start(at);
        path.to((at.0 + 6.5, at.1 + 11.0));
        path.to((at.0 - 6.5, at.1 + 11.0));
        path.shut();
        svg.path(&path, "");
    }
    svg.close();
}

/// Short names of the wheels at their contact patches.
pub(super) fn wheel_names(svg: &mut Svg, run: &Run<'_>, sheet: &Sheet) {
    let Some(vehicle) = run.model.vehicle() else { return };
    svg.open(&format!("fill=\"{}\" font-size=\"9\"", ink::BLUE));
    let mut named: Vec<((f64, f64), String)> = Vec::new();
    for (corner, wheel) in vehicle.corners.iter().zip(Wheel::ALL) {
        let at = sheet.at(corner.contact);
        let same = named.iter_mut().find(|(other, _)| (other.0 - at.0).hypot(other.1 - at.1) < 6.0);
        match same {
            Some((_, names)) => {
                names.push_str(" · ");
                names.push_str(short_name(wheel));
            }
            None => named.push((at, short_name(wheel).to_owned())),
        }
    }
    for (at, names) in named {
        svg.text((at.0, at.1 + 15.0), Anchor::Middle, &names);
    }
    svg.close();
}

/// `FL`, `FR`, `RL`, `RR`.
pub(super) const fn short_name(wheel: Wheel) -> &'static str {
    match wheel {
        Wheel::FrontLeft => "FL",
        Wheel::FrontRight => "FR",
        Wheel::RearLeft => "RL",
        Wheel::RearRight => "RR",
    }
}
