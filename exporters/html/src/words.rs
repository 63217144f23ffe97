//! The words of the page, from `designs/words`.
//!
//! **Input:** the code of a language. **Output:** its sentences by name; gaps in braces are filled by those who write the
//! sentence. **Errors:** a language without words, and a file that lacks one of them.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use traywright_document::ExportError;
use traywright_look::{DrawingFile, words};

/// A file of words as far as the page needs it.
pub(crate) struct WordsFile {
    /// What all drawings share.
    pub(crate) drawing: DrawingFile,
    /// The sentences of the page.
    pub(crate) html: PageWords,
    styles: BTreeMap<String, String>,
}

#[derive(Deserialize)]
struct OfThePage {
    html: PageWords,
    booklet: OfTheStyles,
}

/// What the shipped styles say of their steps, from the words in the style to those of the language.
#[derive(Deserialize)]
struct OfTheStyles {
    styles: BTreeMap<String, String>,
}

/// The sentences of the page.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct PageWords {
    /// Labels of the facts below the picture.
    pub(crate) in_box: String,
    pub(crate) items: String,
    pub(crate) outside: String,
    pub(crate) blank: String,
    pub(crate) pads: String,
    /// How many there are of an item: `count`, `item`.
    pub(crate) several: String,
    pub(crate) steps: String,
    /// An action that the style does not describe.
    pub(crate) turn: String,
    pub(crate) place: String,
    pub(crate) into_box: String,
    pub(crate) push_in: String,
    /// Before items go in, if some of them stand on pads: `pads`.
    pub(crate) pads_first: String,
    /// Names of panels that are not all listed: `count`.
    pub(crate) and_more: String,
    pub(crate) private: String,
    pub(crate) no_script: String,
    /// The words that the scripts need.
    pub(crate) viewer: ViewerWords,
}

/// The words that the scripts need.
#[derive(Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct ViewerWords {
    /// The slider's text: `n`, `count`, `words`.
    step: String,
    flat: String,
    pub(crate) slider: String,
    pub(crate) back: String,
    pub(crate) next: String,
    pub(crate) play: String,
    stop: String,
    pub(crate) picture: String,
    pub(crate) hands: String,
}

impl WordsFile {
    /// The words of a language.
    pub(crate) fn of(language: &str) -> Result<WordsFile, ExportError> {
        let OfThePage { html, booklet } = words(language)?;
        Ok(WordsFile {
            drawing: DrawingFile::of(language)?,
            html,
            styles: booklet.styles,
        })
    }

    /// What the style says, in the language of the job where that knows it, otherwise as the style has it.
    pub(crate) fn said<'a>(&'a self, sentence: &'a str) -> &'a str {
        self.styles.get(sentence).map_or(sentence, String::as_str)
    }
}
