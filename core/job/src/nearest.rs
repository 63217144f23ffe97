//! Messages about an unknown word.
//!
//! **Input:** the word and the known words. **Output:** the new name of a renamed word, or the nearest known word.
//! **Does not** accept the word: an unknown word is always an error.

use traywright_engine::renamed::{JOB_WORDS, new_name};
use traywright_engine::wording::nearest;

/// "did you mean `X`?", or all known words if none is similar.
pub fn suggestion(word: &str, known: &[&str]) -> String {
    match nearest(word, known.iter().copied()) {
        Some(best) => format!("did you mean `{best}`?"),
        None => format!("known here: {}", known.join(", ")),
    }
}

/// Message and label for an unknown word of a job; `whole` has the node before a property.
pub(crate) fn unknown_in_job(whole: &str, unknown: String, known: &[&str]) -> (String, String) {
    let word = whole.rsplit(' ').next().unwrap_or(whole);
    match new_name(JOB_WORDS, whole, known) {
        Some(new) => (
            format!("`{word}` is now called `{new}`"),
            format!("write `{new}`"),
        ),
        None => (unknown, suggestion(word, known)),
    }
}
