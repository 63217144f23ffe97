//! How an older reader handles a word of a later release.
//!
//! Enums of the document that may grow have a last variant for it. A known word with a broken value is still an error.

use std::fmt;

use serde::de::{Error, IgnoredAny, MapAccess, Visitor};
use serde::{Deserializer, Serialize, Serializer};

/// A variant of a later release. It cannot be sent on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Unknown;

impl Unknown {
    /// Reads a word that is none of an enum's known ones, alone or with its value; a known word here is broken.
    pub(crate) fn beside<'de, D: Deserializer<'de>>(
        known: &'static [&'static str],
        deserializer: D,
    ) -> Result<Unknown, D::Error> {
        deserializer.deserialize_any(Word { known })
    }
}

impl Serialize for Unknown {
    fn serialize<S: Serializer>(&self, _: S) -> Result<S::Ok, S::Error> {
        Err(serde::ser::Error::custom(
            "a word of a later release cannot be sent on",
        ))
    }
}

/// A word alone, or a word with its value.
struct Word {
    known: &'static [&'static str],
}

impl<'de> Visitor<'de> for Word {
    type Value = Unknown;

    fn expecting(&self, out: &mut fmt::Formatter) -> fmt::Result {
        out.write_str("a word, or a word with its value")
    }

    fn visit_str<E: Error>(self, word: &str) -> Result<Unknown, E> {
        match self.known.contains(&word) {
            true => Err(E::custom(format_args!("`{word}` is not as it should be"))),
            false => Ok(Unknown),
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Unknown, A::Error> {
        let word: Option<String> = map.next_key()?;
        let word = word.ok_or_else(|| A::Error::custom("there is no word"))?;
        let _: IgnoredAny = map.next_value()?;
        self.visit_str(&word)
    }
}
