//! What can be followed along a tube, station by station.

use crate::results::Station;

/// What is followed along a tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// Axial force, tension positive.
    N,
    /// Shear along local y.
    Vy,
    /// Shear along local z.
    Vz,
    /// Torque.
    T,
    /// Moment about local y.
    My,
    /// Moment about local z.
    Mz,
    /// Normal stress of the greatest magnitude over the fibres, with its sign.
    Sigma,
    /// von Mises stress.
    VonMises,
}

impl Quantity {
    /// All, in the order of the file.
    pub const ALL: [Self; 8] = [Self::N, Self::Vy, Self::Vz, Self::T, Self::My, Self::Mz, Self::Sigma, Self::VonMises];

    /// Its word in files.
    pub const fn word(self) -> &'static str {
        ["n", "vy", "vz", "t", "my", "mz", "sigma_max", "von_mises"][self as usize]
    }

    /// Its unit in files.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::N | Self::Vy | Self::Vz => "N",
            Self::T | Self::My | Self::Mz => "N·m",
            Self::Sigma | Self::VonMises => "MPa",
        }
    }

    /// Its key in scripts: the word and the unit.
    pub const fn key(self) -> &'static str {
        ["n_n", "vy_n", "vz_n", "t_nm", "my_nm", "mz_nm", "sigma_max_mpa", "von_mises_mpa"][self as usize]
    }

    /// Whether it is a stress, Pa inside.
    pub const fn is_stress(self) -> bool {
        matches!(self, Self::Sigma | Self::VonMises)
    }

    /// Its value at a station, N, N·m or Pa; `None` for a stress of a section given by its properties alone.
    pub fn at(self, station: &Station) -> Option<f64> {
        let forces = &station.forces;
        match self {
            Self::N => Some(forces.n),
            Self::Vy => Some(forces.vy),
            Self::Vz => Some(forces.vz),
            Self::T => Some(forces.t),
            Self::My => Some(forces.my),
            Self::Mz => Some(forces.mz),
            Self::Sigma => station.stress.map(|stress| stress.sigma_max),
            Self::VonMises => station.stress.map(|stress| stress.von_mises),
        }
    }
}
