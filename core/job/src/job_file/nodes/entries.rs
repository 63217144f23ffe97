//! The entries after the first word of a node: its argument and its properties.
//!
//! **Input:** the entries of a node. **Output:** each in its field. **Errors:** unknown, duplicate and misplaced
//! entries, each with the form that was probably meant.

use kdl::{KdlEntry, KdlValue};
use traywright_engine::SourceError;
use traywright_engine::finding::SourceSpan;

use super::{Node, place_of_name};
use crate::job_file::keys::{Key, Keys};
use crate::nearest::unknown_in_job;

/// One value, with the name of its property.
#[derive(Clone, Copy)]
pub(crate) struct Entry<'a> {
    /// Name of the property; for an argument, its meaning.
    pub(crate) name: &'a str,
    written: &'a KdlEntry,
}

impl<'a> Entry<'a> {
    /// Its bytes, with the name if it has one.
    pub(crate) fn place(&self) -> SourceSpan {
        let span = self.written.span();
        span.offset()..span.offset() + span.len()
    }

    /// The value.
    pub(crate) fn value(&self) -> &'a KdlValue {
        self.written.value()
    }

    /// The word in round brackets before the value.
    pub(crate) fn unit(&self) -> Option<&'a str> {
        self.written.ty().map(|unit| unit.value())
    }

    /// The value as written.
    pub(crate) fn figure(&self) -> String {
        match self.written.format() {
            Some(format) => format.value_repr.clone(),
            None => self.written.value().to_string(),
        }
    }

    /// `length=`, or nothing for an argument: the text before a corrected value.
    pub(crate) fn prefix(&self) -> String {
        match self.written.name() {
            Some(name) => format!("{}=", name.value()),
            None => String::new(),
        }
    }

    /// The value with its unit, as written.
    pub(crate) fn written_value(&self) -> String {
        match self.unit() {
            Some(unit) => format!("({unit}){}", self.figure()),
            None => self.figure(),
        }
    }

    fn is_argument(&self) -> bool {
        self.written.name().is_none()
    }

    fn is_plain_number(&self) -> bool {
        self.unit().is_none() && matches!(self.value(), KdlValue::Integer(_) | KdlValue::Float(_))
    }

    /// Text without quotes.
    fn bare_text(&self) -> Option<&'a str> {
        let text = self.value().as_string()?;
        let quoted = self.figure().starts_with(['"', '#']);
        (!quoted).then_some(text)
    }
}

/// Sorts the entries of a node into it.
pub(super) fn sort_into<'a>(
    node: &mut Node<'a>,
    entries: &'a [KdlEntry],
    faults: &mut Vec<SourceError>,
) {
    let argument = node.line.argument.as_ref().map_or("", |key| key.name);
    let mut entries = entries
        .iter()
        .map(|written| Entry {
            name: written.name().map_or(argument, |name| name.value()),
            written,
        })
        .peekable();
    while let Some(entry) = entries.next() {
        if let Some(text) = entry
            .bare_text()
            .filter(|text| text.starts_with(['“', '”', '„', '‘', '\'']))
        {
            faults.push(foreign_quotes(&entry));
            node.spoiled = true;
            let mut last = text;
            while !last.ends_with(['”', '“', '’', '\''])
                && let Some(more) = entries.next_if(Entry::is_argument)
            {
                last = more.value().as_string().unwrap_or_default();
            }
        } else if !entry.is_argument() {
            let number = entry.is_plain_number();
            property(node, entry, faults);
            // `18 cm`: the number is rejected for having no unit, and the word after it need not be reported as well.
            entries.next_if(|next| number && next.bare_text().is_some_and(is_unit));
        } else if let Some(name) = property_meant(node, &entry) {
            faults.push(not_a_pair(&entry, name));
            node.spoiled = true;
            entries.next_if(Entry::is_argument);
        } else if node.argument.is_none() && node.line.argument.is_some() {
            node.argument = Some(entry);
        } else {
            // More of this kind have the same cause, and their keys are not reported as missing as well.
            faults.push(surplus(node, &entry));
            node.spoiled = true;
            while entries.next_if(Entry::is_argument).is_some() {}
        }
    }
}

fn is_unit(word: &str) -> bool {
    ["mm", "cm", "in", "inch", "inches"].contains(&word)
}

fn property<'a>(node: &mut Node<'a>, entry: Entry<'a>, faults: &mut Vec<SourceError>) {
    let keyword = node.line.name;
    let name_place = entry.written.name().map_or(entry.place(), place_of_name);
    if let Keys::Known(keys) = node.line.keys
        && !keys.iter().any(|key| key.name == entry.name)
    {
        // A misspelt property is not reported as missing as well.
        node.spoiled = true;
        let whole = format!("{keyword} {}", entry.name);
        let unknown = format!("`{keyword}` has no `{}`", entry.name);
        let (message, label) = match keys {
            [] => (unknown, format!("`{keyword}` takes no property")),
            keys => unknown_in_job(&whole, unknown, &names(keys)),
        };
        faults.push(SourceError::new(name_place, message, label));
    } else if let Some(first) = node.entry(entry.name) {
        let title = format!("a second `{}`", entry.name);
        let label = format!("`{keyword}` takes it once");
        let fault = SourceError::new(entry.place(), title, label);
        faults.push(fault.with_context(first.place(), "the first stands here"));
    } else {
        node.properties.push(entry);
    }
}

fn names(keys: &'static [Key]) -> Vec<&'static str> {
    keys.iter().map(|key| key.name).collect()
}

/// The property that a value without `=` seems to name: `length: 182`, `length 182`.
fn property_meant(node: &Node<'_>, entry: &Entry<'_>) -> Option<&'static str> {
    let word = entry.bare_text()?.trim_end_matches(':');
    let mut names = names(node.line.known_keys()).into_iter();
    names.find(|name| *name == word)
}

fn foreign_quotes(entry: &Entry<'_>) -> SourceError {
    SourceError::new(
        entry.place(),
        "text stands in straight double quotes",
        "put a `\"` at both ends, as in name=\"Barometer box\"",
    )
}

fn not_a_pair(entry: &Entry<'_>, name: &str) -> SourceError {
    SourceError::new(
        entry.place(),
        format!("`{name}` has no `=` behind it"),
        format!("write {name}= and its value without a space, as in {name}=(mm)121"),
    )
}

fn surplus(node: &Node<'_>, entry: &Entry<'_>) -> SourceError {
    let keyword = node.line.name;
    let label = match (entry.bare_text(), names(node.line.known_keys()).as_slice()) {
        (Some(_), _) => {
            "text with spaces stands in double quotes; a property is written NAME=VALUE".to_owned()
        }
        (None, []) => format!("write {keyword} \"NAME\"={}", entry.figure()),
        (None, properties) => format!(
            "a property is written NAME=VALUE; `{keyword}` takes {}",
            properties.join(", ")
        ),
    };
    SourceError::new(
        entry.place(),
        format!("`{}` does not belong here", entry.figure()),
        label,
    )
}
