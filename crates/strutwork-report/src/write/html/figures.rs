//! The figures that sum a frame up, each with what it rests on.

use strutwork_checks::Figures;
use strutwork_model::units::to_nm_per_deg;

use crate::number::significant;

/// A figure: its name, its value with unit, what it rests on.
pub(super) struct FigureView {
    pub(super) name: &'static str,
    pub(super) value: String,
    pub(super) means: String,
}

/// All figures of a frame.
pub(super) fn of(figures: &Figures) -> Vec<FigureView> {
    let stiffness = |value: f64| significant(to_nm_per_deg(value), 4);
    let mut all = vec![FigureView {
        name: "Torsional stiffness K",
        value: format!("{} N·m/deg", stiffness(figures.stiffness)),
        means: format!(
            "couple over twist between the stations of case {}: what was held, where the couple acted and what was fitted stands \
             there. It counts between the places where springs meet the frame, not from end to end.",
            figures.case
        ),
    }];
    if let Some(band) = figures.band {
        all.push(FigureView {
            name: "Band of K",
            value: format!("{} to {} N·m/deg", stiffness(band.soft), stiffness(band.rigid)),
            means: format!(
                "with {} tube ends soft by the rule for narrow tubes on wide faces, and with joints as the model gives them. The \
                 rule is an estimate without a test behind it: the band shows how much K hangs on joints, and does not \
                 bound what the built frame will show.",
                band.ends
            ),
        });
    }
    all.push(FigureView {
        name: "Mass for stiffness",
        value: format!("{} g per N·m/deg", significant(figures.grams_per_nm_per_deg(), 3)),
        means: format!(
            "{} kg of tube over K: a figure to rank frames by. A production frame had 88, the best of its studies 23 (J. Linton, \
             MSc thesis, Cranfield 2002, abstract read).",
            significant(figures.frame_mass, 4)
        ),
    });
    if let Some(share) = figures.chassis_share {
        let [front, rear] = share.axles.map(|axle| significant(to_nm_per_deg(axle), 4));
        all.push(FigureView {
            name: "Chassis against roll",
            value: format!("{} %", significant(share.share * 100.0, 3)),
            means: format!(
                "share of a shift of roll couple between the axles that reaches the tyres, K/(K + Ks), with the axles' roll \
                 stiffness in series Ks = Kf·Kr/(Kf + Kr) = {} N·m/deg from {front} front and {rear} rear: two-mass roll \
                 model (derived).",
                stiffness(share.in_series)
            ),
        });
    }
    all
}
