//! An input that cannot be used: a text with errors in it, or a sentence about it.
//!
//! **Does not** speak of a tray that does not fit: that is a finding.

use std::fmt;

use traywright_engine::SourceError;

/// A job, style or code that cannot be used.
#[derive(Debug)]
pub enum InputError {
    /// Errors in a text, shown with their places.
    Text {
        /// The file as the maker named it.
        path: String,
        /// The whole text.
        text: String,
        /// What is wrong in it, in the order of the text.
        faults: Vec<SourceError>,
    },
    /// A sentence that names what cannot be used.
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
