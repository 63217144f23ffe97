//! The card between an open cut and another cut, of which the kerf takes a part.
//!
//! **Input:** the lines of a blank and the kerf. **Output:** the place where nothing would be left, if there is one.
//! **Does not** compare two closed cuts: they are moved into the waste, so the card between them keeps its width.

use traywright_document::{Contour, Edge, Flat};

use super::ToolpathError;
use super::kerf::{apart, cross};
use crate::geometry::TOUCH_MM;

/// The first place where the kerf leaves nothing between an open cut and another cut that it does not touch.
// Derived: an open cut loses half the kerf on either side, a closed cut nothing on the side of the card.
pub(super) fn lost(flat: &Flat, kerf: f64) -> Option<ToolpathError> {
    let edges = |contours: &[Contour]| -> Vec<Edge> {
        let edges = contours.iter().flat_map(Contour::edges);
        edges.filter(|edge| !edge.from.touches(edge.to)).collect()
    };
    let open = edges(&flat.open_cuts);
    let mut closed = edges(&flat.holes);
    closed.extend(flat.outline.edges());
    for (index, edge) in open.iter().enumerate() {
        let others = open[index + 1..].iter().map(|other| (other, kerf));
        let others = others.chain(closed.iter().map(|other| (other, kerf / 2.0)));
        for (other, taken) in others.filter(|(other, taken)| is_near(edge, other, *taken)) {
            let width = apart(edge, other);
            if width > TOUCH_MM && width <= taken && !cross(edge, other) {
                return Some(ToolpathError::KerfTakesWeb {
                    at: edge.from.middle(edge.to),
                    width,
                    taken,
                });
            }
        }
    }
    None
}

/// Whether two edges may be nearer than this to one another: their boxes are.
fn is_near(one: &Edge, other: &Edge, distance: f64) -> bool {
    let reach = |edge: &Edge| edge.rise() + distance;
    let apart = |from: [f64; 2], to: [f64; 2]| {
        f64::max(
            from[0].min(from[1]) - to[0].max(to[1]),
            to[0].min(to[1]) - from[0].max(from[1]),
        )
    };
    let far = f64::max(
        apart([one.from.x, one.to.x], [other.from.x, other.to.x]),
        apart([one.from.y, one.to.y], [other.from.y, other.to.y]),
    );
    far <= reach(one) + reach(other)
}
