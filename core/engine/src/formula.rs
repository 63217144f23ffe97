//! The small language in which a style states its sizes and conditions.
//!
//! **Input:** the text between the quotes, such as `min(end.reach, deck.width / 2 - gap)`, for [`Formula::read`].
//! **Output:** a formula whose kinds can be checked before any number is known, and which [`Formula::value`] evaluates
//! for one job. The caller supplies the kind and the value of each name. Lengths are mm, areas mm², angles degrees.
//! **Errors:** with a position in the text. A result that is infinite or not a number is an error. Never panics, and
//! never nests deeper than [`MOST_LEVELS`], for any text.

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

/// Maximum number of characters of a formula.
// Source: common practice, none published; the longest formula of the shipped styles has about 70.
pub const MOST_CHARACTERS: usize = 4096;

/// Maximum nesting of brackets, functions, leading minuses and `not`.
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

/// A word right of `is`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ComparedWord {
    /// The name left of `is`.
    pub name: String,
    /// The word it is compared with.
    pub word: String,
    /// Byte range of the word in the formula's text.
    pub place: Range<usize>,
}

impl Formula {
    /// Reads a formula from the text between the quotes.
    ///
    /// # Refuses
    /// A text that is not a formula, has more than [`MOST_CHARACTERS`] or nests deeper than [`MOST_LEVELS`].
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

    /// Nesting depth of brackets, functions, leading minuses and `not`, at most [`MOST_LEVELS`].
    ///
    /// Evaluation takes up to 6 KiB of stack for a level, and 16 KiB without optimisation, so a caller that evaluates
    /// formulas inside formulas can limit the sum of their levels.
    pub fn levels(&self) -> usize {
        self.levels
    }

    /// Every name that it uses, once each, in the order of their first occurrence in the text.
    ///
    /// Words right of `is`, functions and `otherwise` are not among them.
    pub fn names(&self) -> impl Iterator<Item = (&str, Range<usize>)> {
        self.names
            .iter()
            .map(|(name, place)| (name.as_str(), place.clone()))
    }

    /// Every word right of an `is`, so that the caller can check whether it is one of the setting's words.
    pub fn words(&self) -> impl Iterator<Item = &ComparedWord> {
        self.words.iter()
    }

    /// Checks on all branches that kinds agree, and returns the kind of the result.
    ///
    /// `kind_of` returns the kind of a name, or a sentence with the reason why there is none; the error is then at that
    /// name.
    ///
    /// # Refuses
    /// All errors that are not consequences of another one.
    pub fn check(
        &self,
        kind_of: &mut dyn FnMut(&str) -> Result<Kind, String>,
    ) -> Result<Kind, Vec<FormulaFault>> {
        kinds::check(&self.text, &self.whole, kind_of)
    }

    /// Evaluates the formula. Of an `if` it evaluates only the taken branch, of `and` and `or` only as much as it
    /// needs.
    ///
    /// # Refuses
    /// A formula without a result: a division by zero, a root of less than zero, a number too large, kinds that do not
    /// agree; and errors of `value_of`.
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

/// Prints the formula with even spacing and the fewest brackets; read again, it gives the same values.
///
/// A formula that would be too long to be read again is printed as its author wrote it.
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
    /// The side left of the operator.
    pub left: Side<'f>,
    /// The operator.
    pub relation: Relation,
    /// The side right of the operator.
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

    /// Byte range of the side in the formula's text.
    pub fn place(&self) -> Range<usize> {
        self.term.place.clone()
    }

    /// Evaluates the side, as [`Formula::value`] does the whole; positions are those in the whole formula's text.
    pub fn value<E>(
        &self,
        card: &Card,
        value_of: &mut dyn FnMut(&str) -> Result<Value, E>,
    ) -> Result<Value, ValueFault<E>> {
        value::value(self.text, self.term, card, value_of)
    }
}

/// The comparison operators.
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

/// An error in a formula.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FormulaFault {
    /// Byte range of the error in the formula's text; empty, at the end of the text, if something is missing.
    pub place: Range<usize>,
    /// The error as a sentence.
    pub message: String,
    /// The correct form.
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
    /// The formula has no value with these numbers.
    Formula(FormulaFault),
    /// A name in it has no value.
    Name(E),
}

impl<E> From<FormulaFault> for ValueFault<E> {
    fn from(fault: FormulaFault) -> Self {
        ValueFault::Formula(fault)
    }
}
