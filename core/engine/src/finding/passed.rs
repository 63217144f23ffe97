//! The checks that a tray has passed, with the values that each found.
//!
//! A row is a check with its values and the sentence that they fill. [`PassedCheck::message`] fills it in, in the maker's
//! unit.

use super::clause::Clause;
use super::place::Place;
use super::sentence::{Chance, InWords, Mm, Percent, Size, Spread, sentences};
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
        /// How certain a clearance is: within what it lies (k = 2, by root-sum-square and at worst), and how often nothing is
        /// left of it.
        Clearance { of: Place, value: Mm, spread: Spread, damp: Option<Clause>, chance: Chance } =
            "{of}: {value} to spare, {spread}{damp}; too tight: {chance}",
        /// How certain it is that a tongue reaches into the card of its slit.
        Tongue { tongue: String, into: String, reach: Mm, spread: Spread, chance: Chance } =
            "{tongue} into {into}: reaches {reach} in, {spread}; does not get in: {chance}",
        /// How certain it is that an edge meets the panel that it jams against.
        Jam { edge: String, against: String, spread: Spread, line: Mm } =
            "{edge} against {against}: meets it, {spread}; lines are good to ±{line}, so this is friction and no lock",
        /// What all this was reckoned with, and what a print out of scale does to the longest clearance.
        Tolerance { measured: Mm, line: Mm, hinge: Mm, caliper: Mm, print: Percent, more: Mm, along: Mm } =
            "each ± for k = 2 (about 95 %) / by root-sum-square / at worst, reckoned with ±{measured} for a measured length, ±{line} for a crease or a cut, ±{hinge} for where a fold lies in the card, ±{caliper} for the card; a print {print} off takes {more} more along {along}",
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
            PassedCheck::Clearance { .. }
            | PassedCheck::Tongue { .. }
            | PassedCheck::Jam { .. }
            | PassedCheck::Tolerance { .. } => "tolerance",
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
