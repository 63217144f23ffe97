//! Fills one sheet as far as possible, and pushes the blanks of the last sheet together.

use traywright_document::{Extent, Point, Turn};

use crate::Budget;
use crate::random::Random;
use crate::separate::LaidBlanks;
use crate::shapes::{Shapes, Spot};
use crate::start::{self, Pull};

/// Starts from orders and turns by rule; more are random.
const TURNS: [Option<[Turn; 2]>; 3] = [
    None,
    Some([Turn::None, Turn::Half]),
    Some([Turn::Quarter, Turn::ThreeQuarters]),
];
/// Weights of the axis along which the sheet is used up, and of the other.
const PULLS: [Pull; 3] = [[1.0, 1e-3], [1.0, 0.3], [1e-3, 1.0]];
/// How much shorter the room becomes at a time, as a share of what is used: as long as that works, and at the end.
const SHORTER: f64 = 0.02;
const LEAST_SHORTER: f64 = 5e-4;
/// How often two blanks change places before the room becomes shorter by less.
const SWAPS: usize = 8;
/// Tries to lay one more blank of a kind.
const TRIES: usize = 2;

/// What a search works with.
pub(crate) struct Filling<'a> {
    pub(crate) shapes: &'a Shapes,
    pub(crate) room: Extent,
    /// 0 if the sheet is used up along x, 1 along y.
    pub(crate) along: usize,
}

impl Filling<'_> {
    /// A sheet with as much of the demand as possible.
    pub(crate) fn fill(
        &self,
        demand: &[usize],
        random: &mut Random,
        budget: &mut Budget,
    ) -> Vec<Spot> {
        let starts = self.starts(demand, random, budget);
        let all: usize = demand.iter().sum();
        let mut best: Vec<Spot> = Vec::new();
        // Without a part of a square millimetre, which differs by the order of the sum.
        let rank = |laid: &[Spot]| (self.covered(laid).round(), -self.used(laid));
        for laid in starts {
            if rank(&laid) > rank(&best) {
                best = laid;
            }
        }
        if best.len() < all {
            self.add(&mut best, demand, random, budget);
        }
        best
    }

    fn starts(&self, demand: &[usize], random: &mut Random, budget: &mut Budget) -> Vec<Vec<Spot>> {
        let kinds = &self.shapes.kinds;
        let size = |kind: usize| kinds[kind].extents[0].size();
        let largest = |kind: usize| -kinds[kind].area;
        let longest = |kind: usize| -size(kind)[0].max(size(kind)[1]);
        let widest = |kind: usize| -size(kind)[0].min(size(kind)[1]);
        let capacity = self.capacity();
        let mut by_rule: Vec<Vec<usize>> = Vec::new();
        for rank in [&largest as &dyn Fn(usize) -> f64, &longest, &widest] {
            let mut order: Vec<usize> = (0..kinds.len()).filter(|&kind| demand[kind] > 0).collect();
            order.sort_by(|&one, &other| rank(one).total_cmp(&rank(other)));
            let repeat = |&kind: &usize| vec![kind; demand[kind].min(capacity[kind])];
            let order: Vec<usize> = order.iter().flat_map(repeat).collect();
            if !by_rule.contains(&order) {
                by_rule.push(order);
            }
        }
        let mut starts = Vec::new();
        for order in &by_rule {
            for turns in TURNS {
                for pull in PULLS {
                    if !budget.spend() && !starts.is_empty() {
                        return starts;
                    }
                    starts.push(self.start(order, pull, turns));
                }
            }
        }
        for _ in 0..RANDOM_STARTS {
            if !budget.spend() {
                return starts;
            }
            let mut order = by_rule[random.below(by_rule.len())].clone();
            random.shuffle(&mut order);
            let pull = PULLS[random.below(PULLS.len())];
            starts.push(self.start(&order, pull, None));
        }
        starts
    }

    fn start(&self, order: &[usize], pull: Pull, turns: Option<[Turn; 2]>) -> Vec<Spot> {
        let pull = if self.along == 0 {
            pull
        } else {
            [pull[1], pull[0]]
        };
        start::lay(self.shapes, &self.room, order, (pull, turns))
    }

    /// At most so many blanks of each kind have room by their area.
    fn capacity(&self) -> Vec<usize> {
        let size = self.room.size();
        let kinds = self.shapes.kinds.iter();
        kinds
            .map(|kind| (size[0] * size[1] / kind.area) as usize)
            .collect()
    }

    /// Lays one more blank as long as that works, the largest first.
    fn add(
        &self,
        laid: &mut Vec<Spot>,
        demand: &[usize],
        random: &mut Random,
        budget: &mut Budget,
    ) {
        let kinds = &self.shapes.kinds;
        let mut order: Vec<usize> = (0..kinds.len()).collect();
        order.sort_by(|&one, &other| kinds[other].area.total_cmp(&kinds[one].area));
        let size = self.room.size();
        let mut kind = 0;
        while kind < order.len() {
            let one = order[kind];
            let there = laid.iter().filter(|spot| spot.kind == one).count();
            let has_room = self.covered(laid) + kinds[one].area <= size[0] * size[1];
            let wanted = there < demand[one] && has_room;
            if !(wanted && (0..TRIES).any(|_| self.add_one(laid, one, random, budget))) {
                kind += 1;
            }
        }
    }

    fn add_one(
        &self,
        laid: &mut Vec<Spot>,
        kind: usize,
        random: &mut Random,
        budget: &mut Budget,
    ) -> bool {
        let turns = &self.shapes.kinds[kind].turns;
        let turn = turns[random.below(turns.len())];
        let Some(inner) = self.shapes.inner(kind, turn, &self.room) else {
            return false;
        };
        let at = Point::new(
            random.between(inner.least.x, inner.most.x),
            random.between(inner.least.y, inner.most.y),
        );
        let mut layout = LaidBlanks {
            spots: laid.clone(),
            room: self.room,
        };
        layout.spots.push(Spot { kind, turn, at });
        let done = layout.separate(self.shapes, random, budget);
        if done {
            *laid = layout.spots;
        }
        done
    }

    /// Moves blanks together, so that what is left of the sheet is as long as possible: the room becomes shorter, and the
    /// overlaps that this makes are removed. Where that fails, two blanks change places, some times, before the room
    /// becomes shorter by less.
    pub(crate) fn compress(&self, laid: &mut Vec<Spot>, random: &mut Random, budget: &mut Budget) {
        let mut shorter = SHORTER;
        // Each round takes a move of its own: in a room that is too short for a blank no other is made.
        while laid.len() > 1 && budget.spend() {
            let mut layout = LaidBlanks {
                spots: laid.clone(),
                room: self.shortened(self.used(laid) * (1.0 - shorter)),
            };
            let mut done = layout.separate(self.shapes, random, budget);
            for _ in 0..SWAPS {
                if done || !budget.is_left() {
                    break;
                }
                let stuck = layout.spots.clone();
                layout.swap_two(random);
                done = layout.separate(self.shapes, random, budget);
                if !done && random.share() < 0.5 {
                    layout.spots = stuck;
                }
            }
            if done {
                *laid = layout.spots;
            } else if shorter > LEAST_SHORTER {
                shorter /= 2.0;
            } else {
                shorter = SHORTER / 2.0;
            }
        }
    }

    /// The room, cut off behind a length.
    fn shortened(&self, length: f64) -> Extent {
        let mut room = self.room;
        match self.along {
            0 => room.most.x = room.least.x + length,
            _ => room.most.y = room.least.y + length,
        }
        room
    }

    /// How much of the room is used, from its beginning.
    pub(crate) fn used(&self, laid: &[Spot]) -> f64 {
        let reach = |spot: &Spot| {
            let extent = spot.extent(self.shapes);
            [
                extent.most.x - self.room.least.x,
                extent.most.y - self.room.least.y,
            ][self.along]
        };
        laid.iter().map(reach).fold(0.0, f64::max)
    }

    /// The area of blanks.
    pub(crate) fn covered(&self, laid: &[Spot]) -> f64 {
        laid.iter()
            .map(|spot| self.shapes.kinds[spot.kind].area)
            .sum()
    }
}

/// Starts in a random order.
const RANDOM_STARTS: usize = 6;
