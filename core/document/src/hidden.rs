//! Characters that nobody sees, and words in which they are seen.

use std::fmt::Write as _;

/// Whether a character draws nothing of its own: control characters, those that change the direction of writing, and
/// those without width. Characters that only join or vary the letters beside them (U+200C, U+200D, variation selectors)
/// are not hidden: words in several scripts cannot be written without them.
// Source: Unicode Standard, properties Bidi_Control and Default_Ignorable_Code_Point, and the line separators.
pub fn is_hidden(letter: char) -> bool {
    letter.is_control()
        || matches!(
            letter,
            '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}'
                | '\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
                | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{feff}' | '\u{ffa0}'
                | '\u{fff0}'..='\u{fffb}' | '\u{1bca0}'..='\u{1bca3}' | '\u{1d173}'..='\u{1d17a}'
                | '\u{e0000}'..='\u{e00ff}' | '\u{e01f0}'..='\u{e0fff}'
        )
}

/// Words with every hidden character written as U+XXXX, in at least four hexadecimal digits.
pub fn seen(words: &str) -> String {
    let mut seen = String::with_capacity(words.len());
    for letter in words.chars() {
        if is_hidden(letter) {
            let _ = write!(seen, "U+{:04X}", u32::from(letter));
        } else {
            seen.push(letter);
        }
    }
    seen
}
