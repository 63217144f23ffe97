//! Sizes and positions of openings in the frames of their panels.
//!
//! **Input:** an opening of the graph. **Output:** whether it exists, its size and its position. **Does not** cut.

use super::{EvalError, Values};
use crate::geometry::{Point, TOUCH_MM, Vector};
use crate::job::ItemId;
use crate::style::graph::{MemberId, OpeningMemberId};
use crate::style::names::Scope;
use crate::style::text::{OpeningEntry, SlotEntry};
use traywright_document::steady::Steady;

/// An upright rectangle in a panel's frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Rect {
    pub(crate) centre: Point,
    pub(crate) length: f64,
    pub(crate) width: f64,
}

impl Rect {
    /// Whether it has no width in one direction, which makes it a cut and not a hole.
    pub(crate) fn is_slit(&self) -> bool {
        self.length.abs() < TOUCH_MM || self.width.abs() < TOUCH_MM
    }

    /// Distance to another rectangle; if they overlap, the negative of the shorter move that separates them.
    pub(crate) fn gap(&self, other: &Rect) -> f64 {
        let way = self.centre - other.centre;
        let along = way.x.abs() - (self.length + other.length) / 2.0;
        let across = way.y.abs() - (self.width + other.width) / 2.0;
        if along > 0.0 && across > 0.0 {
            along.steady_hypot(across)
        } else {
            along.max(across)
        }
    }

    /// Its corners: lower left, lower right, upper right, upper left.
    pub(crate) fn corners(&self) -> [Point; 4] {
        let (half_length, half_width) = (self.length / 2.0, self.width / 2.0);
        [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]
            .map(|(x, y)| self.centre + Vector::new(x * half_length, y * half_width))
    }
}

impl<'a> Values<'a> {
    /// Whether an opening exists in this job: its own condition, its panel and its item.
    pub(crate) fn opening_exists(&self, opening: OpeningMemberId) -> Result<bool, EvalError> {
        if !self.panel_exists(self.graph.openings[opening].on)? {
            return Ok(false);
        }
        let item = self.graph.openings[opening].item;
        if item.is_some_and(|item| self.job.item(item).is_none()) {
            return Ok(false);
        }
        self.get_or_compute(&self.memo.opening_exists, opening, || {
            self.holds(self.opening_entry(opening).when(), Scope::Style)
        })
    }

    /// The entry of an opening.
    pub(crate) fn opening_entry(&self, opening: OpeningMemberId) -> &'a OpeningEntry {
        &self.sheet().openings[self.graph.openings[opening].entry].1
    }

    /// The entry of an opening for an item.
    pub(crate) fn slot_entry(&self, opening: OpeningMemberId) -> Option<&'a SlotEntry> {
        match self.opening_entry(opening) {
            OpeningEntry::Slot(slot) => Some(slot),
            _ => None,
        }
    }

    /// An opening's extent along both axes of its panel's frame, as arranged.
    pub(crate) fn opening_size(&self, opening: OpeningMemberId) -> Result<(f64, f64), EvalError> {
        let (length, width) = self.size_as_written(opening)?;
        let turned = self.is_turned(opening)?;
        Ok(if turned {
            (width, length)
        } else {
            (length, width)
        })
    }

    /// An opening's size before any rotation.
    pub(super) fn size_as_written(
        &self,
        opening: OpeningMemberId,
    ) -> Result<(f64, f64), EvalError> {
        let scope = Scope::Opening(opening);
        match self.opening_entry(opening).size() {
            Some((length, width)) => Ok((self.amount(length, scope)?, self.amount(width, scope)?)),
            None => self.slot_size(opening),
        }
    }

    /// The item's size with its fit.
    // Source: common practice, none published: item plus clearance, crease to crease.
    fn slot_size(&self, opening: OpeningMemberId) -> Result<(f64, f64), EvalError> {
        let item = self.graph.openings[opening].item.unwrap_or(ItemId::FIRST);
        let Some(item) = self.job.item(item) else {
            return Err(EvalError::absent(format!("item {}", item.index() + 1)));
        };
        let fit = self.job.fit.around_item.mm();
        Ok((item.length.mm() + fit, item.width.mm() + fit))
    }

    /// An opening's rectangle in its panel's frame.
    pub(crate) fn rect(&self, opening: OpeningMemberId) -> Result<Rect, EvalError> {
        if let Some(arrangement) = self.arrangement(opening)? {
            let placed = arrangement.place_of(opening);
            let absent = || EvalError::absent(&self.graph.openings[opening].name);
            return placed.map(|placed| placed.rect).ok_or_else(absent);
        }
        self.get_or_compute(&self.memo.rects, opening, || {
            let (length, width) = self.opening_size(opening)?;
            let middle = self.middle(self.graph.openings[opening].on)?;
            let centre = match self.opening_entry(opening).at() {
                None => middle,
                Some((x, y)) => {
                    let scope = Scope::Opening(opening);
                    let at = Vector::new(self.amount(x, scope)?, self.amount(y, scope)?);
                    self.zero(opening)? + at
                }
            };
            Ok(Rect {
                centre,
                length,
                width,
            })
        })
    }

    /// The middle of a panel's extent.
    pub(super) fn middle(&self, panel: MemberId) -> Result<Point, EvalError> {
        let (length, width) = self.shape(panel)?.extent();
        let hung = self.graph.members[panel].hangs.is_some();
        Ok(if hung {
            Point::new(0.0, width / 2.0)
        } else {
            Point::new(length / 2.0, width / 2.0)
        })
    }

    /// The point from which `at` is measured: the root's middle, or the middle of a hinged panel's crease.
    fn zero(&self, opening: OpeningMemberId) -> Result<Point, EvalError> {
        let panel = self.graph.openings[opening].on;
        if self.graph.members[panel].hangs.is_some() {
            Ok(Point::ORIGIN)
        } else {
            self.middle(panel)
        }
    }

    /// An opening's middle in the terms of `at`.
    pub(super) fn offset_of(&self, opening: OpeningMemberId) -> Result<Vector, EvalError> {
        Ok(self.rect(opening)?.centre - self.zero(opening)?)
    }

    /// Least distance between an opening with its finger notches and its panel's outline; negative if it crosses the
    /// outline.
    pub(super) fn web(&self, opening: OpeningMemberId) -> Result<f64, EvalError> {
        let rect = self.rect(opening)?;
        let (length, width) = self.size_with_notches(opening, (rect.length, rect.width));
        let rect = Rect {
            length,
            width,
            ..rect
        };
        let shape = self.shape(self.graph.openings[opening].on)?;
        let points: Vec<Point> = shape.points().collect();
        let mut web = f64::INFINITY;
        for (index, &from) in points.iter().enumerate() {
            let to = points[(index + 1) % points.len()];
            let left = (to - from).unit().left();
            // For outlines with inner corners the result is on the safe side: the line of an edge is never farther than
            // the edge.
            web = rect
                .corners()
                .iter()
                .map(|&corner| (corner - from).dot(left))
                .fold(web, f64::min);
        }
        Ok(web)
    }

    /// A named edge of an opening in its panel's frame, with the card of the panels hinged there on its left.
    pub(crate) fn opening_edge(
        &self,
        opening: OpeningMemberId,
        edge: &str,
    ) -> Result<(Point, Point), EvalError> {
        let corners = self.rect(opening)?.corners();
        let hole = &self.graph.openings[opening];
        let side = hole
            .edges
            .iter()
            .position(|name| name == edge)
            .expect("edges were checked when the graph was drawn");
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        Ok(if hole.hollow { (to, from) } else { (from, to) })
    }
}
