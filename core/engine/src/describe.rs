//! The description of a style for makers and authors: its settings, its limits and its tree of panels.
//!
//! **Input:** a style, and a job if values are wanted. **Output:** plain data for printing. **Does not** check: a limit
//! is listed whether the job keeps it or not.

mod tree;

pub use tree::{Branch, BranchKind};

use crate::formula::{Kind, Value};
use crate::job::Job;
use crate::style::Style;
use crate::style::names::{Scope, setting_kind};
use crate::style::text::SettingEntry;
use crate::style::written::Written;
use crate::tray::{Limit, limit};
use crate::values::Values;

/// One setting of a style.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingInfo<'s> {
    /// Its name, as in `set "NAME"=…`.
    pub name: &'s str,
    /// The question.
    pub question: &'s str,
    /// The kind of its value.
    pub kind: Kind,
    /// The value if the job does not set it.
    pub default: SettingValue<'s>,
    /// The least and the greatest value; all words of a choice; empty for yes or no.
    pub possible: Vec<SettingValue<'s>>,
}

/// A value of a setting as the style writes it, and evaluated.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingValue<'s> {
    /// The formula or the word; `true` or `false` for yes or no.
    pub written: &'s str,
    /// The value; none for a formula that was not evaluated or has no value in this job.
    pub value: Option<Value>,
}

impl Style {
    /// Its settings, apart from box, items, board and fits; with values if the job suits the style.
    pub fn questions<'s>(&'s self, job: Option<&'s Job>) -> Vec<SettingInfo<'s>> {
        let values = for_job(self, job);
        let mut worked_out = |written: &'s Written| SettingValue {
            written: written.formula().text(),
            value: values
                .as_ref()
                .and_then(|values| values.value(written, Scope::Style).ok()),
        };
        let settings = self.sheet.settings.iter();
        settings
            .map(|(name, setting)| question(&name.word, setting, &mut worked_out))
            .collect()
    }

    /// The rules of the style itself, apart from the engine's; with limits if the job suits the style.
    pub fn limits<'s>(&'s self, job: &'s Job) -> Vec<Limit<'s>> {
        let values = for_job(self, Some(job));
        let rules = self.sheet.rules.iter();
        rules
            .map(|(code, rule)| limit(values.as_ref(), &code.word, rule))
            .collect()
    }
}

fn for_job<'s>(style: &'s Style, job: Option<&'s Job>) -> Option<Values<'s>> {
    Values::for_job(style, job?).ok()
}

fn question<'s>(
    name: &'s str,
    setting: &'s SettingEntry,
    worked_out: &mut impl FnMut(&'s Written) -> SettingValue<'s>,
) -> SettingInfo<'s> {
    let word = |word: &'s str| SettingValue {
        written: word,
        value: Some(Value::Word(word.to_owned())),
    };
    let (question, default, possible) = match setting {
        SettingEntry::Length {
            default,
            min,
            max,
            question,
        }
        | SettingEntry::Angle {
            default,
            min,
            max,
            question,
        }
        | SettingEntry::Number {
            default,
            min,
            max,
            question,
        } => {
            let range = vec![worked_out(min), worked_out(max)];
            (question, worked_out(default), range)
        }
        SettingEntry::Choice {
            default,
            of,
            question,
        } => {
            let words = of.iter().map(|option| word(&option.word));
            (question, word(&default.word), words.collect())
        }
        SettingEntry::YesNo { default, question } => (question, truth(*default), Vec::new()),
    };
    SettingInfo {
        name,
        question,
        kind: setting_kind(setting),
        default,
        possible,
    }
}

fn truth<'s>(default: bool) -> SettingValue<'s> {
    SettingValue {
        written: if default { "true" } else { "false" },
        value: Some(Value::Truth(default)),
    }
}
