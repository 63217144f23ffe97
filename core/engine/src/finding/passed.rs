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
            "one piece, {panels} panels, no overlaps; every crease joins two panels",
        /// The folded tray goes into the box, and no two panels into each other.
        Folded { outside: Size<3>, panels: usize } =
            "{outside} outside; {panels} panels, no collisions",
        /// Every fold can be made in its order.
        Folding { folds: usize } =
            "all {folds} folds can be made in this order without a collision",
        /// What keeps the walls upright.
        Walls { walls: Vec<Clause> } = "{walls}",
        /// How deep the tongues engage.
        Tongues { tongues: Vec<Clause> } = "{tongues}",
        /// How each item is held.
        Items { items: Vec<Clause> } = "{items}",
        /// How certain a clearance is: within what it lies (k = 2, by root-sum-square and at worst), and how often nothing is
        /// left of it.
        Clearance { of: Place, value: Mm, spread: Spread, damp: Option<Clause>, chance: Chance } =
            "{of}: clearance {value}, {spread}{damp}; too tight in {chance} trays",
        /// How certain it is that a tongue reaches into the card of its slit.
        Tongue { tongue: String, into: String, reach: Mm, spread: Spread, chance: Chance } =
            "{tongue} engages {into} by {reach}, {spread}; does not engage in {chance} trays",
        /// How certain it is that an edge meets the panel that it jams against.
        Jam { edge: String, against: String, spread: Spread } =
            "{edge} reaches to {against}, {spread}: that is not exact enough to lock, so friction alone holds it",
        /// What all this was calculated with, and what a print out of scale does to the longest clearance.
        Tolerance { measured: Mm, line: Mm, hinge: Mm, caliper: Mm, print: Percent, more: Mm, along: Mm } =
            "about 95 of 100 trays stay within the expected ± (k = 2) if you measure to ±{measured}, crease and cut to ±{line}, the folds lie within ±{hinge} of their depth in the card, and the card is within ±{caliper} of its thickness. A print at the wrong scale is not included: {print} changes {along} by {more}",
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
