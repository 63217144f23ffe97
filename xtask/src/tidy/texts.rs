//! What no text of the tree may hold: blanks at a line's end, notes to self, paths of one machine.
//!
//! Reads line by line and knows no language. It never looks into what a test compares letter for letter, nor into the
//! words of others.

use std::path::Path;

use super::House;

/// Words that are promises to come back, split so that this file does not hold them.
const NOTES_TO_SELF: [&str; 5] = [
    concat!("TO", "DO"),
    concat!("FIX", "ME"),
    concat!("X", "XX"),
    concat!("HA", "CK"),
    concat!("Being ", "built"),
];

/// Beginnings of paths that exist on one machine only.
const MACHINE_PATHS: [&str; 4] = [
    concat!("/ho", "me/"),
    concat!("/ro", "ot/"),
    concat!("/wo", "rk/"),
    concat!("/User", "s/"),
];

/// Texts that a program printed and a test compares letter for letter, and texts of others.
const NOT_OUR_WORDS: [&str; 4] = ["tests/goldens", "tests/refusals", "Cargo.lock", "LICENSE"];

/// Judges every line of our own texts.
pub(super) fn judge(house: &House, faults: &mut Vec<String>) {
    let ours = house
        .texts
        .iter()
        .filter(|file| !NOT_OUR_WORDS.iter().any(|path| file.path.starts_with(path)));
    for file in ours {
        for (index, line) in file.text.lines().enumerate() {
            let mut say = |words: &str| faults.push(file.fault(index + 1, words));
            if line.ends_with([' ', '\t']) {
                say("blanks at the end of the line");
            }
            for note in NOTES_TO_SELF.iter().filter(|note| has_word(line, note)) {
                say(&format!("`{note}` is a note to oneself: do it, or file it"));
            }
            for path in MACHINE_PATHS.iter().filter(|path| line.contains(**path)) {
                say(&format!("`{path}` is a path of one machine"));
            }
        }
        if !file.text.is_empty() && !file.text.ends_with('\n') && !is_exact(&file.path) {
            faults.push(file.fault(file.text.lines().count(), "no line end at the end"));
        }
    }
}

/// The files of a format whose every byte counts.
fn is_exact(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ["svg", "json"].iter().any(|exact| ending == *exact))
}

fn has_word(line: &str, word: &str) -> bool {
    line.match_indices(word).any(|(at, _)| {
        let after = line[at + word.len()..].chars().next();
        let before = line[..at].chars().next_back();
        !after.is_some_and(char::is_alphanumeric) && !before.is_some_and(char::is_alphanumeric)
    })
}
