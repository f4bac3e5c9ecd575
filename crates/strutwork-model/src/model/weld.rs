//! How the tubes are welded.

use super::{Model, Section, Shape};
use crate::ids::TubeId;

/// `[welds]`: how tubes are welded where they end, and how the welds are judged.
#[derive(Debug, Clone, PartialEq)]
pub struct Welds {
    /// Where no group says otherwise.
    pub kind: WeldKind,
    /// Throat of fillet welds where no group says otherwise, m; `None`: the wall of the tube that ends there.
    pub throat: Option<f64>,
    /// Which method the utilisation is that of.
    pub method: WeldMethod,
    /// How they are made.
    pub process: WeldProcess,
    /// Groups of tubes that differ, in input order.
    pub groups: Vec<WeldGroup>,
}

/// How the tubes of a group are welded.
#[derive(Debug, Clone, PartialEq)]
pub struct WeldGroup {
    /// The group's name.
    pub group: String,
    /// `None`: as everywhere.
    pub kind: Option<WeldKind>,
    /// m; `None`: as everywhere.
    pub throat: Option<f64>,
}

/// Kinds of weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeldKind {
    /// A fillet all round.
    Fillet,
    /// A butt weld of full penetration all round.
    Butt,
}

/// Methods of judging a fillet weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeldMethod {
    /// Stresses across and along the throat, each by itself.
    Directional,
    /// One strength for every direction.
    Simplified,
}

/// Ways of welding, as far as they decide on the zone beside the weld.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WeldProcess {
    /// A tungsten electrode and a rod.
    Tig,
    /// A wire electrode.
    Mig,
}

impl WeldKind {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fillet => "fillet",
            Self::Butt => "butt",
        }
    }
}

impl WeldMethod {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Directional => "directional",
            Self::Simplified => "simplified",
        }
    }
}

impl WeldProcess {
    /// Its word in `model.toml`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Tig => "tig",
            Self::Mig => "mig",
        }
    }
}

/// The weld at the ends of one tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeWeld {
    /// Its kind.
    pub kind: WeldKind,
    /// Throat a, m. A butt weld of full penetration has the tube's wall. `None` for a fillet round a bar, or a section given
    /// by its properties, that no throat is given for.
    pub throat: Option<f64>,
    /// Whether the throat is given in `model.toml`; otherwise it is assumed to be the wall.
    pub given: bool,
}

impl Section {
    /// Thickness of the wall, m; `None` for bars and sections given by their properties.
    pub const fn wall(&self) -> Option<f64> {
        match self.shape {
            Shape::Hollow { wall, .. } | Shape::Round { wall, .. } => Some(wall),
            Shape::SolidRound { .. } | Shape::Flat { .. } | Shape::Properties => None,
        }
    }
}

impl Model {
    /// How the tubes are welded.
    pub fn welds(&self) -> &Welds {
        &self.welds
    }

    /// How the ends of a tube are welded to what they end at: by its group, else as everywhere.
    ///
    /// # Assumes
    /// A fillet that no throat is given for is as thick as the wall of the tube that ends there.
    pub fn weld(&self, id: TubeId) -> TubeWeld {
        let tube = &self.tubes[id];
        let own = self.welds.groups.iter().find(|own| own.group == tube.group);
        let kind = own.and_then(|own| own.kind).unwrap_or(self.welds.kind);
        let wall = self.sections[tube.section].wall();
        let given = own.and_then(|own| own.throat).or(self.welds.throat);
        match kind {
            WeldKind::Butt => TubeWeld { kind, throat: wall, given: false },
            WeldKind::Fillet => TubeWeld { kind, throat: given.or(wall), given: given.is_some() },
        }
    }
}
