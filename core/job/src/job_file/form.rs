//! The form that the lines of a job fill in.
//!
//! A form begins blank, with the defaults of a job. The reader writes each value of a line into the field named in the
//! row of its key; the writer and `start` look there for values that differ from those of a blank form.

use traywright_engine::SourceError;
use traywright_engine::job::{BoxSize, Item, Job, Label, Length, Print};

use super::keys::{Absent, Key};
use super::nodes::Node;
use super::write::Value;
use crate::library::Boards;

/// A job, and the lines `item`, `print` and `label` that are being read or written.
pub(super) struct Form {
    pub(super) job: Job,
    pub(super) item: Item,
    /// The line `print` that is being read or written.
    pub(super) print: Print,
    /// The line `label` that is being read or written.
    pub(super) label: Label,
    /// How often the item is repeated.
    pub(super) count: usize,
    /// Number of openings on the lines so far.
    pub(super) openings: usize,
}

/// A required key has no default; none of these lengths may be 0.
const NONE: Length = Length::ZERO;

impl Form {
    /// The form of a job without lines.
    pub(super) fn blank() -> Form {
        let size = BoxSize {
            length: NONE,
            width: NONE,
            depth: NONE,
        };
        Form {
            job: Job::plain("", size, NONE, Vec::new()),
            item: Form::blank_item(),
            print: Form::blank_print(),
            label: Form::blank_label(),
            count: 1,
            openings: 0,
        }
    }

    /// A picture with defaults only.
    pub(super) fn blank_print() -> Print {
        Print::plain("", "")
    }

    /// A label with defaults only.
    pub(super) fn blank_label() -> Label {
        Label::plain("", "")
    }

    /// An item with defaults only.
    pub(super) fn blank_item() -> Item {
        Item::plain("", [NONE; 3])
    }
}

impl Node<'_> {
    /// Writes the values of the line into the form. If one is missing or invalid, the job is refused too, whatever the
    /// form contains.
    pub(super) fn fill(&mut self, form: &mut Form, boards: &Boards, faults: &mut Vec<SourceError>) {
        for key in self.line.all_keys() {
            let read = match self.entry(key.name) {
                Some(entry) => (key.place)(form).read(entry, boards, faults),
                None => self.without(key, faults),
            };
            if read.is_none() {
                self.unread.push(key.name);
            }
        }
    }

    /// Reports a missing required key.
    fn without(&self, key: &Key, faults: &mut Vec<SourceError>) -> Option<()> {
        let name = key.name;
        match key.absent {
            Absent::Default => return Some(()),
            Absent::Required(example) => self.lacks(name, example, faults),
            Absent::Measured(end) => {
                let example = format!("{name}=(mm)… or {name}=(in)…{end}");
                self.lacks(name, &example, faults);
            }
        }
        None
    }
}

impl Key {
    /// The default of a key, if it is not required.
    pub(crate) fn default(&self) -> Option<String> {
        match self.absent {
            Absent::Default => (self.place)(&mut Form::blank()).value().map(text),
            Absent::Required(_) | Absent::Measured(_) => None,
        }
    }

    /// The value in a form, if it differs from that of a blank form.
    pub(super) fn unusual(&self, form: &mut Form) -> Option<String> {
        let mut blank = Form::blank();
        let usual = (self.place)(&mut blank).value();
        let value = (self.place)(form).value();
        value.filter(|_| value != usual).map(text)
    }
}

fn text(value: Value<'_>) -> String {
    value.to_string()
}
