//! The cases of the load files, with self weight where the options ask for it.

use std::sync::Arc;

use strutwork_model::model::{Model, PlainCase};
use strutwork_model::units::STANDARD_GRAVITY;

use crate::basis::Basis;
use crate::build::CaseBuilder;
use crate::case::{LoadCase, LoadCases, Nature, Remark};
use crate::error::LoadError;
use crate::masses::MassKind;

/// A frame falls freely where its acceleration differs from gravity by less than this share: what is written carries no
/// weight worth telling.
const FALLS: f64 = 1e-6;

/// The cases written in the load files: the loads as written, the supports of `supports.csv`, and self weight where
/// [`Options::self_weight`](strutwork_model::model::Options) asks for it.
///
/// Self weight is ρ·A·g along −z on every tube; the weight of each panel and mass reaches the joints, the body or the links
/// that carry it. Where nothing is held and [`Options::inertia_relief`](strutwork_model::model::Options) allows it, each
/// case is balanced by the frame's own inertia and free.
///
/// # Signs and order
/// Cases in the order in which the files first name them. Within a case, what was written comes before self weight, and
/// that before inertia.
///
/// # Errors
/// [`LoadError::Upright`]; for free cases [`LoadError::NoMass`], [`LoadError::NoDensity`], [`LoadError::NoInertia`];
/// [`LoadError::NotFinite`] where sums overflow; [`LoadError::SettlementNotFixed`].
pub fn derive_plain(model: &Model) -> Result<LoadCases, LoadError> {
    if model.plain_cases().is_empty() {
        return Ok(LoadCases::default());
    }
    let basis = Arc::new(Basis::of(model)?);
    model.plain_cases().iter().map(|plain| derive(model, &basis, plain)).collect::<Result<_, _>>().map(LoadCases)
}

fn derive(model: &Model, basis: &Arc<Basis>, plain: &PlainCase) -> Result<LoadCase, LoadError> {
    let mut case = CaseBuilder::on(model, Arc::clone(basis), &plain.name, "", Nature::Plain)?;
    case.hold_as_model();
    case.act_as_written(plain);
    case.explain("Loads, temperatures and settlements as written in the load files.");
    if model.options().self_weight {
        case.weigh()?;
    } else {
        case.explain("Self weight is left out, as the options say.");
    }
    let mut case = case.finish()?;
    if model.options().self_weight && falls(&case) {
        let text = "Nothing carries the weight in this case: the frame falls freely, and its weight loads nothing.";
        case.derivation.remarks.push(Remark { code: "", text: text.to_owned() });
    }
    Ok(case)
}

/// Whether a free case accelerates downwards as fast as gravity pulls.
fn falls(case: &LoadCase) -> bool {
    let down = case.derivation.acceleration.map_or(0.0, |acceleration| acceleration[2]);
    case.free && (down + STANDARD_GRAVITY).abs() < FALLS * STANDARD_GRAVITY
}

impl CaseBuilder<&Model> {
    /// Self weight, with a step for each kind of thing that the model has.
    fn weigh(&mut self) -> Result<(), LoadError> {
        self.pull([0.0, 0.0, -STANDARD_GRAVITY]);
        let weight = |kind: MassKind| self.mass().of_kind(kind) * STANDARD_GRAVITY;
        let (tubes, panels, masses) = (weight(MassKind::Tubes), weight(MassKind::Panel), weight(MassKind::Carried));
        self.step("Self weight of the tubes, along −z: sum of ρ·A·L·g, uniform along each tube.", tubes, "N")?;
        if !self.model().panels().is_empty() {
            self.step("Weight of the panels, along −z: sum of ρ·A·t·g, spread to the corners of each.", panels, "N")?;
        }
        if !self.model().masses().is_empty() {
            self.step("Weight of the masses, along −z: sum of m·g, on what carries each.", masses, "N")?;
        }
        Ok(())
    }
}
