//! Open cuts joined into the fewest strokes.
//!
//! **Input:** open cuts. **Output:** the same edges in the fewest possible strokes: a stroke continues along another
//! cut at its end, the straightest one first. No edge is cut twice, and none is bent. Cuts that only cross stay
//! separate.

use super::stroke::{Edge, Stroke};
use crate::geometry::{Point, TOUCH_MM};

/// Joins open cuts.
// Source: Euler and Hierholzer: the edges of a connected graph make as many runs as half its places of odd degree, and
// one where there is none.
pub(super) fn fewest(cuts: Vec<Stroke>) -> Vec<Stroke> {
    let edges = cuts.into_iter().flat_map(|cut| cut.edges).collect();
    let mut graph = Graph::of(edges);
    let mut runs: Vec<Vec<(usize, bool)>> = Vec::new();
    while let Some(place) = graph.odd_place() {
        runs.push(graph.walk(place));
    }
    while let Some(edge) = graph.used.iter().position(|used| !used) {
        let round = graph.walk(graph.ends[edge][0]);
        graph.take_into(round, &mut runs);
    }
    runs.iter().map(|run| graph.path(run)).collect()
}

struct Graph {
    edges: Vec<Edge>,
    /// The points at which each edge begins and ends.
    ends: Vec<[usize; 2]>,
    places: usize,
    used: Vec<bool>,
}

impl Graph {
    fn of(edges: Vec<Edge>) -> Graph {
        let mut places: Vec<Point> = Vec::new();
        let mut place_of = |point: Point| {
            let known = places.iter().position(|place| place.touches(point));
            known.unwrap_or_else(|| {
                places.push(point);
                places.len() - 1
            })
        };
        let ends = edges
            .iter()
            .map(|edge| [place_of(edge.from), place_of(edge.to)])
            .collect();
        Graph {
            used: vec![false; edges.len()],
            places: places.len(),
            edges,
            ends,
        }
    }

    /// A point with an odd number of unused edges.
    fn odd_place(&self) -> Option<usize> {
        let mut left = vec![0; self.places];
        for (edge, ends) in self.ends.iter().enumerate() {
            if !self.used[edge] {
                ends.iter().for_each(|end| left[*end] += 1);
            }
        }
        left.iter().position(|count| count % 2 == 1)
    }

    /// Walks from a point along unused edges until none continues; each edge with whether it keeps its direction.
    fn walk(&mut self, start: usize) -> Vec<(usize, bool)> {
        let mut run = Vec::new();
        let (mut place, mut last) = (start, None);
        while let Some(next) = self.straightest(place, last) {
            let (edge, forward) = next;
            self.used[edge] = true;
            place = self.ends[edge][usize::from(forward)];
            run.push(next);
            last = Some(next);
        }
        run
    }

    /// The unused edge that continues from a point with the smallest turn.
    fn straightest(&self, place: usize, last: Option<(usize, bool)>) -> Option<(usize, bool)> {
        let mut best: Option<((usize, bool), f64)> = None;
        for (edge, ends) in self
            .ends
            .iter()
            .enumerate()
            .filter(|(edge, _)| !self.used[*edge])
        {
            for forward in [true, false] {
                if ends[usize::from(!forward)] != place {
                    continue;
                }
                let next = (edge, forward);
                let on = last.map_or(0.0, |last| {
                    let [_, arrives] = self.run(last).directions();
                    let [leaves, _] = self.run(next).directions();
                    arrives.dot(leaves)
                });
                if best.is_none_or(|(_, most)| on > most + TOUCH_MM) {
                    best = Some((next, on));
                }
            }
        }
        best.map(|(next, _)| next)
    }

    /// Inserts a closed walk into the stroke that passes one of its points, or adds it as a stroke of its own.
    fn take_into(&self, mut round: Vec<(usize, bool)>, runs: &mut Vec<Vec<(usize, bool)>>) {
        let begins = |(edge, forward): (usize, bool)| self.ends[edge][usize::from(!forward)];
        let ends = |(edge, forward): (usize, bool)| self.ends[edge][usize::from(forward)];
        for run in runs.iter_mut() {
            for at in 0..=run.len() {
                let place = if at == 0 {
                    begins(run[0])
                } else {
                    ends(run[at - 1])
                };
                if let Some(first) = round.iter().position(|step| begins(*step) == place) {
                    round.rotate_left(first);
                    run.splice(at..at, round);
                    return;
                }
            }
        }
        runs.push(round);
    }

    fn run(&self, (edge, forward): (usize, bool)) -> Edge {
        if forward {
            self.edges[edge]
        } else {
            self.edges[edge].reversed()
        }
    }

    /// A walk as a path; straight edges in line become one.
    fn path(&self, run: &[(usize, bool)]) -> Stroke {
        let mut edges: Vec<Edge> = Vec::new();
        for step in run {
            let next = self.run(*step);
            match edges.last_mut() {
                Some(last) if goes_straight_on(last, &next) => last.to = next.to,
                _ => edges.push(next),
            }
        }
        let closed = run.len() > 1 && edges[0].from.touches(edges[edges.len() - 1].to);
        Stroke { edges, closed }
    }
}

fn goes_straight_on(last: &Edge, next: &Edge) -> bool {
    let (there, on) = (last.to - last.from, next.to - next.from);
    last.bulge == 0.0
        && next.bulge == 0.0
        && there.dot(on) > 0.0
        && there.unit().cross(on).abs() < TOUCH_MM
        && on.unit().cross(there).abs() < TOUCH_MM
}
