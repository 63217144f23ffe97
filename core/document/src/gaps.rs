//! Sentences with gaps, such as `{item}`, and the words that fill them.

/// A sentence with its gaps filled, each by the words of its name. Gaps inside filled-in words stay, and a gap without
/// words stays as it is.
pub fn filled(sentence: &str, gaps: &[(&str, impl AsRef<str>)]) -> String {
    let mut parts = sentence.split('{');
    let mut filled = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        let gap = part.split_once('}').and_then(|(name, rest)| {
            let (_, words) = gaps.iter().find(|(gap, _)| *gap == name)?;
            Some([words.as_ref(), rest])
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
    use super::filled;

    #[test]
    fn a_gap_is_filled_once_and_one_without_words_stays() {
        let gaps = [("one", "{two}"), ("two", "2")];
        assert_eq!(
            filled("{one} and {two}, {three}", &gaps),
            "{two} and 2, {three}"
        );
        assert_eq!(filled("a { brace", &gaps), "a { brace");
    }
}
