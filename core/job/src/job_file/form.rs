//! The form that the lines of a job fill in.
//!
//! A form begins blank, with what a job gets that says nothing. The reader puts each value of a line into the place that
//! the row of its key names; the writer and `start` look there for values that are not those of a blank form.

use traywright_engine::SourceError;
use traywright_engine::job::{BoxSize, Item, Job, Length};

use super::keys::{Absent, Key};
use super::nodes::Node;
use super::write::Value;
use crate::library::Boards;

/// A job, and its line `item` that is being read or written.
pub(super) struct Form {
    pub(super) job: Job,
    pub(super) item: Item,
    /// How often the item is repeated.
    pub(super) count: usize,
    /// Openings that the lines so far ask for.
    pub(super) openings: usize,
}

/// What a job must say has no default; none of these lengths may be 0.
const NONE: Length = Length::ZERO;

impl Form {
    /// The form of a job that says nothing.
    pub(super) fn blank() -> Form {
        let size = BoxSize {
            length: NONE,
            width: NONE,
            depth: NONE,
        };
        Form {
            job: Job::plain("", size, NONE, Vec::new()),
            item: Form::blank_item(),
            count: 1,
            openings: 0,
        }
    }

    /// An item of which nothing is known.
    pub(super) fn blank_item() -> Item {
        Item::plain("", [NONE; 3])
    }
}

impl Node<'_> {
    /// Puts the values of the line into their places. If one is missing or refused, the job is refused too, whatever
    /// stands in the form.
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

    /// Reports a key that the line cannot do without.
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
    /// The value that a job without the key gets, if it can do without.
    pub(crate) fn default(&self) -> Option<String> {
        match self.absent {
            Absent::Default => (self.place)(&mut Form::blank()).value().map(text),
            Absent::Required(_) | Absent::Measured(_) => None,
        }
    }

    /// The value in a form, if it is not that of a blank form.
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
