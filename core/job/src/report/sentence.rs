//! Formatting that all reports share: findings as sentences, paragraphs of 80 columns.
//!
//! **Input:** words. **Output:** text that begins and ends as a sentence and is wrapped. **Does not** choose the
//! content or its order.

/// Columns of the plainest terminal. Common practice, none published.
const COLUMNS: usize = 80;

/// A sentence from words: a capital letter first, a full stop last.
pub fn sentence(words: &str) -> String {
    let mut letters = clause(words).chars();
    let capital: String = letters
        .next()
        .map(|letter| letter.to_uppercase().collect())
        .unwrap_or_default();
    let rest = letters.as_str();
    let stop = if rest.ends_with(['?', '!', ':']) {
        ""
    } else {
        "."
    };
    format!("{capital}{rest}{stop}")
}

/// Words without a final full stop.
pub(super) fn clause(words: &str) -> &str {
    words.trim().trim_end_matches('.')
}

/// A paragraph of at most 80 columns: `first` begins it, later lines are indented to align with the words.
pub fn paragraph(first: &str, words: &str) -> String {
    let indent = first.chars().count();
    let mut text = first.to_owned();
    let mut column = indent;
    for word in unbroken(words) {
        let width = word.chars().count();
        if column > indent && column + 1 + width > COLUMNS {
            text.push('\n');
            text.extend(std::iter::repeat_n(' ', indent));
            column = indent;
        } else if column > indent {
            text.push(' ');
            column += 1;
        }
        text.push_str(&word);
        column += width;
    }
    text.push('\n');
    text
}

/// Units for line breaks: a size such as `98 × 63 mm` is one of them.
fn unbroken(words: &str) -> Vec<String> {
    let mut whole: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        let bare = word.trim_end_matches(|mark: char| mark.is_ascii_punctuation());
        match whole.last_mut() {
            Some(before)
                if bare == "×"
                    || before.ends_with('×')
                    || ["mm", "in", "°"].contains(&bare)
                        && before.ends_with(|end: char| end.is_ascii_digit()) =>
            {
                before.push(' ');
                before.push_str(word);
            }
            _ => whole.push(word.to_owned()),
        }
    }
    whole
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_paragraph_keeps_its_words_its_indent_and_to_eighty_columns() {
        // Derived: what goes in comes out, whatever its length; one word that is longer than a line stands alone.
        let words = "a slot of the tray ".repeat(20) + &"x".repeat(100);
        let text = paragraph("  label  ", &words);
        assert_eq!(
            text.split_whitespace().skip(1).collect::<Vec<_>>(),
            words.split_whitespace().collect::<Vec<_>>()
        );
        let mut lines = text.lines();
        assert!(
            lines
                .next()
                .is_some_and(|line| line.starts_with("  label  a slot"))
        );
        for line in lines {
            let (indent, said) = line.split_at(9);
            assert!(indent.trim().is_empty() && !said.starts_with(' '), "{line}");
            assert!(line.chars().count() <= 80 || !said.contains(' '), "{line}");
        }
    }

    #[test]
    fn words_become_one_sentence() {
        // Derived: a capital letter and one full stop, as in any book.
        assert_eq!(
            sentence("the walls are 5 mm high"),
            "The walls are 5 mm high."
        );
        assert_eq!(sentence("It fits. "), "It fits.");
        assert_eq!(sentence("a deeper box?"), "A deeper box?");
    }
}
