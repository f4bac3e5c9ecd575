//! What derivatives say of the band of the torsional stiffness.

use strutwork_model::Model;
use strutwork_model::units::{MM, to_nm_per_deg};

use super::draw::{Drawer, outsides};
use super::stock::{Piece, changed};
use super::{BandFault, BandTask};
use crate::sensitivity::{Response, ResponseRates, position_rates, section_rates};

/// What one source of deviation does to the torsional stiffness at its whole tolerance.
#[derive(Debug, Clone, PartialEq)]
pub struct Swing {
    /// What deviates: `rail, bar 2: wall`, `joint A: y`.
    pub of: String,
    /// Change of the stiffness with the deviation at its whole tolerance, upwards, N·m/deg; downwards it is the opposite.
    pub change_nm_per_deg: f64,
}

/// The band of the torsional stiffness by its derivatives: all deviations small, by themselves, and added as squares.
#[derive(Debug, Clone, PartialEq)]
pub struct LinearBand {
    /// N·m/deg.
    pub nominal_nm_per_deg: f64,
    /// Standard deviation, N·m/deg.
    pub deviation_nm_per_deg: f64,
    /// Nominal ∓ 1.645 standard deviations, N·m/deg: the 5 and 95 per cent of a normal distribution.
    pub five_to_ninety_five: [f64; 2],
    /// Every source of deviation, the greatest first.
    pub swings: Vec<Swing>,
    /// Coordinates of joints whose worth is not known and that are left out.
    pub left_out: usize,
}

/// 5 in 100 of a normal distribution lie below this many standard deviations under its mean.
const FIVE: f64 = 1.644_853_626_951_472;
/// Step of the differences of a section's formulas, as a share of the tolerance.
const STEP: f64 = 1e-2;

pub(super) fn linear(task: &BandTask<'_>, model: &Model, drawer: &Drawer, case: &str) -> Result<LinearBand, BandFault> {
    let cases = (task.derive)(model).map_err(BandFault::Nominal)?;
    let place = cases.0.iter().position(|known| known.name == case);
    let place = place.ok_or_else(|| BandFault::Nominal(format!("there is no load case `{case}`")))?;
    let cases = strutwork_loads::LoadCases(vec![cases.0[place].clone()]);
    let found = section_rates(model, &cases, &[Response::Twist { case: 0 }])?;
    let rates = &found.responses[0];
    let mut swings = Vec::new();
    for piece in &drawer.pieces {
        swings.extend(of_piece(task, rates, piece));
    }
    let mut left_out = 0;
    if task.tolerances.joints > 0.0 {
        let places = position_rates(model, &cases, 0)?;
        for (joint, row) in places.joints.iter_with_id() {
            for (axis, rate) in ["x", "y", "z"].into_iter().zip(row) {
                match rate {
                    Some(rate) => swings.push(Swing {
                        of: format!("joint {}: {axis}", model.joints()[joint].name),
                        change_nm_per_deg: to_nm_per_deg(rate * task.tolerances.joints),
                    }),
                    None => left_out += 1,
                }
            }
        }
    }
    let square: f64 = swings.iter().map(|swing| swing.change_nm_per_deg.powi(2)).sum();
    let deviation = (square * task.tolerances.spread.variance()).sqrt();
    swings.sort_by(|a, b| b.change_nm_per_deg.abs().total_cmp(&a.change_nm_per_deg.abs()));
    let nominal = to_nm_per_deg(rates.value);
    Ok(LinearBand {
        nominal_nm_per_deg: nominal,
        deviation_nm_per_deg: deviation,
        five_to_ninety_five: [nominal - FIVE * deviation, nominal + FIVE * deviation],
        swings,
        left_out,
    })
}

/// Wall, and height and width or the diameter, of one piece of stock.
fn of_piece(task: &BandTask<'_>, rates: &ResponseRates, piece: &Piece) -> Vec<Swing> {
    let sides = outsides(&piece.section, &task.tolerances);
    let round = sides[1] == 0.0 && piece.section.round_radius.is_some();
    let ways: [(&str, f64, [f64; 2]); 3] = [
        ("wall", task.tolerances.wall, [0.0; 2]),
        (if round { "diameter" } else { "height" }, 0.0, [sides[0], 0.0]),
        ("width", 0.0, [0.0, sides[1]]),
    ];
    let swing = |&(what, wall, by): &(&str, f64, [f64; 2])| {
        if wall == 0.0 && by.iter().all(|by| by.abs() < 1e-6 * MM) {
            return None;
        }
        let at = |share: f64| {
            let section = changed(&piece.section, share * wall, by.map(|by| share * by))?;
            Some([section.area, section.iy, section.iz, section.j])
        };
        let (low, high) = (at(-STEP)?, at(STEP)?);
        let change: [f64; 4] = std::array::from_fn(|i| (high[i] - low[i]) / (2.0 * STEP));
        let whole: f64 = piece.tubes.iter().map(|tube| rates.tubes[*tube].along(change)).sum();
        Some(Swing { of: format!("{}: {what}", piece.name), change_nm_per_deg: to_nm_per_deg(whole) })
    };
    ways.iter().filter_map(swing).collect()
}
