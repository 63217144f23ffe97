//! The words of a language, from the files that ship with the program: `designs/words/CODE.ron`.
//!
//! Given the code of a language and the shape of the words that are wanted, gives them. Sentences have gaps in braces,
//! which [`filled`] fills. It knows no sentence itself: each exporter names those that it prints, and a file that lacks
//! one of them is refused.

use serde::de::DeserializeOwned;

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
pub fn words<W: DeserializeOwned>(language: &str) -> Result<W, String> {
    let found = FILES.iter().find(|(code, _)| *code == language);
    let Some((_, text)) = found else {
        let known: Vec<&str> = languages().collect();
        return Err(format!(
            "there are no words in the language `{language}`; there are: {}",
            known.join(", ")
        ));
    };
    ron::from_str(text).map_err(|why| format!("the words of the language `{language}`: {why}"))
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
