//! Properties of a section and of the whole frame's mass, by their names in case files.

use strutwork_loads::MassModel;
use strutwork_model::model::Section;

use crate::unit::Dimension;

/// A property of a section: name in files, symbol in reports, dimension, and where it stands.
#[derive(Debug, Clone, Copy)]
pub struct SectionProperty(&'static SectionRow);

#[derive(Debug)]
struct SectionRow {
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    read: fn(&Section, f64) -> Option<f64>,
}

const SECTION: &[SectionRow] = &[
    row("mass", "mass per metre", Dimension::MassPerLength, |s, density| Some(s.area * density)),
    row("area", "A", Dimension::Area, |s, _| Some(s.area)),
    row("iy", "Iy", Dimension::SecondMoment, |s, _| Some(s.iy)),
    row("iz", "Iz", Dimension::SecondMoment, |s, _| Some(s.iz)),
    row("j", "J", Dimension::SecondMoment, |s, _| Some(s.j)),
    row("radius_y", "radius of gyration iy", Dimension::Length, |s, _| Some((s.iy / s.area).sqrt())),
    row("radius_z", "radius of gyration iz", Dimension::Length, |s, _| Some((s.iz / s.area).sqrt())),
    row("wel_y", "Wel,y", Dimension::Modulus, |s, _| s.wel_y),
    row("wel_z", "Wel,z", Dimension::Modulus, |s, _| s.wel_z),
    row("wpl_y", "Wpl,y", Dimension::Modulus, |s, _| s.wpl_y),
    row("wpl_z", "Wpl,z", Dimension::Modulus, |s, _| s.wpl_z),
    row("torsion_modulus", "torsion modulus", Dimension::Modulus, |s, _| s.torsion_modulus),
    row("surface", "surface per metre", Dimension::SurfacePerLength, |s, _| s.surface),
];

const fn row(
    name: &'static str,
    symbol: &'static str,
    dimension: Dimension,
    read: fn(&Section, f64) -> Option<f64>,
) -> SectionRow {
    SectionRow { name, symbol, dimension, read }
}

impl PartialEq for SectionProperty {
    fn eq(&self, other: &Self) -> bool {
        self.0.name == other.0.name
    }
}

impl SectionProperty {
    /// The property with this name.
    pub fn named(name: &str) -> Option<Self> {
        SECTION.iter().find(|row| row.name == name).map(Self)
    }

    /// Its symbol in reports.
    pub const fn symbol(self) -> &'static str {
        self.0.symbol
    }

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        self.0.dimension
    }

    /// Its value, SI; `None` where the section does not have it. The density, kg/m³, is that of the tube that uses it.
    pub fn of(self, section: &Section, density: f64) -> Option<f64> {
        (self.0.read)(section, density)
    }
}

/// A mass property of the whole frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MassProperty {
    /// Total mass.
    Total,
    /// A coordinate of the centre of gravity.
    Centre(usize),
    /// An entry of the inertia tensor about the centre of gravity.
    Inertia(usize, usize),
}

const AXES: [&str; 3] = ["x", "y", "z"];

impl MassProperty {
    /// The property with this name: `total`, `centre_x`, `inertia_xy`.
    pub fn named(name: &str) -> Option<Self> {
        let axis = |letter: &str| AXES.iter().position(|&known| known == letter);
        if name == "total" {
            Some(Self::Total)
        } else if let Some(letter) = name.strip_prefix("centre_") {
            axis(letter).map(Self::Centre)
        } else {
            let (first, second) = name.strip_prefix("inertia_")?.split_at_checked(1)?;
            Some(Self::Inertia(axis(first)?, axis(second)?))
        }
    }

    /// What it measures.
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Total => Dimension::Mass,
            Self::Centre(_) => Dimension::Length,
            Self::Inertia(..) => Dimension::Inertia,
        }
    }

    /// Its value, SI.
    pub fn of(self, mass: &MassModel) -> f64 {
        match self {
            Self::Total => mass.total,
            Self::Centre(axis) => mass.centre[axis],
            Self::Inertia(row, column) => mass.inertia[row][column],
        }
    }

    /// Its words in reports.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Total => "total mass",
            Self::Centre(axis) => ["centre of gravity x", "centre of gravity y", "centre of gravity z"][axis],
            Self::Inertia(row, column) => {
                [["Ixx", "Ixy", "Ixz"], ["Iyx", "Iyy", "Iyz"], ["Izx", "Izy", "Izz"]][row][column]
            }
        }
    }
}
