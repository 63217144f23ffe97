//! The openings of the graph: each is added once the panels with the opening exist.

use super::super::text::{OpeningEntry, OpeningEntryId, SlotCut};
use super::OpeningMember;
use super::drawing::Drawing;
use super::edges::{opening_edges, unknown_panel};
use crate::finding::SourceError;
use crate::job::ItemId;

/// Maximum number of openings of a tray.
// Source: common practice, none published: a job has 64 items at most, and a style few holes.
pub(super) const MOST_OPENINGS: usize = 400;

impl Drawing<'_> {
    /// The items that an entry makes openings for; one opening without an item if it is a fixed hole.
    fn items_of(&self, opening: &OpeningEntry) -> Vec<Option<ItemId>> {
        match opening {
            OpeningEntry::Slot(slot) => match slot.item {
                Some(number) => vec![number.checked_sub(1).map(ItemId::at)],
                None => ItemId::up_to(self.items).map(Some).collect(),
            },
            _ => vec![None],
        }
    }

    /// Returns whether the entry is done.
    pub(super) fn add_openings(&mut self, entry: OpeningEntryId) -> bool {
        let (name, opening) = &self.sheet.openings[entry];
        let (on, hollow) = match opening {
            OpeningEntry::Slot(slot) => (&slot.on, slot.cut != SlotCut::Uncut),
            OpeningEntry::Hole(hole) => (&hole.on, true),
            // A thumb notch is in an edge and carries nothing.
            OpeningEntry::ThumbNotch(_) => return true,
        };
        let family = self.graph.called(self.sheet, &on.word);
        let known = self.sheet.panels.id(&on.word).is_some();
        if family.is_empty() && !known && !self.may_still_come(&on.word) {
            let fault = unknown_panel(self.sheet, on, &on.word);
            self.refuse(name, fault);
            return true;
        }
        if self.graph.openings.len() + family.len() * self.items_of(opening).len() > MOST_OPENINGS {
            let label = format!("with this one there are more than {MOST_OPENINGS}");
            let fault =
                SourceError::new(name.place.clone(), "the style has too many openings", label);
            self.refuse(name, fault);
            return true;
        }
        for &on in &family {
            let items = self.items_of(opening);
            for &item in &items {
                let number = item
                    .filter(|_| items.len() > 1)
                    .map(|item| format!("-{}", item.index() + 1))
                    .unwrap_or_default();
                let suffix = format!("{}{number}", self.graph.members[on].suffix);
                let edges = opening_edges(&self.graph.members[on]);
                self.graph.openings.push(OpeningMember {
                    entry,
                    name: format!("{}{suffix}", name.word),
                    suffix,
                    on,
                    item,
                    edges,
                    hollow,
                });
            }
        }
        !family.is_empty()
    }
}
