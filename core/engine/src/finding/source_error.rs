//! An error in a text that a maker or an author wrote: a job or a style.

use std::ops::Range;

/// A range of bytes in the text that a word came from.
pub type SourceSpan = Range<usize>;

/// Something wrong in a text that the maker or an author wrote.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceError {
    /// Bytes of the text that are wrong; empty for the whole of it.
    pub place: SourceSpan,
    /// What is wrong, as a title.
    pub message: String,
    /// What would be right, written under the place.
    pub label: String,
    /// One hint more, if there is one.
    pub hint: Option<String>,
    /// A second place that belongs to it, with its words.
    pub context: Option<(SourceSpan, String)>,
}

impl SourceError {
    /// An error at a place, with what would be right there.
    pub fn new(place: SourceSpan, message: impl Into<String>, label: impl Into<String>) -> Self {
        SourceError {
            place,
            message: message.into(),
            label: label.into(),
            hint: None,
            context: None,
        }
    }

    /// The same error with a hint.
    pub fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }

    /// The same error with a second place, such as where a word was used first.
    pub fn with_context(mut self, place: SourceSpan, words: impl Into<String>) -> Self {
        self.context = Some((place, words.into()));
        self
    }
}
