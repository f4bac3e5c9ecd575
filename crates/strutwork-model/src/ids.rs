//! Typed indices: an id of one table cannot be used in another.

use std::marker::PhantomData;
use std::ops::{Index, IndexMut};

/// An index into one kind of table.
pub trait Id: Copy + Ord {
    /// The id of the row at `place`.
    fn new(place: usize) -> Self;
    /// Its row, counted from 0.
    fn index(self) -> usize;
}

macro_rules! ids {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub struct $name(u32);

        impl Id for $name {
            fn new(place: usize) -> Self {
                Self(u32::try_from(place).expect("bug: more than four thousand million rows"))
            }
            fn index(self) -> usize {
                self.0 as usize
            }
        }
    )*};
}

ids! {
    /// A joint of the model.
    JointId,
    /// A tube of the model.
    TubeId,
    /// A section of the model.
    SectionId,
    /// A material of the model.
    MaterialId,
    /// A body of the model.
    BodyId,
    /// A mount of a body.
    MountId,
    /// A kind of bolt of the model.
    BoltId,
    /// A panel of the model.
    PanelId,
    /// A way of fixing panels.
    FixingId,
}

/// A table whose rows are reached by their own kind of id.
#[derive(Debug, Clone, PartialEq)]
pub struct IndexVec<I, T> {
    rows: Vec<T>,
    id: PhantomData<I>,
}

impl<I: Id, T> IndexVec<I, T> {
    /// An empty table.
    pub const fn new() -> Self {
        Self { rows: Vec::new(), id: PhantomData }
    }

    /// Adds a row and returns its id.
    pub fn push(&mut self, row: T) -> I {
        self.rows.push(row);
        I::new(self.rows.len() - 1)
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there are no rows.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The rows in order.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.rows.iter()
    }

    /// The rows in order, each with its id.
    pub fn iter_with_id(&self) -> impl ExactSizeIterator<Item = (I, &T)> {
        self.rows.iter().enumerate().map(|(place, row)| (I::new(place), row))
    }

    /// The ids in order.
    pub fn ids(&self) -> impl ExactSizeIterator<Item = I> + use<I, T> {
        (0..self.rows.len()).map(I::new)
    }
}

impl<I: Id, T> Default for IndexVec<I, T> {
    fn default() -> Self {
        Self::new()
    }
}

impl<I: Id, T> FromIterator<T> for IndexVec<I, T> {
    fn from_iter<It: IntoIterator<Item = T>>(rows: It) -> Self {
        Self { rows: rows.into_iter().collect(), id: PhantomData }
    }
}

impl<'a, I: Id, T> IntoIterator for &'a IndexVec<I, T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.rows.iter()
    }
}

impl<I: Id, T> Index<I> for IndexVec<I, T> {
    type Output = T;
    fn index(&self, id: I) -> &T {
        &self.rows[id.index()]
    }
}

impl<I: Id, T> IndexMut<I> for IndexVec<I, T> {
    fn index_mut(&mut self, id: I) -> &mut T {
        &mut self.rows[id.index()]
    }
}
