//! The words of a language, from the files that ship with the program: `designs/words/CODE.ron`.
//!
//! Given the code of a language and the shape of the words that are wanted, gives them. Sentences have gaps in braces,
//! which [`filled`] fills. It knows no sentence itself: each exporter names those that it prints, and a file that lacks
//! one of them is refused.

use serde::de::DeserializeOwned;
use traywright_document::ExportError;

/// (code, text), in the order of the codes; written by `build.rs`.
const FILES: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/words.rs"));

/// Codes of the languages at hand.
pub fn languages() -> impl Iterator<Item = &'static str> {
    FILES.iter().map(|(code, _)| *code)
}

/// The words of a language; what the shape does not name is passed over.
///
/// # Refuses
/// A language without a file, and a file that lacks a word of the shape.
pub fn words<W: DeserializeOwned>(language: &str) -> Result<W, ExportError> {
    let found = FILES.iter().find(|(code, _)| *code == language);
    let Some((_, text)) = found else {
        return Err(ExportError::Language {
            asked: language.to_owned(),
            known: languages().map(ToOwned::to_owned).collect(),
        });
    };
    ron::from_str(text).map_err(|why| ExportError::Words {
        language: language.to_owned(),
        why: why.to_string(),
    })
}

/// A sentence with its gaps filled: `{name}` by the value of that name. What a value brings along is never filled again.
pub fn filled(sentence: &str, gaps: &[(&str, &str)]) -> String {
    let mut parts = sentence.split('{');
    let mut filled = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let gap = part.split_once('}').and_then(|(name, rest)| {
            let value = gaps.iter().find(|(gap, _)| *gap == name)?.1;
            Some([value, rest])
        });
        match gap {
            Some(words) => filled.extend(words),
            None => filled.extend(["{", part]),
        }
    }
    filled
}

#[cfg(test)]
mod tests {
    use super::{FILES, filled, languages, words};
    use crate::DrawingFile;

    #[test]
    fn every_language_has_all_words_of_a_drawing() {
        assert!(languages().count() >= 2);
        for language in languages() {
            DrawingFile::of(language).unwrap_or_else(|why| panic!("{why}"));
        }
    }

    #[test]
    fn a_language_without_words_is_refused_with_those_that_there_are() {
        let why = words::<DrawingFile>("xx").err().expect("there is no xx");
        let told = why.to_string();
        assert!(FILES.iter().all(|(code, _)| told.contains(code)), "{told}");
    }

    #[test]
    fn what_a_value_brings_along_is_never_filled_again() {
        let gaps = [("one", "{two}"), ("two", "2")];
        assert_eq!(
            filled("{one} and {two}, {three}", &gaps),
            "{two} and 2, {three}"
        );
    }
}
