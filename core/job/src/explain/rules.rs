//! The codes of a style: its rules, and its lists of fallbacks.
//!
//! **Input:** a style. **Output:** the explanation of each of its codes, made from the rule: words, formulas and fix.
//! **Does not** check the style: one that cannot be used is refused before.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

use ron::extensions::Extensions;
use serde::Deserialize;
use traywright_engine::Style;
use traywright_engine::wording::list;

use super::formulas::{figure, function, sides, words_of};
use crate::error::InputError;
use crate::library::StyleText;
use crate::report::sentence::{paragraph, sentence};

/// The part of a style's file with codes, and the formulas that they use.
#[derive(Deserialize)]
#[serde(rename = "Style")]
struct RulesFile {
    #[serde(default)]
    rules: BTreeMap<String, Rule>,
    #[serde(default)]
    fallbacks: BTreeMap<String, BTreeMap<String, String>>,
    #[serde(default)]
    values: BTreeMap<String, String>,
}

#[derive(Deserialize)]
enum Rule {
    Error(RuleText),
    Warning(RuleText),
    Note(RuleText),
}

#[derive(Deserialize)]
struct RuleText {
    need: Option<String>,
    when: Option<String>,
    value: Option<String>,
    limit: Option<String>,
    at: Option<String>,
    message: String,
    fix: Option<String>,
}

/// A style's codes and the data that explains them.
pub(super) struct Ruled {
    style: Style,
    sheet: RulesFile,
}

impl Ruled {
    /// Reads a style for its codes.
    ///
    /// # Refuses
    /// A text that is not a style, with all its errors.
    pub(super) fn read(style_text: &StyleText) -> Result<Ruled, InputError> {
        let style = style_text.read()?;
        let extensions = Extensions::IMPLICIT_SOME | Extensions::UNWRAP_VARIANT_NEWTYPES;
        let reader = ron::Options::default().with_default_extension(extensions);
        let text = style_text.text.trim_start_matches('\u{feff}');
        let sheet = reader.from_str(text).map_err(|error| {
            let path = &style_text.path;
            InputError::sentence(format_args!(
                "the rules of the style {path} cannot be read: {error}"
            ))
        })?;
        Ok(Ruled { style, sheet })
    }

    /// Its name.
    pub(super) fn name(&self) -> &str {
        self.style.name()
    }

    /// Its codes in order.
    pub(super) fn codes(&self) -> impl Iterator<Item = String> {
        let fallbacks = self.sheet.fallbacks.keys().map(|name| format!("no-{name}"));
        self.sheet.rules.keys().cloned().chain(fallbacks)
    }

    /// The meaning of one of its codes, its check and its fix.
    pub(super) fn explained(&self, code: &str) -> Option<String> {
        if let Some(rule) = self.sheet.rules.get(code) {
            return Some(self.rule(rule));
        }
        let choice = code.strip_prefix("no-")?;
        let options = self.sheet.fallbacks.get(choice)?;
        Some(self.choice(choice, options))
    }

    fn rule(&self, rule: &Rule) -> String {
        let (weight, right, cureless, rule) = match rule {
            Rule::Error(rule) => (
                "An error: no file is made.",
                "It is right when:",
                "The style names no fix: change the values in the formula.",
                rule,
            ),
            Rule::Warning(rule) => (
                "A warning: the tray is made, and you should know this.",
                "It is right when:",
                "The style names no fix; the tray is made as it is.",
                rule,
            ),
            Rule::Note(rule) => (
                "A note: the tray is made as it is.",
                "It is shown unless:",
                "Nothing needs to be changed.",
                rule,
            ),
        };
        let said = rule
            .message
            .replace("{value}", "VALUE")
            .replace("{limit}", "LIMIT");
        let mut text = "What it means\n".to_owned();
        text.push_str(&paragraph("  ", &sentence(&said)));
        if let Some(at) = &rule.at {
            text.push_str(&paragraph("  ", &format!("It is about: {at}.")));
        }
        text.push_str(&paragraph("  ", weight));
        text.push_str("\nHow it is checked\n");
        text.push_str(&self.judged(rule, right));
        text.push_str("\nWhat to change\n");
        let fix = rule.fix.as_deref().map_or(cureless.to_owned(), sentence);
        text.push_str(&paragraph("  - ", &fix));
        text
    }

    /// The formulas of a rule, introduced by the words for its condition, and each name in them.
    fn judged(&self, rule: &RuleText, right: &str) -> String {
        let mut text = String::new();
        if let Some(when) = &rule.when {
            text.push_str(&paragraph("  It is checked only when:  ", when));
        }
        text.push_str(&match &rule.need {
            Some(need) => paragraph(&format!("  {right}  "), need),
            None => paragraph("  ", "It is always shown."),
        });
        let (left, right) = rule.need.as_deref().and_then(sides).unzip();
        let value = rule.value.as_deref().or(left);
        let limit = rule.limit.as_deref().or(right);
        let mut rows: Vec<(String, String)> = [("VALUE", value), ("LIMIT", limit)]
            .into_iter()
            .filter_map(|(name, formula)| Some((name.to_owned(), formula?.to_owned())))
            .collect();
        let written = [&rule.need, &rule.when, &rule.value, &rule.limit];
        rows.extend(self.glossary(written.into_iter().flatten()));
        text + &table(&rows)
    }

    fn choice(&self, name: &str, options: &BTreeMap<String, String>) -> String {
        let mut text = "What it means\n".to_owned();
        let means = format!(
            "The style has several ways to make its `{name}`, and none of them fits this job. An error: no file is made."
        );
        text.push_str(&paragraph("  ", &means));
        text.push_str("\nHow it is checked\n  It is right when one of these is true:\n");
        let conditions: Vec<(String, String)> = options
            .iter()
            .map(|(option, condition)| (option.clone(), condition.clone()))
            .collect();
        text.push_str(&table(&conditions));
        let names = self.glossary(options.values());
        if !names.is_empty() {
            text.push_str("  Here is\n");
            text.push_str(&table(&names));
        }
        text.push_str("\nWhat to change\n");
        let fix = "A box, an item or a card that one of them can take; the report says what each one lacks.";
        text.push_str(&paragraph("  - ", fix));
        text
    }

    /// Every name and function of some formulas, and of the style's own values in them, with its meaning.
    fn glossary<'a>(&'a self, formulas: impl Iterator<Item = &'a String>) -> Vec<(String, String)> {
        let mut told: BTreeSet<&str> = BTreeSet::new();
        let mut waiting: VecDeque<&str> = formulas.map(String::as_str).collect();
        let mut rows = Vec::new();
        while let Some(formula) = waiting.pop_front() {
            for word in words_of(formula) {
                if !told.insert(word.text) {
                    continue;
                }
                let meaning = if word.is_function {
                    function(word.text).map(ToOwned::to_owned)
                } else if let Some(value) = self.sheet.values.get(word.text) {
                    waiting.push_back(value);
                    Some(value.clone())
                } else {
                    self.named(word.text)
                };
                rows.extend(meaning.map(|meaning| (word.text.to_owned(), meaning)));
            }
        }
        rows
    }

    /// The meaning of a name that is not a value of the style.
    fn named(&self, name: &str) -> Option<String> {
        let asked = self
            .style
            .questions(None)
            .into_iter()
            .find(|question| question.name == name);
        if let Some(question) = asked {
            return Some(format!(
                "a setting, default {}: {}",
                question.default.written, question.question
            ));
        }
        if let Some(options) = self.sheet.fallbacks.get(name) {
            let options: Vec<&String> = options.keys().collect();
            return Some(format!("what was chosen of {}", list(&options)));
        }
        figure(name)
    }
}

/// Names in one column, and their meanings in the next.
fn table(rows: &[(String, String)]) -> String {
    let width = rows
        .iter()
        .map(|(name, _)| name.chars().count())
        .max()
        .unwrap_or_default();
    rows.iter()
        .map(|(name, words)| paragraph(&format!("  {name:width$}  "), words))
        .collect()
}
