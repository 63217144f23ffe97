//! Near neighbours next: the order of lines, and where each begins.
//!
//! Given lines and the place where the tool waits; gives them kind by kind, and within a kind always the line that is
//! nearest to where the last one ended. An open line may be turned round; a closed one keeps its direction, begins at its
//! nearest corner and ends there. Among equals the earlier one comes first, so the order is the same every time.

use traywright_document::{Part, ProcessingStep};

use super::Line;
use crate::geometry::Point;

/// Puts lines into their order.
pub(super) fn by_nearness(mut lines: Vec<Line>, start: Point) -> Vec<Line> {
    let mut ordered = Vec::new();
    let mut at = start;
    for kind in 0..KINDS {
        let (mut waiting, rest): (Vec<Line>, Vec<Line>) =
            lines.into_iter().partition(|line| kind_of(line) == kind);
        lines = rest;
        while let Some((index, entry)) = nearest(&waiting, at) {
            let mut line = waiting.remove(index);
            line.begin(entry);
            at = line.path.end();
            ordered.push(line);
        }
    }
    ordered
}

const KINDS: usize = 4;

/// The outline comes last: a piece that is cut out moves. Creases come first: a cut piece cannot be pressed against.
// Source: common practice, none published.
fn kind_of(line: &Line) -> usize {
    match (line.step, line.part) {
        (ProcessingStep::Creasing, _) => 0,
        (ProcessingStep::ReverseCreasing | ProcessingStep::Dimensions, _) => 1,
        (ProcessingStep::Cutting, Part::Outline) => 3,
        (ProcessingStep::Cutting, _) => 2,
    }
}

/// Where a line may begin.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Entry {
    /// At the start of this edge of a closed line.
    Corner(usize),
    /// At its start, as it stands.
    Start,
    /// At its end, turned round.
    End,
}

/// The line nearest to a place, and where it is nearest.
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
            Entry::End => self.path = self.path.reversed(),
        }
    }
}
