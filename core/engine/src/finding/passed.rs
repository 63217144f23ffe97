//! The checks that a tray has passed, with the values of each.
//!
//! A row is a check with its values and its sentence. [`PassedCheck::message`] fills the sentence in, in the maker's
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
        /// The folded tray fits the box, and no two panels overlap.
        Folded { outside: Size<3>, panels: usize } =
            "{outside} outside; {panels} panels, no collisions",
        /// Every fold can be made in this order.
        Folding { folds: usize } =
            "all {folds} folds can be made in this order without a collision",
        /// The support of the walls.
        Walls { walls: Vec<Clause> } = "{walls}",
        /// The depth of the tongues.
        Tongues { tongues: Vec<Clause> } = "{tongues}",
        /// How each item is held.
        Items { items: Vec<Clause> } = "{items}",
        /// The uncertainty of a clearance: its range (k = 2, by root-sum-square and at worst), and the probability that
        /// it is below zero.
        Clearance { of: Place, value: Mm, spread: Spread, damp: Option<Clause>, chance: Chance } =
            "{of}: clearance {value}, {spread}{damp}; too tight in {chance} trays",
        /// The certainty that a tongue reaches into the card of its slit.
        Tongue { tongue: String, into: String, reach: Mm, spread: Spread, chance: Chance } =
            "{tongue} engages {into} by {reach}, {spread}; does not engage in {chance} trays",
        /// The certainty that an edge meets the panel that it jams against.
        Jam { edge: String, against: String, spread: Spread } =
            "the edge of {edge} should just touch {against}. It can lie off by {spread}, so it may leave a gap or overlap. This is no lock: friction alone holds {edge}",
        /// The error limits used, and the effect of a print with a wrong scale on the longest clearance.
        Tolerance { measured: Mm, line: Mm, hinge: Mm, caliper: Mm, print: Percent, more: Mm, along: Mm } =
            "what follows assumes errors no larger than these: your measuring, ±{measured}; the place of creases and cuts, ±{line}; how deep in the card's thickness a fold bends, ±{hinge}; the thickness of the card, ±{caliper}. \"Worst\": all these errors add up. \"RSS\": the square root of the sum of their squares. A print at the wrong scale is not included: {print} changes {along} by {more}",
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

    /// What was checked, in words.
    pub fn subject(&self) -> &'static str {
        match self {
            PassedCheck::Flat { .. } => "the blank",
            PassedCheck::Folded { .. } => "the folded tray",
            PassedCheck::Folding { .. } => "the folding order",
            PassedCheck::Walls { .. } => "that the walls stand",
            PassedCheck::Tongues { .. } => "the tongues",
            PassedCheck::Items { .. } => "what holds the items",
            PassedCheck::Clearance { .. }
            | PassedCheck::Tongue { .. }
            | PassedCheck::Jam { .. }
            | PassedCheck::Tolerance { .. } => "errors of measuring and cutting",
        }
    }

    /// The result in parts: one for each wall, tongue or item, with its values in the maker's unit.
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
