//! Unused definitions of a style.
//!
//! **Input:** a style file. **Output:** settings, values and fallbacks that no formula of the tray needs, directly or
//! through others, with their source spans. The engine itself needs the built-in settings.

use crate::finding::SourceError;
use crate::style::BUILT_IN_NAMES;
use crate::style::formulas::all;
use crate::style::text::{OpeningEntry, StyleFile};
use crate::style::written::Name;

/// Entries that are not used.
pub(super) fn unread(sheet: &StyleFile) -> Vec<SourceError> {
    let needed = needed(sheet);
    let has_slot = sheet
        .openings
        .iter()
        .any(|(_, opening)| matches!(opening, OpeningEntry::Slot(_)));
    let idle = |name: &&Name| {
        let built_in = has_slot && BUILT_IN_NAMES.contains(&name.word.as_str());
        !built_in && !needed.contains(&name.word.as_str())
    };
    let told = |names: Vec<&Name>, what: &str| -> Vec<SourceError> {
        let fault = |name: &Name| {
            let message = format!("{what} `{}` is needed by no formula of the tray", name.word);
            SourceError::new(name.place.clone(), message, "use it, or leave it out")
        };
        names.into_iter().map(fault).collect()
    };
    let mut faults = told(sheet.settings.names().filter(idle).collect(), "the setting");
    faults.extend(told(
        sheet.values.names().filter(idle).collect(),
        "the value",
    ));
    faults.extend(told(
        sheet.fallbacks.names().filter(idle).collect(),
        "the fallback",
    ));
    faults.sort_by_key(|fault| fault.place.start);
    faults
}

/// Names that the tray needs, and the names that these need.
fn needed(sheet: &StyleFile) -> Vec<&str> {
    let formulas = all(sheet);
    let names_for = |by: Option<&str>| -> Vec<&str> {
        let of_it = formulas.iter().filter(|needed| needed.by == by);
        of_it
            .flat_map(|needed| needed.formula.formula().names())
            .map(|(name, _)| name)
            .collect()
    };
    let mut needed: Vec<&str> = Vec::new();
    let mut ahead = names_for(None);
    while let Some(name) = ahead.pop() {
        if !needed.contains(&name) {
            needed.push(name);
            ahead.extend(names_for(Some(name)));
        }
    }
    needed
}
