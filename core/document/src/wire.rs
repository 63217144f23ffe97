//! Document to bytes and back: `{"schema":2,"document":{…}}` in JSON.
//!
//! The program encodes, an exporter decodes. The schema is read and judged before anything else, so that a document of
//! another age is refused with a reason and never half understood. A number comes back to its last bit, and one that
//! is not finite cannot be sent: nothing that is absent is written, so a `null` has no meaning here and is never made.
//! It never compresses, never rounds, and keeps no field that it does not know.

use std::fmt;
use std::io;

use serde::{Deserialize, Serialize};
use serde_json::Serializer;
use serde_json::ser::Formatter;

use crate::{Document, SCHEMA};

/// Puts a document into bytes.
///
/// # Panics
/// "every number of a document is finite" when one is not.
pub fn encode(document: &Document) -> Vec<u8> {
    let mut bytes = Vec::new();
    Letter {
        schema: SCHEMA,
        document,
    }
    .serialize(&mut Serializer::with_formatter(&mut bytes, FiniteOnly))
    .expect("every number of a document is finite");
    bytes
}

/// Reads a document from bytes.
///
/// # Refuses
/// Bytes that carry no schema, another schema than [`SCHEMA`], or no document.
pub fn decode(bytes: &[u8]) -> Result<Document, DecodeError> {
    let Opening { schema } =
        serde_json::from_slice(bytes).map_err(|error| DecodeError::NoSchema(error.to_string()))?;
    if schema != SCHEMA {
        return Err(DecodeError::OtherSchema(schema));
    }
    let letter: Letter<Document> =
        serde_json::from_slice(bytes).map_err(|error| DecodeError::Broken(error.to_string()))?;
    Ok(letter.document)
}

/// Why bytes are no document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DecodeError {
    /// There is no schema to judge by.
    NoSchema(String),
    /// The document is of this schema, and not of ours.
    OtherSchema(u32),
    /// The schema is ours, and the rest is not what it promises.
    Broken(String),
}

impl fmt::Display for DecodeError {
    fn fmt(&self, words: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            DecodeError::NoSchema(why) => write!(words, "this is no document of traywright: {why}"),
            DecodeError::OtherSchema(theirs) if *theirs > SCHEMA => write!(
                words,
                "the document has schema {theirs} and this exporter reads schema {SCHEMA}: the exporter is older than \
                 the program, so build or install its newer release"
            ),
            DecodeError::OtherSchema(theirs) => write!(
                words,
                "the document has schema {theirs} and this exporter reads schema {SCHEMA}: the program is older than \
                 the exporter, so install the newer traywright"
            ),
            DecodeError::Broken(why) => write!(
                words,
                "the document has schema {SCHEMA} but cannot be read: {why}"
            ),
        }
    }
}

impl std::error::Error for DecodeError {}

#[derive(Serialize, Deserialize)]
struct Letter<D> {
    schema: u32,
    document: D,
}

#[derive(Deserialize)]
struct Opening {
    schema: u32,
}

/// Compact JSON without `null`, the word that a number takes when it is not finite.
struct FiniteOnly;

impl Formatter for FiniteOnly {
    fn write_null<W: io::Write + ?Sized>(&mut self, _writer: &mut W) -> io::Result<()> {
        Err(io::Error::other(
            "a number that is not finite, or an absence that is written",
        ))
    }
}
