//! The terms of a formula.
//!
//! The reader makes terms; the check of kinds, evaluation and printing walk them.
//! A long sum is one flat term, so the depth of a formula is bounded by its brackets and not by its length.
//! Knows nothing of kinds or values.

use std::ops::Range;

use super::Relation;
use super::function::Function;

/// A part of a formula with its position.
#[derive(Clone, Debug)]
pub(super) struct Term {
    /// Byte range in the formula's text, including brackets around the term.
    pub(super) place: Range<usize>,
    /// Its form.
    pub(super) form: Form,
}

/// The forms of a term.
#[derive(Clone, Debug)]
pub(super) enum Form {
    /// `a or b or c`
    AnyOf(Vec<Term>),
    /// `a and b and c`
    AllOf(Vec<Term>),
    /// `not a`
    Not(Box<Term>),
    /// `a <= b`
    Comparison {
        left: Box<Term>,
        relation: Relation,
        right: Box<Term>,
    },
    /// `view is not window`
    Is {
        name: String,
        negated: bool,
        word: String,
    },
    /// `a + b - c`
    Sum(Chain),
    /// `a * b / c`
    Product(Chain),
    /// `-a`
    Minus(Box<Term>),
    /// `min(a, b)`
    Call(Function, Vec<Term>),
    /// `6mm`, the number in the unit as written
    Constant(f64, Measure),
    /// `otherwise`
    Otherwise,
    /// `box.length`
    Name(String),
}

/// Terms joined from left to right by operators of one rank.
#[derive(Clone, Debug)]
pub(super) struct Chain {
    pub(super) first: Box<Term>,
    pub(super) rest: Vec<Link>,
}

/// One more term of a chain, with its operator.
#[derive(Clone, Debug)]
pub(super) struct Link {
    pub(super) operator: Operator,
    pub(super) term: Term,
}

/// The operators that join the terms of a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Plus,
    Minus,
    Times,
    Over,
}

impl Operator {
    /// Its sign in a formula.
    pub(super) fn sign(self) -> &'static str {
        match self {
            Operator::Plus => "+",
            Operator::Minus => "-",
            Operator::Times => "*",
            Operator::Over => "/",
        }
    }
}

/// The unit directly after a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Measure {
    Bare,
    Millimetres,
    Inches,
    Degrees,
}

impl Measure {
    /// All units, including the empty one of a bare number.
    pub(super) const ALL: [Measure; 4] = [
        Measure::Bare,
        Measure::Millimetres,
        Measure::Inches,
        Measure::Degrees,
    ];

    /// Its spelling.
    pub(super) fn unit(self) -> &'static str {
        match self {
            Measure::Bare => "",
            Measure::Millimetres => "mm",
            Measure::Inches => "in",
            Measure::Degrees => "deg",
        }
    }
}

impl Relation {
    /// All of them.
    pub(super) const ALL: [Relation; 6] = [
        Relation::Less,
        Relation::AtMost,
        Relation::More,
        Relation::AtLeast,
        Relation::Equal,
        Relation::Unequal,
    ];

    /// Its sign in a formula.
    pub fn sign(self) -> &'static str {
        match self {
            Relation::Less => "<",
            Relation::AtMost => "<=",
            Relation::More => ">",
            Relation::AtLeast => ">=",
            Relation::Equal => "==",
            Relation::Unequal => "!=",
        }
    }
}
