//! Words, formulas and keyed lists as written in a style's file, each with its source span.
//!
//! RON returns a string without escapes as a slice of the text, so the address of the slice minus the address of the
//! text is its offset. Only this difference is used; the address itself has no meaning and is never dereferenced.

use std::cell::Cell;
use std::fmt;
use std::marker::PhantomData;
use std::ops::Index;

use serde::Deserialize;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

use crate::finding::SourceSpan;
use crate::formula::{Formula, FormulaFault};
use crate::ids::{Id, IdVec};

thread_local! {
    /// Address of the text being read: a parameter of the reader that serde has no other way to pass on.
    static TEXT_ADDRESS: Cell<usize> = const { Cell::new(0) };
}

/// Runs `read` so that source spans in `text` can be found.
pub(super) fn with_places<T>(text: &str, read: impl FnOnce() -> T) -> T {
    TEXT_ADDRESS.set(text.as_ptr() as usize);
    read()
}

fn place_of(part: &str) -> SourceSpan {
    let start = (part.as_ptr() as usize).wrapping_sub(TEXT_ADDRESS.get());
    start..start + part.len()
}

/// A name or another plain word, such as `"deck.sides"`.
#[derive(Clone, Debug)]
pub(crate) struct Name {
    /// The word.
    pub(crate) word: String,
    /// Its source span, without the quotes.
    pub(crate) place: SourceSpan,
}

/// A formula.
#[derive(Clone, Debug)]
pub(crate) struct Written {
    /// The formula, or its error; a style with such an error is never made.
    read: Result<Formula, FormulaFault>,
    /// Its source span, without the quotes.
    pub(crate) place: SourceSpan,
}

impl Written {
    /// The formula.
    ///
    /// # Panics
    /// If the formula could not be read. Such a style is rejected before any of its formulas is needed.
    pub(crate) fn formula(&self) -> &Formula {
        self.read
            .as_ref()
            .expect("a style that was read holds only formulas that read")
    }

    /// The reason why it could not be read.
    pub(crate) fn fault(&self) -> Option<&FormulaFault> {
        self.read.as_ref().err()
    }
}

/// Entries by name, in the order of the file. Duplicates are kept so that the check can point at them.
#[derive(Clone, Debug)]
pub(crate) struct Entries<T>(IdVec<T, (Name, T)>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Entries(IdVec::default())
    }
}

impl<T> Entries<T> {
    /// The entry of that name.
    pub(crate) fn get(&self, word: &str) -> Option<&T> {
        self.id(word).map(|id| &self.0[id].1)
    }

    /// The id of the entry of that name.
    pub(crate) fn id(&self, word: &str) -> Option<Id<T>> {
        self.0.ids_where(|(name, _)| name.word == word).next()
    }

    /// The ids of all entries in order.
    pub(crate) fn ids(&self) -> impl Iterator<Item = Id<T>> + use<T> {
        self.0.ids()
    }

    /// Number of entries.
    pub(crate) fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    pub(crate) fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Names in order.
    pub(crate) fn names(&self) -> impl Iterator<Item = &Name> + Clone {
        self.0.iter().map(|(name, _)| name)
    }

    /// Names and entries in order.
    pub(crate) fn iter(&self) -> impl Iterator<Item = (&Name, &T)> {
        self.0.iter().map(|(name, entry)| (name, entry))
    }

    /// Ids, names and entries in order.
    pub(crate) fn enumerated(&self) -> impl Iterator<Item = (Id<T>, &Name, &T)> {
        let entries = self.0.enumerated();
        entries.map(|(id, (name, entry))| (id, name, entry))
    }

    /// Adds an entry behind the others.
    pub(crate) fn push(&mut self, name: Name, entry: T) {
        self.0.push((name, entry));
    }
}

impl<T> IntoIterator for Entries<T> {
    type Item = (Name, T);
    type IntoIter = std::vec::IntoIter<(Name, T)>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<T> Index<Id<T>> for Entries<T> {
    type Output = (Name, T);

    fn index(&self, id: Id<T>) -> &(Name, T) {
        &self.0[id]
    }
}

/// Accepts only strings without escapes, which are slices of the text.
struct AsItStands<T>(&'static str, fn(&str) -> T);

impl<'de, T> Visitor<'de> for AsItStands<T> {
    type Value = T;

    fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
        write!(out, "{} in quotes", self.0)
    }

    fn visit_borrowed_str<E: Error>(self, part: &'de str) -> Result<T, E> {
        Ok((self.1)(part))
    }

    fn visit_str<E: Error>(self, _: &str) -> Result<T, E> {
        Err(E::custom(format!("write {} without a backslash", self.0)))
    }
}

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(AsItStands("a name", |part| Name {
            word: part.to_owned(),
            place: place_of(part),
        }))
    }
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(AsItStands("a formula", |part| Written {
            read: Formula::read(part),
            place: place_of(part),
        }))
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Entries<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Keyed<T>(PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Keyed<T> {
            type Value = Entries<T>;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("entries in braces, each with its name in quotes")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entries<T>, A::Error> {
                let mut entries = Vec::new();
                while let Some(entry) = map.next_entry()? {
                    entries.push(entry);
                }
                Ok(Entries(entries.into()))
            }
        }
        from.deserialize_map(Keyed(PhantomData))
    }
}
