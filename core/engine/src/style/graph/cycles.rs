//! Cycles of panels: a panel hinged to itself through others, followed from entry to entry.
//!
//! **Input:** the entries whose carrier was never found. **Output:** an error for each cycle. Entries that are only
//! hinged to a cycle, or to an entry with an error of its own, are consequences and are not reported.

use super::super::text::{OpeningEntry, PanelEntry, PanelEntryId, StyleFile};
use super::super::written::Name;
use crate::finding::SourceError;

/// The entries that could not be drawn.
pub(super) struct Waiting<'s> {
    pub(super) sheet: &'s StyleFile,
    /// Keys of entries with errors of their own.
    pub(super) faulty: &'s [&'s str],
}

impl<'s> Waiting<'s> {
    /// An error for each cycle among these panel entries.
    pub(super) fn cycles(&self, panels: &[PanelEntryId]) -> Vec<SourceError> {
        let mut told: Vec<&str> = Vec::new();
        let mut faults = Vec::new();
        for &panel in panels {
            let cycle = self.cycle(&self.sheet.panels[panel].0.word);
            if cycle.is_empty() || cycle.iter().any(|key| told.contains(key)) {
                continue;
            }
            told.extend(&cycle);
            let path = format!("{} -> {}", cycle.join(" -> "), cycle[0]);
            let Some(on) = self.carrier(cycle[0]) else {
                continue;
            };
            let label = "hang one of them on a panel that leads to the root";
            let message = format!("these hang in a ring: {path}");
            faults.push(SourceError::new(on.place.clone(), message, label));
        }
        faults
    }

    /// The cycle that an entry leads to; empty if it leads to an entry with an error.
    fn cycle(&self, from: &'s str) -> Vec<&'s str> {
        let mut way = vec![from];
        while let Some(on) = self.carrier(way[way.len() - 1]) {
            let key = on.word.split('.').next().unwrap_or_default();
            if let Some(first) = way.iter().position(|&other| other == key) {
                return way.split_off(first);
            }
            if self.faulty.contains(&key) {
                break;
            }
            way.push(key);
        }
        Vec::new()
    }

    /// The carrier of an entry, or the panel with its opening; of several the first that is not drawn yet.
    fn carrier(&self, key: &str) -> Option<&'s Name> {
        if let Some(PanelEntry::Hinged(hinged)) = self.sheet.panels.get(key) {
            return hinged.on.0.iter().find(|on| {
                let key = on.word.split('.').next().unwrap_or_default();
                !matches!(
                    self.sheet.panels.get(key),
                    Some(
                        PanelEntry::Rectangle { .. }
                            | PanelEntry::Regular { .. }
                            | PanelEntry::Polygon { .. }
                    )
                )
            });
        }
        match self.sheet.openings.get(key)? {
            OpeningEntry::Slot(slot) => Some(&slot.on),
            OpeningEntry::Hole(hole) => Some(&hole.on),
            OpeningEntry::ThumbNotch(_) => None,
        }
    }
}
