//! The table of keys: every line of a job and every value on it.
//!
//! The table drives the reader and its suggestions, the job that `start` writes, the lines that `start --like` copies,
//! and the writer. A new key is a row in `keys/lines.rs` and the field of the job for its value.

use traywright_engine::SourceError;

use super::form::Form;
use super::nodes::Node;
use super::place::Place;
use super::write::Value;

mod lines;

pub(crate) use lines::LINES;

/// Maximum number of openings of one tray.
// Source: core/CONTRACT.md, "Job file".
pub const MOST_OPENINGS: usize = 64;

/// A line of a job.
#[derive(Debug)]
pub(crate) struct Line {
    /// Its first word.
    pub(crate) name: &'static str,
    /// The value directly after its first word, if it takes one.
    pub(crate) argument: Option<Key>,
    /// Its properties.
    pub(crate) keys: Keys,
    /// Whether a job may have several of them.
    pub(crate) repeats: bool,
    /// The form of the line for the message about a missing one, if it is required.
    pub(crate) required: Option<&'static str>,
    /// The note above it in the job that `start` writes.
    pub(crate) note: &'static [&'static str],
    /// Whether `start` writes it.
    pub(crate) start: Start,
    /// Whether `start --like` copies it from an older job.
    pub(crate) like: bool,
    /// Checks its values together, once they are in the form.
    pub(super) finish: Option<Finish>,
}

/// Checks a line whose values have been read.
pub(super) type Finish = fn(&Node<'_>, &mut Form, &mut Vec<SourceError>);

/// The properties of a line.
#[derive(Debug)]
pub(crate) enum Keys {
    /// These.
    Known(&'static [Key]),
    /// The settings of the style.
    Settings,
}

/// A value on a line.
#[derive(Debug)]
pub(crate) struct Key {
    /// The name of a property; for an argument, its meaning.
    pub(crate) name: &'static str,
    /// The field for its value, and the allowed values.
    pub(super) place: fn(&mut Form) -> Place<'_>,
    /// The value of a line without it.
    pub(super) absent: Absent,
    /// The values that `start` writes in a job in millimetres and in one in inches.
    pub(crate) start: [Option<Value<'static>>; 2],
}

/// The value of a line without a key.
#[derive(Clone, Copy, Debug)]
pub(super) enum Absent {
    /// That of a blank form.
    Default,
    /// An error that shows the form of the key.
    Required(&'static str),
    /// An error that asks for a length; contains the end of its sentence.
    Measured(&'static str),
}

/// Whether `start` writes a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Start {
    /// Yes.
    Line,
    /// As a comment, for use when needed.
    Comment,
    /// No.
    Nothing,
}

impl Line {
    const fn new(name: &'static str) -> Line {
        Line {
            name,
            argument: None,
            keys: Keys::Known(&[]),
            repeats: false,
            required: None,
            note: &[],
            start: Start::Nothing,
            like: false,
            finish: None,
        }
    }

    const fn argument(self, key: Key) -> Line {
        Line {
            argument: Some(key),
            ..self
        }
    }

    const fn keys(self, keys: &'static [Key]) -> Line {
        Line {
            keys: Keys::Known(keys),
            ..self
        }
    }

    const fn with_settings(self) -> Line {
        Line {
            keys: Keys::Settings,
            ..self
        }
    }

    const fn repeating(self) -> Line {
        Line {
            repeats: true,
            ..self
        }
    }

    const fn required(self, example: &'static str) -> Line {
        Line {
            required: Some(example),
            ..self
        }
    }

    const fn start(self, note: &'static [&'static str]) -> Line {
        Line {
            note,
            start: Start::Line,
            ..self
        }
    }

    const fn start_as_comment(self, note: &'static [&'static str]) -> Line {
        Line {
            note,
            start: Start::Comment,
            ..self
        }
    }

    const fn like(self) -> Line {
        Line { like: true, ..self }
    }

    const fn finish(self, finish: Finish) -> Line {
        Line {
            finish: Some(finish),
            ..self
        }
    }

    /// The line of that name.
    pub(crate) fn named(name: &str) -> Option<&'static Line> {
        LINES.iter().find(|line| line.name == name)
    }

    /// Its properties with fixed names.
    pub(crate) fn known_keys(&self) -> &'static [Key] {
        match self.keys {
            Keys::Known(keys) => keys,
            Keys::Settings => &[],
        }
    }

    /// Its argument and its properties.
    pub(crate) fn all_keys(&self) -> impl Iterator<Item = &Key> {
        self.argument.iter().chain(self.known_keys())
    }
}

impl Key {
    const fn new(name: &'static str, place: fn(&mut Form) -> Place<'_>) -> Key {
        Key {
            name,
            place,
            absent: Absent::Default,
            start: [None, None],
        }
    }

    /// The line requires it.
    const fn required(self, example: &'static str) -> Key {
        Key {
            absent: Absent::Required(example),
            ..self
        }
    }

    /// The line requires this length; `where_measured` ends the sentence that asks for it.
    const fn measured(self, where_measured: &'static str) -> Key {
        Key {
            absent: Absent::Measured(where_measured),
            ..self
        }
    }

    /// With the same value in every job that `start` writes.
    const fn starting(self, value: Value<'static>) -> Key {
        Key {
            start: [Some(value), Some(value)],
            ..self
        }
    }

    /// With a value for jobs in millimetres, and perhaps one for jobs in inches, in the job that `start` writes.
    const fn starting_at(self, mm: Value<'static>, inches: Option<Value<'static>>) -> Key {
        Key {
            start: [Some(mm), inches],
            ..self
        }
    }
}
