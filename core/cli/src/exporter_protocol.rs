//! The messages between the program and the child that runs an exporter.
//!
//! ```text
//! program → child   Describe, or Document with its bytes
//! child → program   Restrictions, once and before the library is loaded
//! child → program   Description · File · Words · Fault, as many as there are, then End with a return code
//! ```
//!
//! Writes frames to a stream or reads them: a kind, a length in eight bytes, and that many bytes. One child
//! answers one request after the other until its input ends. Reading never takes more bytes than the given maximum.

use std::io::{self, Read, Write};

use serde::{Deserialize, Serialize};

/// One message.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Frame {
    /// Its kind.
    pub(crate) kind: MessageKind,
    /// Its content.
    pub(crate) bytes: Vec<u8>,
}

/// The kinds of message.
#[repr(u8)]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum MessageKind {
    /// The program asks for the exporter's description.
    Describe = b'?',
    /// The program asks for the files of this document.
    Document = b'D',
    /// The restrictions in force: [`Restrictions`](crate::exporter_sandbox::Restrictions) in JSON.
    Restrictions = b'R',
    /// The exporter's description: a [`Description`] in JSON.
    Description = b'I',
    /// One file: its suffix, a zero byte, its content.
    File = b'F',
    /// Words of the exporter.
    Words = b'W',
    /// The child's error about the exporter, worded to follow the exporter's name.
    SourceError = b'X',
    /// The answer is complete; carries the return code.
    End = b'E',
}

const KINDS: [MessageKind; 8] = [
    MessageKind::Describe,
    MessageKind::Document,
    MessageKind::Restrictions,
    MessageKind::Description,
    MessageKind::File,
    MessageKind::Words,
    MessageKind::SourceError,
    MessageKind::End,
];

/// A library's description of itself, as far as it could be read.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Description {
    /// The schema of documents that it reads.
    pub(crate) schema: u32,
    /// The suffix of its main file.
    pub(crate) suffix: Option<String>,
}

/// Why a frame could not be read.
#[derive(Debug)]
pub(crate) enum FrameFault {
    /// It is longer than allowed.
    TooLong,
    /// These bytes are not a frame.
    Noise,
    /// The stream failed or ended.
    Ended,
}

/// Writes a frame whose content is in one or two pieces.
pub(crate) fn write(
    stream: &mut impl Write,
    kind: MessageKind,
    pieces: [&[u8]; 2],
) -> io::Result<()> {
    let length = (pieces[0].len() + pieces[1].len()) as u64;
    let mut head = Vec::with_capacity(9 + pieces[0].len());
    head.push(kind as u8);
    head.extend_from_slice(&length.to_le_bytes());
    head.extend_from_slice(pieces[0]);
    stream.write_all(&head)?;
    stream.write_all(pieces[1])?;
    stream.flush()
}

/// Reads a frame of at most `longest` bytes.
pub(crate) fn read(stream: &mut impl Read, longest: u64) -> Result<Frame, FrameFault> {
    let mut head = [0; 9];
    stream
        .read_exact(&mut head)
        .map_err(|_| FrameFault::Ended)?;
    let [sign, length @ ..] = head;
    let known = KINDS.into_iter().find(|kind| *kind as u8 == sign);
    let kind = known.ok_or(FrameFault::Noise)?;
    let length = u64::from_le_bytes(length);
    if length > longest {
        return Err(FrameFault::TooLong);
    }
    let mut bytes = Vec::new();
    let got = stream.take(length).read_to_end(&mut bytes);
    match got {
        Ok(read) if read as u64 == length => Ok(Frame { kind, bytes }),
        _ => Err(FrameFault::Ended),
    }
}
