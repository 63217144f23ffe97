//! The style's own rules.
//!
//! A rule about something that does not exist in this job is skipped.

use crate::finding::{Advice, Finding, FindingKind, Level, Place, RuleFinding};
use crate::formula::{Relation, Value};
use crate::style::names::Scope;
use crate::style::text::{RuleEntry, RuleText};
use crate::values::{EvalError, Values};

/// Checks every rule of the style.
pub(super) fn judge(values: &Values) -> Result<Vec<Finding>, EvalError> {
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

/// The broken rules that refuse the tray, as far as their formulas have values.
pub(in crate::tray) fn errors(values: &Values) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (code, rule) in values.sheet().rules.iter() {
        if let (Level::Error, rule) = parts(rule) {
            let found = judge_rule(values, Level::Error, &code.word, rule);
            findings.extend(found.ok().flatten());
        }
    }
    findings
}

/// A rule of a style's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit<'s> {
    /// The code of its finding.
    pub code: &'s str,
    /// Its level when it is broken.
    pub level: Level,
    /// Its sentence, with dots for the measured value and with its limit for the job if the limit can be evaluated.
    pub says: String,
    /// Its fix.
    pub fix: Option<&'s str>,
}

/// The text of a rule as if broken, with dots for the measured value, which is not known yet.
pub(crate) fn limit<'a>(
    values: Option<&Values<'a>>,
    code: &'a str,
    rule: &'a RuleEntry,
) -> Limit<'a> {
    let (level, rule) = parts(rule);
    let told = values.and_then(|values| {
        let figures = Figures {
            value: Some(Value::Word("…".to_owned())),
            ..figures(values, rule).ok()?
        };
        let found = figures.finding(code, level, rule, Place::Part(String::new()));
        Some(found.message(values.job.unit))
    });
    let unknown = || rule.message.replace("{value}", "…").replace("{limit}", "…");
    Limit {
        code,
        level,
        says: told.unwrap_or_else(unknown),
        fix: rule.fix.as_deref(),
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
    values: &Values<'a>,
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
    let at = at.or_else(|| values.first_part(rule.need.as_ref()?));
    let style = || Place::Style(values.style.name().to_owned());
    let place = at.map_or_else(style, Place::Part);
    Ok(Some(figures.finding(code, level, rule, place)))
}

/// The two sides of a rule's comparison, and the operator.
#[derive(Default)]
struct Figures {
    value: Option<Value>,
    limit: Option<Value>,
    relation: Option<Relation>,
}

/// The values of a rule: the sides of its comparison, unless the rule names others.
fn figures<'a>(values: &Values<'a>, rule: &'a RuleText) -> Result<Figures, EvalError> {
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

impl Figures {
    fn finding(self, code: &str, level: Level, rule: &RuleText, place: Place) -> Finding {
        let fix = rule.fix.clone().map(|text| Advice::OfStyle { text }.into());
        Finding {
            level,
            place,
            fix,
            value: self.value.as_ref().and_then(Value::amount),
            limit: self.limit.as_ref().and_then(Value::amount),
            kind: FindingKind::Rule(RuleFinding {
                code: code.to_owned(),
                sentence: rule.message.clone(),
                value: self.value,
                limit: self.limit,
                relation: self.relation,
            }),
        }
    }
}
