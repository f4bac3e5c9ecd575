//! The mass sheet: parts, corners and the raised axle on the scales, against what the model weighs.

mod centre;
mod corners;
mod parts;

use strutwork_loads::masses::MassModel;
use strutwork_loads::wheels::static_loads;
use strutwork_model::Model;
use strutwork_model::units::STANDARD_GRAVITY;

use crate::remark::Remark;
pub use centre::{WeighedCentre, WeighedHeight};
pub use parts::WeighedPartRow;

/// What the scales say beside the model.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MassSheet {
    /// The weighed parts, in the order of the file.
    pub parts: Vec<WeighedPartRow>,
    /// Sum of the four corners, kg; `None` where not all were weighed.
    pub corners: Option<f64>,
    /// Share of the total on the diagonal front left to rear right: weighed and modelled; `None` likewise.
    pub cross: Option<[f64; 2]>,
    /// Centre of gravity that the corners give.
    pub centre: Option<WeighedCentre>,
    /// Its height, from a weighing with one axle raised.
    pub height: Option<WeighedHeight>,
    /// What was found.
    pub remarks: Vec<Remark>,
}

impl MassSheet {
    /// Whether nothing was weighed that this sheet is about.
    pub fn is_empty(&self) -> bool {
        self.parts.is_empty() && self.corners.is_none() && self.remarks.is_empty()
    }
}

/// Two standard uncertainties of a sum in which each of `readings` scales may be out by ±`tolerance`.
///
/// # Source
/// JCGM 100:2008 (GUM), 4.3.7 and 6.3.3 (from memory): ±a without more knowledge is a/√3; coverage factor 2.
pub(crate) fn uncertainty(tolerance: f64, readings: f64) -> f64 {
    2.0 * tolerance * (readings / 3.0).sqrt()
}

/// Holds the scales against the model. Where corners were weighed and the model's own loads on them cannot be told, that is a
/// remark, and everything else is judged.
pub fn mass_sheet(model: &Model) -> MassSheet {
    let weighed = model.weighed();
    let mass = MassModel::of(model);
    let mut sheet = MassSheet::default();
    let (parts, said) = parts::compare(model, &mass);
    sheet.parts = parts;
    sheet.remarks.extend(said);
    sheet.remarks.extend(corners::units(weighed, &mass));
    if weighed.corners.iter().all(Option::is_none) {
        return sheet;
    }
    let four = match weighed.corners {
        [Some(fl), Some(fr), Some(rl), Some(rr)] => Some([fl, fr, rl, rr]),
        _ => None,
    };
    sheet.corners = four.map(|corners| corners.iter().sum());
    let modelled = match static_loads(model) {
        Ok(modelled) => modelled.loads.map(|load| load / STANDARD_GRAVITY),
        Err(why) => {
            sheet.remarks.push(corners::unheld(&why));
            return sheet;
        }
    };
    let Some(corners) = four else { return sheet };
    sheet.cross = Some([corners, modelled].map(corners::diagonal));
    let (said, sound) = corners::compare(weighed, corners, modelled);
    sheet.remarks.extend(said);
    if let (Some(vehicle), true) = (model.vehicle(), sound) {
        let centre = centre::of_corners(vehicle, weighed, corners, &mass);
        sheet.remarks.extend(centre.remark(vehicle));
        sheet.centre = Some(centre);
        if let Some(raised) = &weighed.raised {
            let (height, said) = centre::height(vehicle, weighed.tolerance, corners, raised, &mass, centre);
            sheet.height = height;
            sheet.remarks.extend(said);
        }
    }
    sheet
}
