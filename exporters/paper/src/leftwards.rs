//! Letters that run from right to left, in the order in which they stand on paper.
//!
//! **Input:** a line as it is read. **Output:** the line as it is set, letter by letter from left to right. Letters of a
//! script that joins them (Arabic and its relatives) are told apart: this crate cannot join letters.

use std::collections::BTreeSet;

use unicode_bidi::{BidiClass, BidiInfo, Level, bidi_class};

/// Signs in pairs, which face the other way in a line that runs leftwards.
// Source: Unicode Standard, BidiMirroring.txt, the pairs of Basic Latin and Latin-1.
const PAIRS: [(char, char); 5] = [('(', ')'), ('[', ']'), ('{', '}'), ('<', '>'), ('«', '»')];

/// The first letter that may run leftwards. Letters before it need no table.
// Source: Unicode Standard, DerivedBidiClass.txt: R and AL begin with the block of Hebrew.
const FIRST_LEFTWARDS: char = '\u{590}';

/// Whether it is a letter of this class of those that run leftwards.
fn is_leftwards(letter: char, class: BidiClass) -> bool {
    letter >= FIRST_LEFTWARDS && bidi_class(letter) == class
}

/// Whether it is a letter whose shape depends on its neighbours. Printed alone, it would be wrong.
// Source: Unicode Standard, DerivedBidiClass.txt: AL are the letters of Arabic, Syriac, Thaana and their relatives.
pub(crate) fn is_joined(letter: char) -> bool {
    is_leftwards(letter, BidiClass::AL)
}

/// The letters as they may be set: those of lines that run leftwards may face the other way.
pub(crate) fn also_set(letters: &BTreeSet<char>) -> BTreeSet<char> {
    let runs = |letter: &char| is_leftwards(*letter, BidiClass::R);
    match letters.iter().any(runs) {
        true => letters
            .iter()
            .flat_map(|it| [*it, facing_back(*it)])
            .collect(),
        false => letters.clone(),
    }
}

/// The line as it is set.
// Source: Unicode Standard Annex 9, the paragraph running from left to right; rule L3 for marks, L4 for signs in pairs.
pub(crate) fn as_set(line: String) -> String {
    if !line
        .chars()
        .any(|letter| is_leftwards(letter, BidiClass::R))
    {
        return line;
    }
    let about = BidiInfo::new(&line, Some(Level::ltr()));
    let mut set = String::with_capacity(line.len());
    for paragraph in &about.paragraphs {
        let (levels, runs) = about.visual_runs(paragraph, paragraph.range.clone());
        for run in runs {
            let text = &line[run.clone()];
            match levels[run.start].is_rtl() {
                true => set.extend(turned_round(text)),
                false => set.push_str(text),
            }
        }
    }
    set
}

/// The letters of a run from its end to its start, each before its marks, signs in pairs facing the other way.
fn turned_round(run: &str) -> impl Iterator<Item = char> {
    let mut letters: Vec<Vec<char>> = Vec::new();
    for letter in run.chars() {
        match letters.last_mut() {
            Some(base) if bidi_class(letter) == BidiClass::NSM => base.push(letter),
            _ => letters.push(vec![facing_back(letter)]),
        }
    }
    letters.into_iter().rev().flatten()
}

fn facing_back(letter: char) -> char {
    let both = PAIRS
        .iter()
        .flat_map(|(left, right)| [(*left, *right), (*right, *left)]);
    let mut facing = both.filter(|(sign, _)| *sign == letter);
    facing.next().map_or(letter, |(_, other)| other)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: Unicode Standard Annex 9, section 3.4: the letters of a run from right to left are reversed, numbers in it are not.
    #[test]
    fn runs_from_right_to_left_are_turned_round_and_numbers_are_not() {
        for (read, set) in [
            ("Lens box (2)", "Lens box (2)"),
            ("\u{5d0}\u{5d1}\u{5d2}", "\u{5d2}\u{5d1}\u{5d0}"),
            ("box \u{5d0}\u{5d1} 12", "box 12 \u{5d1}\u{5d0}"),
            ("\u{5d0}(\u{5d1})\u{5d2}", "\u{5d2}(\u{5d1})\u{5d0}"),
            ("\u{5d0}\u{5b8}\u{5d1}", "\u{5d1}\u{5d0}\u{5b8}"),
        ] {
            assert_eq!(as_set(read.to_owned()), set, "{read}");
        }
    }

    #[test]
    fn any_text_keeps_its_letters() {
        let mut state = 1_u32;
        for _ in 0..2000 {
            let letters = (0..40).filter_map(|_| {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let code = match state >> 30 {
                    0 => 0x590 + (state >> 8) % 0x370,
                    1 => 0x2000 + (state >> 8) % 0x70,
                    _ => (state >> 8) % 0x110,
                };
                char::from_u32(code)
            });
            let line: String = letters.collect();
            let count = line.chars().count();
            assert_eq!(as_set(line).chars().count(), count);
        }
    }
}
