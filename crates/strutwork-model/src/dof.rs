//! The six freedoms of a joint, in the one order used everywhere.

use std::ops::{Index, IndexMut};

/// A freedom of a joint (global axes) or of a tube's end (local axes).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Dof {
    /// Displacement along x.
    Ux,
    /// Displacement along y.
    Uy,
    /// Displacement along z.
    Uz,
    /// Rotation about x, right-handed.
    Rx,
    /// Rotation about y, right-handed.
    Ry,
    /// Rotation about z, right-handed.
    Rz,
}

impl Dof {
    /// All six, in order.
    pub const ALL: [Self; 6] = [Self::Ux, Self::Uy, Self::Uz, Self::Rx, Self::Ry, Self::Rz];

    /// Its place in the order, 0 to 5.
    pub const fn index(self) -> usize {
        self as usize
    }

    /// Its name in files and scripts: `ux` … `rz`.
    pub const fn name(self) -> &'static str {
        ["ux", "uy", "uz", "rx", "ry", "rz"][self as usize]
    }

    /// The freedom with this name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|dof| dof.name() == name)
    }

    /// Whether it is a rotation (the last three).
    pub const fn is_rotation(self) -> bool {
        self as usize >= 3
    }
}

/// One value for each freedom, indexed by [`Dof`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct DofMap<T>(pub [T; 6]);

impl<T> Index<Dof> for DofMap<T> {
    type Output = T;
    fn index(&self, dof: Dof) -> &T {
        &self.0[dof.index()]
    }
}

impl<T> IndexMut<Dof> for DofMap<T> {
    fn index_mut(&mut self, dof: Dof) -> &mut T {
        &mut self.0[dof.index()]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_and_order_go_both_ways() {
        for (place, dof) in Dof::ALL.into_iter().enumerate() {
            assert_eq!(dof.index(), place);
            assert_eq!(Dof::from_name(dof.name()), Some(dof));
        }
        assert_eq!(Dof::from_name("UX"), None);
    }
}
