//! Document to bytes and back: `{"schema":2,"document":{…}}` in JSON.
//!
//! The program encodes, an exporter decodes. The schema is read and checked first, so that a document of another
//! version is refused with a reason and never half understood. A number is restored to its last bit, and one that is
//! not finite cannot be sent. Absent values are not written, so `null` never occurs. Nothing is compressed or rounded.
//! Decoding ignores unknown fields.

use std::fmt;
use std::io;

use serde::{Deserialize, Serialize};
use serde_json::Serializer;
use serde_json::ser::Formatter;

use crate::{Document, SCHEMA};

/// Converts a document into bytes.
///
/// # Panics
/// "every number of a document is finite" if one is not.
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
/// Bytes without a schema, with another schema than [`SCHEMA`], or that are not a document.
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

/// The reasons why bytes are not a document.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DecodeError {
    /// There is no schema.
    NoSchema(String),
    /// The document has this schema, and not ours.
    OtherSchema(u32),
    /// The schema is ours, but the rest does not match it.
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

/// Compact JSON without `null`, which a number becomes if it is not finite.
struct FiniteOnly;

impl Formatter for FiniteOnly {
    fn write_null<W: io::Write + ?Sized>(&mut self, _writer: &mut W) -> io::Result<()> {
        Err(io::Error::other(
            "a number that is not finite, or an absence that is written",
        ))
    }
}
