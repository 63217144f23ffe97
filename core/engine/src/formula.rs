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
mod read;
mod term;
mod tokens;
mod value;

use std::fmt;
use std::ops::Range;

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
            names: found.names,
            words: found.words,
        })
    }

    /// The formula as its author wrote it.
    pub fn text(&self) -> &str {
        &self.text
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

/// What sort of thing a formula gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A plain number, such as how many.
    Number,
    /// A length.
    Length,
    /// An area.
    Area,
    /// An angle.
    Angle,
    /// Yes or no.
    Truth,
    /// One of the words of a choice.
    Word,
}

impl Kind {
    /// The kind with its article, for a sentence: `a length`.
    pub fn with_article(self) -> &'static str {
        match self {
            Kind::Number => "a number",
            Kind::Length => "a length",
            Kind::Area => "an area",
            Kind::Angle => "an angle",
            Kind::Truth => "a truth (yes or no)",
            Kind::Word => "a word",
        }
    }
}

/// What a formula gives for one job.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A plain number.
    Number(f64),
    /// A length in mm.
    Length(f64),
    /// An area in mm².
    Area(f64),
    /// An angle in degrees.
    Angle(f64),
    /// Yes or no.
    Truth(bool),
    /// One of the words of a choice.
    Word(String),
}

impl Value {
    /// Its kind.
    pub fn kind(&self) -> Kind {
        match self {
            Value::Number(_) => Kind::Number,
            Value::Length(_) => Kind::Length,
            Value::Area(_) => Kind::Area,
            Value::Angle(_) => Kind::Angle,
            Value::Truth(_) => Kind::Truth,
            Value::Word(_) => Kind::Word,
        }
    }

    /// The plain number, mm, mm² or degrees of it, if it is none of the two other kinds.
    pub fn amount(&self) -> Option<f64> {
        match self {
            Value::Number(amount)
            | Value::Length(amount)
            | Value::Area(amount)
            | Value::Angle(amount) => Some(*amount),
            Value::Truth(_) | Value::Word(_) => None,
        }
    }

    /// The number, if it is one.
    pub fn number(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Number)
    }

    /// The length in mm, if it is one.
    pub fn length(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Length)
    }

    /// The area in mm², if it is one.
    pub fn area(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Area)
    }

    /// The angle in degrees, if it is one.
    pub fn angle(&self) -> Option<f64> {
        self.amount().filter(|_| self.kind() == Kind::Angle)
    }

    /// Yes or no, if it is that.
    pub fn truth(&self) -> Option<bool> {
        match self {
            Value::Truth(truth) => Some(*truth),
            _ => None,
        }
    }

    /// The word, if it is one.
    pub fn word(&self) -> Option<&str> {
        match self {
            Value::Word(word) => Some(word),
            _ => None,
        }
    }
}

/// What the functions of the trade need to know of the card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    /// Caliper of the card.
    pub caliper: f64,
    /// Height of the fold lines over the middle of the card, towards the inside of the fold.
    pub hinge: f64,
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
