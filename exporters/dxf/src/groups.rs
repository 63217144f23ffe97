//! The text of a DXF as groups: a code and a value, on two lines each.
//!
//! **Input:** a text. **Output:** the records of a section, each from one group 0 to the next; and records as text. It
//! does not know the meaning of a record.

use std::fmt::Display;

/// A code and its value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Group {
    pub(crate) code: i32,
    pub(crate) value: String,
}

/// Groups from one 0 to the next.
pub(crate) type Record = Vec<Group>;

/// A group.
pub(crate) fn group(code: i32, value: impl Display) -> Group {
    Group {
        code,
        value: value.to_string(),
    }
}

/// The records of a section; none if the text has no such section.
pub(crate) fn section(text: &str, name: &str) -> Vec<Record> {
    let mut records = records(text).into_iter();
    let begins = |record: &Record| {
        record
            .iter()
            .any(|group| group.code == 2 && group.value == name)
    };
    records.find(|record| is(record, "SECTION") && begins(record));
    records.take_while(|record| !is(record, "ENDSEC")).collect()
}

/// Whether a record is of this kind.
pub(crate) fn is(record: &Record, kind: &str) -> bool {
    record.first().is_some_and(|group| group.value == kind)
}

/// The value of the first group with a code.
pub(crate) fn value(record: &Record, code: i32) -> Option<&str> {
    let group = record.iter().find(|group| group.code == code)?;
    Some(&group.value)
}

/// Groups as text, with the line ends of the format's own system.
pub(crate) fn text<'a>(groups: impl IntoIterator<Item = &'a Group>) -> String {
    let mut text = String::new();
    for Group { code, value } in groups {
        text.push_str(&format!("{code:>3}\r\n{value}\r\n"));
    }
    text
}

fn records(text: &str) -> Vec<Record> {
    let mut records: Vec<Record> = Vec::new();
    let mut lines = text.lines();
    while let (Some(code), Some(value)) = (lines.next(), lines.next()) {
        let Ok(code) = code.trim().parse() else {
            continue;
        };
        // Words keep their spaces; numbers are padded and lose them.
        let value = if code == 1 { value } else { value.trim() };
        if code == 0 {
            records.push(Record::new());
        }
        if let Some(record) = records.last_mut() {
            record.push(group(code, value));
        }
    }
    records
}
