//! Findings that a style writes: its rules, and its lists of fallbacks.

use crate::formula::{Relation, Value};
use crate::wording::lengths_apart;
use traywright_document::{Unit, filled};

/// A rule of a style that a tray breaks.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleFinding {
    /// The rule's code.
    pub code: String,
    /// The style's sentence, with the gaps `value` and `limit`.
    pub sentence: String,
    /// The value found.
    pub value: Option<Value>,
    /// The limit.
    pub limit: Option<Value>,
    /// The required comparison of the two, if the sentence does not state it.
    pub relation: Option<Relation>,
}

impl RuleFinding {
    pub(super) fn message(&self, unit: Unit) -> String {
        let lengths = self.value.as_ref().and_then(Value::length);
        let lengths = lengths.zip(self.limit.as_ref().and_then(Value::length));
        let (value, limit) = match lengths {
            Some((value, limit)) => lengths_apart(value, limit, unit),
            None => [&self.value, &self.limit]
                .map(|one| one.as_ref().map_or(String::new(), |one| one.in_words(unit)))
                .into(),
        };
        let bound = self.relation.and_then(bound_in_words);
        let bound = bound.filter(|_| self.limit.is_some() && !self.sentence.contains("{limit}"));
        let tail = bound.map(|bound| format!(" ({bound} {limit})"));
        let words = [("value", value), ("limit", limit.clone())];
        filled(&self.sentence, &words) + &tail.unwrap_or_default()
    }
}

/// The words for the limit that a comparison sets to its left side.
fn bound_in_words(relation: Relation) -> Option<&'static str> {
    match relation {
        Relation::AtLeast => Some("at least"),
        Relation::AtMost => Some("at most"),
        Relation::More => Some("more than"),
        Relation::Less => Some("less than"),
        Relation::Equal | Relation::Unequal => None,
    }
}

/// A list of fallbacks of a style, none of which suits this job.
#[derive(Clone, Debug, PartialEq)]
pub struct NoFallback {
    /// `no-` and the list's name.
    pub code: String,
    /// The reason against each fallback, in the order of the list.
    pub lacks: Vec<Lack>,
}

/// An unmet condition of a fallback.
#[derive(Clone, Debug, PartialEq)]
pub struct Lack {
    /// The fallback's name.
    pub fallback: String,
    /// Its condition, as the style writes it.
    pub needs: String,
    /// The left side of the condition, as the style writes it, and its value.
    pub reached: Option<(String, Value)>,
}

impl NoFallback {
    pub(super) fn in_words(&self, unit: Unit) -> String {
        let lacks = self.lacks.iter().map(|lack| {
            let reached = lack
                .reached
                .as_ref()
                .map_or(String::new(), |(side, value)| {
                    format!(" ({side} is {})", value.in_words(unit))
                });
            format!("{} needs {}{reached}", lack.fallback, lack.needs)
        });
        let lacks: Vec<String> = lacks.collect();
        format!("none of its options fits: {}", lacks.join("; "))
    }
}
