//! Why the model says nothing of a sheet.

use strutwork_loads::LoadError;
use strutwork_solve::SolveError;

/// Why the model says nothing of a sheet.
#[derive(Debug, thiserror::Error)]
pub enum NotModelled {
    /// No pair of joints stands for the loaded or the held station.
    #[error("no left and right pair of joints stands for the {role} station `{station}`")]
    NoPair {
        /// `loaded` or `held`.
        role: &'static str,
        /// The station.
        station: String,
    },
    /// The joints of a station do not lie beside each other.
    #[error("the joints `{}` and `{}` of station `{station}` are no left and right pair: the left one has to lie on the +y side of the right one", joints[0], joints[1])]
    NoBreadth {
        /// The station.
        station: String,
        /// Left and right.
        joints: [String; 2],
    },
    /// There is no station to load, or none to hold.
    #[error("the sheet has no two stations to load and to hold")]
    NoStations,
    /// The case cannot be built.
    #[error(transparent)]
    Loads(#[from] LoadError),
    /// The frame cannot be solved so.
    #[error("{0}")]
    Solve(#[from] SolveError),
}

impl NotModelled {
    /// What to do about it.
    pub fn remedy(&self) -> String {
        match self {
            Self::NoPair { .. } | Self::NoBreadth { .. } => {
                "write `[rig.stations.NAME] joints = [\"LEFT\", \"RIGHT\"]` for the loaded and the held stations".into()
            }
            Self::NoStations => "read two stations or more, and write `held` and `loaded` under `role`".into(),
            Self::Loads(why) => why.help(),
            Self::Solve(_) => {
                "give the model a load case of its own: what moves in it is named there, joint by joint; mend that, or \
                 name other joints under [rig.stations.NAME]"
                    .into()
            }
        }
    }
}
