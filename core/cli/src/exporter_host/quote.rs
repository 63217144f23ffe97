//! Words of an exporter, quoted in a sentence of ours.
//!
//! **Input:** anything that an exporter prints. **Output:** one line of limited length.

/// Words of an exporter in a sentence of ours are cut here, in characters.
const LONGEST_QUOTE: usize = 400;

/// Foreign words as part of one sentence: one line, no full stop at the end, not too long.
pub(super) fn quote(words: &str) -> String {
    let line = one_line(words);
    match line.char_indices().nth(LONGEST_QUOTE) {
        Some((end, _)) => format!("{}…", &line[..end]),
        None => line,
    }
}

/// The same, keeping the end.
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
