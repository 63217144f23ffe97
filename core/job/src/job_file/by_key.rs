//! The values of a line by their keys.
//!
//! **Input:** a line of a job and a key of the table. **Output:** the value as written, or the key's default. **Errors:**
//! a value that the key does not take, and a required key that is missing. Then there is no value, and the job is refused.

use traywright_engine::SourceError;
use traywright_engine::job::Length;

use super::keys::{Absent, Key, Kind};
use super::nodes::{Entry, Node};
use super::values;
use super::write::Value;

impl<'a> Node<'a> {
    /// What is written for a key. Reports a required key that is missing.
    pub(super) fn written(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<&Entry<'a>> {
        let entry = self.entry(name);
        match self.key(name).absent {
            _ if entry.is_some() => {}
            Absent::Required(example) => self.lacks(name, example, faults),
            Absent::Measured(end) => {
                let example = format!("{name}=(mm)… or {name}=(in)…{end}");
                self.lacks(name, &example, faults);
            }
            Absent::Default(_) | Absent::Open => {}
        }
        entry
    }

    /// A length that its limits keep from being negative.
    pub(super) fn length(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<Length> {
        self.signed_length(name, faults).map(Length::known)
    }

    /// A length in mm that may be negative.
    pub(super) fn signed_length(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<f64> {
        let key = self.key(name);
        let Kind::Length(limits) = key.kind else {
            unreachable!("`{name}` is a length in the table of keys");
        };
        match self.written(name, faults) {
            Some(entry) => values::length(entry, limits, faults),
            None => match key.default() {
                Some(Value::Mm(mm)) => Some(mm),
                _ => None,
            },
        }
    }

    /// A whole number.
    pub(super) fn count(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<usize> {
        let key = self.key(name);
        let Kind::Count(most) = key.kind else {
            unreachable!("`{name}` is a count in the table of keys");
        };
        match self.written(name, faults) {
            Some(entry) => values::count(entry, most, faults),
            None => match key.default() {
                Some(Value::Count(count)) => Some(count),
                _ => None,
            },
        }
    }

    /// Yes or no.
    pub(super) fn yes_no(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<bool> {
        match self.written(name, faults) {
            Some(entry) => values::truth(entry, faults),
            None => match self.key(name).default() {
                Some(Value::YesNo(yes)) => Some(yes),
                _ => None,
            },
        }
    }

    /// One of a few words.
    pub(super) fn choice<T: Copy>(
        &self,
        name: &str,
        words: &[(&str, T)],
        faults: &mut Vec<SourceError>,
    ) -> Option<T> {
        let word = match self.written(name, faults) {
            Some(entry) => return values::choice(entry, words, faults),
            None => match self.key(name).default() {
                Some(Value::Text(word)) => word,
                _ => return None,
            },
        };
        let default = words.iter().find(|(known, _)| *known == word);
        default.map(|(_, meant)| *meant)
    }

    /// A name that people see.
    pub(super) fn name(&self, name: &str, faults: &mut Vec<SourceError>) -> Option<&'a str> {
        let entry = *self.written(name, faults)?;
        values::name(&entry, faults)
    }

    fn key(&self, name: &str) -> &'static Key {
        let found = self.line.all_keys().find(|key| key.name == name);
        found.expect("the table of keys has every key that is read")
    }
}
