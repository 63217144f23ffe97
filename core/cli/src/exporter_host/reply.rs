//! One answer of an exporter, assembled from frames and checked.
//!
//! **Input:** the frames of an answer one by one. **Output:** the files, or the reason why there are none. Everything
//! is checked: each suffix, the number of files, and that no two suffixes are equal.

use traywright_document::plugin_api::{Exported, File, is_suffix};

use super::error::{BrokenPromise, HostError};
use super::quote::quote;
use crate::exporter_protocol::{Description, Frame, MessageKind};

/// Maximum number of files of one document.
pub(super) const MOST_FILES: usize = 256;

/// Maximum number of sentences kept from an exporter.
const MOST_WORDS: usize = 20;

/// The answer to one request.
#[derive(Debug, Default)]
pub(super) struct Reply {
    code: i32,
    pub(super) description: Option<Description>,
    pub(super) fault: Option<String>,
    files: Vec<File>,
    words: Vec<String>,
}

impl Reply {
    /// Takes one frame; returns true if it was the last.
    pub(super) fn take(&mut self, frame: Frame) -> Result<bool, HostError> {
        match frame.kind {
            MessageKind::File if self.files.len() == MOST_FILES => return Err(HostError::TooLarge),
            MessageKind::File => self.files.push(file(frame.bytes)?),
            MessageKind::Words if self.words.len() == MOST_WORDS => {}
            MessageKind::Words => self
                .words
                .push(quote(&String::from_utf8_lossy(&frame.bytes))),
            MessageKind::SourceError => {
                self.fault = Some(quote(&String::from_utf8_lossy(&frame.bytes)))
            }
            MessageKind::Description => {
                let read = serde_json::from_slice(&frame.bytes);
                self.description = Some(read.map_err(|_| BrokenPromise::Noise)?);
            }
            MessageKind::End => {
                let code = frame.bytes.try_into().map_err(|_| BrokenPromise::Noise)?;
                self.code = i32::from_le_bytes(code);
                return Ok(true);
            }
            MessageKind::Describe | MessageKind::Document | MessageKind::Restrictions => {
                return Err(BrokenPromise::Noise.into());
            }
        }
        Ok(false)
    }

    /// The files, if the exporter succeeded.
    pub(super) fn exported(self) -> Result<Exported, HostError> {
        if let Some(fault) = self.fault {
            return Err(HostError::Unusable(fault));
        }
        if self.code != 0 {
            return Err(HostError::Refused {
                code: self.code,
                reasons: self.words,
            });
        }
        if self.files.is_empty() {
            return Err(BrokenPromise::NoFile.into());
        }
        for (index, file) in self.files.iter().enumerate() {
            if self.files[..index]
                .iter()
                .any(|other| other.suffix == file.suffix)
            {
                return Err(BrokenPromise::SameSuffix(file.suffix.clone()).into());
            }
        }
        Ok(Exported {
            files: self.files,
            warnings: self.words,
        })
    }
}

fn file(mut bytes: Vec<u8>) -> Result<File, BrokenPromise> {
    let zero = bytes.iter().position(|byte| *byte == 0);
    let content = bytes.split_off(zero.ok_or(BrokenPromise::Noise)? + 1);
    bytes.pop();
    let suffix = String::from_utf8_lossy(&bytes).into_owned();
    if !is_suffix(&suffix) {
        return Err(BrokenPromise::BadSuffix(quote(&suffix)));
    }
    Ok(File {
        suffix,
        bytes: content,
    })
}
