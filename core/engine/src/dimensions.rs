//! Measures drawn beside the blank, the same in every file.
//!
//! Given what was measured and the lines of the blank; gives dimensions placed so that they can be read: no words on a
//! line, on other words or on an arrow, and no dimension line across another. Never measures anything itself, never
//! moves a line of the blank, and never draws left of the blank or above it, so that the place of the blank on a sheet
//! does not depend on the words beside it.
//!
//! ```text
//!     |<-------- 98 -------->|      words above a line along x,
//!   lead                    lead    beside a line along y, and always reading along x
//! ```
//! A dimension that finds no free place is left out: a drawing that can be read tells more than a full one.

mod drawing;
mod letters;
mod names;
mod place;
mod room;
mod span;

#[cfg(test)]
mod tests;

use traywright_document::{Dimension, Flat, Point, Unit};

pub use letters::letters;
pub use names::name;
use place::{Placing, Tie};
use room::Room;
use span::Span;

/// Height of the words.
// Source: ISO 3098-1, nominal sizes of lettering: 2.5 and 3.5 are neighbours (the series is from memory).
const TEXT_HEIGHT: f64 = 2.5;
/// Length of an arrow head: as long as the words are high. A line shorter than three heads has them outside.
// Source: common practice, none published.
const HEAD_LENGTH: f64 = TEXT_HEIGHT;

/// A length below this shows as nothing.
const SHORTEST: f64 = 0.01;
/// What leaving a dimension out costs: more than any place would.
const LEFT_OUT: f64 = 1e6;

/// The way in which a length was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// Along the box's length.
    AlongX,
    /// Along the box's width.
    AlongY,
}

/// A length that the maker may want to measure on the card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DimensionInput {
    /// One end, best a point of the crease or the cut that is measured from.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// The way from one to the other that counts.
    pub axis: Axis,
    /// What to write.
    pub length: f64,
    /// Whether it is the diameter of a circle.
    pub diameter: bool,
}

/// So many lengths are too many to try their order.
const MANY: usize = 40;

/// One way to place all dimensions.
struct Attempt {
    cost: f64,
    drawn: Vec<Option<Dimension>>,
}

/// Places the measures around and inside the blank, shorter ones nearer to what they measure.
///
/// The answer keeps the order of `measured`; a measure that finds no free place is missing from it. The dimensions that
/// `flat` may already carry are not looked at, its labels are.
///
/// ```
/// use traywright_document::{Contour, Extent, Flat, Point, Segment, Unit};
/// use traywright_engine::dimensions::{Axis, DimensionInput, lay_out};
///
/// let corner = |x, y| Point { x, y };
/// let sides = [corner(80.0, 0.0), corner(80.0, 50.0), corner(0.0, 50.0), corner(0.0, 0.0)];
/// let flat = Flat {
///     extent: Extent { least: corner(0.0, 0.0), most: corner(80.0, 50.0) },
///     outline: Contour { start: corner(0.0, 0.0), segments: sides.map(|to| Segment::Line { to }).into(), closed: true },
///     holes: vec![],
///     open_cuts: vec![],
///     creases: vec![],
///     labels: vec![],
///     letters: vec![],
///     dimensions: vec![],
/// };
/// let length = DimensionInput { from: sides[3], to: sides[0], axis: Axis::AlongX, length: 80.0, diameter: false };
/// let drawn = lay_out(&[length], &flat, Unit::Millimetre);
/// assert_eq!(drawn[0].text, "80");
/// assert_eq!(drawn[0].line, [corner(0.0, -9.0), corner(80.0, -9.0)]);
/// ```
pub fn lay_out(measured: &[DimensionInput], flat: &Flat, unit: Unit) -> Vec<Dimension> {
    let mut room = Room::new(flat);
    room.keep_words(flat.labels.iter().map(names::words));
    let spans: Vec<Span> = measured
        .iter()
        .map(|one| Span::new(one, words(one, unit), &room))
        .collect();
    let mut placing = Placing::new(flat.extent, &spans, &room);
    for span in spans.iter().filter(|span| placing.is_overall(span)) {
        room.keep_clear(Placing::way_out(span));
    }
    let mut best: Option<Attempt> = None;
    for (order, tie) in orders(&spans) {
        let attempt = attempt(&spans, &order, &mut placing, &room, tie);
        if best.as_ref().is_none_or(|best| attempt.cost < best.cost) {
            best = Some(attempt);
        }
    }
    let drawn = best.map_or(Vec::new(), |best| best.drawn);
    drawn.into_iter().flatten().collect()
}

/// Gives the lengths their places one after the other.
fn attempt(
    spans: &[Span],
    order: &[usize],
    placing: &mut Placing,
    room: &Room,
    tie: Tie,
) -> Attempt {
    let mut room = room.clone();
    let mut drawn = vec![None; spans.len()];
    let mut cost = 0.0;
    for &index in order {
        let Some((price, drawing)) = placing.best(index, &spans[index], &room, tie) else {
            cost += LEFT_OUT;
            continue;
        };
        cost += price;
        room.take(&drawing);
        drawn[index] = Some(drawing.dimension(&spans[index].text));
    }
    Attempt { cost, drawn }
}

/// A length as the maker reads it: millimetres bare, as on any metric drawing; inches with their unit.
// Source: ISO 129-1 (from memory): the diameter sign stands before the figure, with nothing between.
fn words(measured: &DimensionInput, unit: Unit) -> String {
    let sign = if measured.diameter { "\u{2300}" } else { "" };
    let figure = unit.figure(measured.length);
    match unit {
        Unit::Millimetre => format!("{sign}{figure}"),
        Unit::Inch => format!("{sign}{figure} {}", unit.sign()),
    }
}

/// Orders in which the lengths that can be drawn may get their place: which of them comes first decides who has to
/// make way, and no rule is best for every blank. A blank with very many has no time for more than one order.
// Source: common practice, none published: shorter dimensions stand nearer to the object, longer ones outside them.
fn orders(spans: &[Span]) -> Vec<(Vec<usize>, Tie)> {
    let mut shortest: Vec<usize> = (0..spans.len())
        .filter(|&index| spans[index].length() > SHORTEST)
        .collect();
    shortest.sort_by(|&one, &other| spans[one].length().total_cmp(&spans[other].length()));
    if spans.len() > MANY {
        return vec![(shortest, Tie::Low)];
    }
    let first = |axis: Axis| {
        let mut order = shortest.clone();
        order.sort_by_key(|&index| spans[index].axis != axis);
        order
    };
    let orders = [first(Axis::AlongX), first(Axis::AlongY), shortest];
    let both = |order: Vec<usize>| [(order.clone(), Tie::Low), (order, Tie::High)];
    orders.into_iter().flat_map(both).collect()
}
