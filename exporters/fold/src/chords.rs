//! Contours as straight pieces, because a FOLD file has no curves.
//!
//! **Input:** a contour. **Output:** the corners of chords that are at most [`CHORD_MM`] from its arcs. The ends of
//! segments stay where they are, and an arc has the same chords in either direction.

use traywright_document::{Chords, Contour, Point};

/// Maximum distance between a chord and its arc.
// Source: common practice, none published: a tenth of what a hand cuts to.
pub(crate) const CHORD_MM: f64 = 0.01;

/// The corners of a contour; a closed contour does not repeat its first corner.
pub(crate) fn corners(contour: &Contour) -> Vec<Point> {
    contour.corners(Chords::Within(CHORD_MM))
}
