//! The pad under an item: its minimum and maximum thickness, and the thickness to recommend.
//!
//! Lengths in mm. The report, the fixes, the booklet and the text of a new job all take their pads from here. Fences
//! hold an item at its foot, so a pad never helps an item between fences.
// Source: derived in core/GEOMETRY.md, "How an item is held"; what is enough is a choice of this project.

use super::unsure::Unsure;
use crate::geometry::TOUCH_MM;
use crate::job::Unit;

/// How far an item's top may lie below the deck and still be within reach of fingers.
// Source: common practice, none published.
pub(crate) const SUNK_MM: f64 = 8.0;

/// Sufficient contact height on a flap: a quarter of the flap and at least 3 mm, or the whole of a shorter flap.
// Source: a choice of this project: a flap pushed at three quarters of its depth turns 41° before the item slips under
// its tip, and 3 mm is more than a tray floats in its box.
pub(crate) fn enough_of_a_flap(depth: f64) -> f64 {
    depth.min((depth / 4.0).max(3.0))
}

/// The lengths that a pad depends on.
#[derive(Clone, Copy, Debug)]
pub(super) struct PadRoom {
    /// How far the item's top would lie below the deck without a pad.
    pub(super) below: f64,
    /// How far the top of the item's full outline would lie below the deck without a pad.
    pub(super) upright_below: f64,
    /// Height from the top of the deck to the closed lid.
    pub(super) air: f64,
    /// How far the creases of flaps lie below the top of the deck.
    pub(super) hinge: f64,
    /// Depth of the flaps at the ends and at the sides; none for a bare edge.
    pub(super) flaps: [Option<f64>; 2],
    pub(super) caliper: f64,
    /// Uncertainty of these lengths from measuring, creasing and cutting.
    pub(super) unsure: Unsure,
}

/// The possible pads of an item.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pads {
    /// The thinnest pad that holds the item and brings its top within reach.
    pub(crate) least: f64,
    /// The thickest pad with which the item fits under the lid.
    pub(crate) most: f64,
    /// The pad to recommend; none if the item is held and within reach without a pad.
    pub(crate) named: Option<f64>,
    /// Whether the recommended pad holds the item and clears the lid despite the uncertainty.
    pub(crate) sure: bool,
}

impl Pads {
    /// The pads of an item; none if even the thickest does not hold it enough.
    // Derived: a bare edge asks for a top level with the deck, flaps for enough of them beside the item, and a grip for a
    // top within reach; the lid ends all. The middle of what is left under the lid forgives most.
    pub(super) fn of(room: PadRoom, unit: Unit) -> Option<Pads> {
        let asked = room.flaps.map(|flaps| match flaps {
            None => room.upright_below,
            Some(depth) => room.upright_below - (room.hinge + depth) + enough_of_a_flap(depth),
        });
        let grip = room.below - SUNK_MM;
        let least = asked.into_iter().fold(grip, f64::max).max(0.0);
        let most = room.below + room.air;
        if least > most + TOUCH_MM {
            return None;
        }
        // The remaining height may be 0, or below 0 by rounding errors.
        let most = most.max(least);
        let named = room.below + room.air / 2.0;
        let sure = room.sure(least, most);
        let rounded = steps(unit).into_iter().find_map(|step| {
            let (low, high) = (up(least, step), down(most, step));
            let nearest = (named / step).round() * step;
            (low <= high).then(|| (low, high, nearest.clamp(low, high)))
        });
        let (least, most, named) = rounded.unwrap_or((least, most, named.clamp(least, most)));
        let (named, needed, sure) = match sure {
            Some([low, high]) => (surely(named, [low, high], unit), low, true),
            None => (named, least, false),
        };
        Some(Pads {
            least,
            most,
            named: (least.max(needed) > TOUCH_MM).then_some(named),
            sure,
        })
    }
}

impl PadRoom {
    /// The pads, among those that hold the item nominally, that still hold it and clear the lid despite the
    /// uncertainty.
    // Derived: the edge stops an item down to its underside, a caliper below the top of the deck, and a flap down to its tip.
    // What is left there is at least what is unsure; and so is what is left under the lid.
    fn sure(&self, least: f64, most: f64) -> Option<[f64; 2]> {
        let stops = [0, 1].map(|axis| {
            let reach = self.flaps[axis].map_or(self.caliper, |depth| self.hinge + depth);
            self.upright_below - reach + self.unsure.stops[axis]
        });
        let low = stops.into_iter().fold(least, f64::max);
        let high = most - self.unsure.lid;
        (low <= high + TOUCH_MM).then(|| [low, high.max(low)])
    }
}

/// The value nearest to `pad` in a range, in the coarsest steps that have a value in the range.
fn surely(pad: f64, [low, high]: [f64; 2], unit: Unit) -> f64 {
    let rounded = steps(unit).into_iter().find_map(|step| {
        let (low, high) = (up(low, step), down(high, step));
        (low <= high).then(|| pad.clamp(low, high))
    });
    rounded.unwrap_or(pad.clamp(low, high))
}

/// A length rounded up to whole steps, tolerating rounding errors.
fn up(length: f64, step: f64) -> f64 {
    (length / step - 1e-6).ceil() * step + 0.0
}

/// A length rounded down to whole steps, tolerating rounding errors.
fn down(length: f64, step: f64) -> f64 {
    (length / step + 1e-6).floor() * step + 0.0
}

/// The steps for pads, the coarser first, in mm.
// Source: a choice of this project: what a maker measures, and what a maker lays in layers of card.
fn steps(unit: Unit) -> [f64; 2] {
    match unit {
        Unit::Millimetre => [0.5, 0.1],
        Unit::Inch => [25.4 / 32.0, 25.4 / 64.0],
    }
}
