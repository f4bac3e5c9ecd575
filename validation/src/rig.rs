//! What the sheet of a twist rig says of a frame.

use strutwork_model::Model;
use strutwork_rig::{RigEvidence, codes};

use crate::run::Problem;
use crate::unit::Dimension;

/// A figure of a rig's sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RigPart {
    /// Torsional stiffness by the readings.
    Measured,
    /// The same by the model, held and loaded as the rig.
    Modelled,
    /// Measured over modelled.
    Ratio,
    /// What the rig yields at the loaded station, of its turn.
    Sink,
}

impl RigPart {
    /// All, with their names in files.
    pub const NAMED: [(Self, &'static str); 4] =
        [(Self::Measured, "measured"), (Self::Modelled, "modelled"), (Self::Ratio, "ratio"), (Self::Sink, "sink")];

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Measured | Self::Modelled => Dimension::TwistStiffness,
            Self::Ratio | Self::Sink => Dimension::Ratio,
        }
    }

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Measured => "torsional stiffness by the rig",
            Self::Modelled => "torsional stiffness by the model, held and loaded as the rig",
            Self::Ratio => "measured over modelled stiffness",
            Self::Sink => "sink of the rig, of the loaded station's turn",
        }
    }

    /// Our value, SI.
    pub(crate) fn of(self, evidence: &RigEvidence) -> Result<f64, Problem> {
        let judgement = &evidence.judgement;
        match self {
            Self::Measured => judgement.stiffness.as_ref().map(|measured| measured.stiffness),
            Self::Sink => judgement.sink,
            Self::Modelled => judgement.against.as_ref().map(|against| against.rigid),
            Self::Ratio => judgement.against.as_ref().map(|against| against.ratio),
        }
        .ok_or_else(|| unsaid(evidence))
    }
}

/// Why a sheet does not say what is asked, as far as it is said.
fn unsaid(evidence: &RigEvidence) -> Problem {
    let why =
        evidence.judgement.remarks.iter().find(|remark| [codes::NO_MODEL, codes::NO_STIFFNESS].contains(&remark.code));
    why.map_or_else(|| "the sheet does not say it".to_owned(), |remark| remark.message.clone())
}

/// Measured over modelled twist of the bay that ends at a station, over the same of the whole.
pub(crate) fn bay(model: &Model, evidence: &RigEvidence, station: &str) -> Result<f64, Problem> {
    let mut stations = model.rig().into_iter().flat_map(|sheet| &sheet.stations);
    let place = stations.position(|of| of.name == station).ok_or_else(|| format!("there is no station `{station}`"))?;
    let mut bays = evidence.judgement.against.iter().flat_map(|against| &against.bays);
    let found = bays.find(|bay| bay.between[1] == place).map(|bay| bay.ratio);
    found.ok_or_else(|| "no bay ends there".to_owned())
}
