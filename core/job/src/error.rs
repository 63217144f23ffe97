//! An input that cannot be used: a text with errors in it, or a sentence about it.
//!
//! **Does not** cover a tray that does not fit: that is a finding.

use std::fmt;

use traywright_engine::SourceError;

/// A job, style or code that cannot be used.
#[derive(Debug)]
pub enum InputError {
    /// Errors in a text, printed with their positions.
    Text {
        /// The file as the maker named it.
        path: String,
        /// The whole text.
        text: String,
        /// The errors in it, in the order of the text.
        faults: Vec<SourceError>,
    },
    /// A sentence that names the unusable input.
    Sentence(String),
}

impl InputError {
    /// A sentence.
    pub fn sentence(words: impl fmt::Display) -> Self {
        InputError::Sentence(words.to_string())
    }
}

impl From<InputError> for Vec<InputError> {
    fn from(error: InputError) -> Self {
        vec![error]
    }
}
