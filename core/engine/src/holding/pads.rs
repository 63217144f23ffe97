//! The pad under an item: how thick it has to be at least and may be at most, and which one to name.
//!
//! Lengths in mm. One answer for the report, the fixes, the booklet and the text of a new job. Fences hold at the foot of
//! an item, so no pad is ever the answer there.
// Source: derived in core/GEOMETRY.md, "How an item is held"; what is enough is a choice of this project.

use super::unsure::Unsure;
use crate::geometry::TOUCH_MM;
use crate::job::Unit;

/// How far an item's top may lie below the deck and still be gripped.
// Source: common practice, none published.
pub(crate) const SUNK_MM: f64 = 8.0;

/// How much of a flap has to stand beside an item: a quarter of the flap, 3 mm at least, and a short flap as a whole.
// Source: a choice of this project: a flap pushed at three quarters of its depth turns 41° before the item slips under
// its tip, and 3 mm is more than a tray floats in its box.
pub(crate) fn enough_of_a_flap(depth: f64) -> f64 {
    depth.min((depth / 4.0).max(3.0))
}

/// What a pad depends on.
#[derive(Clone, Copy, Debug)]
pub(super) struct PadRoom {
    /// How far the top of the item would lie below the deck without a pad.
    pub(super) below: f64,
    /// The same of the height up to which it keeps its outline.
    pub(super) upright_below: f64,
    /// From the top of the deck to the closed lid.
    pub(super) air: f64,
    /// How far the creases of flaps lie below the top of the deck.
    pub(super) hinge: f64,
    /// Depth of the flaps at the ends and at the sides; none for a bare edge.
    pub(super) flaps: [Option<f64>; 2],
    pub(super) caliper: f64,
    /// What measures, creases and cuts leave unsure of all this.
    pub(super) unsure: Unsure,
}

/// The pads that an item can have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Pads {
    /// The thinnest that holds the item and lets it be gripped.
    pub(crate) least: f64,
    /// The thickest that goes in under the lid.
    pub(crate) most: f64,
    /// The one to name; none where the item is held and gripped without.
    pub(crate) named: Option<f64>,
    /// Whether the one to name holds the item, and clears the lid, whatever measures, creases and cuts leave unsure.
    pub(crate) sure: bool,
}

impl Pads {
    /// The pads of an item; none where the thickest that goes in holds it too little.
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
        // What is left may be nothing, and less than that by the noise of arithmetic.
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
    /// The pads that hold the item for sure and keep it off the lid for sure, of those that hold it by the figures.
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

/// The pad nearest to one that is between two others, in the coarsest steps that have one there.
fn surely(pad: f64, [low, high]: [f64; 2], unit: Unit) -> f64 {
    let rounded = steps(unit).into_iter().find_map(|step| {
        let (low, high) = (up(low, step), down(high, step));
        (low <= high).then(|| pad.clamp(low, high))
    });
    rounded.unwrap_or(pad.clamp(low, high))
}

/// A length rounded up to whole steps, whatever the noise of arithmetic.
fn up(length: f64, step: f64) -> f64 {
    (length / step - 1e-6).ceil() * step + 0.0
}

/// A length rounded down to whole steps.
fn down(length: f64, step: f64) -> f64 {
    (length / step + 1e-6).floor() * step + 0.0
}

/// The steps in which pads are told, the coarser first, in mm.
// Source: a choice of this project: what a maker measures, and what a maker lays in layers of card.
fn steps(unit: Unit) -> [f64; 2] {
    match unit {
        Unit::Millimetre => [0.5, 0.1],
        Unit::Inch => [25.4 / 32.0, 25.4 / 64.0],
    }
}
