//! The form of an opening without flaps: a rectangle or a curve, with or without finger notches.
//!
//! **Input:** an opening of the graph. **Output:** its form, and its extent in the card with its notches. Flaps and
//! panels are hinged to straight edges, so an opening with either is the rectangle around its item, without notches.
//! Notches are on the longer edges; those of a square or a circle are on the edges along the box's length.

use super::Values;
use crate::job::{Cut, Item, ItemShape};
use crate::style::graph::{HingeParent, OpeningMemberId};
use crate::style::text::{HoleShape, OpeningEntry, SlotCut, SlotEntry};

/// The form of an opening within the rectangle around it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Form {
    /// Whether it is the ellipse in the rectangle.
    pub(crate) curved: bool,
    /// Width of the half-round notches in the middle of its long edges, if it has them.
    pub(crate) finger: Option<f64>,
}

impl Values<'_> {
    /// The form in which an opening is cut out.
    pub(crate) fn form(&self, opening: OpeningMemberId) -> Form {
        if self.carries_panels(opening) {
            return Form::default();
        }
        match self.opening_entry(opening) {
            OpeningEntry::Slot(slot) if self.slot_cut(opening, slot) == Some(Cut::Open) => Form {
                curved: self.item_is_curved(opening),
                finger: self
                    .item_of(opening)
                    .and_then(|item| self.job.finger_of(item)),
            },
            OpeningEntry::Hole(hole) => Form {
                curved: hole.shape == HoleShape::Oval,
                finger: None,
            },
            _ => Form::default(),
        }
    }

    /// The item of an opening.
    fn item_of(&self, opening: OpeningMemberId) -> Option<&Item> {
        self.job.item(self.graph.openings[opening].item?)
    }

    /// Whether the opening is for a round or oval item.
    pub(crate) fn item_is_curved(&self, opening: OpeningMemberId) -> bool {
        let item = self.item_of(opening);
        item.is_some_and(|item| item.shape != ItemShape::Rectangle)
    }

    /// How a slot is cut, by the style or the job; none if it is not cut at all.
    pub(crate) fn slot_cut(&self, opening: OpeningMemberId, slot: &SlotEntry) -> Option<Cut> {
        let of_job = || {
            self.item_of(opening)
                .map_or(self.job.slot.cut, |item| self.job.cut_of(item))
        };
        match slot.cut {
            SlotCut::Open => Some(Cut::Open),
            SlotCut::Job => Some(of_job()),
            SlotCut::Uncut => None,
        }
    }

    /// Whether panels of the style are hinged to the opening's edges.
    fn carries_panels(&self, opening: OpeningMemberId) -> bool {
        let hangs_on_it = |on: HingeParent| on == HingeParent::Opening(opening);
        let mut members = self.graph.members.iter();
        members.any(|member| {
            member
                .hangs
                .as_ref()
                .is_some_and(|hang| hangs_on_it(hang.on))
        })
    }

    /// Length and width of the card cut out for an opening of this size, its notches included. They extend equally on
    /// both sides, so that the middle stays the opening's.
    pub(crate) fn size_with_notches(
        &self,
        opening: OpeningMemberId,
        (length, width): (f64, f64),
    ) -> (f64, f64) {
        let notches = self.form(opening).finger.unwrap_or(0.0);
        if lies_along(length, width) {
            (length, width + notches)
        } else {
            (length + notches, width)
        }
    }
}

/// Whether the long edges of an opening run along its panel's first axis, as they do for a square.
pub(crate) fn lies_along(length: f64, width: f64) -> bool {
    length >= width
}
