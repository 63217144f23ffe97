//! Words of an exporter, quoted in a sentence of ours.
//!
//! **Input:** anything that an exporter prints. **Output:** one line of limited length.

/// Maximum length, in characters, of an exporter's words in a sentence of ours.
const LONGEST_QUOTE: usize = 400;

/// An exporter's words as part of one sentence: one line, no full stop at the end, limited length.
pub(super) fn quote(words: &str) -> String {
    let line = one_line(words);
    match line.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

/// The same, but keeping the end of longer words.
pub(super) fn quote_end(words: &str) -> String {
    let line = one_line(words);
    match line.char_indices().rev().nth(LONGEST_QUOTE) {
        Some((start, _)) => format!("…{}", &line[start..]),
        None => line,
    }
}

fn one_line(words: &str) -> String {
    let words: Vec<&str> = words.split_whitespace().collect();
    words.join(" ").trim_end_matches('.').to_owned()
}
