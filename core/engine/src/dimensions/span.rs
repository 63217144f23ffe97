//! One measured length, seen along its axis.
//!
//! **Input:** a measured length and the blank's lines. **Output:** its two ends, each with its reach: the range across
//! the axis in which a drawn line (a crease, an edge) marks it. A dimension line that ends in this range needs no lead.
//!
//! ```text
//!            |           |  reach of an end: the drawn line through it
//!            |<--------->|
//!            |           '  a level beyond the reach needs a lead
//! ```

use traywright_document::Point;

use super::room::Room;
use super::{Axis, DimensionInput, HEAD_LENGTH, TEXT_HEIGHT};

/// Lines that end closer than this to one another mark one edge, because the engine cuts small reliefs at corners.
// Source: common practice, none published.
const JOINT: f64 = 1.0;
/// Lines closer than this are one.
const TOUCH: f64 = 0.01;

/// A length to draw.
pub(super) struct Span {
    pub(super) axis: Axis,
    /// The lower end, then the upper end.
    pub(super) ends: [End; 2],
    pub(super) text: String,
    pub(super) text_width: f64,
}

/// One end of a length.
#[derive(Clone, Copy)]
pub(super) struct End {
    /// Its position along the axis.
    pub(super) along: f64,
    /// The range, across the axis, in which a drawn line marks it.
    pub(super) reach: [f64; 2],
}

impl Span {
    /// Finds the lines that mark the ends of a measured length.
    pub(super) fn new(measured: &DimensionInput, text: String, room: &Room) -> Span {
        let axis = measured.axis;
        let mut ends = [measured.from, measured.to].map(|point| End::new(point, axis, room));
        ends.sort_by(|one, other| one.along.total_cmp(&other.along));
        // Source: DejaVu Sans, glyph table: a figure is 0.872 of a capital's height wide; other faces run wider.
        let text_width = text.chars().count() as f64 * 0.9 * TEXT_HEIGHT;
        Span {
            axis,
            ends,
            text,
            text_width,
        }
    }

    /// Its length in the drawing.
    pub(super) fn length(&self) -> f64 {
        self.ends[1].along - self.ends[0].along
    }

    /// Whether its arrow heads are outside.
    pub(super) fn is_short(&self) -> bool {
        self.length() < 3.0 * HEAD_LENGTH
    }
}

impl End {
    /// Distance of a level from the drawn line that marks this end; 0 within the line's range.
    pub(super) fn away(&self, across: f64) -> f64 {
        (across - self.reach[1])
            .max(self.reach[0] - across)
            .max(0.0)
    }

    fn new(point: Point, axis: Axis, room: &Room) -> End {
        let (along, across) = (axis.along(point), axis.across(point));
        let at = |point: &Point| (axis.along(*point) - along).abs() < TOUCH;
        let lines = room.blank().iter();
        let mut marks: Vec<[f64; 2]> = lines
            .filter(|line| line.iter().all(at))
            .map(|[from, to]| [axis.across(*from), axis.across(*to)])
            .map(|[from, to]| [from.min(to), from.max(to)])
            .collect();
        let mut reach = [across, across];
        // Each round adds the lines that join the range found so far, until there are no more.
        loop {
            let before = marks.len();
            marks.retain(|mark| {
                let joins = mark[0] <= reach[1] + JOINT && mark[1] >= reach[0] - JOINT;
                if joins {
                    reach = [reach[0].min(mark[0]), reach[1].max(mark[1])];
                }
                !joins
            });
            if marks.len() == before {
                break;
            }
        }
        if reach[0] == reach[1] {
            reach = corners(point, axis, room);
        }
        End { along, reach }
    }
}

/// The range of the blank's corners at the same position along the axis, for a point that no line marks.
fn corners(point: Point, axis: Axis, room: &Room) -> [f64; 2] {
    let corners = room.blank().iter().flatten();
    let level = corners.filter(|corner| (axis.along(**corner) - axis.along(point)).abs() < TOUCH);
    let mut reach = [f64::INFINITY, f64::NEG_INFINITY];
    for across in level.map(|corner| axis.across(*corner)) {
        reach = [reach[0].min(across), reach[1].max(across)];
    }
    let own = axis.across(point);
    if reach[0] <= reach[1] {
        reach
    } else {
        [own, own]
    }
}
