//! The style's own rules.
//!
//! A rule about something that does not exist in this job is silent.

use super::finding;
use crate::describe::Limit;
use crate::finding::{Finding, Level};
use crate::formula::{Relation, Value};
use crate::job::Unit;
use crate::style::names::Scope;
use crate::style::text::{RuleEntry, RuleText};
use crate::values::{EvalError, Values};
use crate::wording::{lengths_apart, value as written};

/// Judges every rule of the style.
pub(super) fn judge(values: &mut Values) -> Result<Vec<Finding>, EvalError> {
    let mut findings = Vec::new();
    for (code, rule) in values.sheet().rules.iter() {
        let (level, rule) = parts(rule);
        match judge_rule(values, level, &code.word, rule) {
            Ok(found) => findings.extend(found),
            Err(EvalError::Absent(_)) => {}
            Err(stop) => return Err(stop),
        }
    }
    Ok(findings)
}

/// A rule as it would be told, whether it is kept or not; with dots for the figures that there are not.
pub(crate) fn limit<'a>(
    values: Option<&mut Values<'a>>,
    code: &'a str,
    rule: &'a RuleEntry,
) -> Limit<'a> {
    let (level, rule) = parts(rule);
    let told = values.and_then(|values| {
        let figures = figures(values, rule).ok()?;
        Some(words(rule, &figures, values.job.unit))
    });
    let unknown = || rule.say.replace("{value}", "…").replace("{limit}", "…");
    Limit {
        code,
        level,
        says: told.unwrap_or_else(unknown),
        fix: rule.cure.as_deref(),
    }
}

fn parts(rule: &RuleEntry) -> (Level, &RuleText) {
    match rule {
        RuleEntry::Error(rule) => (Level::Error, rule),
        RuleEntry::Warning(rule) => (Level::Warning, rule),
        RuleEntry::Note(rule) => (Level::Note, rule),
    }
}

fn judge_rule<'a>(
    values: &mut Values<'a>,
    level: Level,
    code: &str,
    rule: &'a RuleText,
) -> Result<Option<Finding>, EvalError> {
    if !values.holds(rule.when.as_ref(), Scope::Style)? {
        return Ok(None);
    }
    if let Some(need) = &rule.need
        && values.holds(Some(need), Scope::Style)?
    {
        return Ok(None);
    }
    let figures = figures(values, rule)?;
    let at = rule.at.as_ref().map(|name| name.word.clone());
    let at = at
        .or_else(|| values.first_part(rule.need.as_ref()?))
        .unwrap_or_else(|| values.style.name().to_owned());
    let message = words(rule, &figures, values.job.unit);
    let mut found = finding(level, code, at, message);
    found.fix = rule.cure.clone();
    found.value = figures.value.and_then(|value| value.amount());
    found.limit = figures.limit.and_then(|limit| limit.amount());
    Ok(Some(found))
}

/// What a rule holds against what, and how.
#[derive(Default)]
struct Figures {
    value: Option<Value>,
    limit: Option<Value>,
    relation: Option<Relation>,
}

/// The figures of a rule: the sides of its comparison, unless it gives others.
fn figures<'a>(values: &mut Values<'a>, rule: &'a RuleText) -> Result<Figures, EvalError> {
    let mut figures = Figures::default();
    if let Some(need) = &rule.need
        && let Some(comparison) = Values::comparison(need)
    {
        figures = Figures {
            value: Some(values.side(need, comparison.left)?),
            limit: Some(values.side(need, comparison.right)?),
            relation: Some(comparison.relation),
        };
    }
    if let Some(written) = &rule.value {
        figures.value = Some(values.value(written, Scope::Style)?);
    }
    if let Some(written) = &rule.limit {
        figures.limit = Some(values.value(written, Scope::Style)?);
    }
    Ok(figures)
}

/// The rule's sentence with its figures in the maker's unit, and the bound that it does not tell itself.
fn words(rule: &RuleText, figures: &Figures, unit: Unit) -> String {
    let (value, limit) = (figures.value.as_ref(), figures.limit.as_ref());
    let lengths = value
        .and_then(Value::length)
        .zip(limit.and_then(Value::length));
    let (said, least) = match lengths {
        Some((value, limit)) => lengths_apart(value, limit, unit),
        None => [value, limit]
            .map(|figure| {
                figure
                    .map(|figure| written(figure, unit))
                    .unwrap_or_default()
            })
            .into(),
    };
    let bound = figures.relation.and_then(bound);
    let mut message = rule
        .say
        .replace("{value}", &said)
        .replace("{limit}", &least);
    if let Some(bound) = bound.filter(|_| limit.is_some() && !rule.say.contains("{limit}")) {
        message.push_str(&format!(" ({bound} {least})"));
    }
    message
}

/// What a comparison that must hold asks of its left side.
fn bound(relation: Relation) -> Option<&'static str> {
    match relation {
        Relation::AtLeast => Some("at least"),
        Relation::AtMost => Some("at most"),
        Relation::More => Some("more than"),
        Relation::Less => Some("less than"),
        Relation::Equal | Relation::Unequal => None,
    }
}
