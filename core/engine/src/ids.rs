//! Typed indices: the id of a panel cannot index a list of openings.
//!
//! A list returns the [`Id`] of each value added to it, and the id stays valid because these lists only grow. A
//! few callers have only a number, such as the number of an item in a style; they look its id up in the list.
//! **Does not** distinguish two lists of one type, such as the panels of two trays.

use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::marker::PhantomData;
use std::ops::{Index, IndexMut};

/// The index of a `T` in its list.
pub(crate) struct Id<T> {
    index: usize,
    of: PhantomData<fn() -> T>,
}

/// A list of `T`s by their ids; or, with `V`, a value for each `T` of another list.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct IdVec<T, V = T> {
    values: Vec<V>,
    of: PhantomData<fn() -> T>,
}

impl<T> Id<T> {
    /// The first id of a list.
    pub(crate) const FIRST: Id<T> = Id::at(0);

    /// The id of an index, counted from 0.
    pub(crate) const fn at(index: usize) -> Id<T> {
        Id {
            index,
            of: PhantomData,
        }
    }

    /// The index, counted from 0, for code outside the engine.
    pub(crate) fn index(self) -> usize {
        self.index
    }

    /// The first `count` ids.
    pub(crate) fn up_to(count: usize) -> impl DoubleEndedIterator<Item = Id<T>> + Clone {
        (0..count).map(Id::at)
    }
}

impl<T, V> IdVec<T, V> {
    /// The same value `count` times.
    pub(crate) fn of_each(value: V, count: usize) -> Self
    where
        V: Clone,
    {
        vec![value; count].into()
    }

    /// Adds a value, and returns its id.
    pub(crate) fn push(&mut self, value: V) -> Id<T> {
        self.values.push(value);
        Id::at(self.values.len() - 1)
    }

    /// Number of values.
    pub(crate) fn len(&self) -> usize {
        self.values.len()
    }

    /// Whether there is none.
    pub(crate) fn is_empty(&self) -> bool {
        self.values.is_empty()
    }

    /// All ids in order. They do not borrow the list.
    pub(crate) fn ids(&self) -> impl DoubleEndedIterator<Item = Id<T>> + Clone + use<T, V> {
        Id::up_to(self.values.len())
    }

    /// The values in order.
    pub(crate) fn iter(&self) -> std::slice::Iter<'_, V> {
        self.values.iter()
    }

    /// The values in order with their ids.
    pub(crate) fn enumerated(&self) -> impl DoubleEndedIterator<Item = (Id<T>, &V)> {
        self.values
            .iter()
            .enumerate()
            .map(|(index, value)| (Id::at(index), value))
    }

    /// The ids of the values for which `wanted` is true.
    pub(crate) fn ids_where(&self, wanted: impl Fn(&V) -> bool) -> impl Iterator<Item = Id<T>> {
        self.enumerated()
            .filter(move |(_, value)| wanted(value))
            .map(|(id, _)| id)
    }
}

impl<T, V> Index<Id<T>> for IdVec<T, V> {
    type Output = V;

    fn index(&self, id: Id<T>) -> &V {
        &self.values[id.index]
    }
}

impl<T, V> IndexMut<Id<T>> for IdVec<T, V> {
    fn index_mut(&mut self, id: Id<T>) -> &mut V {
        &mut self.values[id.index]
    }
}

impl<T, V> Default for IdVec<T, V> {
    fn default() -> Self {
        Vec::new().into()
    }
}

impl<T, V> From<Vec<V>> for IdVec<T, V> {
    fn from(values: Vec<V>) -> Self {
        IdVec {
            values,
            of: PhantomData,
        }
    }
}

impl<T, V> FromIterator<V> for IdVec<T, V> {
    fn from_iter<I: IntoIterator<Item = V>>(values: I) -> Self {
        values.into_iter().collect::<Vec<V>>().into()
    }
}

impl<T, V> IntoIterator for IdVec<T, V> {
    type Item = V;
    type IntoIter = std::vec::IntoIter<V>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.into_iter()
    }
}

impl<'v, T, V> IntoIterator for &'v IdVec<T, V> {
    type Item = &'v V;
    type IntoIter = std::slice::Iter<'v, V>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.iter()
    }
}

impl<'v, T, V> IntoIterator for &'v mut IdVec<T, V> {
    type Item = &'v mut V;
    type IntoIter = std::slice::IterMut<'v, V>;

    fn into_iter(self) -> Self::IntoIter {
        self.values.iter_mut()
    }
}

// Derived traits would also require them of `T`, which an id does not hold.

impl<T> Clone for Id<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Id<T> {}

impl<T> PartialEq for Id<T> {
    fn eq(&self, other: &Self) -> bool {
        self.index == other.index
    }
}

impl<T> Eq for Id<T> {}

impl<T> PartialOrd for Id<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for Id<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        self.index.cmp(&other.index)
    }
}

impl<T> Hash for Id<T> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.index.hash(state);
    }
}

impl<T> fmt::Debug for Id<T> {
    fn fmt(&self, out: &mut fmt::Formatter) -> fmt::Result {
        self.index.fmt(out)
    }
}
