//! The words of a language, from the files that ship with the program: `designs/words/CODE.ron`.
//!
//! **Input:** the code of a language and the type of the words needed. **Output:** the words. Sentences have gaps in
//! braces, which [`filled`](crate::filled) fills. It contains no sentence itself: each exporter names those that it
//! prints, and a file without one of them is refused.

use serde::de::DeserializeOwned;
use traywright_document::ExportError;

/// (code, text), in the order of the codes; written by `build.rs`.
const FILES: &[(&str, &str)] = &include!(concat!(env!("OUT_DIR"), "/words.rs"));

/// Codes of the available languages.
pub fn languages() -> impl Iterator<Item = &'static str> {
    FILES.iter().map(|(code, _)| *code)
}

/// The words of a language; fields that the type does not name are ignored.
///
/// # Refuses
/// A language without a file, and a file that lacks a word of the type.
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

#[cfg(test)]
mod tests {
    use super::{languages, words};
    use crate::DrawingFile;
    use traywright_document::ExportError;

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
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../designs/words");
        let files = std::fs::read_dir(folder).expect("the words can be listed");
        let code = |file: std::fs::DirEntry| file.path().file_stem()?.to_str().map(str::to_owned);
        let mut files: Vec<String> = files.flatten().filter_map(code).collect();
        files.sort();
        assert!(
            matches!(&why, ExportError::Language { asked, known } if asked == "xx" && *known == files),
            "{why}: designs/words has {files:?}"
        );
    }
}
