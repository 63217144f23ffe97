//! Dimensions drawn beside the blank, the same in every file.
//!
//! **Input:** lengths and the lines of the blank. **Output:** readable dimensions: no words on a line, on other words
//! or on an arrow, and no dimension line across another. Measures nothing, moves no line of the blank, and draws
//! nothing left of the blank or above it, so that the blank's position on a sheet does not depend on the words beside
//! it.
//!
//! ```text
//!     |<-------- 98 -------->|      words above a line along x,
//!   lead                    lead    beside a line along y, and always reading along x
//! ```
//! A dimension without a free position is left out, because a readable drawing is better than a complete one.

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
pub(crate) use names::width_of_words;
use place::{Placing, Tie};
use room::Room;
use span::Span;

/// Height of the words.
// Source: ISO 3098-1, nominal sizes of lettering: 2.5 and 3.5 are neighbours (the series is from memory).
const TEXT_HEIGHT: f64 = 2.5;
/// Length of an arrow head: equal to the height of the words. A line shorter than three heads has them outside.
// Source: common practice, none published.
const HEAD_LENGTH: f64 = TEXT_HEIGHT;

/// A length below this is not drawn.
const SHORTEST: f64 = 0.01;
/// The cost of leaving a dimension out: more than that of any position.
const LEFT_OUT: f64 = 1e6;

/// The direction of a length.
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
    /// One end, preferably a point of the crease or the cut that it is measured from.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// The direction in which the ends are measured.
    pub axis: Axis,
    /// The length to write.
    pub length: f64,
    /// Whether it is the diameter of a circle.
    pub diameter: bool,
}

/// From this number of lengths on only one order is tried.
const MANY: usize = 40;

/// One way to place all dimensions.
struct Attempt {
    cost: f64,
    drawn: Vec<Option<Dimension>>,
}

/// Places the dimensions around and inside the blank, shorter ones nearer to the measured lines.
///
/// The result keeps the order of `measured`; a length without a free position is missing. Dimensions already in `flat`
/// are ignored, its labels are not.
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
///     panel_pictures: vec![],
///     panel_labels: vec![],
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

/// Places the lengths one after the other.
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

/// A length as the maker reads it: millimetres without a unit, as on any metric drawing; inches with their unit.
// Source: ISO 129-1 (from memory): the diameter sign stands before the figure, with nothing between.
fn words(measured: &DimensionInput, unit: Unit) -> String {
    let sign = if measured.diameter { "\u{2300}" } else { "" };
    let figure = unit.figure(measured.length);
    match unit {
        Unit::Millimetre => format!("{sign}{figure}"),
        Unit::Inch => format!("{sign}{figure} {}", unit.sign()),
    }
}

/// Orders in which the lengths are placed: the first ones get the best positions, and no rule is best for every blank.
/// A blank with very many lengths has time for only one order.
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
