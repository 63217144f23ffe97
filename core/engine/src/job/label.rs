//! A line `label` of the job: words to print on a panel.

use traywright_document::{Length, Turn};

use crate::finding::SourceSpan;

/// Words to print on a panel.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The words.
    pub text: String,
    /// Name of the panel.
    pub panel: String,
    /// Height of a capital letter; none for the largest usual one that fits.
    pub size: Option<Length>,
    /// How far the words are turned, as the reader sees them.
    pub turn: Turn,
    /// The source span of the words.
    pub place: SourceSpan,
    /// The source span of the panel's name.
    pub panel_place: SourceSpan,
    /// The source span of the size, if the job states one.
    pub size_place: Option<SourceSpan>,
}

impl Label {
    /// Words on a panel, with defaults for all else.
    pub fn plain(text: &str, panel: &str) -> Label {
        Label {
            text: text.to_owned(),
            panel: panel.to_owned(),
            size: None,
            turn: Turn::None,
            place: 0..0,
            panel_place: 0..0,
            size_place: None,
        }
    }
}
