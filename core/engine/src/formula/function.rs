//! The functions of formulas: their names and numbers of arguments.
//!
//! **Input:** a name. **Output:** the function. Modules `kinds` and `value` define the results.

use std::ops::RangeInclusive;

/// A function that a formula can call.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Function {
    /// The least of its arguments.
    Min,
    /// The greatest of its arguments.
    Max,
    /// The absolute value.
    Abs,
    /// The square root; of an area, the side of that square.
    Sqrt,
    Sin,
    Cos,
    Tan,
    /// The whole number below.
    Floor,
    /// The whole number above.
    Ceil,
    /// The nearest whole number.
    Round,
    /// The second argument if the first is true, else the third.
    If,
    /// Distance from a crease to the outside corner of its fold.
    Outer,
    /// Distance from a crease to the inside corner of its fold.
    Inner,
    /// How much shorter a panel becomes when bowed.
    Flex,
}

const NAMES: [(&str, Function); 14] = [
    ("min", Function::Min),
    ("max", Function::Max),
    ("abs", Function::Abs),
    ("sqrt", Function::Sqrt),
    ("sin", Function::Sin),
    ("cos", Function::Cos),
    ("tan", Function::Tan),
    ("floor", Function::Floor),
    ("ceil", Function::Ceil),
    ("round", Function::Round),
    ("if", Function::If),
    ("outer", Function::Outer),
    ("inner", Function::Inner),
    ("flex", Function::Flex),
];

impl Function {
    /// The function with that name.
    pub(super) fn named(name: &str) -> Option<Function> {
        NAMES
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, function)| *function)
    }

    /// The names of all functions.
    pub(super) fn names() -> impl Iterator<Item = &'static str> {
        NAMES.iter().map(|(name, _)| *name)
    }

    /// Its name.
    pub(super) fn name(self) -> &'static str {
        NAMES
            .iter()
            .find(|(_, function)| *function == self)
            .map(|(name, _)| *name)
            .expect("every function has a name")
    }

    /// Number of arguments.
    pub(super) fn takes(self) -> RangeInclusive<usize> {
        match self {
            Function::Min | Function::Max => 1..=usize::MAX,
            Function::If => 3..=3,
            _ => 1..=1,
        }
    }

    /// Its form with arguments, for a message about a wrong number of them.
    pub(super) fn pattern(self) -> String {
        let name = self.name();
        match self {
            Function::Min | Function::Max => format!("{name}(a, b, …)"),
            Function::If => "if(condition, value if it holds, value if not)".to_owned(),
            Function::Sin | Function::Cos | Function::Tan | Function::Outer | Function::Inner => {
                format!("{name}(angle)")
            }
            Function::Flex => "flex(length)".to_owned(),
            Function::Sqrt => "sqrt(area)".to_owned(),
            _ => format!("{name}(value)"),
        }
    }
}
