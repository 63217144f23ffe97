//! Runs as straight pieces: a FOLD file knows no curve.
//!
//! Given a contour; gives the corners of a run of chords that leaves its arcs by at most [`CHORD_MM`]. The ends of
//! segments stay where they are, and an arc has the same chords whichever way it runs.

use traywright_document::{Chords, Contour, Point};

/// How far a chord may leave its arc.
// Source: common practice, none published: a tenth of what a hand cuts to.
pub(crate) const CHORD_MM: f64 = 0.01;

/// The corners of a contour; the last one of a closed contour is not its first again.
pub(crate) fn corners(contour: &Contour) -> Vec<Point> {
    contour.corners(Chords::Within(CHORD_MM))
}
