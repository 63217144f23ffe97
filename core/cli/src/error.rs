//! What stops a command with exit 2: a text that is wrong, or a sentence about the world.
//!
//! Given to `report` in the end, which shows it. Never speaks of a tray that does not fit: that is a finding.

use std::fmt;

use traywright_engine::SourceError;

/// Bad input, a failed exporter, or a file that cannot be read or written.
#[derive(Debug)]
pub(crate) enum CliError {
    /// Faults in a text, shown with their places.
    Text {
        /// The file as the maker named it.
        path: String,
        /// The whole text.
        text: String,
        /// What is wrong in it, in the order of the text.
        faults: Vec<SourceError>,
    },
    /// Anything else, said in one sentence that names the file or exporter.
    Sentence(String),
}

impl CliError {
    /// A sentence.
    pub(crate) fn sentence(words: impl fmt::Display) -> Self {
        CliError::Sentence(words.to_string())
    }
}

impl From<CliError> for Vec<CliError> {
    fn from(error: CliError) -> Self {
        vec![error]
    }
}
