//! A place of a job by its name: `fit.item`, `board`, `item.vial.pad`, `set.web`.
//!
//! **Input:** the name, and the job. **Output:** the line and the key, as a change names them. **Errors:** an unknown
//! name, with the nearest known one.

use traywright_engine::finding::Change;
use traywright_engine::job::Job;

use crate::job_file::keys::{Keys, LINES, Line};
use crate::nearest::{suggestion, unknown_in_job};

/// A place that a change can set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Place {
    line: &'static str,
    item: Option<String>,
    key: String,
}

impl Place {
    /// The place with this name.
    pub(super) fn find(name: &str, job: &Job) -> Result<Place, String> {
        let (node, rest) = match name.split_once('.') {
            Some((node, rest)) => (node, Some(rest)),
            None => (name, None),
        };
        let Some(line) = Line::named(node) else {
            let known: Vec<&str> = LINES.iter().map(|line| line.name).collect();
            let unknown = format!("a job has no `{node}`");
            return Err(joined(unknown_in_job(node, unknown, &known)));
        };
        let argument = line.argument.as_ref().map(|key| key.name);
        match (line.name, rest) {
            ("item", Some(rest)) => Place::of_item(line, rest, job),
            (_, Some(key)) if matches!(line.keys, Keys::Settings) && !key.is_empty() => {
                Ok(Place::of(line, key))
            }
            (_, Some(key)) => Ok(Place::of(line, known_key(line, key)?)),
            ("item", None) => Err(keyless(line)),
            (_, None) => argument
                .map(|key| Place::of(line, key))
                .ok_or_else(|| keyless(line)),
        }
    }

    fn of(line: &'static Line, key: &str) -> Place {
        Place {
            line: line.name,
            item: None,
            key: key.to_owned(),
        }
    }

    /// `pad` for the only item, or `NAME.pad`.
    fn of_item(line: &'static Line, rest: &str, job: &Job) -> Result<Place, String> {
        let first_of_line = job.items.iter().filter(|item| item.number == 1);
        let names: Vec<&str> = first_of_line.map(|item| item.name.as_str()).collect();
        let (item, key) = match (rest.rsplit_once('.'), names.as_slice()) {
            (Some((item, key)), _) => (item, key),
            (None, [only]) => (*only, rest),
            (None, names) => {
                let each = names.iter().map(|name| format!("item.{name}.{rest}"));
                let each: Vec<String> = each.collect();
                return Err(format!(
                    "`item.{rest}` is of several items: write {}",
                    each.join(" or ")
                ));
            }
        };
        if !names.contains(&item) {
            return Err(format!(
                "the job has no item `{item}`: {}",
                suggestion(item, &names)
            ));
        }
        Ok(Place {
            item: Some(item.to_owned()),
            ..Place::of(line, known_key(line, key)?)
        })
    }

    /// Whether a change sets this place.
    pub(super) fn is_of(&self, change: &Change) -> bool {
        (change.node, &change.item, &change.key) == (self.line, &self.item, &self.key)
    }

    /// The change that sets this place to a value.
    pub(super) fn change(&self, value: &str) -> Change {
        Change {
            node: self.line,
            item: self.item.clone(),
            key: self.key.clone(),
            to: value.to_owned(),
        }
    }
}

fn known_key(line: &'static Line, key: &str) -> Result<&'static str, String> {
    // The name of an item is not varied: it says which item is meant.
    let argument = line.argument.as_ref().filter(|_| line.name != "item");
    let all = argument.into_iter().chain(line.known_keys());
    let names: Vec<&'static str> = all.map(|known| known.name).collect();
    match names.iter().find(|name| **name == key) {
        Some(name) => Ok(name),
        None => {
            let (node, whole) = (line.name, format!("{} {key}", line.name));
            let unknown = format!("`{node}` has no `{key}`");
            Err(joined(unknown_in_job(&whole, unknown, &names)))
        }
    }
}

fn keyless(line: &Line) -> String {
    let (name, keys) = (line.name, line.known_keys());
    match keys {
        [] => format!("`{name}` says no setting: write {name}.NAME"),
        keys => {
            let keys: Vec<String> = keys
                .iter()
                .map(|key| format!("{name}.{}", key.name))
                .collect();
            format!("`{name}` says no key: write one of {}", keys.join(", "))
        }
    }
}

fn joined((message, label): (String, String)) -> String {
    format!("{message}: {label}")
}
