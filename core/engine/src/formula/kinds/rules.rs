//! The rules of kinds, and the errors if kinds do not agree.
//!
//! **Input:** the kinds of the operands of an operator, a comparison or a function. **Output:** the kind of the result,
//! or an error with the correct form. Pure: no names, no numbers.

use crate::formula::function::Function;
use crate::formula::term::{Form, Measure, Operator, Term};
use crate::formula::{FormulaFault, Kind, Relation};

/// A term with its kind; in a chain, the kind of the chain up to here with the chain's first term.
#[derive(Clone, Copy)]
pub(in crate::formula) struct Operand<'t> {
    pub(in crate::formula) term: &'t Term,
    pub(in crate::formula) kind: Kind,
}

/// The rules for one formula's text.
#[derive(Clone, Copy)]
pub(in crate::formula) struct Rules<'t> {
    pub(in crate::formula) text: &'t str,
}

type Ruled = Result<Kind, FormulaFault>;

/// Maximum length of a quotation of the formula in a message.
const QUOTED_CHARACTERS: usize = 40;

impl Rules<'_> {
    /// The kind of `+`, `-`, `*` and `/` of two values
    pub(in crate::formula) fn reckoned(
        &self,
        operator: Operator,
        left: Operand<'_>,
        right: Operand<'_>,
    ) -> Ruled {
        match operator {
            Operator::Plus | Operator::Minus => self.sum(operator, left, right),
            Operator::Times | Operator::Over => self.product(operator, left, right),
        }
    }

    fn sum(&self, operator: Operator, left: Operand<'_>, right: Operand<'_>) -> Ruled {
        let verb = match operator {
            Operator::Minus => "subtracted",
            _ => "added",
        };
        for operand in [left, right] {
            self.amount(verb, operand)?;
        }
        if left.kind == right.kind {
            return Ok(left.kind);
        }
        let message = match operator {
            Operator::Minus => format!(
                "{} cannot be subtracted from {}",
                right.kind.with_article(),
                left.kind.with_article()
            ),
            _ => both("added", left, right),
        };
        Err(unlike(left, right, message))
    }

    fn product(&self, operator: Operator, left: Operand<'_>, right: Operand<'_>) -> Ruled {
        let divided = operator == Operator::Over;
        let verb = if divided { "divided" } else { "multiplied" };
        for operand in [left, right] {
            self.amount(verb, operand)?;
        }
        let kind = if divided {
            quotient(left.kind, right.kind)
        } else {
            product(left.kind, right.kind)
        };
        kind.ok_or_else(|| self.no_product(divided, left, right))
    }

    fn no_product(&self, divided: bool, left: Operand<'_>, right: Operand<'_>) -> FormulaFault {
        let place = right.term.place.clone();
        let angle = [left.kind, right.kind].contains(&Kind::Angle);
        let (message, expected) = if divided {
            let left = left.kind.with_article();
            let right = right.kind.with_article();
            (
                format!("{left} cannot be divided by {right}"),
                "divide by a number, by the same kind, or an area by a length",
            )
        } else if angle {
            (
                both("multiplied", left, right),
                "`sin`, `cos` and `tan` make a number of an angle",
            )
        } else {
            (
                format!(
                    "{}: that is more than an area",
                    both("multiplied", left, right)
                ),
                "divide before you multiply again: `a * b / c * d`",
            )
        };
        FormulaFault::new(place, message, expected)
    }

    /// `-inner`
    pub(in crate::formula) fn minus(&self, inner: Operand<'_>) -> Ruled {
        self.amount("given a minus", inner)?;
        Ok(inner.kind)
    }

    /// `left < right` and its like
    pub(in crate::formula) fn comparison(
        &self,
        relation: Relation,
        left: Operand<'_>,
        right: Operand<'_>,
    ) -> Ruled {
        if left.kind != right.kind {
            return Err(unlike(left, right, both("compared", left, right)));
        }
        let ordered = !matches!(relation, Relation::Equal | Relation::Unequal);
        let place = left.term.place.start..right.term.place.end;
        match left.kind {
            Kind::Word => Err(FormulaFault::new(
                place,
                format!("words are not compared by `{}`", relation.sign()),
                "`is` and one of the choice's words: `view is closed`",
            )),
            Kind::Truth if ordered => Err(FormulaFault::new(
                place,
                "yes and no have no order",
                "`and`, `or`, `not`, `==` or `!=`",
            )),
            _ => Ok(Kind::Truth),
        }
    }

    /// `name is word`, where `name` has that kind
    pub(in crate::formula) fn is(&self, name: &str, kind: Kind, term: &Term) -> Ruled {
        if kind == Kind::Word {
            return Ok(Kind::Truth);
        }
        let expected = if kind == Kind::Truth {
            format!("write `{name}` or `not {name}`")
        } else {
            format!("a comparison, such as `{name} == …`")
        };
        let place = term.place.clone();
        let message = format!(
            "`is` compares a choice with a word, and `{name}` is {}",
            kind.with_article()
        );
        Err(FormulaFault::new(place, message, expected))
    }

    /// The requirement of `and`, `or`, `not` and `if`
    pub(in crate::formula) fn truth(&self, joiner: &str, operand: Operand<'_>) -> Ruled {
        if operand.kind == Kind::Truth {
            return Ok(Kind::Truth);
        }
        let quoted = self.quoted(operand.term);
        let expected = match (operand.kind, &operand.term.form) {
            (Kind::Length, Form::Name(name)) => format!("a comparison, such as `{name} >= 6mm`"),
            (Kind::Word, Form::Name(name)) => format!("`{name} is` and one of its words"),
            _ => "a comparison, such as `span >= 6mm`".to_owned(),
        };
        Err(FormulaFault::new(
            operand.term.place.clone(),
            format!(
                "`{joiner}` needs yes or no, and {quoted} is {}",
                operand.kind.with_article()
            ),
            expected,
        ))
    }

    /// The requirement for the arguments of a `min` or `max`, and the branches of an `if`
    pub(in crate::formula) fn alike(
        &self,
        function: Function,
        first: Operand<'_>,
        other: Operand<'_>,
    ) -> Ruled {
        if first.kind == other.kind {
            return Ok(first.kind);
        }
        let message = format!(
            "{} and {} cannot be values of one `{}`",
            first.kind.with_article(),
            other.kind.with_article(),
            function.name()
        );
        Err(unlike(first, other, message))
    }

    /// The kind of a function's result; of an `if`, of the branch.
    pub(in crate::formula) fn call(&self, function: Function, value: Operand<'_>) -> Ruled {
        let kind = value.kind;
        let result = match (function, kind) {
            (Function::If, _) => Some(kind),
            (_, Kind::Truth | Kind::Word) => None,
            (Function::Min | Function::Max | Function::Abs, _) => Some(kind),
            (Function::Sqrt, Kind::Area) => Some(Kind::Length),
            (Function::Sqrt, Kind::Number) => Some(Kind::Number),
            (Function::Sin | Function::Cos | Function::Tan, Kind::Angle) => Some(Kind::Number),
            (Function::Floor | Function::Ceil | Function::Round, Kind::Number) => Some(kind),
            (Function::Outer | Function::Inner, Kind::Angle) => Some(Kind::Length),
            (Function::Flex, Kind::Length) => Some(kind),
            _ => None,
        };
        result.ok_or_else(|| {
            FormulaFault::new(
                value.term.place.clone(),
                format!(
                    "`{}` cannot be taken of {}",
                    function.name(),
                    kind.with_article()
                ),
                wanted(function, value),
            )
        })
    }

    /// Rejects a kind without a number.
    fn amount(&self, verb: &str, operand: Operand<'_>) -> Result<(), FormulaFault> {
        if !matches!(operand.kind, Kind::Truth | Kind::Word) {
            return Ok(());
        }
        let kind = operand.kind.with_article();
        let quoted = self.quoted(operand.term);
        Err(FormulaFault::new(
            operand.term.place.clone(),
            format!("{quoted} is {kind} and cannot be {verb}"),
            "a number, a length, an area or an angle; `if(a, b, c)` chooses between two",
        ))
    }

    /// A term as written, for a message.
    pub(in crate::formula) fn quoted(&self, term: &Term) -> String {
        let piece = &self.text[term.place.clone()];
        if piece.len() > QUOTED_CHARACTERS {
            return "this".to_owned();
        }
        format!("`{piece}`")
    }
}

fn product(left: Kind, right: Kind) -> Option<Kind> {
    match (left, right) {
        (Kind::Number, kind) | (kind, Kind::Number) => Some(kind),
        (Kind::Length, Kind::Length) => Some(Kind::Area),
        _ => None,
    }
}

fn quotient(left: Kind, right: Kind) -> Option<Kind> {
    match (left, right) {
        (kind, Kind::Number) => Some(kind),
        (Kind::Area, Kind::Length) => Some(Kind::Length),
        _ if left == right => Some(Kind::Number),
        _ => None,
    }
}

fn both(verb: &str, left: Operand<'_>, right: Operand<'_>) -> String {
    let left = left.kind.with_article();
    let right = right.kind.with_article();
    format!("{left} and {right} cannot be {verb}")
}

/// The error of two kinds that should be one; at the bare number, if there is one, because its unit was forgotten.
fn unlike(left: Operand<'_>, right: Operand<'_>, message: String) -> FormulaFault {
    for (bare, other) in [(right, left), (left, right)] {
        if let Some(expected) = unit_missing(bare, other.kind) {
            return FormulaFault::new(bare.term.place.clone(), message, expected);
        }
    }
    FormulaFault::new(
        right.term.place.clone(),
        message,
        "two values of one kind: two lengths, areas, angles or numbers",
    )
}

fn unit_missing(bare: Operand<'_>, other: Kind) -> Option<String> {
    let Form::Constant(amount, Measure::Bare) = bare.term.form else {
        return None;
    };
    let unit = match other {
        _ if bare.kind != Kind::Number => return None,
        Kind::Length => Measure::Millimetres.unit(),
        Kind::Angle => Measure::Degrees.unit(),
        _ => return None,
    };
    Some(format!("write `{amount}{unit}`"))
}

fn wanted(function: Function, value: Operand<'_>) -> String {
    match function {
        Function::Sqrt => "the root of an area is a length, of a number a number".to_owned(),
        Function::Sin | Function::Cos | Function::Tan | Function::Outer | Function::Inner => {
            unit_missing(value, Kind::Angle)
                .unwrap_or_else(|| format!("an angle, such as `{}(90deg)`", function.name()))
        }
        Function::Floor | Function::Ceil | Function::Round => format!(
            "a number; to whole millimetres: `{}(length / 1mm) * 1mm`",
            function.name()
        ),
        Function::Flex => unit_missing(value, Kind::Length)
            .unwrap_or_else(|| "a length, such as `flex(second.reach)`".to_owned()),
        _ => "a number, a length, an area or an angle".to_owned(),
    }
}
