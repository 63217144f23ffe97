//! The checks that a tray has passed, with the values that each found.
//!
//! A row is a check with its values and the sentence that they fill. [`PassedCheck::message`] fills it in, in the maker's
//! unit.

use super::clause::Clause;
use super::place::Place;
use super::sentence::{InWords, Mm, Percent, Size, sentences};
use traywright_document::{Unit, filled};

sentences! {
    /// A check that the tray has passed.
    pub enum PassedCheck {
        /// The blank is one flat piece.
        Flat { panels: usize } =
            "one piece with one edge; {panels} panels, no two from the same card, card on both sides of each crease",
        /// The folded tray goes into the box, and no two panels into each other.
        Folded { outside: Size<3>, panels: usize } =
            "{outside} outside, no two of {panels} slabs inside each other",
        /// Every fold can be made in its order.
        Folding { folds: usize, actions: usize } =
            "{folds} folds in {actions} actions, each turned through its angle and met by no panel",
        /// What keeps the walls upright.
        Walls { walls: Vec<Clause> } = "{walls}",
        /// How deep the tongues engage.
        Tongues { tongues: Vec<Clause> } = "{tongues}",
        /// How each item is held.
        Items { items: Vec<Clause> } = "{items}",
        /// How certain a clearance is.
        Clearance { of: Place, value: Mm, least: Mm, most: Mm, by_hand: Mm } =
            "{of}: about {value} to spare; between {least} and {most} if you measure and crease to ±{by_hand} (k = 2, about 95 %)",
        /// The same errors added up in the other two ways, and what a print out of scale does to the longest clearance.
        Tolerance { root_sum_square: Mm, worst: Mm, print: Percent, more: Mm, along: Mm } =
            "each of these ±{root_sum_square} by root-sum-square, ±{worst} at worst; a print {print} off takes {more} more along {along}",
    }
}

impl PassedCheck {
    /// Its name in a report.
    // Source: core/CONTRACT.md, "check --format json".
    pub fn name(&self) -> &'static str {
        match self {
            PassedCheck::Flat { .. } => "flat",
            PassedCheck::Folded { .. } => "folded",
            PassedCheck::Folding { .. } => "folding",
            PassedCheck::Walls { .. } => "walls",
            PassedCheck::Tongues { .. } => "tongues",
            PassedCheck::Items { .. } => "items",
            PassedCheck::Clearance { .. } | PassedCheck::Tolerance { .. } => "tolerance",
        }
    }

    /// The result part by part: one for each wall, tongue or item, with its values in the maker's unit.
    pub fn parts(&self, unit: Unit) -> Vec<String> {
        match self {
            PassedCheck::Walls { walls: parts }
            | PassedCheck::Tongues { tongues: parts }
            | PassedCheck::Items { items: parts } => parts
                .iter()
                .map(|part| InWords::in_words(part, unit))
                .collect(),
            _ => vec![self.message(unit)],
        }
    }

    /// The result in one line, with its values in the maker's unit.
    pub fn message(&self, unit: Unit) -> String {
        filled(self.sentence(), &self.in_words(unit))
    }
}
