//! The kinds of parts that a tray is made of, each with its letter.
//!
//! **Input:** the panels, with the style's word for the kind of each, and the steps. **Output:** the kinds in the order in
//! which hands meet them, the root first, each with its letter and its panels. Every exporter takes its letters from here,
//! so that blank, map and steps agree. **Does not** know a language: the words of a part stand in the files of words.

use crate::Document;
use crate::steps::Action;

/// The letters of parts, in order.
// Source: common practice in technical drawings (from memory): I and O are left out, because they look like 1 and 0.
const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// One kind of part: all panels that a maker calls by the same word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PartKind<'a> {
    /// Its letter; two of them from the twenty-fifth kind on.
    pub letter: String,
    /// The style's word for it, such as `inner-end`.
    pub word: &'a str,
    /// Indexes of its panels, lowest first.
    pub panels: Vec<usize>,
}

impl Document {
    /// The kinds of parts: the root's first, then in the order in which they are first folded, then those that no step folds.
    pub fn parts(&self) -> Vec<PartKind<'_>> {
        let folded = self.steps.iter().flat_map(|step| match &step.action {
            Action::Fold(moves) => moves.as_slice(),
            _ => &[],
        });
        let folded = folded.map(|one| one.panel);
        let order = (0..self.panels.len().min(1))
            .chain(folded.filter(|&panel| panel < self.panels.len()))
            .chain(0..self.panels.len());
        let mut parts: Vec<PartKind> = Vec::new();
        for panel in order {
            let word = self.panels[panel].part();
            match parts.iter_mut().find(|part| part.word == word) {
                Some(part) => part.panels.push(panel),
                None => parts.push(PartKind {
                    letter: letter(parts.len()),
                    word,
                    panels: vec![panel],
                }),
            }
        }
        for part in &mut parts {
            part.panels.sort_unstable();
            part.panels.dedup();
        }
        parts
    }
}

/// The letter of the kind at a place in the list.
fn letter(index: usize) -> String {
    let count = LETTERS.len();
    let last = char::from(LETTERS[index % count]);
    match index / count {
        0 => last.to_string(),
        round => letter(round - 1) + &last.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example::{flat, panel, plain, run};
    use crate::steps::{Move, Step};

    fn fold(panels: &[usize]) -> Step {
        let moves = panels.iter().map(|&panel| Move {
            panel,
            to_deg: 90.0,
        });
        Step {
            words: String::new(),
            why: String::new(),
            stands: false,
            tongues: 0,
            action: Action::Fold(moves.collect()),
        }
    }

    // Source: by hand: the deck lies still and is first; end walls are folded before side walls here; nobody folds the rib.
    #[test]
    fn letters_follow_the_folds_and_mirrored_panels_share_one() {
        let square = run(&[[0.0, 0.0], [9.0, 0.0], [9.0, 9.0]], true);
        let mut document = plain(flat(square.clone()));
        for (name, part) in [
            ("deck", "deck"),
            ("side-south", "side"),
            ("side-north", "side"),
            ("end-west", "end"),
            ("rib", ""),
        ] {
            let mut panel = panel(name, square.clone(), None);
            panel.part = part.to_owned();
            document.panels.push(panel);
        }
        document.steps = vec![fold(&[3]), fold(&[2, 1])];
        let parts = document.parts();
        let told: Vec<(&str, &str, &[usize])> = parts
            .iter()
            .map(|part| (part.letter.as_str(), part.word, part.panels.as_slice()))
            .collect();
        assert_eq!(
            told,
            [
                ("A", "deck", &[0][..]),
                ("B", "end", &[3]),
                ("C", "side", &[1, 2]),
                ("D", "rib", &[4]),
            ]
        );
    }

    // Source: by hand: the alphabet without I and O has 24 letters; H is followed by J, and Z by AA.
    #[test]
    fn no_letter_looks_like_a_number_and_none_comes_twice() {
        assert_eq!([7, 8, 23, 24, 25].map(letter), ["H", "J", "Z", "AA", "AB"]);
    }
}
