//! Fields that can be written in two ways: one value plainly, or several in brackets or braces.
//!
//! The first character of the value decides between the two, so that an error inside keeps its source span.

use std::fmt;

use serde::Deserialize;
use serde::de::{Deserializer, Error, SeqAccess, Visitor, value::SeqAccessDeserializer};

use super::written::{Entries, Name, Written};

/// How many items the style takes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct ItemCount {
    pub(crate) min: usize,
    pub(crate) max: usize,
}

impl Default for ItemCount {
    fn default() -> Self {
        ItemCount { min: 1, max: 1 }
    }
}

/// One name, or several in brackets.
#[derive(Clone, Debug)]
pub(crate) struct OneOrMore(pub(crate) Vec<Name>);

impl<'de> Deserialize<'de> for OneOrMore {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = OneOrMore;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("a name in quotes, or several in brackets")
            }

            fn visit_borrowed_str<E: Error>(self, part: &'de str) -> Result<OneOrMore, E> {
                let from = serde::de::value::BorrowedStrDeserializer::new(part);
                Name::deserialize(from).map(|name| OneOrMore(vec![name]))
            }

            fn visit_seq<A: SeqAccess<'de>>(self, seq: A) -> Result<OneOrMore, A::Error> {
                Vec::deserialize(SeqAccessDeserializer::new(seq)).map(OneOrMore)
            }
        }
        from.deserialize_any(Either)
    }
}

/// One inset for both ends of a crease, or one per flank.
#[derive(Clone, Debug, Default)]
pub(crate) enum Inset {
    #[default]
    None,
    Both(Written),
    ByFlank(Entries<Written>),
}

impl<'de> Deserialize<'de> for Inset {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = Inset;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("a formula in quotes, or formulas by flank in braces")
            }

            fn visit_borrowed_str<E: Error>(self, part: &'de str) -> Result<Inset, E> {
                Written::deserialize(serde::de::value::BorrowedStrDeserializer::new(part))
                    .map(Inset::Both)
            }

            fn visit_map<A: serde::de::MapAccess<'de>>(self, map: A) -> Result<Inset, A::Error> {
                Entries::deserialize(serde::de::value::MapAccessDeserializer::new(map))
                    .map(Inset::ByFlank)
            }
        }
        from.deserialize_any(Either)
    }
}

impl<'de> Deserialize<'de> for ItemCount {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Either;
        impl<'de> Visitor<'de> for Either {
            type Value = ItemCount;

            fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
                out.write_str("a number of items, or (min, max)")
            }

            fn visit_u64<E: Error>(self, count: u64) -> Result<ItemCount, E> {
                let count = usize::try_from(count).map_err(E::custom)?;
                Ok(ItemCount {
                    min: count,
                    max: count,
                })
            }

            fn visit_seq<A: SeqAccess<'de>>(self, seq: A) -> Result<ItemCount, A::Error> {
                let (min, max) = Deserialize::deserialize(SeqAccessDeserializer::new(seq))?;
                Ok(ItemCount { min, max })
            }
        }
        from.deserialize_any(Either)
    }
}
