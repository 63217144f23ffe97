//! Explanations of the names and functions in a style's formulas, for readers who have never written one.
//!
//! **Input:** a formula as the style writes it. **Output:** its names and functions with their meaning. The engine has
//! read these formulas before, so this module looks for words and not for errors.

/// A name or a function in a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Word<'f> {
    /// As it is written.
    pub(super) text: &'f str,
    /// Whether a bracket follows.
    pub(super) is_function: bool,
}

/// Words that join others and have no value.
const JOINING: [&str; 5] = ["and", "or", "not", "is", "otherwise"];

/// Explanations of the values of the job and its card.
const FIGURES: [(&str, &str); 13] = [
    ("box.length", "inside length of the box"),
    ("box.width", "inside width of the box"),
    ("box.depth", "inside depth of the box"),
    ("fit.box", "clearance of the tray in its box, in all"),
    ("fit.item", "clearance of the item in its opening, in all"),
    ("fit.play", "play of layers that lie in one another, in all"),
    ("gap", "half of `fit play`: the play at one edge"),
    ("caliper", "how thick one sheet of your card is"),
    (
        "hinge",
        "how far the fold line lies from the middle of the card, usually 0",
    ),
    ("tray.length", "outside length of the folded tray"),
    ("tray.width", "outside width of the folded tray"),
    ("tray.depth", "outside depth of the folded tray"),
    (
        "recess",
        "how far beside a crease a third panel begins: caliper / 2 - hinge + gap",
    ),
];

/// Functions whose names do not explain them.
const FUNCTIONS: [(&str, &str); 8] = [
    ("min", "the smallest of these"),
    ("max", "the largest of these"),
    ("sqrt", "the square root"),
    ("abs", "without a minus sign"),
    ("if", "the second where the first is true, else the third"),
    (
        "outer",
        "from a crease to the outside of its fold: at 90°, caliper / 2 + hinge",
    ),
    (
        "inner",
        "from a crease to the inside of its fold: at 90°, caliper / 2 - hinge",
    ),
    (
        "flex",
        "how much a panel so long is shortened when it is bowed as far as card bears",
    ),
];

/// The explanation of a function, if it needs one.
pub(super) fn function(name: &str) -> Option<&'static str> {
    let found = FUNCTIONS.iter().find(|(known, _)| *known == name);
    found.map(|(_, meaning)| *meaning)
}

/// The explanation of a value of the job, of an item, or of a part of the tray.
pub(super) fn figure(name: &str) -> Option<String> {
    if let Some((_, meaning)) = FIGURES.iter().find(|(known, _)| *known == name) {
        return Some((*meaning).to_owned());
    }
    let (part, figure) = name.rsplit_once('.')?;
    let part = match part.strip_prefix("item") {
        Some("") => "the item".to_owned(),
        Some(number) if number.bytes().all(|digit| digit.is_ascii_digit()) => {
            format!("item {number} of the job")
        }
        _ => format!("`{part}`"),
    };
    Some(match figure {
        "reach" => format!("how far {part} reaches away from its crease, on the flat card"),
        "span" => format!("length of the crease of {part}"),
        "x" => format!("where the middle of {part} lies, lengthwise"),
        "y" => format!("where the middle of {part} lies, crosswise"),
        "web" => format!("least card between {part} and the edge of its panel"),
        "length" | "width" | "depth" => format!("{figure} of {part}"),
        _ => return None,
    })
}

/// The two sides of a formula that is one comparison.
pub(super) fn sides(formula: &str) -> Option<(&str, &str)> {
    let joined = |word: &&str| ["and", "or", "not", "is"].contains(word);
    if formula.split_whitespace().any(|word| joined(&word)) {
        return None;
    }
    let (at, _) = formula.match_indices(['<', '>', '=', '!']).next()?;
    let (left, rest) = formula.split_at(at);
    let right = rest.trim_start_matches(['<', '>', '=', '!']);
    let open = |text: &str| text.matches('(').count() == text.matches(')').count();
    (open(left) && !right.contains(['<', '>', '=', '!'])).then_some((left.trim(), right.trim()))
}

/// Names and functions of a formula in their order, without numbers and without the words after `is`.
pub(super) fn words_of(formula: &str) -> Vec<Word<'_>> {
    let in_word = |letter: char| letter.is_ascii_alphanumeric() || letter == '.' || letter == '-';
    let mut words = Vec::new();
    let mut rest = formula;
    let mut before = "";
    while let Some(start) = rest.find(|letter: char| letter.is_ascii_alphanumeric()) {
        let from = &rest[start..];
        let end = from.find(|letter| !in_word(letter)).unwrap_or(from.len());
        let (text, behind) = from.split_at(end);
        let is_answer = before == "is";
        if text == "not" && is_answer {
            rest = behind;
            continue;
        }
        let is_number = text.starts_with(|letter: char| letter.is_ascii_digit());
        if !is_number && !is_answer && !JOINING.contains(&text) {
            words.push(Word {
                text,
                is_function: behind.trim_start().starts_with('('),
            });
        }
        (before, rest) = (text, behind);
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: the style language, "Formulas" and "Names in formulas".
    #[test]
    fn names_and_functions_are_found_and_numbers_and_answers_are_not() {
        let formula = "hold is not tongues and min(tab.reach, 0.3 * item2.depth) >= 6mm - tab-max";
        let words: Vec<(&str, bool)> = words_of(formula)
            .iter()
            .map(|word| (word.text, word.is_function))
            .collect();
        assert_eq!(
            words,
            [
                ("hold", false),
                ("min", true),
                ("tab.reach", false),
                ("item2.depth", false),
                ("tab-max", false)
            ]
        );
        assert_eq!(
            figure("item2.depth").as_deref(),
            Some("depth of item 2 of the job")
        );
    }

    // Source: the style language, "Rules": one comparison has a value and a limit.
    #[test]
    fn only_a_single_comparison_has_two_sides() {
        assert_eq!(
            sides("max(a.span, 1mm) >= 6mm"),
            Some(("max(a.span, 1mm)", "6mm"))
        );
        assert_eq!(sides("a < 1mm and b > 2mm"), None);
        assert_eq!(sides("hold is tongues"), None);
        assert_eq!(sides("if(a > b, a, b) >= 6mm"), None);
    }
}
