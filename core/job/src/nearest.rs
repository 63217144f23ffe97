//! The words for a word that nobody knows.
//!
//! Given such a word and the words that are known, gives the end of a message. Never decides that the nearest word *is*
//! what was meant: an unknown word is always refused.

use traywright_engine::wording::nearest;

/// "did you mean `X`?", or all known words where none comes near.
pub fn suggestion(word: &str, known: &[&str]) -> String {
    match nearest(word, known.iter().copied()) {
        Some(best) => format!("did you mean `{best}`?"),
        None => format!("known here: {}", known.join(", ")),
    }
}
