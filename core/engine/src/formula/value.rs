//! Evaluates a formula.
//!
//! **Input:** a formula's terms, the card and the values of its names. **Output:** the value. **Errors:** one at the
//! term without a value. Evaluates from left to right: one branch of an `if`, and of `and` and `or` only as much as
//! decides. No result is infinite or not a number, and nothing is rounded.

use std::ops::Range;
use traywright_document::steady::Steady;

use super::function::Function;
use super::kinds::rules::{Operand, Rules};
use super::term::{Chain, Form, Link, Measure, Operator, Term};
use super::{Card, FormulaFault, Kind, Relation, Value, ValueFault};
use traywright_document::Unit;

/// Difference up to which two lengths count as equal, so that `>=` is true for one length computed in two ways.
// Source: no rule of the trade; far above the error of a sum of a few hundred numbers, far below what a hand can cut.
const SAME_LENGTH_MM: f64 = 1e-9;

/// Difference up to which a number counts as whole, so that `floor(0.3mm / 0.1mm)` is 3.
// Source: as above.
const SAME_NUMBER: f64 = 1e-9;

/// Angle from which the corner of a fold is rejected, because it goes to infinity at 180.
// Source: common practice, none published.
const SHARPEST_FOLD_DEG: f64 = 179.0;

/// Returns the value of a name.
type ValueOf<'a, E> = dyn FnMut(&str) -> Result<Value, E> + 'a;

/// Evaluates a term.
pub(super) fn value<E>(
    text: &str,
    term: &Term,
    card: &Card,
    value_of: &mut ValueOf<'_, E>,
) -> Result<Value, ValueFault<E>> {
    Working {
        rules: Rules { text },
        card,
        value_of,
    }
    .value(term)
}

struct Working<'a, 'v, E> {
    rules: Rules<'a>,
    card: &'a Card,
    value_of: &'a mut ValueOf<'v, E>,
}

impl<E> Working<'_, '_, E> {
    fn value(&mut self, term: &Term) -> Result<Value, ValueFault<E>> {
        match &term.form {
            Form::AnyOf(terms) => self.decided_by(true, "or", terms),
            Form::AllOf(terms) => self.decided_by(false, "and", terms),
            Form::Not(inner) => Ok(Value::Truth(!self.truth("not", inner)?)),
            Form::Comparison {
                left,
                relation,
                right,
            } => self.comparison(left, *relation, right),
            Form::Is {
                name,
                negated,
                word,
            } => self.is(term, name, *negated, word),
            Form::Sum(chain) | Form::Product(chain) => self.chain(chain),
            Form::Minus(inner) => self.minus(inner),
            Form::Call(Function::If, arguments) => self.branch(arguments),
            Form::Call(Function::Min, arguments) => self.extreme(Function::Min, arguments),
            Form::Call(Function::Max, arguments) => self.extreme(Function::Max, arguments),
            Form::Call(function, arguments) => self.call(term, *function, &arguments[0]),
            Form::Constant(amount, measure) => Ok(constant(*amount, *measure)),
            Form::Otherwise => Ok(Value::Truth(true)),
            Form::Name(name) => self.name(term, name),
        }
    }

    fn truth(&mut self, joiner: &str, term: &Term) -> Result<bool, ValueFault<E>> {
        let value = self.value(term)?;
        self.rules.truth(joiner, operand(term, &value))?;
        Ok(value == Value::Truth(true))
    }

    /// Evaluates terms up to the first that equals `decisive`.
    fn decided_by(
        &mut self,
        decisive: bool,
        joiner: &str,
        terms: &[Term],
    ) -> Result<Value, ValueFault<E>> {
        for term in terms {
            if self.truth(joiner, term)? == decisive {
                return Ok(Value::Truth(decisive));
            }
        }
        Ok(Value::Truth(!decisive))
    }

    fn comparison(
        &mut self,
        left: &Term,
        relation: Relation,
        right: &Term,
    ) -> Result<Value, ValueFault<E>> {
        let left_value = self.value(left)?;
        let right_value = self.value(right)?;
        let operands = (operand(left, &left_value), operand(right, &right_value));
        self.rules.comparison(relation, operands.0, operands.1)?;
        Ok(Value::Truth(holds(&left_value, relation, &right_value)))
    }

    fn is(
        &mut self,
        term: &Term,
        name: &str,
        negated: bool,
        word: &str,
    ) -> Result<Value, ValueFault<E>> {
        let value = self.name(term, name)?;
        self.rules.is(name, value.kind(), term)?;
        Ok(Value::Truth((value.word() == Some(word)) != negated))
    }

    fn chain(&mut self, chain: &Chain) -> Result<Value, ValueFault<E>> {
        let mut reached = self.value(&chain.first)?;
        for link in &chain.rest {
            let next = self.value(&link.term)?;
            let left = operand(&chain.first, &reached);
            let right = operand(&link.term, &next);
            let kind = self.rules.reckoned(link.operator, left, right)?;
            let place = chain.first.place.start..link.term.place.end;
            let amount = self.reckoned(link, amount(&reached), amount(&next))?;
            reached = finite(kind, amount, &place)?;
        }
        Ok(reached)
    }

    fn reckoned(&self, link: &Link, left: f64, right: f64) -> Result<f64, FormulaFault> {
        match link.operator {
            Operator::Plus => Ok(left + right),
            Operator::Minus => Ok(left - right),
            Operator::Times => Ok(left * right),
            Operator::Over if right == 0.0 => Err(FormulaFault::new(
                link.term.place.clone(),
                self.with_amount(
                    &link.term,
                    &Value::Number(0.0),
                    "nothing can be divided by 0",
                ),
                "a divisor that is never 0, or an `if` that goes another way where it is",
            )),
            Operator::Over => Ok(left / right),
        }
    }

    fn minus(&mut self, inner: &Term) -> Result<Value, ValueFault<E>> {
        let value = self.value(inner)?;
        let kind = self.rules.minus(operand(inner, &value))?;
        Ok(finite(kind, -amount(&value), &inner.place)?)
    }

    fn branch(&mut self, arguments: &[Term]) -> Result<Value, ValueFault<E>> {
        let taken = if self.truth("if", &arguments[0])? {
            1
        } else {
            2
        };
        self.value(&arguments[taken])
    }

    fn extreme(&mut self, function: Function, arguments: &[Term]) -> Result<Value, ValueFault<E>> {
        let first = &arguments[0];
        let mut reached = self.value(first)?;
        self.rules.call(function, operand(first, &reached))?;
        for argument in &arguments[1..] {
            let next = self.value(argument)?;
            let operands = (operand(first, &reached), operand(argument, &next));
            self.rules.alike(function, operands.0, operands.1)?;
            let beaten = if function == Function::Min {
                amount(&next) < amount(&reached)
            } else {
                amount(&next) > amount(&reached)
            };
            if beaten {
                reached = next;
            }
        }
        Ok(reached)
    }

    fn call(
        &mut self,
        term: &Term,
        function: Function,
        argument: &Term,
    ) -> Result<Value, ValueFault<E>> {
        let value = self.value(argument)?;
        let kind = self.rules.call(function, operand(argument, &value))?;
        let result =
            applied(function, amount(&value), self.card).map_err(|(message, expected)| {
                let message = self.with_amount(argument, &value, message);
                FormulaFault::new(argument.place.clone(), message, expected)
            })?;
        Ok(finite(kind, result, &term.place)?)
    }

    /// A message about a term's value, with the value unless the term is a constant.
    fn with_amount(&self, term: &Term, value: &Value, message: &str) -> String {
        if matches!(term.form, Form::Constant(..)) {
            return message.to_owned();
        }
        let quoted = self.rules.quoted(term);
        let amount = value.in_words(Unit::Millimetre);
        format!("{quoted} is {amount} here, and {message}")
    }

    fn name(&mut self, term: &Term, name: &str) -> Result<Value, ValueFault<E>> {
        let value = (self.value_of)(name).map_err(ValueFault::Name)?;
        if value.amount().is_some_and(|amount| !amount.is_finite()) {
            return Err(too_large(&term.place).into());
        }
        Ok(value)
    }
}

fn operand<'t>(term: &'t Term, value: &Value) -> Operand<'t> {
    Operand {
        term,
        kind: value.kind(),
    }
}

fn amount(value: &Value) -> f64 {
    value
        .amount()
        .expect("the rules of kinds let nothing be reckoned with but amounts")
}

fn constant(amount: f64, measure: Measure) -> Value {
    match measure {
        Measure::Bare => Value::Number(amount),
        Measure::Millimetres => Value::Length(amount),
        // Source: 1 in = 25.4 mm exactly (international yard, 1959).
        Measure::Inches => Value::Length(amount * 25.4),
        Measure::Degrees => Value::Angle(amount),
    }
}

fn finite(kind: Kind, amount: f64, place: &Range<usize>) -> Result<Value, FormulaFault> {
    if !amount.is_finite() {
        return Err(too_large(place));
    }
    Ok(match kind {
        Kind::Number => Value::Number(amount),
        Kind::Length => Value::Length(amount),
        Kind::Area => Value::Area(amount),
        Kind::Angle => Value::Angle(amount),
        Kind::Truth | Kind::Word => unreachable!("the rules of kinds make only amounts of amounts"),
    })
}

fn too_large(place: &Range<usize>) -> FormulaFault {
    FormulaFault::new(
        place.clone(),
        "the result is too large to be a number",
        "smaller factors, or a larger divisor",
    )
}

/// Whether a comparison of two values of one kind is true.
fn holds(left: &Value, relation: Relation, right: &Value) -> bool {
    let equal = match (left.length(), right.length()) {
        (Some(left), Some(right)) => (left - right).abs() <= SAME_LENGTH_MM,
        _ => left == right,
    };
    let less = left.amount() < right.amount() && !equal;
    match relation {
        Relation::Less => less,
        Relation::AtMost => less || equal,
        Relation::More => !less && !equal,
        Relation::AtLeast => !less,
        Relation::Equal => equal,
        Relation::Unequal => !equal,
    }
}

/// The result of a function for a number, or an error with the correct form.
fn applied(
    function: Function,
    amount: f64,
    card: &Card,
) -> Result<f64, (&'static str, &'static str)> {
    let whole = (amount - amount.round()).abs() <= SAME_NUMBER;
    match function {
        Function::Abs => Ok(amount.abs()),
        Function::Sqrt if amount < 0.0 => Err((
            "less than 0 has no root",
            "a value of 0 or more: `sqrt(abs(a))` or `max`",
        )),
        Function::Sqrt => Ok(amount.sqrt()),
        Function::Sin => Ok(amount.to_radians().steady_sin()),
        Function::Cos => Ok(amount.to_radians().steady_cos()),
        Function::Tan if amount.rem_euclid(180.0) == 90.0 => Err((
            "a right angle has no tangent",
            "an angle that is not upright",
        )),
        Function::Tan => Ok(amount.to_radians().steady_tan()),
        Function::Floor | Function::Ceil | Function::Round if whole => Ok(amount.round()),
        Function::Floor => Ok(amount.floor()),
        Function::Ceil => Ok(amount.ceil()),
        Function::Round => Ok(amount.round()),
        Function::Outer | Function::Inner if amount.abs() >= SHARPEST_FOLD_DEG => Err((
            "a fold as sharp as that has no corner",
            "an angle of less than 179deg",
        )),
        Function::Outer => Ok(card.outer(amount)),
        Function::Inner => Ok(card.inner(amount)),
        Function::Flex => Ok(card.flex(amount)),
        Function::Min | Function::Max | Function::If => {
            unreachable!("functions of several values are worked out where their values are")
        }
    }
}
