//! Overlaps are removed: blanks that overlap move, one by one, to where their weighted overlaps are least.
//!
//! **Input:** a layout with overlaps. **Output:** one without, if the search finds it within its budget. The overlap of
//! two blanks is how far one of them has to be moved to be free. Overlaps that stay get more weight each round, so that
//! the search leaves places where it is stuck.
// Source: guided local search for nesting: Umetani and others, "Solving the irregular strip packing problem via guided
// local search for overlap minimization", 2009; Gardeyn and others, 2025, for sampling and the weights (from memory).

use traywright_document::{Extent, Point, Turn, Vector};

use crate::Budget;
use crate::no_fit::FREE_MM;
use crate::random::Random;
use crate::shapes::{Shapes, Spot, between};
use crate::start::crossing;

/// Random places that are tried for each turn of a blank, in the whole room and near where it lies, and corners of no-fit
/// regions.
// Source: measured on cut-ups of a rectangle and on the blanks of the example jobs.
const IN_ROOM: usize = 8;
const NEARBY: usize = 6;
const TOUCHING: usize = 10;
/// Places where a blank touches two others, or one and an edge of the room: edges that are tried for crossings.
const CROSSING: usize = 10;
/// So many of the best places are refined.
const REFINED: usize = 3;
/// Rounds without a better layout after which the search gives up.
const PATIENCE: usize = 60;

/// Blanks on one sheet.
#[derive(Clone, Debug)]
pub(crate) struct LaidBlanks {
    pub(crate) spots: Vec<Spot>,
    pub(crate) room: Extent,
}

struct Search<'a> {
    shapes: &'a Shapes,
    layout: LaidBlanks,
    weights: Vec<f64>,
}

impl LaidBlanks {
    /// Removes all overlaps; if it finds no way, the layout is the one with the least overlap that it saw, and false.
    pub(crate) fn separate(
        &mut self,
        shapes: &Shapes,
        random: &mut Random,
        budget: &mut Budget,
    ) -> bool {
        let count = self.spots.len();
        let mut search = Search {
            shapes,
            layout: self.clone(),
            weights: vec![1.0; count * count],
        };
        if !search.layout.push_inside(shapes, random) {
            return false;
        }
        let least = search.run(random, budget);
        let is_free = least.is_none();
        self.spots = least.unwrap_or(search.layout.spots);
        is_free
    }

    /// Lets two blanks, drawn at random, change places.
    pub(crate) fn swap_two(&mut self, random: &mut Random) {
        let [one, other] = [
            random.below(self.spots.len()),
            random.below(self.spots.len()),
        ];
        let [at, there] = [self.spots[one].at, self.spots[other].at];
        (self.spots[one].at, self.spots[other].at) = (there, at);
    }

    /// Moves each blank into the room; false if one is too large for it.
    fn push_inside(&mut self, shapes: &Shapes, random: &mut Random) -> bool {
        for spot in &mut self.spots {
            let turns = &shapes.kinds[spot.kind].turns;
            let mut fits: Vec<(Turn, Extent)> = Vec::new();
            for &turn in turns {
                fits.extend(
                    shapes
                        .inner(spot.kind, turn, &self.room)
                        .map(|inner| (turn, inner)),
                );
            }
            let own = fits.iter().find(|(turn, _)| *turn == spot.turn);
            let Some((turn, inner)) = own.or(fits.get(random.below(fits.len()))) else {
                return false;
            };
            spot.turn = *turn;
            spot.at = clamped(spot.at, inner);
        }
        true
    }
}

impl Search<'_> {
    /// Moves blanks until none overlap; else gives the places with the least overlap.
    fn run(&mut self, random: &mut Random, budget: &mut Budget) -> Option<Vec<Spot>> {
        let mut best = f64::INFINITY;
        let mut least = self.layout.spots.clone();
        let mut waited = 0;
        let mut order: Vec<usize> = (0..self.layout.spots.len()).collect();
        loop {
            let overlaps = self.overlaps();
            let total: f64 = overlaps.iter().map(|(_, _, depth)| depth).sum();
            if overlaps.is_empty() {
                return None;
            }
            waited = if total < 0.98 * best { 0 } else { waited + 1 };
            if total < best {
                best = total;
                least.clone_from(&self.layout.spots);
            }
            if waited > PATIENCE {
                return Some(least);
            }
            self.weigh(&overlaps);
            let mut moves = vec![false; order.len()];
            for (one, other, _) in &overlaps {
                (moves[*one], moves[*other]) = (true, true);
            }
            random.shuffle(&mut order);
            for &index in order.iter().filter(|&&index| moves[index]) {
                if !budget.spend() {
                    return Some(least);
                }
                self.improve(index, random);
            }
        }
    }

    /// Each two that overlap, and how deep.
    fn overlaps(&self) -> Vec<(usize, usize, f64)> {
        let spots = &self.layout.spots;
        let mut found = Vec::new();
        for one in 0..spots.len() {
            for other in one + 1..spots.len() {
                let depth = self.shapes.depth(&spots[one], &spots[other]);
                if depth >= FREE_MM {
                    found.push((one, other, depth));
                }
            }
        }
        found
    }

    /// More weight for those that overlap, the most for the deepest; the weight of the others fades.
    fn weigh(&mut self, overlaps: &[(usize, usize, f64)]) {
        let count = self.layout.spots.len();
        let deepest = overlaps
            .iter()
            .map(|(_, _, depth)| *depth)
            .fold(FREE_MM, f64::max);
        for weight in &mut self.weights {
            *weight = (*weight * 0.95).max(1.0);
        }
        for &(one, other, depth) in overlaps {
            let factor = (1.2 + 0.8 * depth / deepest) / 0.95;
            for index in [one * count + other, other * count + one] {
                self.weights[index] *= factor;
            }
        }
    }

    /// The weighted overlap of a blank if it lay there, or more than the bound.
    fn loss(&self, index: usize, spot: &Spot, bound: f64) -> f64 {
        let count = self.layout.spots.len();
        let mut loss = 0.0;
        for (other, lies) in self.layout.spots.iter().enumerate() {
            if other == index {
                continue;
            }
            let depth = self.shapes.depth(lies, spot);
            if depth >= FREE_MM {
                loss += depth * self.weights[index * count + other];
                if loss >= bound {
                    return loss;
                }
            }
        }
        loss
    }

    /// Moves a blank to the best place that is found.
    fn improve(&mut self, index: usize, random: &mut Random) {
        let spot = self.layout.spots[index];
        let now = self.loss(index, &spot, f64::INFINITY);
        let mut best: Vec<(f64, Spot)> = vec![(now, spot)];
        for &turn in &self.shapes.kinds[spot.kind].turns {
            let Some(inner) = self.shapes.inner(spot.kind, turn, &self.layout.room) else {
                continue;
            };
            for at in self.samples(index, turn, &inner, random) {
                let spot = Spot { turn, at, ..spot };
                let bound = best
                    .get(REFINED - 1)
                    .map_or(f64::INFINITY, |(loss, _)| *loss);
                let loss = self.loss(index, &spot, bound);
                if loss < bound {
                    let place = best.partition_point(|(other, _)| *other <= loss);
                    best.insert(place, (loss, spot));
                    best.truncate(REFINED);
                }
            }
        }
        let size = self.shapes.kinds[spot.kind].extents[0].size();
        let coarse = [0.1, 0.005].map(|share| share * size[0].min(size[1]));
        let fine = [2.0 * coarse[1], FREE_MM / 4.0];
        let refined = best
            .iter()
            .map(|(loss, spot)| self.refine(index, *spot, *loss, (coarse, random)));
        let least = refined.min_by(|one, other| one.0.total_cmp(&other.0));
        let Some((loss, spot)) = least else { return };
        let (loss, spot) = self.refine(index, spot, loss, (fine, random));
        // A move to an equal place would only be restless.
        if loss < now {
            self.layout.spots[index] = spot;
        }
    }

    /// Places worth a try.
    fn samples(&self, index: usize, turn: Turn, inner: &Extent, random: &mut Random) -> Vec<Point> {
        let Extent { least, most } = *inner;
        let mut samples = Vec::with_capacity(IN_ROOM + NEARBY + TOUCHING);
        for _ in 0..IN_ROOM {
            samples.push(Point::new(
                random.between(least.x, most.x),
                random.between(least.y, most.y),
            ));
        }
        let spot = self.layout.spots[index];
        let size = self.shapes.kinds[spot.kind].extents[turn.quarters()].size();
        for _ in 0..NEARBY {
            let off = [0, 1].map(|axis| random.between(-0.15, 0.15) * size[axis]);
            samples.push(clamped(spot.at + Vector::new(off[0], off[1]), inner));
        }
        for _ in 0..TOUCHING {
            let other = random.below(self.layout.spots.len());
            if other == index {
                continue;
            }
            let lies = self.layout.spots[other];
            let region = self
                .shapes
                .no_fit(lies.kind, spot.kind, between(lies.turn, turn));
            if region.edges.is_empty() {
                continue;
            }
            let corner = region.edges[random.below(region.edges.len())][0];
            samples.push(clamped(
                lies.at + lies.turn.of(corner - Point::ORIGIN),
                inner,
            ));
        }
        for _ in 0..CROSSING {
            self.crossings(index, turn, inner, (random, &mut samples));
        }
        samples
    }

    /// Places where the blank touches two others, or one other and an edge of the room.
    fn crossings(
        &self,
        index: usize,
        turn: Turn,
        inner: &Extent,
        (random, samples): (&mut Random, &mut Vec<Point>),
    ) {
        let spots = &self.layout.spots;
        let [one, other] = [random.below(spots.len()), random.below(spots.len())];
        if one == index || other == index {
            return;
        }
        let kind = spots[index].kind;
        let edge = if one == other {
            inner.sides()[random.below(4)]
        } else {
            let lies = spots[one];
            let region = self
                .shapes
                .no_fit(lies.kind, kind, between(lies.turn, turn));
            if region.edges.is_empty() {
                return;
            }
            let edge = region.edges[random.below(region.edges.len())];
            edge.map(|corner| lies.at + lies.turn.of(corner - Point::ORIGIN))
        };
        let around = inner.wider(FREE_MM, FREE_MM);
        let met = self.shapes.region(&spots[other], kind, turn);
        let met = met.filter_map(|other| crossing(edge, other));
        let is_inside = |at: &Point| {
            around.touches(&Extent {
                least: *at,
                most: *at,
            })
        };
        samples.extend(met.filter(is_inside).map(|at| clamped(at, inner)));
    }

    /// Smaller and smaller steps as long as the overlap shrinks.
    fn refine(
        &self,
        index: usize,
        from: Spot,
        loss: f64,
        ([first, last], random): ([f64; 2], &mut Random),
    ) -> (f64, Spot) {
        let Some(inner) = self.shapes.inner(from.kind, from.turn, &self.layout.room) else {
            return (loss, from);
        };
        let mut step = first;
        let (mut loss, mut best) = (loss, from);
        while step > last && loss > 0.0 {
            let slant = random.between(-1.0, 1.0);
            let ways = [
                Vector::new(step, 0.0),
                Vector::new(0.0, step),
                Vector::new(step, slant * step),
                Vector::new(slant * step, -step),
            ];
            let mut found = false;
            for way in ways.into_iter().flat_map(|way| [way, -way]) {
                let spot = Spot {
                    at: clamped(best.at + way, &inner),
                    ..best
                };
                let there = self.loss(index, &spot, loss);
                if there < loss {
                    (loss, best, found) = (there, spot, true);
                    break;
                }
            }
            step *= if found { 1.1 } else { 0.5 };
        }
        (loss, best)
    }
}

fn clamped(at: Point, inner: &Extent) -> Point {
    Point::new(
        at.x.clamp(inner.least.x, inner.most.x),
        at.y.clamp(inner.least.y, inner.most.y),
    )
}
