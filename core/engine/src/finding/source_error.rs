//! An error in a text by a maker or a style's author: a job or a style.

use std::ops::Range;

/// The byte range of a word in the text.
pub type SourceSpan = Range<usize>;

/// An error in a text by the maker or a style's author.
#[derive(Clone, Debug, PartialEq)]
pub struct SourceError {
    /// Byte range of the error; empty for the whole text.
    pub place: SourceSpan,
    /// The error, as a title.
    pub message: String,
    /// The correct form, printed under the source line.
    pub label: String,
    /// An additional hint, if there is one.
    pub hint: Option<String>,
    /// A related second span, with its words.
    pub context: Option<(SourceSpan, String)>,
}

impl SourceError {
    /// An error at a span, with the correct form.
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

    /// The same error with a second span, such as the first use of a word.
    pub fn with_context(mut self, place: SourceSpan, words: impl Into<String>) -> Self {
        self.context = Some((place, words.into()));
        self
    }
}
