//! The small language in which a style states its sizes and conditions.
//!
//! Given the text between the quotes, such as `min(end.reach, deck.width / 2 - gap)`, [`Formula::read`] gives a formula
//! whose kinds can be checked before any number is known, and which is worked out for one job by [`Formula::value`].
//! Names mean nothing here: the caller says of which kind a name is and what it stands for.
//! Lengths are mm, areas mm², angles degrees. No result is ever infinite or not a number: that is a fault at its place.
//! Never panics, and never nests deeper than [`MOST_LEVELS`], whatever the text.

mod function;
mod kinds;
mod print;
mod quantity;
mod read;
mod term;
mod tokens;
mod value;

use std::fmt;
use std::ops::Range;

pub use quantity::{Card, Kind, Value};
use term::{Form, Term};

/// Characters that a formula may have.
// Source: common practice, none published; the longest formula of the shipped styles has about 70.
pub const MOST_CHARACTERS: usize = 4096;

/// Levels of brackets, functions, leading minuses and `not` that may stand inside one another.
// Source: common practice, none published; keeps reading and working out within a small stack.
pub const MOST_LEVELS: usize = 64;

/// A formula that has been read.
#[derive(Clone, Debug)]
pub struct Formula {
    text: String,
    whole: Term,
    levels: usize,
    names: Vec<(String, Range<usize>)>,
    words: Vec<ComparedWord>,
}

/// A word that stands right of `is`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComparedWord {
    /// The name left of `is`.
    pub name: String,
    /// The word it is compared with.
    pub word: String,
    /// Bytes of the formula's text where the word stands.
    pub place: Range<usize>,
}

impl Formula {
    /// Reads a formula from the text between the quotes.
    ///
    /// # Refuses
    /// A text that is no formula, has more than [`MOST_CHARACTERS`] or nests deeper than [`MOST_LEVELS`].
    pub fn read(text: &str) -> Result<Formula, FormulaFault> {
        let found = read::read(text)?;
        Ok(Formula {
            text: text.to_owned(),
            whole: found.whole,
            levels: found.levels,
            names: found.names,
            words: found.words,
        })
    }

    /// The formula as its author wrote it.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// How many brackets, functions, leading minuses and `not` stand inside one another, at most [`MOST_LEVELS`].
    ///
    /// Working out takes up to 6 KiB of stack for a level, and 16 KiB without optimisation, so whoever works out formulas
    /// inside formulas can bound the sum of their levels.
    pub fn levels(&self) -> usize {
        self.levels
    }

    /// Every name that it uses, once each, in the order of its first place in the text.
    ///
    /// Words right of `is`, functions and `otherwise` are not among them.
    pub fn names(&self) -> impl Iterator<Item = (&str, Range<usize>)> {
        self.names
            .iter()
            .map(|(name, place)| (name.as_str(), place.clone()))
    }

    /// Every word right of an `is`, so that the caller can tell whether it is one of the choice's.
    pub fn words(&self) -> impl Iterator<Item = &ComparedWord> {
        self.words.iter()
    }

    /// Checks on all branches that kinds agree, and gives the kind of the result.
    ///
    /// `kind_of` tells the kind of a name, or in a sentence why there is none; the fault then stands at that name.
    ///
    /// # Refuses
    /// With all faults that are not the consequence of another one.
    pub fn check(
        &self,
        kind_of: &mut dyn FnMut(&str) -> Result<Kind, String>,
    ) -> Result<Kind, Vec<FormulaFault>> {
        kinds::check(&self.text, &self.whole, kind_of)
    }

    /// Works the formula out. Of an `if` only the branch that is taken, of `and` and `or` no more than is needed.
    ///
    /// # Refuses
    /// What has no result: a division by zero, a root of less than zero, a number too large, kinds that do not agree;
    /// and passes on what `value_of` refuses.
    pub fn value<E>(
        &self,
        card: &Card,
        value_of: &mut dyn FnMut(&str) -> Result<Value, E>,
    ) -> Result<Value, ValueFault<E>> {
        value::value(&self.text, &self.whole, card, value_of)
    }

    /// Its two sides, if the formula is one comparison and nothing else.
    pub fn comparison(&self) -> Option<Comparison<'_>> {
        let Form::Comparison {
            left,
            relation,
            right,
        } = &self.whole.form
        else {
            return None;
        };
        let side = |term| Side {
            text: &self.text,
            term,
        };
        Some(Comparison {
            left: side(left),
            relation: *relation,
            right: side(right),
        })
    }
}

/// Prints the formula evenly spaced and with no more brackets than it needs; read again, it gives the same values.
///
/// One that would grow too long to be read again is printed as its author wrote it.
impl fmt::Display for Formula {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let printed = print::printed(&self.whole);
        if printed.len() > MOST_CHARACTERS {
            return out.write_str(&self.text);
        }
        out.write_str(&printed)
    }
}

/// The two sides of a formula that is one comparison, such as the value and the limit of a rule.
#[derive(Clone, Copy, Debug)]
pub struct Comparison<'f> {
    /// What stands left of the sign.
    pub left: Side<'f>,
    /// The sign.
    pub relation: Relation,
    /// What stands right of the sign.
    pub right: Side<'f>,
}

/// One side of a comparison.
#[derive(Clone, Copy, Debug)]
pub struct Side<'f> {
    text: &'f str,
    term: &'f Term,
}

impl<'f> Side<'f> {
    /// The side as its author wrote it.
    pub fn text(&self) -> &'f str {
        &self.text[self.term.place.clone()]
    }

    /// Bytes of the formula's text where the side stands.
    pub fn place(&self) -> Range<usize> {
        self.term.place.clone()
    }

    /// Works the side out, as [`Formula::value`] does the whole; places are those of the whole formula's text.
    pub fn value<E>(
        &self,
        card: &Card,
        value_of: &mut dyn FnMut(&str) -> Result<Value, E>,
    ) -> Result<Value, ValueFault<E>> {
        value::value(self.text, self.term, card, value_of)
    }
}

/// How the two sides of a comparison are held against each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// `<`
    Less,
    /// `<=`
    AtMost,
    /// `>`
    More,
    /// `>=`
    AtLeast,
    /// `==`
    Equal,
    /// `!=`
    Unequal,
}

/// Something wrong in a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaFault {
    /// Bytes of the formula's text that are wrong; empty at its end where something is missing.
    pub place: Range<usize>,
    /// What is wrong.
    pub message: String,
    /// What would be right.
    pub expected: String,
}

impl FormulaFault {
    fn new(place: Range<usize>, message: impl Into<String>, expected: impl Into<String>) -> Self {
        FormulaFault {
            place,
            message: message.into(),
            expected: expected.into(),
        }
    }
}

/// Why a formula has no value.
#[derive(Clone, Debug, PartialEq)]
pub enum ValueFault<E> {
    /// The formula itself has none with these numbers.
    Formula(FormulaFault),
    /// A name that it needs has none.
    Name(E),
}

impl<E> From<FormulaFault> for ValueFault<E> {
    fn from(fault: FormulaFault) -> Self {
        ValueFault::Formula(fault)
    }
}
