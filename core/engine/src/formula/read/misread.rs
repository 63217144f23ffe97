//! Errors for a formula that cannot be read on, with the correct form.
//!
//! **Input:** the reader at the unexpected token. **Output:** the error. Never reads on for the formula's sake.

use std::ops::Range;

use super::{Reader, VALUE_EXAMPLES};
use crate::formula::FormulaFault;
use crate::formula::function::Function;
use crate::formula::term::{Form, Measure, Term};
use crate::formula::tokens::What;
use crate::wording::{list, nearest};

/// Maximum length of a quotation of the formula in a message.
const QUOTED_CHARACTERS: usize = 60;

impl Reader<'_> {
    /// The error of a third value in a comparison, at its operator.
    pub(super) fn chained(&mut self, comparison: &Term) -> FormulaFault {
        let place = self.place();
        let apart = self.comparisons_apart(comparison);
        let expected = apart.map_or_else(
            || "join two comparisons by `and`: `a < b and b < c`".to_owned(),
            |apart| format!("write `{apart}`"),
        );
        FormulaFault::new(place, "comparisons do not chain", expected)
    }

    fn comparisons_apart(&mut self, comparison: &Term) -> Option<String> {
        let Form::Comparison { right, .. } = &comparison.form else {
            return None;
        };
        let relation = self.relation()?;
        self.next += 1;
        let third = self.sum().ok()?;
        let first = &self.text[comparison.place.clone()];
        let middle = &self.text[right.place.clone()];
        let last = &self.text[third.place];
        let apart = format!("{first} and {middle} {} {last}", relation.sign());
        (apart.len() <= QUOTED_CHARACTERS).then_some(apart)
    }

    /// The error of another token where a value should be.
    pub(super) fn value_missing(&self) -> FormulaFault {
        let place = self.place();
        let message = if self.peek() == What::End {
            "the formula ends where a value should stand".to_owned()
        } else {
            let found = &self.text[place.clone()];
            format!("`{found}` stands where a value should stand")
        };
        FormulaFault::new(place, message, VALUE_EXAMPLES)
    }

    /// The error of a token that cannot follow a complete value.
    pub(super) fn left_over(&self) -> FormulaFault {
        let place = self.place();
        let found = &self.text[place.clone()];
        if let Some(fault) = self.unit_apart().or_else(|| self.decimal_comma()) {
            return fault;
        }
        match self.peek() {
            What::Sign(")") => FormulaFault::new(
                place,
                "no bracket is open here",
                "take this `)` away, or add a `(` before it",
            ),
            What::Sign(",") => FormulaFault::new(
                place,
                "a comma stands only between the values of a function",
                "such as `min(reach, span)`",
            ),
            _ => FormulaFault::new(
                place,
                format!("a sign is missing before `{found}`"),
                "`+`, `-`, `*`, `/`, a comparison, `and` or `or`",
            ),
        }
    }

    /// `6 mm`
    fn unit_apart(&self) -> Option<FormulaFault> {
        let before = self.tokens.get(self.next.checked_sub(1)?)?;
        let (What::Number(_, Measure::Bare), What::Word(unit)) = (before.what, self.peek()) else {
            return None;
        };
        Measure::ALL
            .into_iter()
            .find(|known| known.unit() == unit)?;
        let number = &self.text[before.place.clone()];
        Some(FormulaFault::new(
            before.place.start..self.place().end,
            "a unit stands right behind its number",
            format!("write `{number}{unit}`"),
        ))
    }

    /// `2,5mm`
    fn decimal_comma(&self) -> Option<FormulaFault> {
        let before = self.tokens.get(self.next.checked_sub(1)?)?;
        let after = self.tokens.get(self.next + 1)?;
        let (What::Number(_, Measure::Bare), What::Sign(","), What::Number(..)) =
            (before.what, self.peek(), after.what)
        else {
            return None;
        };
        let place = before.place.start..after.place.end;
        let whole = &self.text[before.place.clone()];
        let rest = &self.text[after.place.clone()];
        Some(FormulaFault::new(
            place,
            "a number has a decimal point, not a comma",
            format!("write `{whole}.{rest}`"),
        ))
    }
}

/// The error of a bracket after a word that is not a function.
pub(super) fn unknown_function(name: &str, place: Range<usize>) -> FormulaFault {
    let expected = match nearest(name, Function::names()) {
        Some(near) => format!("did you mean `{near}`?"),
        None => format!(
            "the functions are {}; a product is written with `*`",
            list(&Function::names().collect::<Vec<_>>())
        ),
    };
    FormulaFault::new(place, format!("there is no function `{name}`"), expected)
}

/// The message about a wrong number of arguments.
pub(super) fn wrong_count(function: Function, given: usize) -> String {
    let name = function.name();
    let wanted = match *function.takes().start() {
        1 if function.takes().contains(&2) => "at least one value".to_owned(),
        1 => "one value".to_owned(),
        count => format!("{count} values"),
    };
    let given = if given == 0 {
        "none".to_owned()
    } else {
        given.to_string()
    };
    format!("`{name}` takes {wanted}, and here it has {given}")
}
