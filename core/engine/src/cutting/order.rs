//! The order of lines, by nearness, and the point at which each begins.
//!
//! **Input:** lines and the tool's position. **Output:** the lines kind by kind, and within a kind always the line
//! nearest to the end of the previous one; then parts of that order are reversed where that shortens the idle travel.
//! An open line may be reversed. A closed line keeps its direction, and begins and ends at the corner that was nearest
//! before any reversal. Among equals the earlier line comes first, so the order is repeatable.

use traywright_document::{Part, ProcessingStep};

use super::Line;
use crate::geometry::{Point, TOUCH_MM};

/// Puts lines into their order.
pub(super) fn by_nearness(mut lines: Vec<Line>, start: Point) -> Vec<Line> {
    let mut ordered = Vec::new();
    let mut at = start;
    for kind in 0..KINDS {
        let (mut waiting, rest): (Vec<Line>, Vec<Line>) =
            lines.into_iter().partition(|line| kind_of(line) == kind);
        lines = rest;
        let (first, from) = (ordered.len(), at);
        while let Some((index, entry)) = nearest(&waiting, at) {
            let mut line = waiting.remove(index);
            line.begin(entry);
            at = line.path.end();
            ordered.push(line);
        }
        turn_stretches(&mut ordered[first..], from);
        at = ordered.last().map_or(at, |line| line.path.end());
    }
    ordered
}

/// Reverses parts of an order while that shortens the idle travel, from the tool's position to the last line's end.
// Source: 2-opt, the common improvement of a tour (Croes 1958): a turned stretch is as long, only the ways to it and on
// from it are others.
fn turn_stretches(lines: &mut [Line], from: Point) {
    let mut is_shorter = true;
    while is_shorter {
        is_shorter = false;
        for first in 0..lines.len() {
            for last in first..lines.len() {
                if saved_by_turning(lines, first, last, from) > TOUCH_MM {
                    lines[first..=last].reverse();
                    for line in &mut lines[first..=last] {
                        line.turn();
                    }
                    is_shorter = true;
                }
            }
        }
    }
}

fn saved_by_turning(lines: &[Line], first: usize, last: usize, from: Point) -> f64 {
    let before = match first {
        0 => from,
        _ => lines[first - 1].path.end(),
    };
    let (start, end) = (lines[first].path.start(), lines[last].path.end());
    let way = |one: Point, other: Point| (other - one).length();
    let to = way(before, start) - way(before, end);
    let on = lines.get(last + 1).map_or(0.0, |next| {
        way(end, next.path.start()) - way(start, next.path.start())
    });
    to + on
}

const KINDS: usize = 4;

/// The outline comes last: a piece that is cut free moves. Creases come first: a cut piece cannot be pressed against.
// Source: common practice, none published.
fn kind_of(line: &Line) -> usize {
    match (line.step, line.part) {
        (ProcessingStep::Creasing, _) => 0,
        (ProcessingStep::Cutting, Part::Outline) => 3,
        (ProcessingStep::Cutting, _) => 2,
        _ => 1,
    }
}

/// The points at which a line may begin.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Entry {
    /// At the start of this edge of a closed line.
    Corner(usize),
    /// At its start, as it stands.
    Start,
    /// At its end, reversed.
    End,
}

/// The line nearest to a point, and the entry at which it is nearest.
fn nearest(lines: &[Line], at: Point) -> Option<(usize, Entry)> {
    let entries = lines.iter().enumerate().flat_map(|(index, line)| {
        line.entries()
            .map(move |(entry, place)| (index, entry, place))
    });
    let away = |place: Point| (place - at).length();
    entries
        .min_by(|one, other| away(one.2).total_cmp(&away(other.2)))
        .map(|(index, entry, _)| (index, entry))
}

impl Line {
    fn entries(&self) -> impl Iterator<Item = (Entry, Point)> + '_ {
        let corners = self.path.edges.iter().enumerate();
        let corners = corners.map(|(index, edge)| (Entry::Corner(index), edge.from));
        let ends = [
            (Entry::Start, self.path.start()),
            (Entry::End, self.path.end()),
        ];
        corners
            .filter(|_| self.path.closed)
            .chain(ends.into_iter().filter(|_| !self.path.closed))
    }

    fn begin(&mut self, entry: Entry) {
        match entry {
            Entry::Corner(index) => self.path.edges.rotate_left(index),
            Entry::Start => {}
            Entry::End => self.turn(),
        }
    }

    /// Reverses the line, if it is open.
    fn turn(&mut self) {
        if !self.path.closed {
            self.path = self.path.reversed();
        }
    }
}
